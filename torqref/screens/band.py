"""The band of the walk screen: bolt, SET and unit, in the largest block figures that fit, or as one line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from torqref.screens.digits import (
    LETTERS_LARGE,
    LETTERS_SMALL,
    SIZES,
    Size,
    figures,
    letters,
)
from torqref.screens.line import Line, Piece, cells, fitted, line, shown

_GAP = 4
_MARGIN = 1
_PLATE_MARGIN = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """What the band says.

    Args:
        bolt: the bolt or bolts, empty for none.
        verb: what is done with the number.
        number: the number to set or the degrees to turn, empty for none.
        unit: its unit.
        was: where the wrench stood before, empty where it stays.
        ascii_only: whether to keep to ASCII signs.
    """

    bolt: str = ""
    verb: str = "SET"
    number: str = ""
    unit: str = ""
    was: str = ""
    ascii_only: bool = False

    @property
    def sign(self) -> str:
        """The unit as it may be shown."""
        return shown(self.unit, ascii_only=self.ascii_only)


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A drawn block with its label: where it stands and in what tone."""

    label: str
    rows: tuple[str, ...]
    width: int
    tone: str


def one_line(band: Band, width: int) -> Line:
    """The band where there is no room for figures: everything in one line, the number last to be cut."""
    bolt = f"bolt {band.bolt}" if band.bolt else ""
    number = f"{band.verb} {_value(band)}" if band.number else ""
    was = _was(band)
    for parts in ((bolt, number, was), (bolt, number), (band.bolt, number), (band.bolt, _value(band))):
        text = "   ".join(part for part in parts if part)
        if cells(text) + _MARGIN <= width:
            break
    else:
        return line((" ".join(part for part in (band.bolt, _value(band)) if part), "strong"))
    said = [Piece(part, tone) for part, tone in zip(parts, ("bolt", "set", "strong"), strict=False) if part]
    return _spread(said)


def _spread(said: Sequence[Piece]) -> Line:
    spread: list[Piece] = [Piece(" ")]
    for piece in said:
        spread.extend((piece, Piece("   ")))
    return tuple(spread[:-1])


def _value(band: Band) -> str:
    glue = "" if band.unit == "°" else " "
    return f"{band.number}{glue}{band.sign}" if band.number else ""


def _was(band: Band) -> str:
    return f"was {shown(band.was, ascii_only=band.ascii_only)}" if band.was else ""


def size_for(band: Band, width: int, height: int) -> Size | None:
    """The largest size of figures whose blocks stand side by side in this room."""
    for size in SIZES:
        if size.height <= height and (blocks := _blocks(band, size)) and _width(blocks) <= width:
            return size
    return None


def _width(blocks: Sequence[Block]) -> int:
    return 2 * _MARGIN + sum(block.width for block in blocks) + _GAP * (len(blocks) - 1)


def _blocks(band: Band, size: Size) -> tuple[Block, ...]:
    """Bolt and number; none where a sign has no figure."""
    blocks = []
    if band.bolt:
        rows = _plate(band, size)
        wide = max((len(row) for row in rows), default=0)
        blocks.append(Block(label="BOLT", rows=rows, tone="bolt", width=max(wide, 4)))
    if band.number:
        rows = figures(band.number, size, ascii_only=band.ascii_only)
        wide = max((len(row) for row in rows), default=0)
        least = cells(f"{band.verb} {band.sign}")
        blocks.append(Block(label=band.verb, rows=rows, tone="set", width=max(wide, least)))
    return tuple(blocks) if all(block.rows for block in blocks) else ()


def _plate(band: Band, size: Size) -> tuple[str, ...]:
    """The bolt cut out of a full plate, a size smaller: nobody reads it together with the number to set."""
    for smaller in (*SIZES[SIZES.index(size) + 1 :], size):
        rows = figures(band.bolt, smaller, ascii_only=band.ascii_only)
        if rows:
            break
    else:
        return ()
    wide = max(len(row) for row in rows) + 2 * _PLATE_MARGIN
    above = (size.height - smaller.height) // 2
    ground = ("",) * above
    placed = (*ground, *(" " * _PLATE_MARGIN + row for row in rows), *ground)
    return tuple(_cut_out(row.ljust(wide), ascii_only=band.ascii_only) for row in placed)


_CUT = str.maketrans({"█": " ", " ": "█", "▀": "▄", "▄": "▀"})
_CUT_ASCII = str.maketrans({"#": " ", " ": "#"})


def _cut_out(row: str, *, ascii_only: bool) -> str:
    return row.translate(_CUT_ASCII if ascii_only else _CUT)


def figure_lines(band: Band, width: int, height: int) -> tuple[Line, ...]:
    """The label line and the figures, as large as they go; only the one line where none go."""
    size = size_for(band, width, height - 1) if band.bolt or band.number else None
    if size is None:
        return (one_line(band, width),)
    blocks = _blocks(band, size)
    unit = _unit_block(band, size, width - _width(blocks) - 2)
    return (_labels(band, blocks, width), *_rows((*blocks, *unit), size.height, width))


def _unit_block(band: Band, size: Size, room: int) -> tuple[Block, ...]:
    """The unit in block letters where there is room beside the number: in-lb and ft-lb differ by twelve."""
    for letter_size in (LETTERS_LARGE, LETTERS_SMALL):
        rows = letters(band.unit, letter_size, ascii_only=band.ascii_only) if band.number else ()
        wide = max((len(row) for row in rows), default=0)
        if rows and wide <= room and letter_size.height <= size.height:
            blank = ("",) * (size.height - len(rows))
            placed = (*rows, *blank) if band.unit == "°" else (*blank, *rows)
            return (Block(label="", rows=placed, tone="set", width=wide),)
    return ()


def _labels(band: Band, blocks: Sequence[Block], width: int) -> Line:
    said: list[Piece] = [Piece(" ")]
    for block in blocks:
        text = f"{block.label} {band.sign}".rstrip() if block.tone == "set" else block.label
        said.append(Piece(text, "strong"))
        said.append(Piece(" " * (block.width + _GAP - cells(text))))
    if band.was and band.number:
        said[-1] = Piece("   ")
        said.append(Piece(_was(band), "strong"))
    return fitted(tuple(said), width)


def _rows(blocks: Sequence[Block], height: int, width: int) -> Iterator[Line]:
    for row in range(height):
        said: list[Piece] = [Piece(" ")]
        for place, block in enumerate(blocks):
            text = block.rows[row] if row < len(block.rows) else ""
            gap = _GAP if place + 1 < len(blocks) and blocks[place + 1].label else 3
            said.append(Piece(text.ljust(block.width), block.tone))
            said.append(Piece(" " * gap))
        yield fitted(tuple(said), width)
