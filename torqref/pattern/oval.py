"""A crowded circle drawn as an oval on which every mark has the same room.

Text has wide cells and few lines: true angles would heap the marks at the top and leave the sides bare.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate, pairwise

from torqref.pattern.shape import CELLS_A_LINE
from torqref.pattern.spacing import outward

_PIECES = 480
# Power of sine and cosine: 1 is an ellipse, less is squarer.
_SQUARENESS = (1.0, 0.75, 0.5, 0.35)
_SHRINKS = (0.4, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.93, 0.96, 0.98, 1.0)


def oval(
    fractions: Sequence[float], width: int, height: int, slot: int
) -> tuple[tuple[int, int], ...] | None:
    """Cells for places on a closed ring, clockwise from 12 o'clock, or None if the room is too small.

    Args:
        fractions: how far round the ring each place is, 0 to 1.
        width: cells of the room.
        height: lines of the room.
        slot: cells of one mark; one more is left free between two.

    Returns:
        Row and first column of each place, on the roundest outline that holds them.
    """
    # Roughly the most that any outline holds: lines at both sides, slots above and below.
    if len(fractions) > 2 * height + 2 * width / (slot + 1):
        return None
    heights = {max(3, round(height * shrink)) for shrink in _SHRINKS}
    roundest = sorted(heights, key=lambda high: abs(math.log(CELLS_A_LINE * high / width)))
    for squareness in _SQUARENESS:
        for high in roundest:
            if high <= height and (found := _on_oval(fractions, (width, high), slot, squareness)):
                return found
    return None


def _on_oval(
    fractions: Sequence[float], room: tuple[int, int], slot: int, squareness: float
) -> tuple[tuple[int, int], ...] | None:
    width, height = room
    middle_x, middle_y = (width - slot) / 2, (height - 1) / 2
    if min(middle_x, middle_y) <= 0:
        return None
    outline = [(middle_x * x, middle_y * y) for x, y in _outline(squareness)]
    # Room is counted in marks: one line down, or one slot and a blank across, holds one more.
    lengths = [
        max(abs(x - old_x) / (slot + 1), abs(y - old_y)) for (old_x, old_y), (x, y) in pairwise(outline)
    ]
    along = [0.0, *accumulate(lengths)]
    if along[-1] < len(fractions):
        return None
    cells = []
    for fraction in fractions:
        x, y = _point(fraction % 1 * along[-1], along, outline)
        cells.append((outward(middle_y + y, middle_y), outward(middle_x + x, middle_x)))
    return tuple(cells) if _free(cells, slot) else None


def _point(
    length: float, along: Sequence[float], outline: Sequence[tuple[float, float]]
) -> tuple[float, float]:
    """The place so far along the outline, straight between its points."""
    after = max(1, bisect_left(along, length - 1e-9))
    share = (length - along[after - 1]) / ((along[after] - along[after - 1]) or 1.0)
    (x, y), (next_x, next_y) = outline[after - 1], outline[after]
    return round(x + share * (next_x - x), 6), round(y + share * (next_y - y), 6)


@lru_cache(maxsize=8)
def _outline(squareness: float) -> tuple[tuple[float, float], ...]:
    """An ellipse two wide and two high, or a rounded box with flatter sides: more marks find room on it."""
    angles = [2 * math.pi * piece / _PIECES for piece in range(_PIECES + 1)]
    return tuple(
        (_power(math.sin(angle), squareness), -_power(math.cos(angle), squareness)) for angle in angles
    )


def _power(value: float, exponent: float) -> float:
    return math.copysign(abs(value) ** exponent, value)


def _free(cells: Sequence[tuple[int, int]], slot: int) -> bool:
    """Whether no two marks of a line touch."""
    return all(
        row != next_row or next_column - column > slot
        for (row, column), (next_row, next_column) in pairwise(sorted(cells))
    )
