"""The band of the walk screen: bolt, SET and unit, in the largest block figures that fit, or as one line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from torqref.screens.digits import LETTER_SIZES, SIZES, Size, figures, letters
from torqref.screens.line import EMPTY, Line, Piece, cells, fitted, line, shown

_GAP = 4
_MARGIN = 1
_PLATE_MARGIN = 2
# Cells between a number and its unit.
_UNIT_GAP = 3
# The unit is read from as far as the number: a factor of twelve hangs on it. Figures of so many lines with
# their unit come before larger ones without, and letters are at least so many hundredths of their height.
_LEAST_WITH_UNIT, _LEAST_LETTERS = 5, 28
# Lines that the bolt takes at least where it stands above the number.
_LEAST_ABOVE = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """What the band says.

    Args:
        bolt: the bolt or bolts, empty for none.
        verb: what is done with the number.
        number: the number to set or the degrees to turn, empty for none.
        unit: its unit.
        was: where the wrench stood before, empty where it stays.
        word: what to do in one word, in capitals, where there is neither bolt nor number.
        ascii_only: whether to keep to ASCII signs.
    """

    bolt: str = ""
    verb: str = "SET"
    number: str = ""
    unit: str = ""
    was: str = ""
    word: str = ""
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
    """The largest size of figures that fits with the unit in block letters; else the largest that fits."""
    fitting = [
        size
        for size in SIZES
        if size.height <= height and (blocks := _blocks(band, size)) and _width(blocks) <= width
    ]
    for size in fitting:
        if size.height >= _LEAST_WITH_UNIT and _unit_block(band, size, width - _width(_blocks(band, size))):
            return size
    return fitting[0] if fitting else None


def draws_unit(band: Band, width: int, height: int) -> bool:
    """Whether the unit stands beside the number in block letters, in so many lines of label and figures."""
    size = size_for(band, width, height - 1)
    return size is not None and bool(_unit_block(band, size, width - _width(_blocks(band, size))))


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
    if band.word:
        return _word_lines(band, width, height)
    size = size_for(band, width, height - 1) if band.bolt or band.number else None
    if size is None:
        return (one_line(band, width),)
    blocks = _blocks(band, size)
    unit = _unit_block(band, size, width - _width(blocks))
    return (_labels(band, blocks, width), *_rows((*blocks, *unit), size.height, width))


def _word_lines(band: Band, width: int, height: int) -> tuple[Line, ...]:
    """What to do as one word, where there is no number; nothing where it does not fit."""
    block = _letters(band.word, width - 2 * _MARGIN, height - 1, band, "strong")
    return (fitted(EMPTY, width), *_rows((block,), len(block.rows), width)) if block is not None else ()


def big_lines(band: Band, width: int, height: int) -> tuple[Line, ...]:
    """Nothing but this: bolt and number beside or above each other, whichever makes the number larger.

    Where they stand above each other the unit is always drawn, and so that way is taken, too, where beside
    each other there is no room for it.
    """
    beside = figure_lines(band, width, height)
    if not band.number or band.word or band.unit == "°":
        return beside
    least = len(beside) if draws_unit(band, width, height) else _LEAST_WITH_UNIT
    stacked = (_stacked(band, size, width, height) for size in SIZES if size.height >= least)
    return next((lines for lines in stacked if lines), beside)


def _stacked(band: Band, size: Size, width: int, height: int) -> tuple[Line, ...]:
    """The bolt and the unit above, the number of this size below; nothing where they do not fit."""
    number, bolt = replace(band, bolt="", was=""), replace(band, number="", unit="")
    below = _blocks(number, size)
    room = height - size.height - 2
    if not below or _width(below) > width or room < _LEAST_ABOVE:
        return ()
    above = size_for(bolt, width, min(room, size.height)) if band.bolt else None
    if band.bolt and above is None:
        return ()
    blocks = _blocks(bolt, above) if above is not None else ()
    left = width - (_width(blocks) + _GAP if blocks else 2 * _MARGIN)
    unit = _letters(band.unit, left, above.height if above is not None else room, band, "set")
    if unit is None:
        return ()
    tall = above.height if above is not None else len(unit.rows)
    lower = replace(unit, rows=("",) * (tall - len(unit.rows)) + unit.rows, label=" ")
    return (
        _labels(bolt, blocks, width),
        *_rows((*blocks, lower), tall, width),
        _labels(band, below, width),
        *_rows(below, size.height, width),
    )


def _letters(text: str, width: int, height: int, band: Band, tone: str) -> Block | None:
    """A word or a unit in the largest block letters that fit."""
    for size in LETTER_SIZES:
        rows = letters(text, size, ascii_only=band.ascii_only)
        wide = max((len(row) for row in rows), default=0)
        if rows and wide <= width and len(rows) <= height:
            return Block(label="", rows=rows, tone=tone, width=wide)
    return None


def _unit_block(band: Band, size: Size, room: int) -> tuple[Block, ...]:
    """The unit in block letters beside the number, if there is room for letters of a fair height."""
    if not band.number:
        return ()
    block = _letters(band.unit, room - _UNIT_GAP, size.height, band, "set")
    if block is None or len(block.rows) * 100 < size.height * _LEAST_LETTERS:
        return ()
    blank = ("",) * (size.height - len(block.rows))
    return (replace(block, rows=(*block.rows, *blank) if band.unit == "°" else (*blank, *block.rows)),)


def _labels(band: Band, blocks: Sequence[Block], width: int) -> Line:
    """What the figures are; that of the bolt is a part of its plate, and closes it above."""
    said: list[Piece] = [Piece(" ")]
    for block in blocks:
        is_number = block.tone == "set"
        text = f"{block.label} {band.sign}".rstrip() if is_number else block.label.ljust(block.width)
        said.append(Piece(text, "strong" if is_number else "plate"))
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
            gap = _GAP if place + 1 < len(blocks) and blocks[place + 1].label else _UNIT_GAP
            said.append(Piece(text.ljust(block.width), block.tone))
            said.append(Piece(" " * gap))
        yield fitted(tuple(said), width)
