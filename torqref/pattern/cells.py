"""How many cells of a terminal a text takes: two for wide signs, none for combining ones."""

from __future__ import annotations

import unicodedata
from functools import lru_cache


def cells(text: str) -> int:
    """Cells of one line of text, by the East Asian width of Unicode (UAX #11).

    >>> cells("16 mm"), cells("\N{CJK UNIFIED IDEOGRAPH-524D}")
    (5, 2)
    """
    return len(text) if text.isascii() else _counted(text)


@lru_cache(maxsize=4096)
def _counted(text: str) -> int:
    """Counted once: a screen measures the same pieces of text with every key."""
    return sum(_cells_of(char) for char in text)


def _cells_of(char: str) -> int:
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1
