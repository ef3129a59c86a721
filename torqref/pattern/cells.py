"""How many cells of a terminal a text takes: two for wide signs, none for combining ones."""

from __future__ import annotations

import unicodedata


def cells(text: str) -> int:
    """Cells of one line of text, by the East Asian width of Unicode (UAX #11).

    >>> cells("16 mm"), cells("\N{CJK UNIFIED IDEOGRAPH-524D}")
    (5, 2)
    """
    if text.isascii():
        return len(text)
    return sum(_cells_of(char) for char in text)


def _cells_of(char: str) -> int:
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1
