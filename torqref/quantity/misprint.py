"""Letters for digits and slips in the name of a unit: what was probably meant, for a refusal to offer."""

from __future__ import annotations

import re
from typing import NamedTuple

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.quantity.bounds import Bounds
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import spelled, symbols
from torqref.quantity.units import BY_SYMBOL, TORQUE_SYMBOLS

# The letter O beside a digit is a nought, and a small L or a capital I is a one.
_NOUGHT = re.compile(r"(?<=[\d.,])[oO]+(?![a-zA-Z])|(?<![a-zA-Z])[oO](?=[\d.,])")
_ONE = re.compile(r"(?<=[\d.,])[lI|](?![a-zA-Z])|(?<![a-zA-Z])[lI|](?=[\d.,])")
# Capitals that are typed or scanned for the digit they look like, only behind a digit.
_DIGITS = tuple(
    (re.compile(rf"(?<=[\d.,]){letter}(?![a-zA-Z])"), digit) for letter, digit in ("S5", "Z2", "B8")
)
# Small letters of other scripts that look like ours.
_LOOKS_LIKE = str.maketrans("νηιοτβмтеовіӏ", "nhiotbmteobil")
_JOINERS = frozenset("-·*×./ ")
_LONGEST = 24
_MOST_WORDS = 3
# How like a unit letters must be to be taken for it: one slip in four letters is, two in five are not.
_CLOSE = 0.7
# How many letters may be missing or too many.
_SLIPPED = 2


class Word(NamedTuple):
    """A unit that is misspelt.

    Args:
        meant: the symbol it is nearest to.
        end: index in the folded text after its last letter.
    """

    meant: str
    end: int


def digits_for_letters(text: str) -> str:
    """The text with digits in the place of the letters that look like them; empty if there are none.

    >>> digits_for_letters("2O Nm"), digits_for_letters("l2 Nm"), digits_for_letters("20 lb")
    ('20 Nm', '12 Nm', '')
    """
    changed = _ONE.sub("1", _NOUGHT.sub(lambda run: "0" * len(run[0]), text))
    for letter, digit in _DIGITS:
        changed = letter.sub(digit, changed)
    return changed if changed != text else ""


def misspelt_unit(scan: Scan, at: int) -> Word | None:
    """The torque unit nearest to the words from a token on, taken as one: `fl-lb`, `ftt lb`, `in-Ib`."""
    letters, words, position, end = "", 0, at, 0
    while words < _MOST_WORDS and len(letters) < _LONGEST:
        token = scan.found[position]
        if token.kind == "word":
            letters, words, end = letters + token.text, words + 1, token.end
        elif token.text not in _JOINERS or scan.found[position + 1].kind != "word":
            break
        position += 1
    near = nearest_unit(letters) if 1 < len(letters) < _LONGEST else ""
    return Word(near, end) if near else None


def nearest_unit(letters: str) -> str:
    """The symbol of the torque unit that is misspelt so; empty where none is close.

    >>> nearest_unit("ftlp"), nearest_unit("furlong")
    ('ft-lb', '')
    """
    from difflib import SequenceMatcher

    letters = letters.translate(_LOOKS_LIKE)
    once = letters[: len(letters) // 2]
    if once in symbols() and letters == once * 2:
        letters = once
    near = nearest(letters, (word for word in torque_words() if abs(len(word) - len(letters)) <= _SLIPPED))
    is_close = near is not None and SequenceMatcher(None, letters, near).ratio() >= _CLOSE
    return symbols()[near] if near is not None and is_close else ""


def torque_words() -> list[str]:
    """Spellings of torque units in one word: what a mistyped unit is compared with."""
    return [word for word, symbol in symbols().items() if symbol in TORQUE_SYMBOLS and " " not in word]


def lost_nought(scan: Scan) -> Unread | None:
    """`,8 N·m`: the nought before the decimal mark is missing."""
    token, after = scan.token, scan.ahead()
    if token.text not in (",", ".") or after.kind != "number" or after.gap or not after.text.isdigit():
        return None
    message = f'"{token.text}{after.text}" begins with its decimal mark; a nought is missing'
    return Unread(message, at=token.start, options=(f"0.{after.text}",), span=(token.start, after.end))


def unit_first(scan: Scan) -> Unread | None:
    """`N·m 25`: the unit stands before its number."""
    unit = spelled(scan.found, scan.at, scan.folded.text, scan.known)
    if unit is None or BY_SYMBOL[unit.symbol].kind != "torque":
        return None
    start, end = scan.token.start, scan.found[unit.after - 1].end
    rest = scan.folded.text[end:].lstrip(" :=.")
    if not rest:
        return None
    message = f'"{unit.written}" stands before its value; the value comes first'
    return Unread(message, at=start, options=(f"{rest} {unit.symbol}",), span=(start, len(scan.folded.text)))


def middle_point(scan: Scan, bounds: Bounds) -> Unread | None:
    """`12·5 lb ft`: pages of the old days print the decimal point in the middle."""
    after = scan.ahead()
    if scan.token.text != "·" or scan.token.gap or after.gap or after.kind != "number":
        return None
    one, start = scan.written(bounds.numbers[-1]), bounds.numbers[-1].start
    message = f'"{one}·{after.text}" may have a decimal point in the middle of the line'
    options = (f"{one}.{after.text}",)
    return Unread(message, at=scan.token.start, options=options, span=(start, after.end), topic="middle")


def letter_for_digit(scan: Scan) -> Unread | None:
    """`2O N·m`: a letter where a digit is meant."""
    meant = "" if scan.token.gap else digits_for_letters(scan.folded.text)
    if not meant:
        return None
    message = f'"{escape(scan.written(scan.token))}" is a letter; a digit is expected'
    return Unread(message, at=scan.token.start, options=(meant,))
