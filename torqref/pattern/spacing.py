"""Columns for things in a row, so that none touch, none change sides, and straight columns stay straight."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise


def columns(
    wanted: Sequence[int], lines: Sequence[Sequence[int]], step: int, last: int
) -> tuple[int, ...] | None:
    """Whole columns near the wanted ones that keep a distance within every line.

    Args:
        wanted: the column each level should have; levels are places from left to right, ascending.
        lines: for each line of the drawing the levels that stand in it, ascending.
        step: least distance of two columns in one line.
        last: largest column there is.

    Returns:
        A column for each level, never descending, or None if the room is too narrow.

    >>> columns((4, 5, 6), [[0, 1, 2]], 3, 12)
    (2, 5, 8)
    """
    if any((len(line) - 1) * step > last for line in lines):
        return None
    if any(left == right for line in lines for left, right in pairwise(line)):
        return None
    before, after = _neighbours(lines, len(wanted))
    lowest = _from_left([0] * len(wanted), before, step, [last] * len(wanted))
    highest = _from_right([last] * len(wanted), after, step, [0] * len(wanted))
    if any(low > high or low > last for low, high in zip(lowest, highest, strict=True)):
        return None
    # Pushing right and pushing left both keep every distance, and so does their mean: nothing leans.
    right = _from_left(wanted, before, step, highest)
    left = _from_right(wanted, after, step, lowest)
    return tuple((one + other) // 2 for one, other in zip(right, left, strict=True))


def _neighbours(lines: Sequence[Sequence[int]], levels: int) -> tuple[list[list[int]], list[list[int]]]:
    """For each level the levels just before and just after it in any line."""
    before: list[list[int]] = [[] for _ in range(levels)]
    after: list[list[int]] = [[] for _ in range(levels)]
    for line in lines:
        for left, right in pairwise(line):
            before[right].append(left)
            after[left].append(right)
    return before, after


def _from_left(
    wanted: Sequence[int], before: Sequence[Sequence[int]], step: int, highest: Sequence[int]
) -> list[int]:
    """Each level at its wanted column or as far right of it as those before it push."""
    found: list[int] = []
    for level, column in enumerate(wanted):
        pushed = [found[other] + step for other in before[level]] + found[-1:]
        found.append(max([min(column, highest[level]), *pushed]))
    return found


def _from_right(
    wanted: Sequence[int], after: Sequence[Sequence[int]], step: int, lowest: Sequence[int]
) -> list[int]:
    """Each level at its wanted column or as far left of it as those after it push."""
    found = list(wanted)
    for level in reversed(range(len(wanted))):
        pushed = [found[other] - step for other in after[level]] + found[level + 1 : level + 2]
        found[level] = min([max(wanted[level], lowest[level]), *pushed])
    return found


def outward(value: float, middle: float) -> int:
    """The nearest whole number; halves go away from the middle."""
    return math.ceil(value - 0.5 - 1e-9) if value < middle else math.floor(value + 0.5 + 1e-9)
