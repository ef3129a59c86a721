"""The band of the walk screen: bolt, SET and unit, in the largest block figures that fit, or as one line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from torqref.screens.digits import LETTER_SIZES, SIZES, Size, figures, letters
from torqref.screens.line import EMPTY, Line, Piece, cells, fitted, line, shown, width_of

_MARGIN = 1
# What is tried for a size of the number: how many sizes smaller the bolt is, then air, much of it first:
# around the bolt in its plate, and between the plate and the number.
_AIR = tuple((smaller, margin, gap) for smaller in (1, 2, 3) for margin, gap in ((2, 4), (1, 3)))
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
        longest: the longest bolt of the pattern, empty where the plate need not be as wide as that.
        word: what to do in one word, in capitals, where there is neither bolt nor number.
        ascii_only: whether to keep to ASCII signs.
    """

    bolt: str = ""
    verb: str = "SET"
    number: str = ""
    unit: str = ""
    was: str = ""
    longest: str = ""
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


class Fit(NamedTuple):
    """Figures that fit: their size, bolt and number, the unit if there is room, cells between the blocks."""

    size: Size
    blocks: tuple[Block, ...]
    unit: tuple[Block, ...]
    gap: int


def fit(band: Band, width: int, height: int) -> Fit | None:
    """The largest figures that fit with the unit in block letters; else the largest that fit."""
    return _fit(band, width, max((size.height for size in SIZES if size.height <= height), default=0))


@lru_cache(maxsize=128)
def _fit(band: Band, width: int, height: int) -> Fit | None:
    """The same for a height that figures have, so that more room for none is not looked at twice.

    The plate is as wide as the longest bolt needs, so that the number stays in its place from bolt to bolt,
    unless that costs the unit or figures of five lines.
    """
    steady = _best(band, width, height)
    if steady is not None and steady.unit and steady.size.height >= _LEAST_WITH_UNIT:
        return steady
    bare = _best(replace(band, longest=""), width, height) if band.longest else steady
    if bare is None or steady is None or (bare.unit and not steady.unit):
        return bare
    return bare if steady.size.height < _LEAST_WITH_UNIT <= bare.size.height else steady


def _best(band: Band, width: int, height: int) -> Fit | None:
    """The first size, from the largest down, that has room for the unit; else the largest of all."""
    largest: Fit | None = None
    for size in SIZES:
        fits = tuple(_fits(band, size, width, height))
        with_unit = [each for each in fits if each.unit and size.height >= _LEAST_WITH_UNIT]
        if with_unit:
            return max(with_unit, key=_legible)
        largest = largest or next(iter(fits), None)
    return largest


def _legible(found: Fit) -> tuple[int, int]:
    """Height of the figures, then of the letters of the unit."""
    return found.size.height, sum(bool(row) for block in found.unit for row in block.rows)


def _fits(band: Band, size: Size, width: int, height: int) -> Iterator[Fit]:
    """The figures of this size where they fit, with air between the blocks before with little."""
    for smaller, margin, gap in _AIR if size.height <= height else ():
        blocks = _blocks(band, size, smaller, margin)
        left = width - _width(blocks, gap)
        if blocks and left >= 0:
            yield Fit(size, blocks, _unit_block(band, size, left), gap)


def draws_unit(band: Band, width: int, height: int) -> bool:
    """Whether the unit stands beside the number in block letters, in so many lines of label and figures."""
    found = fit(band, width, height - 1)
    return found is not None and bool(found.unit)


def _width(blocks: Sequence[Block], gap: int) -> int:
    return 2 * _MARGIN + sum(block.width for block in blocks) + gap * (len(blocks) - 1)


def _blocks(band: Band, size: Size, smaller: int, margin: int) -> tuple[Block, ...]:
    """Bolt and number; none where a sign has no figure."""
    blocks = []
    if band.bolt:
        rows = _plate(band, size, smaller, margin)
        blocks.append(Block(label="BOLT", rows=rows, tone="bolt", width=max(_widest(rows), 6)))
    if band.number:
        rows = figures(band.number, size, ascii_only=band.ascii_only)
        least = cells(f"{band.verb} {band.sign}")
        blocks.append(Block(label=band.verb, rows=rows, tone="set", width=max(_widest(rows), least)))
    return tuple(blocks) if all(block.rows for block in blocks) else ()


def _widest(rows: Sequence[str]) -> int:
    return max(map(len, rows), default=0)


