"""Layouts without a picture."""

from __future__ import annotations

import math

import pytest

from tests.pattern.published import layout
from torqref.pattern.layout import Layout
from torqref.pattern.shape import CELLS_A_LINE, circle, count, points, rows


@pytest.mark.parametrize("bolts", [3, 4, 5, 8, 12, 31, 200])
def test_a_circle_counts_clockwise_from_twelve_o_clock(bolts: int) -> None:
    made = layout(circle(bolts))
    places = [(p.x / CELLS_A_LINE, p.y) for p in made.positions]
    middle_x, middle_y = (sum(axis) / bolts for axis in zip(*places, strict=True))
    radius = middle_y - places[0][1]
    for number, (x, y) in enumerate(places):
        angle = 2 * math.pi * number / bolts
        assert (x - middle_x, middle_y - y) == pytest.approx(
            (radius * math.sin(angle), radius * math.cos(angle)), abs=1e-4
        )
    assert made.labels == tuple(range(1, bolts + 1))


def test_places_of_a_circle_that_mirror_each_other_share_a_row_exactly() -> None:
    made = {p.label: p for p in layout(circle(24)).positions}
    assert all(made[n].y == made[26 - n].y for n in range(2, 13))


def test_rows_count_from_the_top_left_and_shorter_ones_stand_centred() -> None:
    made = {p.label: p for p in layout(rows((2, 3))).positions}
    assert made[1].y == made[2].y < made[3].y == made[5].y
    assert made[3].x < made[1].x < made[4].x < made[2].x < made[5].x


def test_points_keep_their_proportions_and_the_order_of_the_list() -> None:
    made = layout(points([(0, 0), (40, 0), (40, 25)]))
    assert [(p.label, p.x / CELLS_A_LINE, p.y) for p in made.positions] == [
        (1, 0, 0),
        (2, 40, 0),
        (3, 40, 25),
    ]


@pytest.mark.parametrize(
    ("made", "words"),
    [
        (circle(0), "circle of 0"),
        (circle(2), "at least 3"),
        (circle(-5), "circle of -5"),
        (circle(201), "201 positions are too many"),
        (rows(()), "each row needs one"),
        (rows((3, 0)), "rows of 3, 0"),
        (rows((100, 101)), "201 positions"),
        (points([]), "empty"),
        (points([(0, 0), (1, 1), (0, 0)]), "points 1 and 3 are the same place"),
        (points([(math.nan, 0)]), "not a place"),
        (points([(math.inf, 0)]), "not a place"),
        (count(0), "count = 0"),
        (count(201), "201 positions"),
    ],
)
def test_a_shape_that_is_none_says_why(made: object, words: str) -> None:
    assert not isinstance(made, Layout)
    assert isinstance(made, tuple)
    assert any(words in fault.message and fault.mend for fault in made), made


def test_a_part_of_a_pattern_keeps_its_labels() -> None:
    assert layout(circle(8)).only({2, 6}).labels == (2, 6)
