"""Layouts without a picture: circle, rows, points and a bare count."""

from __future__ import annotations

import math
from collections.abc import Sequence

from torqref.pattern.diagram import MOST_POSITIONS
from torqref.pattern.fault import Faults, refused
from torqref.pattern.layout import Layout, Position

# A character of a terminal is about twice as high as it is wide: so many characters go to one line.
CELLS_A_LINE = 2
FEWEST_ON_A_CIRCLE = 3
_ROW_GAP = 3.0
_COUNT_A_ROW = 5
_ROWS_MEND = "Two rows of five are written rows = [5, 5], and 2x5 in a command."


def circle(bolts: int) -> Layout | Faults:
    """Bolts evenly round a circle, numbered clockwise from 12 o'clock.

    Args:
        bolts: how many, 3 to 200.

    Returns:
        The layout with basis `circle`, or why there is none.

    >>> [(round(p.x), round(p.y)) for p in circle(4).positions]
    [(6, 0), (12, 3), (6, 6), (0, 3)]
    """
    if bolts < FEWEST_ON_A_CIRCLE:
        return refused(
            f"a circle of {bolts} bolts is no pattern; at least {FEWEST_ON_A_CIRCLE} are expected",
            "One or two bolts need no circle: count = 2 is enough.",
        )
    if too_many := _too_many(bolts):
        return too_many
    radius = max(3.0, bolts / 3)
    return Layout(positions=tuple(_on_circle(place, bolts, radius) for place in range(bolts)), basis="circle")


def _on_circle(place: int, bolts: int, radius: float) -> Position:
    """Rounded, so that places that mirror each other share a row or a column exactly."""
    angle = 2 * math.pi * place / bolts
    return Position(
        label=place + 1,
        x=round(CELLS_A_LINE * radius * (1 + round(math.sin(angle), 9)), 6),
        y=round(radius * (1 - round(math.cos(angle), 9)), 6),
    )


def rows(counts: Sequence[int]) -> Layout | Faults:
    """Bolts in straight rows, numbered row by row from the top left; shorter rows stand centred.

    Args:
        counts: bolts of each row, top row first.

    Returns:
        The layout with basis `rows`, or why there is none.

    >>> rows((2, 3)).labels
    (1, 2, 3, 4, 5)
    """
    if not counts or min(counts) < 1:
        shown = ", ".join(str(count) for count in counts) or "no"
        return refused(f"rows of {shown} bolts are no pattern; each row needs one at least", _ROWS_MEND)
    if too_many := _too_many(sum(counts)):
        return too_many
    widest = max(counts)
    places = [
        (CELLS_A_LINE * _ROW_GAP * (column + (widest - count) / 2), row * _ROW_GAP)
        for row, count in enumerate(counts)
        for column in range(count)
    ]
    return _numbered(places, "rows")


def points(places: Sequence[tuple[float, float]]) -> Layout | Faults:
    """Bolts at measured places, numbered as listed.

    Args:
        places: x to the right and y downward from any corner, both in the same unit of length.

    Returns:
        The layout with basis `points`, or why there is none.

    >>> points([(0, 0), (40, 0), (40, 25)]).labels
    (1, 2, 3)
    """
    if not places:
        return refused("the list of points is empty", "Write points = [[0, 0], [40, 0], [40, 25]].")
    if too_many := _too_many(len(places)):
        return too_many
    if not all(math.isfinite(x) and math.isfinite(y) and max(abs(x), abs(y)) < 1e9 for x, y in places):
        return refused("a point is not a place that can be measured", "Write two plain numbers a point.")
    seen: dict[tuple[float, float], int] = {}
    for label, place in enumerate(places, start=1):
        if place in seen:
            return refused(
                f"points {seen[place]} and {label} are the same place", "Measure them again.", label
            )
        seen[place] = label
    return _numbered([(CELLS_A_LINE * x, y) for x, y in places], "points")


def count(bolts: int) -> Layout | Faults:
    """Bolts whose places nobody has drawn, numbered 1 to N and shown in reading order.

    >>> count(3).labels
    (1, 2, 3)
    """
    if bolts < 1:
        return refused(f"count = {bolts}: at least one bolt is expected", "Write count = 4.")
    if too_many := _too_many(bolts):
        return too_many
    step = CELLS_A_LINE * _ROW_GAP
    places = [(step * (place % _COUNT_A_ROW), _ROW_GAP * (place // _COUNT_A_ROW)) for place in range(bolts)]
    return _numbered(places, "count")


def _numbered(places: Sequence[tuple[float, float]], basis: str) -> Layout:
    return Layout(
        positions=tuple(
            Position(label=label, x=float(x), y=float(y)) for label, (x, y) in enumerate(places, start=1)
        ),
        basis=basis,
    )


def _too_many(bolts: int) -> Faults:
    if bolts <= MOST_POSITIONS:
        return ()
    return refused(
        f"{bolts} positions are too many, at most {MOST_POSITIONS} are walked",
        "Split the pattern into several groups.",
    )
