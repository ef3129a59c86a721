"""A drawing in text of wrench and adapter: the angle, and from where to where L and E are measured.

Not to scale: the handle is as long as the room allows, and pieces keep their lengths to each other only as
far as that can be drawn. The hand is at the left; straight out is to the right.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from torqref.quantity.conversion import convert
from torqref.wrench.adapter import Part, Piece, crowfeet

GRIP, SQUARE, JOINT, FASTENER = "(===|", "[+]", "o", "(O)"
_CELLS_A_LINE = 2
_SHORTEST, _LONGEST = 6.0, 12.0
_MOST_PIECES = 3
_STRAIGHT = 10  # degrees: within them a piece is drawn along the handle
_STEEP = 2.2  # columns a row
_LEAST_HANDLE, _MOST_HANDLE = 14, 30


@dataclass(slots=True)
class _Sheet:
    """Cells that are written on: the row of the handle is 0, rows above it are negative."""

    cells: dict[tuple[int, int], str] = field(default_factory=dict)

    def write(self, row: int, column: int, text: str) -> None:
        """Text from a column on; what stands there already stays."""
        for place, char in enumerate(text):
            if char != " " and column + place >= 0:
                self.cells.setdefault((row, column + place), char)

    def is_free(self, row: int, column: int, text: str) -> bool:
        """Whether a text would touch nothing."""
        return all((row, column + place) not in self.cells for place in range(-1, len(text) + 1))

    def lines(self) -> Iterator[str]:
        """Rows from the top."""
        rows = [row for row, _ in self.cells]
        for row in range(min(rows), max(rows) + 1):
            columns = {column: char for (line, column), char in self.cells.items() if line == row}
            yield "".join(columns.get(column, " ") for column in range(max(columns, default=-1) + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """A piece with its ends in cells: column and row from the drive square."""

    piece: Piece
    start: tuple[int, int]
    end: tuple[int, int]

    @property
    def middle(self) -> tuple[int, int]:
        """The cell halfway."""
        return (self.start[0] + self.end[0]) // 2, (self.start[1] + self.end[1]) // 2


def sketch(parts: tuple[Part, ...], *, length: str = "", width: int = 60, height: int = 9) -> tuple[str, ...]:
    r"""Wrench and pieces as lines of text, each piece at its angle, L and E between the points they join.

    Args:
        parts: what is on the drive square; only the first three pieces with an offset are drawn.
        length: the effective length as written, empty where it is not known.
        width: cells there are; 40 or more for a whole picture.
        height: lines there are.

    Returns:
        At most so many lines, ASCII apart from the degree sign; none where nothing with an offset is on the
        wrench or the room is too small to show it.

    >>> from torqref.wrench.fitting import read_pieces
    >>> for line in sketch(read_pieces("38 mm"), length="300 mm"):
    ...     print(line)
    (===|===========================[+]-----------(O)
        |<-------- L 300 mm -------->|<- E 38 mm ->|
    """
    pieces = _placed(crowfeet(parts)[:_MOST_PIECES], height)
    if not pieces:
        return ()
    left = min(0, *(drawn.end[0] for drawn in pieces))
    right = max(0, *(drawn.end[0] for drawn in pieces))
    handle = min(_MOST_HANDLE, width - len(GRIP) - right - 14)
    handle = max(handle, _LEAST_HANDLE, -left - len(GRIP) + 4)
    sheet, square = _Sheet(), len(GRIP) + handle + 1
    _draw_wrench(sheet, square, pieces)
    _draw_measures(sheet, square, pieces, length, width)
    lines = tuple(sheet.lines())
    fits = len(lines) <= height and max(len(line) for line in lines) <= width
    return lines if fits else ()


def _placed(pieces: tuple[Piece, ...], height: int) -> tuple[_Drawn, ...]:
    """Each piece from the end of the one before, squeezed into what can be drawn."""
    sizes = [float(convert(piece.offset.value, piece.offset.unit, "mm")) for piece in pieces]
    longest = max(sizes, default=0.0)
    most = min(_LONGEST, max(_SHORTEST, (height - 3) * _CELLS_A_LINE / max(1, len(pieces))))
    x = y = 0.0
    placed: list[_Drawn] = []
    for piece, size in zip(pieces, sizes, strict=True):
        reach = max(_SHORTEST, most * size / longest) if longest else _SHORTEST
        start, (x, y) = (round(x), round(y)), _reached(piece, reach, x, y)
        placed.append(_Drawn(piece=piece, start=start, end=(round(x), round(y))))
    return tuple(placed)


def _reached(piece: Piece, reach: float, x: float, y: float) -> tuple[float, float]:
    """The far end of a piece; one folded back lies over the handle and is drawn a row above it."""
    angle = float(piece.angle)
    if angle <= _STRAIGHT:
        return x + reach + 2, y
    if angle >= 180 - _STRAIGHT:
        return x - reach - 2, min(y, -2)
    turn = math.radians(angle)
    return x + reach * math.cos(turn), y - reach * math.sin(turn) / _CELLS_A_LINE


def _draw_wrench(sheet: _Sheet, square: int, pieces: tuple[_Drawn, ...]) -> None:
    sheet.write(0, 0, GRIP)
    sheet.write(0, square - 1, SQUARE)
    sheet.write(0, len(GRIP), "=" * (square - 1 - len(GRIP)))
    column, row = pieces[-1].end
    sheet.write(row, square + column - 1, FASTENER)
    for drawn in pieces[:-1]:
        sheet.write(drawn.end[1], square + drawn.end[0], JOINT)
    for drawn in pieces:
        for (step_row, step_column), char in _stroke(drawn):
            sheet.write(step_row, square + step_column, char)


def _stroke(drawn: _Drawn) -> Iterator[tuple[tuple[int, int], str]]:
    """The cells between the ends of a piece, without the ends."""
    (x, y), (far_x, far_y) = drawn.start, drawn.end
    if float(drawn.piece.angle) >= 180 - _STRAIGHT and far_y < y:
        yield from (((row, x), "|") for row in range(y - 1, far_y, -1))
        yield from (((far_y, column), "-") for column in range(x, far_x, -1))
        return
    # A steep slope is one sign a row.
    steep = abs(far_x - x) <= _STEEP * abs(far_y - y)
    steps = abs(far_y - y) if steep else abs(far_x - x)
    cells = [
        (round(y + (far_y - y) * step / steps), round(x + (far_x - x) * step / steps))
        for step in range(steps + 1)
    ]
    for cell, following in pairwise(cells[1:]):
        # A flat slope runs along its row and climbs where the row ends.
        yield cell, _slope(far_x - x, far_y - y if steep else following[0] - cell[0])


def _slope(across: int, down: int) -> str:
    if down == 0:
        return "-"
    if across == 0:
        return "|"
    return "/" if (across > 0) != (down > 0) else "\\"


def _draw_measures(sheet: _Sheet, square: int, pieces: tuple[_Drawn, ...], length: str, width: int) -> None:
    """L below the handle; E below a straight piece, else beside it, with the angle from straight out."""
    _span(sheet, 1, len(GRIP) - 1, square, f"L {length}".strip())
    for number, drawn in enumerate(pieces, start=1):
        name = "E" if len(pieces) == 1 else f"E{number}"
        name = f"{name} {drawn.piece.offset.text}".strip()
        if drawn.start[1] == drawn.end[1] == 0 and drawn.end[0] > drawn.start[0]:
            _span(sheet, 1, square + drawn.start[0], square + drawn.end[0], name)
        else:
            _beside(sheet, square, drawn, name, width)
    if pieces[0].end[1]:
        sheet.write(0, square + 2, " . . . 0°")


def _span(sheet: _Sheet, row: int, first: int, last: int, name: str) -> None:
    """`|<--- L --->|` between two columns."""
    room = last - first - 1
    text = f" {name} "
    if len(text) + 2 > room:
        text = f" {name.split()[0]} " if len(name.split()[0]) + 4 <= room else ""
    side = max(0, room - len(text) - 2)
    dashes = "-" * (side // 2), "-" * (side - side // 2)
    sheet.write(row, first, f"|<{dashes[0]}{text}{dashes[1]}>|")


def _beside(sheet: _Sheet, square: int, drawn: _Drawn, name: str, width: int) -> None:
    """Name and angle of a slanting piece where there is room for them, else the bare name."""
    column, row = drawn.middle
    angle = float(drawn.piece.angle)
    if drawn.end[1] == drawn.start[1] or angle >= 180 - _STRAIGHT:
        row = drawn.end[1] - 1
    for text in (f"{name}, {angle:g}°", name, name.split()[0]):
        for place in (square + column + 3, square + column - len(text) - 2):
            for line in (row, row - 1, row + 1):
                if 0 <= place <= width - len(text) and sheet.is_free(line, place, text):
                    sheet.write(line, place, text)
                    return
