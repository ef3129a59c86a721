"""A conversion chart for the wrench at hand: one unit beside another, over the range of its scale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from torqref.quantity.conversion import convert
from torqref.quantity.showing import show_number
from torqref.sheets import paper

MOST_ROWS = 120
_STEPS = (Fraction(1), Fraction(2), Fraction(5))
_NOTE = "A chart rounds. The value as printed, in the unit it was printed in, comes first."


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """Pairs of the same torque in two units.

    Args:
        unit, other: the units.
        step: distance of two rows.
        rows: numbers as shown, of the one unit and of the other.
    """

    unit: str
    other: str
    step: Fraction
    rows: tuple[tuple[str, str], ...]


def make_chart(unit: str, other: str, low: Fraction, high: Fraction) -> Chart | str:
    """The chart over a range, or why there is none.

    The step is 1, 2 or 5 times a power of ten, the smallest that gives at most `MOST_ROWS` rows. The
    second column has so many digits that the rounding is below a twentieth of a step.

    Args:
        unit: symbol of the torque unit of the first column.
        other: symbol of the torque unit of the second column.
        low: smaller end of the range, in `unit`.
        high: larger end of the range, in `unit`.

    >>> chart = make_chart("in-lb", "N·m", Fraction(20), Fraction(200))
    >>> isinstance(chart, Chart) and (chart.step, chart.rows[0], len(chart.rows))
    (Fraction(2, 1), ('20', '2.26'), 91)
    """
    if unit == other:
        return f"both columns would be in {unit}"
    if not 0 <= low < high:
        return "the first number of the range must be the smaller one, and none below zero"
    step = _step(high - low)
    first = -(-low // step)
    numbers = [step * number for number in range(first, int(high // step) + 1)]
    own, far = _decimals(step), _decimals(convert(step, unit, other) / 10)
    rows = tuple(
        (show_number(number, own), show_number(convert(number, unit, other), far)) for number in numbers
    )
    return Chart(unit=unit, other=other, step=step, rows=rows)


def _step(span: Fraction) -> Fraction:
    size = Fraction(1, 1000)
    while True:
        for times in _STEPS:
            if span / (size * times) < MOST_ROWS:
                return size * times
        size *= 10


def _decimals(step: Fraction) -> int:
    """Digits after the point, so that the last one is no coarser than the step."""
    decimals = 0
    while step < 1 and decimals < 6:
        step, decimals = step * 10, decimals + 1
    return decimals


def chart_text(chart: Chart) -> Iterator[str]:
    """The chart as lines, in three columns of pairs."""
    wide = max(len(f"{own}  {far}") for own, far in (*chart.rows, (chart.unit, chart.other))) + 4
    columns = _columns(chart)
    yield "".join(f"{chart.unit}  {chart.other}".ljust(wide) for _ in columns).rstrip()
    for row in range(len(columns[0])):
        pairs = (column[row] for column in columns if row < len(column))
        yield "".join(f"{own}  {far}".ljust(wide) for own, far in pairs).rstrip()
    yield _NOTE


def _columns(chart: Chart) -> list[tuple[tuple[str, str], ...]]:
    tall = -(-len(chart.rows) // 3)
    return [chart.rows[at : at + tall] for at in range(0, len(chart.rows), tall)]


def chart_page(chart: Chart) -> str:
    """The chart as a page for the toolbox lid."""
    title = f"{chart.unit} to {chart.other}"
    columns = _columns(chart)
    rows = (
        [cell for column in columns for cell in (column[row] if row < len(column) else ("", ""))]
        for row in range(len(columns[0]))
    )
    head = [unit for _ in columns for unit in (chart.unit, chart.other)]
    body = [paper.heading(title, 1), paper.table(head, rows), paper.paragraph(_NOTE)]
    return paper.page(title, body, practice=False)
