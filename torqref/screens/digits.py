"""Block figures of our own: the bolt, the number to set and its unit, as large as the room allows.

A figure is drawn on a grid of five rows; a size says how many cells each row and column of the grid takes.
Figures are told apart by form, not by fineness: 1 has a foot, 7 a slope and no foot, 4 is open, 0 has round
corners and 8 a waist, so that a blur at two metres still reads.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

# Five rows; `#` is ink. Columns: the outer and inner half of a stem, the middle twice, and back again. A
# round corner leaves out the outer half of a stem, so that all strokes stay joined.
_GRIDS = {
    "0": (".####.", "##..##", "##..##", "##..##", ".####."),
    "1": (".###..", "####..", "..##..", "..##..", "######"),
    "2": ("#####.", "....##", ".####.", "##....", "######"),
    "3": ("#####.", "....##", "..###.", "....##", "#####."),
    "4": ("##..##", "##..##", "######", "....##", "....##"),
    "5": ("######", "##....", "#####.", "....##", "#####."),
    "6": (".####.", "##....", "#####.", "##..##", ".####."),
    "7": ("######", "....##", "...##.", "..##..", "..##.."),
    "8": (".####.", "##..##", ".####.", "##..##", ".####."),
    "9": (".####.", "##..##", ".#####", "....##", ".####."),
    "+": ("......", "..##..", "######", "..##..", "......"),
    "-": ("......", "......", "######", "......", "......"),
    ".": ("..", "..", "..", "..", "##"),
    ",": ("..", "..", "..", "..", "##"),
    " ": ("..", "..", "..", "..", ".."),
}
FIGURES: Mapping[str, tuple[str, ...]] = MappingProxyType(_GRIDS)

# Three lines are too few for that grid: six half lines, five cells wide, and forms that differ in more than
# one stroke.
_SMALL_GRIDS = {
    "0": (".###.", "#...#", "#...#", "#...#", "#...#", ".###."),
    "1": ("..#..", ".##..", "..#..", "..#..", "..#..", ".###."),
    "2": (".###.", "#...#", "...#.", "..#..", ".#...", "#####"),
    "3": ("####.", "....#", "..##.", "....#", "#...#", ".###."),
    "4": ("...#.", "..##.", ".#.#.", "#####", "...#.", "...#."),
    "5": ("#####", "#....", "####.", "....#", "#...#", ".###."),
    "6": ("..##.", ".#...", "####.", "#...#", "#...#", ".###."),
    "7": ("#####", "....#", "...#.", "..#..", "..#..", "..#.."),
    "8": (".###.", "#...#", ".###.", "#...#", "#...#", ".###."),
    "9": (".###.", "#...#", "#...#", ".####", "...#.", ".##.."),
    "+": (".....", "..#..", "#####", "..#..", ".....", "....."),
    "-": (".....", ".....", "#####", ".....", ".....", "....."),
    ".": (".", ".", ".", ".", ".", "#"),
    ",": (".", ".", ".", ".", ".", "#"),
    " ": (".", ".", ".", ".", ".", "."),
}
SMALL_FIGURES: Mapping[str, tuple[str, ...]] = MappingProxyType(_SMALL_GRIDS)

# The letters of units, and of the words that must be read from afar: five rows, one column of the grid a
# stroke. On six half lines the fourth row is drawn twice: there a stem goes on in almost every letter.
_LETTER_GRIDS = {
    "A": (".##.", "#..#", "####", "#..#", "#..#"),
    "B": ("###.", "#..#", "###.", "#..#", "###."),
    "C": (".###", "#...", "#...", "#...", ".###"),
    "D": ("###.", "#..#", "#..#", "#..#", "###."),
    "E": ("####", "#...", "###.", "#...", "####"),
    "F": ("####", "#...", "###.", "#...", "#..."),
    "G": (".###", "#...", "#.##", "#..#", ".###"),
    "H": ("#..#", "#..#", "####", "#..#", "#..#"),
    "I": ("###", ".#.", ".#.", ".#.", "###"),
    "J": ("..##", "...#", "...#", "#..#", ".##."),
    "K": ("#..#", "#.#.", "##..", "#.#.", "#..#"),
    "L": ("#...", "#...", "#...", "#...", "####"),
    "M": ("#...#", "##.##", "#.#.#", "#...#", "#...#"),
    "N": ("#...#", "##..#", "#.#.#", "#..##", "#...#"),
    "O": (".##.", "#..#", "#..#", "#..#", ".##."),
    "P": ("###.", "#..#", "###.", "#...", "#..."),
    "Q": (".##.", "#..#", "#..#", "#.#.", ".#.#"),
    "R": ("###.", "#..#", "###.", "#.#.", "#..#"),
    "S": (".###", "#...", ".##.", "...#", "###."),
    "T": ("#####", "..#..", "..#..", "..#..", "..#.."),
    "U": ("#..#", "#..#", "#..#", "#..#", ".##."),
    "V": ("#...#", "#...#", "#...#", ".#.#.", "..#.."),
    "W": ("#...#", "#...#", "#.#.#", "##.##", "#...#"),
    "X": ("#...#", ".#.#.", "..#..", ".#.#.", "#...#"),
    "Y": ("#...#", ".#.#.", "..#..", "..#..", "..#.."),
    "Z": ("#####", "...#.", "..#..", ".#...", "#####"),
    "a": ("....", ".##.", "#..#", "#..#", ".###"),
    "b": ("#...", "#...", "###.", "#..#", "###."),
    "c": ("...", ".##", "#..", "#..", ".##"),
    "d": ("...#", "...#", ".###", "#..#", ".###"),
    "e": ("....", ".##.", "####", "#...", ".###"),
    "f": (".##", "#..", "###", "#..", "#.."),
    "g": (".###", "#..#", ".###", "...#", "###."),
    "h": ("#...", "#...", "###.", "#..#", "#..#"),
    "i": ("#", ".", "#", "#", "#"),
    "k": ("#...", "#..#", "###.", "#.#.", "#..#"),
    "l": ("#", "#", "#", "#", "#"),
    "m": (".....", "##.#.", "#.#.#", "#.#.#", "#.#.#"),
    "n": ("....", "###.", "#..#", "#..#", "#..#"),
    "o": ("....", ".##.", "#..#", "#..#", ".##."),
    "r": ("...", "#.#", "##.", "#..", "#.."),
    "s": ("....", ".###", "##..", "..##", "###."),
    "y": ("#..#", "#..#", ".###", "...#", "###."),
    "t": ("#..", "###", "#..", "#..", ".##"),
    "z": ("....", "####", "..#.", ".#..", "####"),
    "·": (".", ".", "#", ".", "."),
    "-": ("...", "...", "###", "...", "..."),
    "°": ("###", "#.#", "###", "...", "..."),
    "<": ("..#", ".#.", "#..", ".#.", "..#"),
    ">": ("#..", ".#.", "..#", ".#.", "#.."),
    " ": ("..", "..", "..", "..", ".."),
}
LETTERS: Mapping[str, tuple[str, ...]] = MappingProxyType(_LETTER_GRIDS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How large the grid is drawn.

    Args:
        rows: height of each row of the grid, in lines, or in half lines where `halves`.
        columns: width in cells of the outer and inner half of a stem, and of one middle column.
        gap: cells between two figures.
        halves: drawn with half blocks, two rows of the grid a line.
    """

    rows: tuple[int, ...]
    columns: tuple[int, int, int]
    gap: int
    halves: bool = False

    @property
    def height(self) -> int:
        """Lines of a figure."""
        return sum(self.rows) // 2 if self.halves else sum(self.rows)


