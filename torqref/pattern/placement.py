"""Where each bolt's mark stands in a drawing: cells for real places, without a mark in sight.

It knows layouts, widths and heights. What the marks say, and which of them are shown, `drawing` decides.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from torqref.pattern.geometry import straightened
from torqref.pattern.layout import Layout
from torqref.pattern.orientation import turned
from torqref.pattern.oval import oval
from torqref.pattern.shape import CELLS_A_LINE
from torqref.pattern.spacing import columns, outward

# Neighbours are drawn at most so far apart: beyond that a drawing becomes a starry sky.
_EASY_CELLS = 7
_EASY_LINES = 3
_EASY_HEIGHT = 10
# So few rows or columns have no shape of their own that height could spoil.
_FEW_ROWS = 2
_SHAPELESS = 0.2
_WIDEST = 1.6
_MOST_A_LINE = 10
_RATIOS = (1.0, 1.25, 1.6, 2.0, 0.8, 0.65, 3.0, 5.0, 10.0)
_SHRINKS = (1.0, 0.9, 0.8, 0.65, 0.5, 0.35)
_CROWDED = 3.5
_LARGEST_GROWTH = 60.0
_HALVINGS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Rows and columns of the slots, all of one width; it may be larger than the room asked for.

    Args:
        cells: for each label the row and the first column of its slot.
        width: columns that all slots together take.
        height: rows that all slots together take.
        slot: cells of one slot.
    """

    cells: Mapping[int, tuple[int, int]]
    width: int
    height: int
    slot: int


@lru_cache(maxsize=256)
def place(
    layout: Layout, width: int, height: int, slot: int, turn: int = 0, mirrored: bool = False
) -> Placement | None:
    """The best placement that keeps within a room, or None if there is none.

    Places keep their order from left to right and from top to bottom, columns and rows stay straight, and
    between two slots of one row at least one cell is free.

    Args:
        layout: the bolts.
        width: cells of the room.
        height: lines of the room.
        slot: cells that every mark gets.
        turn: quarter turns clockwise.
        mirrored: whether left and right are exchanged, before the turn.
    """
    if layout.basis == "count":
        counted = _reading_order(layout, width, slot)
        return counted if counted.height <= height and counted.width <= width else None
    ground = _ground(turned(straightened(layout), turn, mirrored), slot)
    if width < slot or height < 1:
        return None
    found = min(_candidates(ground, width, height), key=lambda pair: pair[0], default=None)
    if found and found[0] < _CROWDED:
        return found[1]
    return _round(layout, width, height, slot, turn, mirrored) or (found[1] if found else None)


@lru_cache(maxsize=64)
def place_freely(
    layout: Layout,
    width: int,
    height: int,
    slot: int,
    turn: int = 0,
    mirrored: bool = False,
    *,
    grow: tuple[int, int],
) -> Placement | None:
    """The placement of everything in about the smallest larger room that holds it, or None.

    Args:
        layout: the bolts.
        width: cells of the room to start from.
        height: lines of the room to start from.
        slot: cells that every mark gets.
        turn: quarter turns clockwise.
        mirrored: whether left and right are exchanged, before the turn.
        grow: (1, 0) for a wider room, (0, 1) for a higher one, (1, 1) for both.
    """
    if layout.basis == "count":
        return _reading_order(layout, width, slot)

    def attempt(growth: float) -> Placement | None:
        room = round(width * growth ** grow[0]), round(height * growth ** grow[1])
        return place(layout, *room, slot, turn, mirrored)

    return _smallest(attempt)


def _smallest(attempt: Callable[[float], Placement | None]) -> Placement | None:
    """The placement at about the smallest growth that has one."""
    low, high, best = 1.0, 1.0, None
    while best is None and high < _LARGEST_GROWTH:
        low, high = high, high * 2
        best = attempt(high)
    for _ in range(_HALVINGS if best else 0):
        middle = (low + high) / 2
        if found := attempt(middle):
            high, best = middle, found
        else:
            low = middle
    return best


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """The places to be drawn, with what all candidates share."""

    slot: int
    places: Mapping[int, tuple[float, float]]
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    easy: float

    @property
    def span(self) -> tuple[float, float]:
        return self.xs[-1] - self.xs[0], self.ys[-1] - self.ys[0]