def _plate(band: Band, size: Size, by: int, margin: int) -> tuple[str, ...]:
    """The bolt cut out of a full plate, smaller: nobody reads it together with the number to set."""
    at = SIZES.index(size)
    steps = [other for other in SIZES[at + by :] if other.height * 2 >= size.height or by == 1]
    for smaller in (*steps, size) if by == 1 else steps:
        rows = figures(band.bolt, smaller, ascii_only=band.ascii_only)
        if rows:
            break
    else:
        return ()
    own = _widest(rows)
    wide = max(own, _widest(figures(band.longest, smaller, ascii_only=band.ascii_only)))
    left = " " * (margin + (wide - own) // 2)
    ground = ("",) * ((size.height - smaller.height) // 2)
    placed = (*ground, *(left + row for row in rows), *ground)
    full = tuple(row.ljust(wide + 2 * margin) for row in placed)
    # A figure cut out of number signs is hard to read: in ASCII it stands between bars.
    return tuple(f"|{row[1:-1]}|" if band.ascii_only else row.translate(_CUT) for row in full)


_CUT = str.maketrans({"█": " ", " ": "█", "▀": "▄", "▄": "▀"})


def figure_lines(band: Band, width: int, height: int) -> tuple[Line, ...]:
    """The label line and the figures, as large as they go; only the one line where none go."""
    if band.word:
        return _word_lines(band, width, height)
    found = fit(band, width, height - 1) if band.bolt or band.number else None
    if found is None:
        return (one_line(band, width),)
    lines = _rows((*found.blocks, *found.unit), found.size.height, width, found.gap)
    return (_labels(band, found.blocks, width, found.gap), *lines)


def _word_lines(band: Band, width: int, height: int) -> tuple[Line, ...]:
    """What to do as one word, where there is no number; nothing where it does not fit."""
    block = _letters(band.word, width - 2 * _MARGIN, height - 1, band, "strong")
    return (fitted(EMPTY, width), *_rows((block,), len(block.rows), width, 0)) if block is not None else ()


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
    smaller, margin, gap = _AIR[0]
    below = _blocks(replace(band, bolt=""), size, smaller, margin)
    room = height - size.height - 2
    if not below or _width(below, gap) > width or room < _LEAST_ABOVE:
        return ()
    bolt = replace(band, number="", unit="")
    above = fit(bolt, width, min(room, size.height)) if band.bolt else None
    if band.bolt and above is None:
        return ()
    blocks, tall = (above.blocks, above.size.height) if above is not None else ((), room)
    unit = _letters(band.unit, width - _width(blocks, gap) - gap, tall, band, "set")
    if unit is None:
        return ()
    tall = tall if blocks else len(unit.rows)
    lower = replace(unit, rows=("",) * (tall - len(unit.rows)) + unit.rows, label=" ")
    return (
        _labels(bolt, blocks, width, gap),
        *_rows((*blocks, lower), tall, width, gap),
        _labels(band, below, width, gap),
        *_rows(below, size.height, width, gap),
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


def _labels(band: Band, blocks: Sequence[Block], width: int, gap: int) -> Line:
    """What the figures are; that of the bolt is a part of its plate, and closes it above."""
    said: list[Piece] = [Piece(" ")]
    for block in blocks:
        is_number = block.tone == "set"
        text = f"{block.label} {band.sign}".rstrip() if is_number else f" {block.label}".ljust(block.width)
        closed = bool(block.rows) and len(set(block.rows[0])) == 1
        said.append(Piece(text, "strong" if is_number else "label" if closed else "plate"))
        said.append(Piece(" " * (block.width + gap - cells(text))))
    if band.was and band.number:
        said[-1] = Piece("   ")
        said.append(Piece(_was_in(band, width - width_of(tuple(said))), "strong"))
    return fitted(tuple(said), width)


def _was_in(band: Band, room: int) -> str:
    """Where the wrench stood before: never a part of it, the bare number only where the unit is the same."""
    same = band.was.removesuffix(f" {band.unit}")
    texts = (_was(band), _was(replace(band, was=same)) if same != band.was else "")
    return next((text for text in texts if cells(text) <= room), "")


def _rows(blocks: Sequence[Block], height: int, width: int, gap: int) -> Iterator[Line]:
    for row in range(height):
        said: list[Piece] = [Piece(" ")]
        for place, block in enumerate(blocks):
            text = block.rows[row] if row < len(block.rows) else ""
            is_apart = place + 1 < len(blocks) and blocks[place + 1].label
            said.append(Piece(text.ljust(block.width), block.tone))
            said.append(Piece(" " * (gap if is_apart else _UNIT_GAP)))
        yield fitted(tuple(said), width)