# The largest first. Strokes across are half as high as stems are wide: a cell is twice as high as wide.
SIZES = (
    Size(rows=(3, 4, 3, 4, 3), columns=(3, 3, 4), gap=4),
    Size(rows=(2, 4, 2, 5, 2), columns=(2, 3, 4), gap=4),
    Size(rows=(2, 3, 2, 4, 2), columns=(2, 2, 3), gap=3),
    Size(rows=(2, 2, 2, 3, 2), columns=(2, 2, 2), gap=3),
    Size(rows=(1, 3, 1, 3, 1), columns=(1, 2, 2), gap=2),
    Size(rows=(1, 2, 1, 2, 1), columns=(1, 2, 1), gap=2),
    Size(rows=(1, 1, 1, 1, 1), columns=(1, 1, 1), gap=2),
    Size(rows=(1, 1, 1, 1, 1, 1), columns=(0, 1, 1), gap=1, halves=True),
)
LETTERS_HUGE = Size(rows=(2, 2, 2, 2, 2), columns=(2, 2, 4), gap=4)
LETTERS_LARGE = Size(rows=(1, 1, 1, 1, 1), columns=(1, 1, 2), gap=2)
LETTERS_SMALL = Size(rows=(1, 1, 1, 2, 1), columns=(0, 1, 1), gap=1, halves=True)
LETTER_SIZES = (LETTERS_HUGE, LETTERS_LARGE, LETTERS_SMALL)


@lru_cache(maxsize=256)
def figures(text: str, size: Size, *, ascii_only: bool = False) -> tuple[str, ...]:
    r"""A number in block figures, a line of text a row; empty where a sign has no figure.

    >>> print("\n".join(figures("24", SIZES[-2], ascii_only=True)))
    #####   ##  ##
        ##  ##  ##
     ####   ######
    ##          ##
    ######      ##
    """
    return _drawn(text, SMALL_FIGURES if size.halves else FIGURES, size, ascii_only)


@lru_cache(maxsize=64)
def letters(text: str, size: Size, *, ascii_only: bool = False) -> tuple[str, ...]:
    """The symbol of a unit, or a word in capitals, in block letters; empty where a sign has none."""
    return _drawn(text, LETTERS, size, ascii_only)


def _drawn(text: str, grids: Mapping[str, tuple[str, ...]], size: Size, ascii_only: bool) -> tuple[str, ...]:
    if any(char not in grids for char in text) or (size.halves and ascii_only):
        return ()
    gap = "." * size.gap
    joined = [gap.join(_row(grids[char][row], size) for char in text) for row in range(len(size.rows))]
    lines = [row for row, high in zip(joined, size.rows, strict=True) for _ in range(high)]
    ink = "#" if ascii_only else "█"
    if not size.halves:
        return tuple(row.replace("#", ink).replace(".", " ").rstrip() for row in lines)
    return halved(lines)


def _row(grid: str, size: Size) -> str:
    """One row of a grid with its columns drawn out: six of a figure, two of a point, others of a letter."""
    outer, inner, middle = size.columns
    known = {6: (outer, inner, middle, middle, inner, outer), 2: (outer, inner)}
    widths = known.get(len(grid), (outer + inner,) * len(grid))
    return "".join(char * wide for char, wide in zip(grid, widths, strict=True))


_HALVES = {("#", "#"): "█", ("#", "."): "▀", (".", "#"): "▄", (".", "."): " "}


def halved(rows: Sequence[str]) -> tuple[str, ...]:
    """Rows of ink and blanks as half blocks, two rows a line."""
    pairs = zip(rows[::2], rows[1::2], strict=True)
    return tuple(
        "".join(_HALVES[pair] for pair in zip(upper, lower, strict=True)).rstrip() for upper, lower in pairs
    )
