"""The dotted line that leads the eye from the last bolt to the next."""

from __future__ import annotations

import math

from torqref.pattern.shape import CELLS_A_LINE
from torqref.pattern.sheet import Sheet

_DOT = "."
Spot = tuple[int, int, int]


def write_pointer(sheet: Sheet, start: Spot, end: Spot) -> None:
    """A dotted line between two marks with a head at its end; cells that are taken stay as they are.

    Args:
        sheet: the sheet with marks and landmarks on it.
        start: row, first column and cells of the mark it comes from.
        end: the same of the mark it leads to.
    """
    path = _path(_centre(start), _centre(end))
    free = [cell for cell in path if sheet.is_free(*cell, 1, margin=1)]
    if not free:
        return
    for row, column in free[:-1]:
        sheet.write(row, column, _DOT)
    sheet.write(*free[-1], _head(_centre(start), _centre(end)))


def _centre(spot: Spot) -> tuple[int, float]:
    row, column, wide = spot
    return row, column + (wide - 1) / 2


def _path(start: tuple[int, float], end: tuple[int, float]) -> list[tuple[int, int]]:
    """Cells of a straight line: one a row on a steep line, every second one on a flat line."""
    down, across = end[0] - start[0], end[1] - start[1]
    steps = max(abs(down), math.ceil(abs(across) / CELLS_A_LINE))
    return [
        (round(start[0] + down * step / steps), round(start[1] + across * step / steps))
        for step in range(1, steps)
    ]


def _head(start: tuple[int, float], end: tuple[int, float]) -> str:
    down, across = end[0] - start[0], (end[1] - start[1]) / CELLS_A_LINE
    if abs(down) >= abs(across):
        return "v" if down > 0 else "^"
    return ">" if across > 0 else "<"
