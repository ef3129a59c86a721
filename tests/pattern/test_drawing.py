"""Drawing patterns as text: golden pictures, and the laws every picture keeps."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.pattern.golden_drawings import KEPT, kept_files
from tests.pattern.published import HEAD, MANIFOLD, PUMP, drawn, layout
from torqref.pattern.cells import cells
from torqref.pattern.diagram import read_diagram
from torqref.pattern.drawing import draw
from torqref.pattern.geometry import ring, straightened
from torqref.pattern.layout import Drawing, Landmark, Layout, Position
from torqref.pattern.order import star
from torqref.pattern.placement import place
from torqref.pattern.shape import circle, count, points, rows

QUICK = settings(deadline=None, max_examples=60)
FILES = list(kept_files())
ROOMS = [(100, 30), (80, 24), (44, 14), (40, 12), (30, 10), (30, 6), (30, 3), (30, 1)]
PATTERNS: Mapping[str, Layout] = {
    **{f"circle-{n}": layout(circle(n)) for n in (3, 4, 5, 6, 7, 8, 12, 16, 20, 24, 32, 48, 64, 100, 200)},
    **{f"rows-{n}": layout(rows((n, n))) for n in (2, 5, 6, 20, 100)},
    "line": layout(rows((9,))),
    "unequal": layout(rows((3, 4, 3))),
    "points": layout(points([(0, 0), (10, 2), (5, 5), (20, 20), (3, 18), (8, 9), (15, 3)])),
    "count-1": layout(count(1)),
    "count-30": layout(count(30)),
    "head": drawn(HEAD),
    "manifold": drawn(MANIFOLD),
    "pump": drawn(PUMP),
}


@st.composite
def diagrams(draw_value: st.DrawFn) -> Layout:
    """A diagram as somebody may type it: numbers anywhere, landmarks between."""
    places = draw_value(
        st.lists(st.tuples(st.integers(0, 12), st.integers(0, 7)), min_size=1, max_size=24, unique=True)
    )
    labels = draw_value(st.permutations(range(1, len(places) + 1)))
    return Layout(
        positions=tuple(
            Position(label=label, x=float(4 * x), y=float(y))
            for label, (x, y) in zip(labels, places, strict=True)
        ),
        landmarks=(Landmark(text="FRONT", x=20.0, y=-1.0), Landmark(text="pump side", x=60.0, y=1.0)),
    )


def marks_of(drawing: Drawing) -> dict[int, str]:
    """What stands in the picture where the spots say a mark is; ASCII pictures only."""
    return {
        label: drawing.lines[row][first : first + wide] for label, (row, first, wide) in drawing.spots.items()
    }


def check_room(drawing: Drawing, width: int, height: int) -> None:
    assert len(drawing.lines) <= height
    assert all(cells(line) <= width for line in drawing.lines)
    assert all(line == line.rstrip() for line in drawing.lines)


def check_apart(drawing: Drawing) -> None:
    """No two marks of a line touch, and nothing else touches a mark."""
    for row, line in enumerate(drawing.lines):
        spots = sorted((first, wide) for r, first, wide in drawing.spots.values() if r == row)
        for (first, wide), (following, _) in pairwise(spots):
            assert first + wide < following
        for first, wide in spots:
            assert first == 0 or line[first - 1] == " "
            assert line[first + wide : first + wide + 1] in ("", " ")


@pytest.mark.parametrize(("file", "name", "width", "height"), FILES, ids=[file.stem for file, *_ in FILES])
def test_the_picture_is_the_one_that_was_looked_at(file: Path, name: str, width: int, height: int) -> None:
    assert KEPT[name].text(width, height) == file.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize(("width", "height"), ROOMS)
def test_in_any_room_marks_stand_whole_and_apart(name: str, width: int, height: int) -> None:
    pattern = PATTERNS[name]
    focus = pattern.labels[len(pattern.labels) // 2]
    marks = {label: f"{label}x" for label in pattern.labels[:4]} | {focus: f"[{focus}]"}
    for turn in range(4):
        drawing = draw(pattern, marks, width=width, height=height, turn=turn, focus=focus, ascii_only=True)
        check_room(drawing, width, height)
        check_apart(drawing)
        assert "".join(drawing.lines).isascii()
        found = marks_of(drawing)
        assert found == {label: marks.get(label, str(label)) for label in found}
        assert focus in found


@pytest.mark.parametrize("name", [name for name, pattern in PATTERNS.items() if len(pattern.labels) > 2])
@pytest.mark.parametrize(("width", "height"), ROOMS)
def test_the_bolt_in_focus_and_its_neighbours_are_always_seen(name: str, width: int, height: int) -> None:
    pattern = PATTERNS[name]
    around = ring(pattern)
    for focus in pattern.labels[:: max(1, len(pattern.labels) // 9)]:
        drawing = draw(pattern, {focus: f"[{focus}]"}, width=width, height=height, focus=focus)
        if around:
            at = around.index(focus)
            assert {around[at - 1], focus, around[(at + 1) % len(around)]} <= set(drawing.spots)
        else:
            assert len(drawing.spots) >= min(3, len(pattern.labels))
        hidden = len(pattern.labels) - len(drawing.spots)
        assert bool(hidden) == any("…" in line for line in drawing.lines)


@pytest.mark.parametrize("name", PATTERNS)
def test_a_screen_of_the_usual_size_shows_every_bolt_of_a_usual_pattern(name: str) -> None:
    pattern = PATTERNS[name]
    drawing = draw(pattern, {}, width=80, height=24)
    assert len(pattern.labels) >= 100 or set(drawing.spots) == set(pattern.labels)


# Reading takes centres within one character of each other for one column, as 9 and 10 stand in a typed diagram.
READ_AS_ONE = 1.0


def is_crowded(wanted: Layout, drawn: Layout) -> bool:
    """Whether a narrow room puts two columns of different rows so close that they are read as one."""
    columns = {p.label: p.x for p in wanted.positions}
    places = {p.label: p.x for p in drawn.positions}
    return any(
        columns[one] != columns[other] and abs(places[one] - places[other]) <= READ_AS_ONE
        for one, other in combinations(columns, 2)
    )


@QUICK
@given(diagrams(), st.sampled_from([(100, 30), (80, 24), (60, 16)]))
def test_drawn_then_read_gives_the_same_positions(pattern: Layout, room: tuple[int, int]) -> None:
    drawing = draw(pattern, {}, width=room[0], height=room[1])
    again = read_diagram("\n".join(drawing.lines))
    assert isinstance(again, Layout)
    assert again.labels == pattern.labels
    before = {p.label: p for p in straightened(pattern).positions}
    after = {p.label: p for p in straightened(again).positions}
    off = READ_AS_ONE if is_crowded(straightened(pattern), again) else 0
    for one, other in combinations(before, 2):
        assert (before[one].y > before[other].y) >= (after[one].y > after[other].y)
        assert (before[one].x > before[other].x) >= (after[one].x - after[other].x > off)
        if before[one].y == before[other].y:
            assert after[one].y == after[other].y
            assert (before[one].x > before[other].x) == (after[one].x > after[other].x)
        if before[one].x == before[other].x:
            assert abs(after[one].x - after[other].x) <= off
            assert (before[one].y > before[other].y) == (after[one].y > after[other].y)


@pytest.mark.parametrize("text", [HEAD, MANIFOLD, PUMP])
def test_a_picture_drawn_read_and_drawn_again_is_the_same(text: str) -> None:
    first = draw(drawn(text), {}, width=80, height=24).lines
    again = drawn("\n".join(first))
    assert [mark.text for mark in again.landmarks] == [mark.text for mark in drawn(text).landmarks]
    assert again.labels == drawn(text).labels


@pytest.mark.parametrize("bolts", [5, 8, 12, 24, 48, 100, 200])
@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize("mirrored", [False, True])
def test_a_circle_is_drawn_round_in_its_order(bolts: int, turn: int, mirrored: bool) -> None:
    drawing = draw(layout(circle(bolts)), {}, width=100, height=110, turn=turn, mirrored=mirrored)
    assert len(drawing.spots) == bolts
    places = {label: (first + wide / 2, 2 * row) for label, (row, first, wide) in drawing.spots.items()}
    middle_x = (min(x for x, _ in places.values()) + max(x for x, _ in places.values())) / 2
    middle_y = (min(y for _, y in places.values()) + max(y for _, y in places.values())) / 2
    angles = {label: math.atan2(x - middle_x, middle_y - y) for label, (x, y) in places.items()}
    step = -1 if mirrored else 1
    for label, angle in angles.items():
        following = angles[(label - 1 + step) % bolts + 1]
        assert 0 < (following - angle) % (2 * math.pi) < math.pi
    # Bolt 1 stands at the top, and a quarter turn takes it to the right.
    from_start = (angles[1] - turn * math.pi / 2 + math.pi) % (2 * math.pi) - math.pi
    assert abs(from_start) < 0.25


@QUICK
@given(diagrams(), st.integers(0, 3), st.booleans())
def test_a_picture_is_a_matter_of_its_arguments_alone(pattern: Layout, turn: int, mirrored: bool) -> None:
    first = draw(pattern, {}, width=70, height=20, turn=turn, mirrored=mirrored)
    place.cache_clear()
    assert draw(pattern, {}, width=70, height=20, turn=turn + 4, mirrored=mirrored) == first


@QUICK
@given(diagrams(), st.integers(30, 110), st.integers(1, 30), st.integers(0, 3), st.booleans())
def test_any_diagram_keeps_to_any_room(
    pattern: Layout, width: int, height: int, turn: int, mirrored: bool
) -> None:
    focus = pattern.labels[-1]
    drawing = draw(
        pattern,
        {focus: f"[{focus}]"},
        width=width,
        height=height,
        turn=turn,
        mirrored=mirrored,
        focus=focus,
        pointer=(pattern.labels[0], focus),
        ascii_only=True,
    )
    check_room(drawing, width, height)
    check_apart(drawing)
    assert focus in drawing.spots


@pytest.mark.parametrize("width", [1, 2, 5, 9, 12, 20])
@pytest.mark.parametrize("height", [1, 2, 4])
@pytest.mark.parametrize("name", PATTERNS)
def test_a_room_too_small_for_anything_is_survived(name: str, width: int, height: int) -> None:
    check_room(draw(PATTERNS[name], {}, width=width, height=height), width, height)


@pytest.mark.parametrize("name", ["circle-8", "circle-200", "head", "rows-20"])
@pytest.mark.parametrize(("width", "height"), [(80, 24), (40, 12)])
def test_nothing_moves_when_marks_come_and_go(name: str, width: int, height: int) -> None:
    pattern = PATTERNS[name]
    spots = []
    for label in (pattern.labels[3], pattern.labels[4]):
        focus = pattern.labels[3]
        marks = {focus: f"[{focus}]"} | {label: f"[{label}]", pattern.labels[0]: f"{pattern.labels[0]}x"}
        drawing = draw(pattern, marks, width=width, height=height, focus=focus)
        found = marks_of(drawing)
        spots.append(
            {label: first + found[label].index(str(label)) for label, (_, first, _) in drawing.spots.items()}
        )
    assert spots[0] == spots[1]


def test_a_further_mark_is_drawn_without_looking_for_places_again() -> None:
    pattern = PATTERNS["circle-200"]
    draw(pattern, {7: "[7]"}, width=80, height=24, focus=7)
    searched = place.cache_info().misses
    for label in pattern.labels[7:40]:
        draw(pattern, {label: f"[{label}]", label - 1: f"{label - 1}x"}, width=80, height=24, focus=label)
    # The first mark of four cells or more may ask for wider slots once.
    assert place.cache_info().misses - searched <= 40


def test_lengths_stand_whole_at_their_holes() -> None:
    lengths = {label: "16 mm" if label < 5 else "1-3/4 in" for label in range(1, 10)}
    for width, height in ((100, 30), (80, 24), (44, 14), (40, 12)):
        drawing = draw(drawn(PUMP), lengths, width=width, height=height)
        assert marks_of(drawing) == lengths
        check_apart(drawing)


def test_wide_and_combining_signs_keep_their_cells() -> None:
    drawing = draw(layout(rows((3,))), {1: "前後", 2: "e\u0301", 3: "→"}, width=40, height=3)
    assert [drawing.spots[label][2] for label in (1, 2, 3)] == [4, 1, 1]
    line = drawing.lines[0]
    for label, text in ((1, "前後"), (2, "e\u0301"), (3, "→")):
        assert cells(line[: line.index(text)]) == drawing.spots[label][1]


def test_a_mark_wider_than_the_room_gives_way_to_the_number() -> None:
    drawing = draw(layout(rows((3,))), {2: "a mark that no room can hold"}, width=20, height=3)
    assert marks_of(drawing) == {1: "1", 2: "2", 3: "3"}


def test_landmarks_stand_on_their_own_side_or_not_at_all() -> None:
    for width in range(30, 101):
        drawing = draw(drawn(HEAD), {}, width=width, height=12)
        firsts = [first for _, first, _ in drawing.spots.values()]
        for line in drawing.lines:
            if "FRONT" in line:
                assert line.index("FRONT") <= min(firsts)
            for word in ("exhaust side", "inlet side"):
                assert word not in line or line.index(word) > (min(firsts) + max(firsts)) / 2


def test_landmarks_are_dropped_before_any_bolt() -> None:
    drawing = draw(drawn(HEAD), {}, width=30, height=3)
    assert len(drawing.spots) == 10
    assert "side" not in "".join(drawing.lines)


def test_a_landmark_is_written_in_ascii_where_that_is_asked() -> None:
    pattern = drawn("VORN\N{LATIN SMALL LETTER E WITH ACUTE}\n1  2  3")
    assert draw(pattern, {}, width=40, height=5, ascii_only=True).lines[0].strip() == "VORN?"


def test_the_pointer_leads_from_the_last_bolt_to_the_next_and_covers_nothing() -> None:
    pattern = PATTERNS["circle-8"]
    plain = draw(pattern, {}, width=80, height=24)
    for start, end, head in ((1, 5, "v"), (5, 1, "^"), (7, 3, ">"), (3, 7, "<")):
        pointed = draw(pattern, {}, width=80, height=24, pointer=(start, end))
        assert pointed.spots == plain.spots
        assert marks_of(pointed) == marks_of(plain)
        ink = "".join(pointed.lines)
        assert ink.count(head) == 1
        assert ink.count(".") > 3


def test_a_pointer_to_a_bolt_that_is_not_drawn_is_left_out() -> None:
    pattern = PATTERNS["circle-200"]
    drawing = draw(pattern, {}, width=40, height=12, focus=1, pointer=(101, 1))
    assert "." not in "".join(drawing.lines)
    assert draw(pattern, {}, width=40, height=12, focus=1, pointer=(1, 999)).lines == drawing.lines


def test_walking_two_hundred_bolts_shows_each_one_with_its_neighbours() -> None:
    pattern, last = PATTERNS["circle-200"], 1
    for label in star(200).labels:
        drawing = draw(
            pattern,
            {label: f"[{label}]", last: f"{last}x"},
            width=80,
            height=24,
            focus=label,
            pointer=(last, label),
        )
        check_room(drawing, 80, 24)
        check_apart(drawing)
        assert {label, label % 200 + 1, (label - 2) % 200 + 1} <= set(drawing.spots)
        last = label


def test_bolts_without_a_picture_stand_in_the_order_of_their_numbers() -> None:
    assert draw(layout(count(7)), {}, width=20, height=9).lines == ("1    2    3    4", "5    6    7")
