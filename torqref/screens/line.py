"""A painted line: pieces of text, each with a tone; clipped, padded and wrapped by cells.

Text is only ever text here: nothing in it is markup, and what a terminal would obey is made visible.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from torqref.document.escape import escape
from torqref.pattern.cells import cells as count_cells

# What a terminal without other signs shows in their place.
_ASCII = {
    "·": ".", "°": " deg", "–": "-", "—": "-", "−": "-", "…": "...", "×": "x", "±": "+/-", "→": "->",
    "←": "<-", "↑": "^", "↓": "v", "↗": "^>", "↘": "v>", "↙": "<v", "↖": "<^", "≤": "<=", "≥": ">=",
    "Ø": "dia.", "µ": "u", "½": "1/2", "¼": "1/4", "¾": "3/4", "²": "2", "³": "3", "█": "#", "▀": "#",
    "▄": "#", "─": "-", "│": "|", "“": '"', "”": '"', "‘": "'", "’": "'",
}  # fmt: skip


# What stands where a text in a list was cut, and the least room in which it is cut in the middle.
_DOTS, _LEAST_INNER = "...", 16


class Piece(NamedTuple):
    """A run of text in one tone; the tones are rows of `torqref.screens.theme`."""

    text: str
    tone: str = "plain"


Line = tuple[Piece, ...]
EMPTY: Line = ()


@lru_cache(maxsize=4096)
def cells(text: str) -> int:
    """Cells that a text takes; the same texts come with every key."""
    return count_cells(text)


@lru_cache(maxsize=2048)
def shown(text: str, *, ascii_only: bool = False) -> str:
    """Text as it may go to the terminal: control characters visible, other signs in ASCII if asked for.

    >>> shown("24 N·m, 90°", ascii_only=True)
    '24 N.m, 90 deg'
    """
    safe = escape(text)
    if not ascii_only or safe.isascii():
        return safe
    return "".join(char if char.isascii() else _ASCII.get(char, "?") for char in safe)


def line(*parts: str | Piece | tuple[str, str]) -> Line:
    """A line of pieces; a bare text is in the plain tone."""
    return tuple(Piece(part) if isinstance(part, str) else Piece(*part) for part in parts)


def width_of(painted: Line) -> int:
    """Cells that a line takes."""
    return sum(cells(piece.text) for piece in painted)


def fitted(painted: Line, width: int, tone: str = "plain") -> Line:
    """The line clipped or padded to exactly this many cells."""
    wide = width_of(painted)
    if wide <= width:
        return (*painted, Piece(" " * (width - wide), tone)) if wide < width else painted
    return _clipped(painted, width)


def _clipped(painted: Line, width: int) -> Line:
    kept: list[Piece] = []
    left = width
    for text, tone in painted:
        wide = cells(text)
        if wide > left:
            kept.append(Piece(_cut(text, left), tone))
            return tuple(kept)
        kept.append(Piece(text, tone))
        left -= wide
    return tuple(kept)


def _cut(text: str, width: int) -> str:
    """As much of a text as fits, padded where a wide sign would stand half outside."""
    taken, used = [], 0
    for char in text:
        wide = cells(char)
        if used + wide > width:
            break
        taken.append(char)
        used += wide
    return "".join(taken) + " " * (width - used)


def sides(left: Line, right: Line, width: int) -> Line:
    """One line with a part at its right end, which stays whole; the left part is clipped."""
    taken = min(width_of(right) + (1 if right else 0), width)
    right = (Piece(" "), *right) if right else right
    return (*fitted(left, width - taken), *fitted(right, taken))


def shortened(text: str, width: int, sign: str = "…") -> str:
    """A text that fits: cut between words, never within a number, and the cut is shown.

    >>> shortened("stage 3 of 5: 22–26 N·m (16–19 ft-lb)", 30)
    'stage 3 of 5: 22–26 N·m…'
    >>> shortened("Exhaust", 4), shortened("Exhaust", 9)
    ('Exh…', 'Exhaust')
    """
    if cells(text) <= width:
        return text
    room = width - cells(sign)
    kept = text
    while cells(kept) > room and " " in kept:
        kept = kept.rpartition(" ")[0].rstrip(" ,;:(")
    return kept + sign if cells(kept) <= room else _cut(text, max(0, room)).rstrip() + sign[: max(0, width)]


def cut(text: str, width: int) -> str:
    """A text in exactly so many cells; what does not fit ends in dots.

    >>> cut("Exhaust manifold", 10), cut("Cover", 7)
    ('Exhaust...', 'Cover  ')
    """
    wide = cells(text)
    if wide <= width:
        return text + " " * (width - wide)
    kept = _cut(text, max(0, width - len(_DOTS))).rstrip() + _DOTS
    return kept + " " * (width - cells(kept))


def inner_cut(text: str, width: int) -> str:
    """The same, but cut between words in the middle: the end of a name often tells it from the next one.

    >>> inner_cut("Flared nut, 3/8 in tube", 20), inner_cut("Bracket of the other bay", 20)
    ('Flared...in tube    ', 'Bracket of the...bay')
    """
    if cells(text) <= width or width < _LEAST_INNER:
        return cut(text, width)
    room = width - len(_DOTS)
    tail = broken(text[::-1], room // 2)[0][::-1] or text[-(room // 4) :]
    left = room - cells(tail)
    front = broken(text[: -len(tail)], left)[0] or _cut(text, left)
    kept = f"{front.rstrip(' ,;:')}{_DOTS}{tail}"
    return kept + " " * (width - cells(kept))


def centred(painted: Line, width: int) -> Line:
    """The line in the middle of a width."""
    return fitted((Piece(" " * max(0, (width - width_of(painted)) // 2)), *painted), width)


def wrapped(text: str, width: int, tone: str = "plain", indent: int = 0) -> Iterator[Line]:
    """A text on as many lines as it takes, broken between words; a longer word is broken where it must."""
    if width <= indent:
        return
    here = ""
    for word in _words(text, width - indent):
        joined = f"{here} {word}" if here else word
        if cells(joined) <= width:
            here = joined
            continue
        yield (Piece(here, tone),)
        here = " " * indent + word
    if here:
        yield (Piece(here, tone),)


def broken(text: str, width: int) -> tuple[str, str]:
    """The words that fit on a line, and the rest.

    >>> broken("bolt 4: click it again", 16)
    ('bolt 4: click it', 'again')
    """
    words = text.split(" ")
    count = len(words)
    while count and cells(" ".join(words[:count])) > width:
        count -= 1
    return " ".join(words[:count]), " ".join(words[count:])


def _words(text: str, width: int) -> Iterator[str]:
    for word in text.split():
        rest = word
        while cells(rest) > width:
            head = _cut(rest, width).rstrip()
            if not head:
                return
            yield head
            rest = rest[len(head) :]
        yield rest


def text_of(painted: Line) -> str:
    """The bare text of a line, without the blanks at its end."""
    return "".join(piece.text for piece in painted).rstrip()


def block(lines: Iterable[Line], width: int, height: int) -> tuple[Line, ...]:
    """Exactly this many lines of exactly this width."""
    kept = [fitted(painted, width) for _, painted in zip(range(height), lines, strict=False)]
    return (*kept, *((Piece(" " * width),) for _ in range(height - len(kept))))
