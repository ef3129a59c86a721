"""A chart for the wrench at hand, held against the published factor."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.sheets.folder import Page
from torqref.sheets.chart import MOST_ROWS, Chart, chart_page, chart_text, make_chart

# NIST SP 811 (2008), appendix B.8: pound-force inch to newton meter, 1.129 848 E-01; pound-force foot to
# newton meter, 1.355 818 E+00.
INCH, FOOT = 0.1129848, 1.355818


def chart(unit: str, other: str, low: int, high: int) -> Chart:
    made = make_chart(unit, other, Fraction(low), Fraction(high))
    assert isinstance(made, Chart)
    return made


@pytest.mark.parametrize(
    ("unit", "other", "factor", "low", "high"),
    [
        ("in-lb", "N·m", INCH, 20, 200),
        ("ft-lb", "N·m", FOOT, 10, 150),
        ("N·m", "ft-lb", 1 / FOOT, 5, 60),
        ("N·m", "in-lb", 1 / INCH, 2, 25),
    ],
)
def test_every_row_is_right_to_its_last_digit(
    unit: str, other: str, factor: float, low: int, high: int
) -> None:
    made = chart(unit, other, low, high)
    assert float(made.rows[0][0]) == low
    assert float(made.rows[-1][0]) <= high < float(made.rows[-1][0]) + made.step
    for own, far in made.rows:
        digits = len(far.partition(".")[2])
        assert abs(float(own) * factor - float(far)) <= 0.5 * 10**-digits + 1e-4


def test_neighbouring_rows_never_show_the_same_number() -> None:
    for unit, other in (("in-lb", "N·m"), ("cN·m", "N·m"), ("ozf·in", "kgf·m")):
        shown = [far for _, far in chart(unit, other, 1, 100).rows]
        assert len(set(shown)) == len(shown)


@pytest.mark.parametrize(("low", "high"), [(0, 1), (1, 3), (20, 200), (0, 99999)])
def test_a_chart_always_fits_a_page(low: int, high: int) -> None:
    assert 20 <= len(chart("N·m", "ft-lb", low, high).rows) <= MOST_ROWS + 1


@pytest.mark.parametrize(
    ("unit", "other", "low", "high"), [("N·m", "N·m", 1, 2), ("N·m", "ft-lb", 5, 5), ("N·m", "ft-lb", 9, 5)]
)
def test_what_is_no_chart_is_refused(unit: str, other: str, low: int, high: int) -> None:
    assert isinstance(make_chart(unit, other, Fraction(low), Fraction(high)), str)


def test_text_and_page_hold_the_same_pairs() -> None:
    made = chart("in-lb", "N·m", 20, 200)
    words = " ".join(chart_text(made)).split()
    cells = {cell for row in Page(chart_page(made)).cells for cell in row}
    for own, far in made.rows:
        assert own in words
        assert far in words
        assert {own, far} <= cells
    assert "A chart rounds." in Page(chart_page(made)).text
