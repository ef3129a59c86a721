"""Orders: as typed, generic, reversed."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.pattern.published import HEAD, MANIFOLD, ORDERS, PUMP, drawn, layout, order
from torqref.pattern.geometry import vectors
from torqref.pattern.layout import Layout, Order
from torqref.pattern.order import (
    GENERIC,
    by_place,
    centre_outward,
    generic_order,
    listed,
    read_order,
    removal_rounds,
    reverse,
    round_of,
    spiral,
    star,
)
from torqref.pattern.shape import circle, count, points, rows

grids = st.lists(st.integers(1, 9), min_size=1, max_size=4).map(rows).map(layout)
scattered = st.lists(
    st.tuples(st.integers(0, 400), st.integers(0, 300)), min_size=1, max_size=40, unique=True
).map(lambda places: layout(points(places)))


def test_the_straight_line_of_nine_goes_from_the_centre_outward() -> None:
    published = next(entry for entry in ORDERS if entry["id"] == "army-straight-9")
    assert list(generic_order(layout(rows((9,)))).labels) == published["order"]


@pytest.mark.parametrize("bolts", range(2, 60))
def test_a_line_alternates_its_sides(bolts: int) -> None:
    line = layout(rows((bolts,)))
    sides = [math.copysign(1, vectors(line)[label][0]) for label in generic_order(line).labels]
    ends = sides[bolts % 2 :]
    assert all(one != other for one, other in pairwise(ends))


def test_two_rows_begin_in_the_middle_and_end_at_the_ends() -> None:
    labels = generic_order(layout(rows((5, 5)))).labels
    assert set(labels[:2]) == {3, 8}
    assert set(labels[-4:]) == {1, 5, 6, 10}


@given(grids)
def test_the_way_outward_never_comes_back(grid: Layout) -> None:
    found = centre_outward(grid)
    distances = [math.hypot(*vectors(grid)[label]) for label in found.labels]
    assert all(one <= other + 1e-5 for one, other in pairwise(distances))
    assert tuple(sorted(found.labels)) == grid.labels


@given(scattered)
def test_a_spiral_visits_every_point_once_and_starts_nearest_to_the_middle(cloud: Layout) -> None:
    found = spiral(cloud)
    assert tuple(sorted(found.labels)) == cloud.labels
    distances = {label: math.hypot(*place) for label, place in vectors(cloud).items()}
    assert distances[found.labels[0]] == pytest.approx(min(distances.values()))


def test_a_spiral_goes_round_its_rings_outward() -> None:
    inner = [(10, 0), (0, 10), (-10, 0), (0, -10)]
    outer = [(50, 0), (0, 50), (-50, 0), (0, -50)]
    cloud = layout(points([(x + 60, y + 60) for x, y in [*outer, *inner, (0, 0)]]))
    labels = spiral(cloud).labels
    assert labels[0] == 9
    assert set(labels[1:5]) == {5, 6, 7, 8}
    turns = [math.atan2(*reversed(vectors(cloud)[label])) for label in labels[1:5]]
    assert all(
        (later - sooner) % (2 * math.pi) == pytest.approx(math.pi / 2) for sooner, later in pairwise(turns)
    )


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (circle(8), "cross"),
        (circle(7), "star"),
        (rows((5, 5)), "centre outward"),
        (rows((2, 2)), "cross"),
        (points([(0, 0), (9, 1), (4, 5), (20, 20), (3, 18), (8, 9)]), "spiral"),
        (count(3), "as counted"),
        (drawn(HEAD), "centre outward"),
        (drawn(MANIFOLD), "centre outward"),
        (drawn(PUMP), "star"),
    ],
)
def test_the_generic_order_fits_the_pattern_and_says_what_it_is(made: object, words: str) -> None:
    found = generic_order(layout(made))
    assert words in found.basis
    assert GENERIC in found.basis
    assert found.generic
    assert tuple(sorted(found.labels)) == layout(made).labels


def test_a_drawn_ring_is_crossed_by_its_places_and_not_by_its_numbers() -> None:
    ring = drawn("    9\n 2     4\n7       6\n 5     3\n    8")
    labels = generic_order(ring).labels
    around = [2, 9, 4, 6, 3, 8, 5, 7]
    assert labels[0] == 2
    assert all(
        abs(around.index(one) - around.index(other)) == 4
        for one, other in zip(labels[::2], labels[1::2], strict=True)
    )
    assert round_of(ring).labels == tuple(around)


def test_the_page_is_listed_by_its_numbers_and_is_not_generic() -> None:
    found = listed(drawn(PUMP))
    assert found.labels == tuple(range(1, 10))
    assert not found.generic


@pytest.mark.parametrize("bolts", [3, 4, 9, 24, 125, 200])
def test_the_reverse_of_a_reverse_is_the_order_itself(bolts: int) -> None:
    found = star(bolts)
    assert reverse(reverse(found)) == found
    assert reverse(found).labels == found.labels[::-1]


def test_loosening_goes_backwards_in_three_rounds_a_quarter_turn_first() -> None:
    # Common practice, no source.
    rounds = removal_rounds(order("1 5 3 7"))
    assert [found.labels for _, found in rounds] == [(7, 3, 5, 1)] * 3
    assert "quarter turn" in rounds[0][0]


def test_numbers_stamped_at_the_places_give_the_places_to_visit() -> None:
    # Both lists follow from each other: the inverse permutation.
    assert by_place((9, 5, 1, 3, 7, 11, 12, 8, 4, 2, 6, 10)).labels == (3, 10, 4, 9, 2, 11, 5, 8, 1, 12, 6, 7)


@pytest.mark.parametrize("entry", [e for e in ORDERS if "stamped" in e], ids=lambda e: e["id"])
def test_the_labels_of_a_published_figure_are_its_order(entry: dict[str, list[int]]) -> None:
    assert list(by_place(entry["stamped"]).labels) == entry["order"]


@pytest.mark.parametrize(
    ("typed", "visits"),
    [
        ("1 5 3 7", ((1,), (5,), (3,), (7,))),
        ("1-3-5-2-4", ((1,), (3,), (5,), (2,), (4,))),
        ("1–3–5–2–4", ((1,), (3,), (5,), (2,), (4,))),
        ("1 - 3 - 5", ((1,), (3,), (5,))),
        ("1, 3, 5,", ((1,), (3,), (5,))),
        ("1 → 3 -> 5 > 2", ((1,), (3,), (5,), (2,))),
        ("1+9 5+13", ((1, 9), (5, 13))),
        ("1 + 9, 5 +13", ((1, 9), (5, 13))),
        ("1+9-5+13-3+11", ((1, 9), (5, 13), (3, 11))),
        ("7", ((7,),)),
        ("1\n2\n3", ((1,), (2,), (3,))),
        ([1, 5, 3], ((1,), (5,), (3,))),
        (["1", "5+9", 3], ((1,), (5, 9), (3,))),
        ([[1, 9], [5, 13]], ((1, 9), (5, 13))),
    ],
)
def test_orders_are_read_as_people_type_them(typed: str | list[object], visits: object) -> None:
    assert order(typed).visits == visits
    assert not order(typed).generic


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "empty"),
        ([], "empty"),
        (" , ", "empty"),
        ("1-8", "can mean 1 to 8, or 1 and then 8"),
        ("1-4 5 6", "can mean 1 to 4, or 1 and then 4"),
        ("1 two 3", '"two"'),
        ("1 0 3", '"0"'),
        ("01 2 3", '"01"'),
        ("1 2.5 3", '"2.5"'),
        ("1+1 2", "the same bolt twice at once"),
        ("1+ 2", None),
        ("1 ++ 2 3", '"'),
        ([1, True], "true or false"),
        ([1, 2.0], "a float"),
        ([1, -2], '"-2"'),
        ([1, [2, [3]]], "a list"),
        ([1, []], "a list"),
        ([10**30], "far too large"),
        ("1 99999", '"99999"'),
        (" ".join(["1"] * 1001), "at most 1000"),
        ("1 \x1b[2J 3", "<U+001B>"),
    ],
)
def test_an_order_that_has_no_one_meaning_is_refused(typed: str | list[object], words: str | None) -> None:
    read = read_order(typed)
    if words is None:
        assert isinstance(read, Order)
        return
    assert not isinstance(read, Order)
    assert words in read[0].message
    assert read[0].mend


@given(st.text(alphabet="0123456789+-, →ab\n", max_size=60))
def test_any_text_is_an_order_or_told(text: str) -> None:
    read = read_order(text)
    if isinstance(read, Order):
        assert read.visits
        assert all(label >= 1 for label in read.labels)
    else:
        assert read[0].message
        assert read[0].mend
