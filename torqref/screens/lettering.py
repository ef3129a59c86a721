"""Words in block letters of our own, three lines high, so that a step reads from afar where there is room.

Letters are those of the units (`digits.py`), on six half lines, most of them four cells wide. Words stand in
capitals; what follows a number stays as it is written, since mm and MM are not the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from types import MappingProxyType

from torqref.screens.digits import LETTERS, LETTERS_SMALL, SMALL_FIGURES, halved

HEIGHT = 3
_GAP, _BLANK = 1, 2
# What stands between words is finer than five rows can draw.
_SIGNS = {
    ",": ("..", "..", "..", "..", ".#", "#."),
    ":": (".", "#", ".", ".", "#", "."),
    ";": ("..", ".#", "..", "..", ".#", "#."),
    "-": ("...", "...", "###", "...", "...", "..."),
    "–": ("....", "....", "####", "....", "....", "...."),
    "/": ("...#", "...#", "..#.", ".#..", "#...", "#..."),
    "(": (".#", "#.", "#.", "#.", "#.", ".#"),
    ")": ("#.", ".#", ".#", ".#", ".#", "#."),
    "=": ("....", "####", "....", "####", "....", "...."),
    "<": ("...#", "..#.", ".#..", "..#.", "...#", "...."),
    ">": ("#...", ".#..", "..#.", ".#..", "#...", "...."),
    "≤": ("..#", ".#.", "#..", ".#.", "..#", "###"),
    "≥": ("#..", ".#.", "..#", ".#.", "#..", "###"),
    "'": ("#", "#", ".", ".", ".", "."),
    "!": ("#", "#", "#", "#", ".", "#"),
    "?": (".##.", "#..#", "..#.", ".#..", "....", ".#.."),
    "%": ("#..#", "...#", "..#.", ".#..", "#...", "#..#"),
}
# The one alphabet has five rows, so that a unit beside a number can be drawn larger, too.
_TWICE = LETTERS_SMALL.rows
_LETTERS = {
    sign: tuple(row for row, high in zip(rows, _TWICE, strict=True) for _ in range(high))
    for sign, rows in LETTERS.items()
}
GLYPHS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {**_LETTERS, **SMALL_FIGURES, **_SIGNS, " ": ("." * _BLANK,) * (2 * HEIGHT)}
)


def capitals(text: str) -> str:
    """Words in capitals; a word behind a number may be a unit and stays as it is.

    >>> capitals("oil 6.2 l filled, gap 0.05 mm")
    'OIL 6.2 l FILLED, GAP 0.05 mm'
    """
    said: list[str] = []
    for word in text.split():
        is_unit = bool(said) and said[-1][-1:].isdigit() and all(char in GLYPHS for char in word)
        said.append(word if is_unit else word.upper())
    return " ".join(said)


@lru_cache(maxsize=64)
def lettered(text: str, width: int) -> tuple[str, ...]:
    """A text in block letters on as many lines as it takes, a blank line between; empty where it cannot be.

    Args:
        text: what is to be drawn, as it is to be drawn.
        width: cells there are.
    """
    rows: list[str] = []
    for words in _broken(text, width):
        if any(char not in GLYPHS for char in words) or _width(words) > width:
            return ()
        rows.extend(("", *_drawn(words)) if rows else _drawn(words))
    return tuple(rows)


def _broken(text: str, width: int) -> Iterator[str]:
    """The words, as many on a line as fit."""
    here = ""
    for word in text.split():
        joined = f"{here} {word}" if here else word
        if here and _width(joined) > width:
            yield here
            joined = word
        here = joined
    if here:
        yield here


def _width(words: str) -> int:
    return sum(len(GLYPHS[char][0]) + _GAP for char in words if char in GLYPHS) - _GAP


def _drawn(words: str) -> tuple[str, ...]:
    return halved([("." * _GAP).join(GLYPHS[char][row] for char in words) for row in range(2 * HEIGHT)])
