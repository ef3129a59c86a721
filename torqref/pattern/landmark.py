"""Puts the landmarks of a picture into a drawing: near their true place, or not at all."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from torqref.pattern.cells import cells
from torqref.pattern.layout import Landmark, Layout
from torqref.pattern.sheet import Sheet

# How far, in cells, a word may stand from its true place; farther it would tell a lie.
_MOST_CELLS = 10
_GAP = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Margins:
    """Lines and cells kept free round the bolts for the landmarks outside them."""

    top: int = 0
    right: int = 0
    bottom: int = 0
    left: int = 0


def margins(layout: Layout) -> tuple[Margins, ...]:
    """What to keep free, the most generous first: all sides, one side less, two less, none.

    Args:
        layout: the picture as it is drawn, turned and mirrored already.
    """
    xs = [position.x for position in layout.positions]
    ys = [position.y for position in layout.positions]
    beside = [landmark for landmark in layout.landmarks if min(ys) <= landmark.y <= max(ys)]
    top = len({landmark.y for landmark in layout.landmarks if landmark.y < min(ys)})
    bottom = len({landmark.y for landmark in layout.landmarks if landmark.y > max(ys)})
    left = max((cells(landmark.text) + _GAP for landmark in beside if landmark.x < min(xs)), default=0)
    right = max((cells(landmark.text) + _GAP for landmark in beside if landmark.x > max(xs)), default=0)
    wanted = (
        Margins(top=top, right=right, bottom=bottom, left=left),
        Margins(
            top=top, right=right if right <= left else 0, bottom=bottom, left=left if left < right else 0
        ),
        Margins(top=top, bottom=bottom),
        Margins(),
    )
    return tuple(dict.fromkeys(wanted))


def write_landmarks(
    sheet: Sheet, layout: Layout, centres: Mapping[int, tuple[int, float]], slot: int, *, ascii_only: bool
) -> None:
    """Write every landmark that finds a free place near its own.

    Args:
        sheet: the sheet with the marks on it.
        layout: the picture as it is drawn, turned and mirrored already.
        centres: for each label the row and the centre column of its slot.
        slot: cells of one slot.
        ascii_only: whether other signs are replaced by question marks.
    """
    rows = _Scale.of([(p.y, centres[p.label][0]) for p in layout.positions])
    columns = _Scale.of([(p.x, centres[p.label][1]) for p in layout.positions])
    bolts = [(p.x, *centres[p.label]) for p in layout.positions]
    for landmark in layout.landmarks:
        text = landmark.text
        if ascii_only:
            text = text.encode("ascii", "replace").decode("ascii")
        for row, column in _places(landmark, cells(text), slot, rows, columns):
            same_sides = _keeps_sides(landmark.x, row, column, bolts)
            if same_sides and sheet.is_free(row, column, cells(text), margin=1):
                sheet.write(row, column, text)
                break


def _keeps_sides(x: float, row: int, column: int, bolts: Sequence[tuple[float, int, float]]) -> bool:
    """Whether a word that begins here stands on its true side of every bolt of the line."""
    return all((column < centre) == (x < bolt) for bolt, line, centre in bolts if line == row)


def _places(
    landmark: Landmark, wide: int, slot: int, rows: _Scale, columns: _Scale
) -> Iterator[tuple[int, int]]:
    """Row and first column of every place allowed, the nearest first."""
    beside = rows.low <= landmark.y <= rows.high
    row = round(rows.at(landmark.y, outside=1))
    centre = columns.at(landmark.x, outside=slot / 2 + _GAP + wide / 2 if beside else 0)
    first = round(centre - (wide - 1) / 2)
    steps = sorted(range(-_MOST_CELLS, _MOST_CELLS + 1), key=lambda step: (abs(step), step))
    for down in (0, 1, -1):
        if down == 0 or rows.is_nearest(row + down, landmark.y):
            for step in steps:
                yield row + down, first + step


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scale:
    """From a coordinate of the picture to a row or column of the drawing, straight between the bolts."""

    knots: tuple[float, ...]
    values: tuple[float, ...]

    @classmethod
    def of(cls, pairs: Sequence[tuple[float, float]]) -> _Scale:
        found: dict[float, list[float]] = {}
        for knot, value in pairs:
            found.setdefault(knot, []).append(value)
        knots = tuple(sorted(found))
        return cls(knots=knots, values=tuple(sum(found[knot]) / len(found[knot]) for knot in knots))

    @property
    def low(self) -> float:
        return self.knots[0]

    @property
    def high(self) -> float:
        return self.knots[-1]

    def is_nearest(self, value: float, place: float) -> bool:
        """Whether a row is nearer to that of a place than to any other that holds bolts."""
        own = self.at(place, outside=1)
        return all(abs(value - own) < abs(value - other) for other in self.values if other != own)

    def at(self, place: float, *, outside: float) -> float:
        """The row or column of a place; beyond the bolts a fixed distance from the outermost one."""
        if place < self.low:
            return self.values[0] - outside
        if place > self.high:
            return self.values[-1] + outside
        after = min(bisect_right(self.knots, place), len(self.knots) - 1)
        before = max(0, after - 1)
        if after == before:
            return self.values[0]
        share = (place - self.knots[before]) / (self.knots[after] - self.knots[before])
        return self.values[before] + share * (self.values[after] - self.values[before])
