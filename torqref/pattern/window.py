"""What part of a pattern is drawn where the room is too small: the bolt in focus and those beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from torqref.pattern.geometry import ring, vectors
from torqref.pattern.layout import Layout
from torqref.pattern.placement import Placement

# With fewer lines than this no line is given away for saying that more is above or below.
_LINES_TO_SPARE = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The part of a placement that is drawn.

    Args:
        cells: for each label that is drawn the row and first column of its slot.
        width: cells of the drawing.
        height: lines of the drawing.
        slot: cells of one slot.
        more: row, column and text of the signs that say where more bolts are.
    """

    cells: Mapping[int, tuple[int, int]]
    width: int
    height: int
    slot: int
    more: tuple[tuple[int, int, str], ...] = ()


def window(placement: Placement, width: int, height: int, focus: int, sign: str) -> Window:
    """The part of a large placement round the bolt in focus; signs at the edges say where more is.

    Args:
        placement: larger than the room.
        width: cells of the room.
        height: lines of the room.
        focus: the label that must be seen.
        sign: what says that more is there.
    """
    edge = 1 if height >= _LINES_TO_SPARE and placement.height > height else 0
    side = len(sign) + 1 if placement.width > width or (placement.height > height and not edge) else 0
    wide, high = width - 2 * side, height - 2 * edge
    row, column = placement.cells[focus]
    left = _start(column + placement.slot / 2, wide, placement.width)
    top = _start(row + 0.5, high, placement.height)
    cells = {
        label: (r - top + edge, c - left + side)
        for label, (r, c) in placement.cells.items()
        if top <= r < top + high and left <= c and c + placement.slot <= left + wide
    }
    beyond = [place for label, place in placement.cells.items() if label not in cells]
    more = tuple(_signs(beyond, (top, left), high, (height, width), cells.get(focus, (0, 0))[0], sign))
    return Window(cells=cells, width=width, height=height, slot=placement.slot, more=more)


def _start(centre: float, room: int, whole: int) -> int:
    """First row or column of a stretch round a centre that does not leave the whole."""
    return max(0, min(round(centre - room / 2), whole - room))


def _signs(
    beyond: Sequence[tuple[int, int]],
    start: tuple[int, int],
    shown: int,
    room: tuple[int, int],
    line: int,
    sign: str,
) -> Iterator[tuple[int, int, str]]:
    (top, left), high, (height, width) = start, shown, room
    middle = (width - len(sign)) // 2
    above, below = any(row < top for row, _ in beyond), any(row >= top + high for row, _ in beyond)
    within = [column for row, column in beyond if top <= row < top + high]
    no_edge = high == height
    if above and not no_edge:
        yield 0, middle, sign
    if below and not no_edge:
        yield height - 1, middle, sign
    if any(column < left for column in within) or (no_edge and above):
        yield line, 0, sign
    if any(column >= left for column in within) or (no_edge and below):
        yield line, width - len(sign), sign


def strip(layout: Layout, slot: int, width: int, focus: int, sign: str) -> Window:
    """One line for the tightest room: the bolt in focus between those before and after it in the pattern.

    Round a ring that is the next one anticlockwise and clockwise, elsewhere the line from left to right and
    row by row.
    """
    along = list(ring(layout)) or _reading(layout)
    fitting = max(1, (width - 2 * (len(sign) + 1) + 1) // (slot + 1))
    if not fitting % 2 and fitting > 1:
        fitting -= 1
    place = along.index(focus)
    if ring(layout):
        shown = [along[(place + step) % len(along)] for step in _round_focus(fitting, len(along))]
    else:
        start = max(0, min(place - fitting // 2, len(along) - fitting))
        shown = along[start : start + fitting]
    return _strip_of(shown, len(along), slot, width, sign)


def _round_focus(fitting: int, bolts: int) -> range:
    half = min(fitting, bolts) // 2
    return range(-half, min(fitting, bolts) - half)


def _strip_of(shown: Sequence[int], bolts: int, slot: int, width: int, sign: str) -> Window:
    ink = len(shown) * (slot + 1) - 1
    side = len(sign) + 1 if len(shown) < bolts and ink + 2 * (len(sign) + 1) <= width else 0
    cells = {label: (0, side + number * (slot + 1)) for number, label in enumerate(shown)}
    end = side + ink
    more = ((0, 0, sign), (0, end + 1, sign)) if side else ()
    return Window(cells=cells, width=width, height=1, slot=slot, more=more)


def _reading(layout: Layout) -> list[int]:
    places = vectors(layout)
    return sorted(places, key=lambda label: (places[label][1], places[label][0]))


@lru_cache(maxsize=512)
def beside(layout: Layout, focus: int) -> frozenset[int]:
    """The bolt in focus and the two that stand next to it: along a ring, else the nearest."""
    along = ring(layout)
    if along:
        place = along.index(focus)
        return frozenset({along[place - 1], focus, along[(place + 1) % len(along)]})
    places = vectors(layout)
    x, y = places[focus]
    nearest = sorted(places, key=lambda label: (places[label][0] - x) ** 2 + (places[label][1] - y) ** 2)
    return frozenset(nearest[:3])
