"""Cuts a folded text into numbers, words and signs, each with its place."""

from __future__ import annotations

import re
from typing import NamedTuple

from torqref.quantity.folding import THIN

# Each branch takes one run of characters and none can match the same run in two ways: time is linear.
_TOKEN = re.compile(
    rf"(?P<fraction>(?<![\d/⁄.,])\d+[/⁄](?!0+(?!\d))\d+(?![\d/⁄.,]\d|\d|[/⁄]))"
    rf"|(?P<number>\d{{1,3}}(?:[{THIN}']\d{{3}})+(?!\d)(?:[.,]\d+)?|\d+(?:[.,]\d+)*|(?<![\w.])\.\d+)"
    r"|(?P<word>[^\W\d_²³¹⁰-⁹]+)"
    r"|(?P<sign>\.{2,3}|\+ ?/ ?-|\+-|\+ -(?= )|-+>|=>|<=|>=|=<|''|[^\s])"
)
_SAME_SIGN = {"+/-": "±", "+-": "±", "->": "→", "=>": "→", "<=": "≤", "=<": "≤", ">=": "≥", "''": '"'}


class Token(NamedTuple):
    """One run of characters: what it is, how it is compared, and where it stands.

    Args:
        kind: number, fraction, word or sign; `end` closes every text.
        text: small letters for a word, one name for each sign.
        start: index of its first character in the folded text.
        end: index after its last character.
        gap: whether a blank stands before it.
    """

    kind: str
    text: str
    start: int
    end: int
    gap: bool


def tokens(text: str) -> tuple[Token, ...]:
    """The tokens of a folded text, with an end token after the last.

    >>> [token.text for token in tokens("20..25 Nm +/- 5")]
    ['20', '..', '25', 'nm', '±', '5', '']
    """
    found: list[Token] = []
    end = 0
    for match in _TOKEN.finditer(text):
        kind = match.lastgroup or "sign"
        found.append(Token(kind, _compared(kind, match[0]), match.start(), match.end(), match.start() > end))
        end = match.end()
    found.append(Token("end", "", len(text), len(text), gap=True))
    return tuple(found)


def _compared(kind: str, text: str) -> str:
    if kind == "word":
        return text.casefold()
    if kind == "sign":
        sign = "->" if text.endswith("->") else text.replace(" ", "")
        return _SAME_SIGN.get(sign, sign)
    return text
