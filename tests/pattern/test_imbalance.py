"""How one-sided a pattern is pulled after each step."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.pattern.published import layout, order
from torqref.pattern.imbalance import imbalance, plot
from torqref.pattern.order import circular, star
from torqref.pattern.shape import circle, rows


@pytest.mark.parametrize("bolts", [4, 6, 8, 12, 20, 48, 200])
def test_after_each_opposite_pair_the_pull_is_even(bolts: int) -> None:
    pulls = imbalance(star(bolts), layout(circle(bolts)))
    assert pulls[1::2] == pytest.approx([0.0] * (bolts // 2), abs=1e-4)
    assert pulls[::2] == pytest.approx([1.0] * (bolts // 2), abs=1e-4)


@pytest.mark.parametrize("bolts", [5, 8, 12, 31])
def test_going_round_pulls_as_the_sum_of_a_polygon_says(bolts: int) -> None:
    # Sum of k unit vectors, each turned by 2π/n: |sin(kπ/n) / sin(π/n)|.
    expected = [abs(math.sin(k * math.pi / bolts) / math.sin(math.pi / bolts)) for k in range(1, bolts + 1)]
    assert imbalance(circular(bolts), layout(circle(bolts))) == pytest.approx(expected, abs=1e-4)


def test_a_pair_pulled_together_is_one_step() -> None:
    assert imbalance(order("1+3 2+4"), layout(circle(4))) == (0.0, 0.0)


def test_a_line_of_three_begins_even_in_its_middle() -> None:
    assert imbalance(order("2 1 3"), layout(rows((3,)))) == (0.0, 1.0, 0.0)


@settings(deadline=None)
@given(st.permutations(range(1, 13)))
def test_the_last_step_leaves_every_pattern_even(labels: list[int]) -> None:
    assert imbalance(order(list(labels)), layout(circle(12)))[-1] == pytest.approx(0, abs=1e-4)


def test_the_plot_shows_both_orders_on_one_scale() -> None:
    pattern = layout(circle(8))
    lines = plot(imbalance(circular(8), pattern), imbalance(star(8), pattern), width=40)
    assert lines == (
        "2.6 |      #  #  #",
        "2.0 |   #           #",
        "1.3 |8     o     o     8",
        "0.7 |",
        "0.0 |   o     o     o     8",
    )


@pytest.mark.parametrize("width", [12, 30, 44, 80, 100])
@pytest.mark.parametrize("bolts", [1, 3, 8, 60, 200])
def test_the_plot_keeps_within_its_width(width: int, bolts: int) -> None:
    pulls = tuple(float(n % 7) for n in range(bolts))
    lines = plot(pulls, pulls[::-1], width=width)
    assert len(lines) == 5
    assert max(map(len, lines)) <= width
    assert all(line.isascii() for line in lines)


def test_where_steps_are_more_than_columns_the_worst_one_shows() -> None:
    pulls = [0.0] * 100
    pulls[50] = 9.0
    assert plot(pulls, width=30)[0].count("#") == 1