@lru_cache(maxsize=64)
def _ground(layout: Layout, slot: int) -> _Ground:
    places = {p.label: (round(p.x, 6), round(p.y, 6)) for p in layout.positions}
    return _Ground(
        slot=slot,
        places=places,
        xs=tuple(sorted({x for x, _ in places.values()})),
        ys=tuple(sorted({y for _, y in places.values()})),
        easy=_easy_scale(tuple(places.values()), slot),
    )


def _easy_scale(places: Sequence[tuple[float, float]], slot: int) -> float:
    """The scale at which even the closest neighbours stand comfortably apart."""
    scales = [
        min(
            (slot + _EASY_CELLS) / abs(x - other_x) if x != other_x else math.inf,
            _EASY_LINES / abs(y - other_y) if y != other_y else math.inf,
        )
        for number, (x, y) in enumerate(places)
        for other_x, other_y in places[:number]
    ]
    apart = max((scale for scale in scales if scale < math.inf), default=1.0)
    xs, ys = [x for x, _ in places], [y for _, y in places]
    extent = max((max(xs) - min(xs)) / CELLS_A_LINE, max(ys) - min(ys))
    return max(apart, _EASY_HEIGHT / extent) if extent else apart


def _candidates(ground: _Ground, width: int, height: int) -> Iterator[tuple[float, Placement]]:
    """Every feasible placement of the search with its cost: distortion, uneven rounding, smallness."""
    span_x, span_y = ground.span
    fit_x = (width - ground.slot) / span_x if span_x else math.inf
    for lines, high in _heights(ground, height):
        scale_y = (high - 1) / span_y if span_y else min(fit_x, ground.easy)
        rows = _rows(ground.ys, high) if lines is None else lines
        wanted = (min(scale_y * ratio, fit_x, ground.easy * _WIDEST) for ratio in _RATIOS)
        for scale_x in sorted({_whole_steps(scale, ground) for scale in wanted}):
            drawn = _solve(ground, rows, scale_x, width)
            if drawn:
                uneven = _unevenness(ground.ys, rows, high)
                yield _cost(ground, (scale_x, scale_y), drawn[1], uneven), drawn[0]


def _whole_steps(scale: float, ground: _Ground) -> float:
    """The scale made a little smaller, so that the closest columns are a whole number of cells apart."""
    gaps = [right - left for left, right in pairwise(ground.xs)]
    if not gaps or not math.isfinite(scale):
        return scale
    step = math.floor(min(gaps) * scale + 1e-9)
    return step / min(gaps) if step > ground.slot else scale


def _heights(ground: _Ground, height: int) -> Iterator[tuple[Mapping[float, int] | None, int]]:
    """Heights to try, in lines; where little room is, also one line for each row whatever their distance."""
    most = min(height, max(1, round(ground.span[1] * ground.easy) + 1))
    if len(ground.ys) <= _FEW_ROWS:
        most = min(most, _EASY_LINES + 2)
    tried = {max(1, round(most * shrink)) for shrink in _SHRINKS} | {max(1, most - 1), max(1, most - 2)}
    for high in sorted(tried, reverse=True):
        yield None, high
    if 1 < len(ground.ys) <= height:
        yield {y: row for row, y in enumerate(ground.ys)}, len(ground.ys)


def _rows(ys: Sequence[float], high: int) -> Mapping[float, int]:
    """The line of each height, rounded so that the upper half mirrors the lower one."""
    if len(ys) == 1:
        return {ys[0]: 0}
    middle = (high - 1) / 2
    lines = {y: (y - ys[0]) / (ys[-1] - ys[0]) * (high - 1) for y in ys}
    return {y: outward(line, middle) for y, line in lines.items()}


