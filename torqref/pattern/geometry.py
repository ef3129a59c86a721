"""What a layout looks like as a shape: its centre, its rows, and whether it is a closed ring."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from torqref.pattern.layout import Layout, Position
from torqref.pattern.shape import CELLS_A_LINE

# A closed ring: nothing nearer to the middle than this share of the outline, no gap wider than this angle.
_EMPTY_MIDDLE = 0.65
_WIDEST_GAP = math.radians(125)
_FEWEST_ON_A_RING = 4
_FEWEST_LEVELS = 3
# A number of two digits has its centre half a character off one of one digit below it, and hands slip by one.
_SAME_COLUMN = 1.0


@lru_cache(maxsize=64)
def straightened(layout: Layout) -> Layout:
    """The layout with columns made straight: a typed diagram puts 9 and 10 half a character apart.

    Positions of a diagram whose centres lie within one character of each other stand in one column.
    """
    if layout.basis != "diagram":
        return layout
    columns: list[list[Position]] = []
    for position in sorted(layout.positions, key=lambda position: position.x):
        if columns and position.x - columns[-1][0].x <= _SAME_COLUMN:
            columns[-1].append(position)
        else:
            columns.append([position])
    straight = {position.label: _column_place(column) for column in columns for position in column}
    positions = tuple(replace(position, x=straight[position.label]) for position in layout.positions)
    return replace(layout, positions=positions)


def _column_place(column: Sequence[Position]) -> float:
    """Where a column stands: its shortest numbers are centred best."""
    shortest = min(len(str(position.label)) for position in column)
    places = [position.x for position in column if len(str(position.label)) == shortest]
    return sum(places) / len(places)


@lru_cache(maxsize=64)
def vectors(layout: Layout) -> Mapping[int, tuple[float, float]]:
    """Each label's place from the mean of all places, in line heights, x right and y down.

    A character counts as half as wide as it is high, so that directions are those the eye sees.
    """
    layout = straightened(layout)
    places = [(position.x / CELLS_A_LINE, position.y) for position in layout.positions]
    middle_x = sum(x for x, _ in places) / len(places)
    middle_y = sum(y for _, y in places) / len(places)
    return {
        position.label: (round(x - middle_x, 9), round(y - middle_y, 9))
        for position, (x, y) in zip(layout.positions, places, strict=True)
    }


def row_count(layout: Layout) -> int:
    """How many straight rows the layout has: distinct heights."""
    return len({round(position.y, 6) for position in layout.positions})


def column_count(layout: Layout) -> int:
    """How many straight columns the layout has: distinct places from left to right."""
    return len({round(position.x, 6) for position in straightened(layout).positions})


def is_line(layout: Layout) -> bool:
    """True for one row or one column."""
    return min(row_count(layout), column_count(layout)) == 1


def is_rows(layout: Layout) -> bool:
    """True for one or two rows or columns, and for everything declared as rows."""
    return layout.basis == "rows" or min(row_count(layout), column_count(layout)) < _FEWEST_LEVELS


def ring(layout: Layout) -> tuple[int, ...]:
    """The labels clockwise round a closed ring, smallest label first; empty if the layout is none.

    A circle is one; four corners, and a diagram or points whose middle is empty and that leave no large gap.
    """
    if layout.basis == "circle":
        return layout.labels
    if layout.basis == "count" or len(layout.positions) < _FEWEST_ON_A_RING:
        return ()
    square = len(layout.positions) == _FEWEST_ON_A_RING and row_count(layout) == column_count(layout) == 2
    return () if is_rows(layout) and not square else _closed_ring(layout)


def _closed_ring(layout: Layout) -> tuple[int, ...]:
    polar = sorted((angle, radius, label) for label, (angle, radius) in _round_the_box(layout).items())
    angles = [angle for angle, _, _ in polar]
    gaps = [later - sooner for sooner, later in pairwise(angles)]
    gaps.append(2 * math.pi + angles[0] - angles[-1])
    if min(radius for _, radius, _ in polar) < _EMPTY_MIDDLE or max(gaps) > _WIDEST_GAP:
        return ()
    labels = [label for _, _, label in polar]
    start = labels.index(min(labels))
    return tuple(labels[start:] + labels[:start])


def _round_the_box(layout: Layout) -> Mapping[int, tuple[float, float]]:
    """Angle clockwise from the left and radius of each label, as seen from the middle of the bounding box."""
    xs = [position.x for position in layout.positions]
    ys = [position.y for position in layout.positions]
    middle_x, middle_y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    half_x, half_y = (max(xs) - min(xs)) / 2, (max(ys) - min(ys)) / 2
    return {
        position.label: _polar((position.x - middle_x) / half_x, (position.y - middle_y) / half_y)
        for position in layout.positions
    }


def _polar(x: float, y: float) -> tuple[float, float]:
    return round(math.atan2(y, x), 9), math.hypot(x, y)
