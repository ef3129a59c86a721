"""The pattern as SVG for print."""

from __future__ import annotations

import math
import re
from itertools import combinations
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.pattern.published import HEAD, MANIFOLD, PUMP, drawn, layout
from torqref.pattern.layout import Layout
from torqref.pattern.order import generic_order, star
from torqref.pattern.picture import svg
from torqref.pattern.shape import circle, count, points, rows

SVG = "{http://www.w3.org/2000/svg}"
PATTERNS: dict[str, Layout] = {
    **{f"circle-{n}": layout(circle(n)) for n in (3, 5, 8, 24, 48, 49, 100, 200)},
    "line": layout(rows((9,))),
    "rows": layout(rows((6, 6))),
    "long": layout(rows((100,))),
    "column": layout(rows((1,) * 12)),
    "one": layout(count(1)),
    "points": layout(points([(0, 0), (10, 2), (5, 5), (20, 20), (3, 18)])),
    "head": drawn(HEAD),
    "manifold": drawn(MANIFOLD),
    "pump": drawn(PUMP),
}


def parsed(text: str) -> ElementTree.Element:
    root = ElementTree.fromstring(text.encode("utf-8"))
    assert root.tag == f"{SVG}svg"
    return root


def rings(root: ElementTree.Element) -> list[tuple[float, float, float]]:
    """Places and radii of the bolts, without the dashed bolt circle and inner rings."""
    found: dict[tuple[str, str], float] = {}
    for ring in root.iter(f"{SVG}circle"):
        if ring.get("fill") == "white":
            place = ring.get("cx", ""), ring.get("cy", "")
            found[place] = max(found.get(place, 0.0), float(ring.get("r", "0")))
    return [(float(x), float(y), radius) for (x, y), radius in found.items()]


def words(root: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in root.iter(f"{SVG}text")]


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize("turn", [0, 1])
def test_a_picture_is_well_formed_and_no_rings_touch(name: str, turn: int) -> None:
    pattern = PATTERNS[name]
    root = parsed(svg(pattern, order=generic_order(pattern), title=name, turn=turn))
    found = rings(root)
    assert len(found) == len(pattern.labels)
    for (x, y, radius), (other_x, other_y, other) in combinations(found, 2):
        assert math.hypot(x - other_x, y - other_y) > radius + other
    left, top, width, height = (float(part) for part in root.get("viewBox", "").split())
    for x, y, radius in found:
        assert left <= x - radius <= x + radius <= left + width
        assert top <= y - radius <= y + radius <= top + height


@pytest.mark.parametrize("name", PATTERNS)
def test_a_picture_is_black_on_white_and_loads_nothing(name: str) -> None:
    text = svg(PATTERNS[name], order=generic_order(PATTERNS[name]), title="A")
    assert set(re.findall(r"(?:fill|stroke)='([^']*)'", text)) <= {"black", "white", "none"}
    assert "href" not in text
    assert "<script" not in text
    assert re.findall(r"https?://[^']*", text) == ["http://www.w3.org/2000/svg"]


def test_the_order_stands_in_the_rings_and_the_labels_beside_them() -> None:
    root = parsed(svg(layout(circle(8)), order=star(8)))
    bold = [text.text for text in root.iter(f"{SVG}text") if text.get("font-weight") == "bold"]
    small = [text.text for text in root.iter(f"{SVG}text") if text.get("font-weight") is None]
    assert bold == ["1", "5", "3", "7", "2", "6", "4", "8"]
    assert small == ["1", "2", "3", "4", "5", "6", "7", "8"]


def test_without_an_order_the_labels_stand_once() -> None:
    assert words(parsed(svg(drawn(PUMP)))) == [*(str(p.label) for p in drawn(PUMP).positions), "(shaft)"]


def test_the_first_of_the_order_has_a_double_ring_and_so_have_both_of_a_pair() -> None:
    def double(text: str) -> int:
        root = parsed(text)
        return sum(1 for ring in root.iter(f"{SVG}circle") if ring.get("fill") == "white") - len(rings(root))

    assert double(svg(layout(circle(8)))) == 0
    assert double(svg(layout(circle(8)), order=star(8))) == 1
    assert double(svg(layout(circle(8)), order=star(8, pairs=True))) == 2


def test_marks_of_the_caller_stand_in_the_rings() -> None:
    lengths = dict.fromkeys(range(1, 10), "16 mm")
    assert words(parsed(svg(drawn(PUMP), marks=lengths))).count("16 mm") == 9


def test_a_turn_takes_front_to_the_top_and_a_mirror_to_the_other_side() -> None:
    def front(text: str) -> tuple[float, float, list[tuple[float, float, float]]]:
        root = parsed(text)
        word = next(text for text in root.iter(f"{SVG}text") if text.text == "FRONT")
        return float(word.get("x", "")), float(word.get("y", "")), rings(root)

    x, _, found = front(svg(drawn(HEAD)))
    assert x < min(place[0] for place in found)
    _, y, found = front(svg(drawn(HEAD), turn=1))
    assert y < min(place[1] for place in found)
    x, _, found = front(svg(drawn(HEAD), mirrored=True))
    assert x > max(place[0] for place in found)
    assert svg(drawn(HEAD), turn=4) == svg(drawn(HEAD))


def test_a_large_flange_has_its_numbers_along_the_spokes() -> None:
    root = parsed(svg(layout(circle(200)), order=star(200)))
    turned = [text for text in root.iter(f"{SVG}text") if "rotate" in text.get("transform", "")]
    assert len(turned) >= 390
    angles = [float(re.findall(r"rotate\(([-\d.]+)", text.get("transform", ""))[0]) for text in turned]
    assert all(abs((angle + 180) % 360 - 180) <= 90.01 for angle in angles), "nothing stands upside down"


@settings(deadline=None, max_examples=80)
@given(st.text(max_size=60), st.text(max_size=12))
def test_any_title_and_any_mark_make_a_well_formed_document(title: str, mark: str) -> None:
    root = parsed(svg(layout(circle(5)), marks={2: mark}, title=title))
    assert root.find(f"{SVG}title") is not None


def test_markup_in_a_title_stays_text() -> None:
    root = parsed(svg(layout(circle(5)), title="<b>\"A\" & 'B'</b>"))
    assert "<b>\"A\" & 'B'</b>" in " ".join(words(root))