def _unevenness(ys: Sequence[float], rows: Mapping[float, int], high: int) -> float:
    """Mean distance, in lines, of the rows from where they truly belong."""
    span = ys[-1] - ys[0]
    if not span:
        return 0.0
    return sum(abs((y - ys[0]) / span * (high - 1) - rows[y]) for y in ys) / len(ys)


def _cost(ground: _Ground, scales: tuple[float, float], shift: float, uneven: float) -> float:
    """What speaks against a placement: distortion, shifted columns, uneven rows, smallness."""
    scale_x, scale_y = scales
    distortion = abs(math.log(scale_x / scale_y)) if scale_x and scale_y else 1.0
    if min(len(ground.xs), len(ground.ys)) <= _FEW_ROWS:
        distortion *= _SHAPELESS
    small = math.log(ground.easy / min(ground.easy, scale_x)) if scale_x else 0.0
    low = math.log(ground.easy / min(ground.easy, scale_y)) if scale_y else 1.0
    return distortion + 2.0 * shift / ground.slot + 3.0 * uneven + 0.7 * (small + low)


def _solve(
    ground: _Ground, rows: Mapping[float, int], scale: float, width: int
) -> tuple[Placement, float] | None:
    """Columns for these rows at this scale, with the mean shift from the true places; None if too tight."""
    extent = _extent(ground.span[0] * scale if scale < math.inf else 0.0)
    if extent > width - ground.slot:
        return None
    start, share = (width - ground.slot - extent) // 2, extent / (ground.span[0] or 1.0)
    middle = start + extent / 2
    wanted = [start + (x - ground.xs[0]) * share for x in ground.xs]
    level = {x: number for number, x in enumerate(ground.xs)}
    lines: dict[int, list[int]] = {}
    for x, y in ground.places.values():
        lines.setdefault(rows[y], []).append(level[x])
    found = columns(
        tuple(outward(column, middle) for column in wanted),
        [sorted(line) for line in lines.values()],
        ground.slot + 1,
        width - ground.slot,
    )
    if found is None:
        return None
    shift = sum(abs(column - true) for column, true in zip(found, wanted, strict=True)) / len(found)
    cells = {label: (rows[y], found[level[x]]) for label, (x, y) in ground.places.items()}
    return trimmed(cells, ground.slot), max(0.0, shift - 0.5)


def _extent(cells: float) -> int:
    """Whole cells from the first column to the last; even ones, so that what is symmetric stays so."""
    whole = math.floor(cells + 1e-9)
    return whole if abs(cells - whole) < 1e-6 else whole - whole % 2


def trimmed(cells: Mapping[int, tuple[int, int]], slot: int) -> Placement:
    """The placement moved to the upper left corner."""
    top, left = min(row for row, _ in cells.values()), min(column for _, column in cells.values())
    moved = {label: (row - top, column - left) for label, (row, column) in cells.items()}
    return Placement(
        cells=moved,
        width=max(column for _, column in moved.values()) + slot,
        height=max(row for row, _ in moved.values()) + 1,
        slot=slot,
    )


def _round(layout: Layout, width: int, height: int, slot: int, turn: int, mirrored: bool) -> Placement | None:
    """A crowded circle as an oval on which every slot has the same room."""
    if layout.basis != "circle":
        return None
    labels = layout.labels
    way = -1 if mirrored else 1
    fractions = [way * place / len(labels) + turn % 4 / 4 for place in range(len(labels))]
    cells = oval(fractions, width, height, slot)
    return trimmed(dict(zip(labels, cells, strict=True)), slot) if cells else None


def _reading_order(layout: Layout, width: int, slot: int) -> Placement:
    """Bolts without a picture: as many in a line as there is room for, in the order of their numbers."""
    wide = max(1, min(_MOST_A_LINE, (width + 2) // (slot + 2)))
    cells = {
        label: (number // wide, (slot + 2) * (number % wide)) for number, label in enumerate(layout.labels)
    }
    return trimmed(cells, slot)
