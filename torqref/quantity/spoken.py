"""Numbers that stand in a text as words: ninety-six, one hundred and twenty, half a, twelve point five."""

from __future__ import annotations

from fractions import Fraction

from torqref.quantity.scan import Scan
from torqref.quantity.words import SMALL, TENS

_SHARES: dict[str, Fraction] = {
    **dict.fromkeys(("half", "half a", "half an", "half of a", "a half", "one half"), Fraction(1, 2)),
    **dict.fromkeys(
        ("quarter", "a quarter", "one quarter", "a quarter of a", "quarter of a"), Fraction(1, 4)
    ),
    **dict.fromkeys(("three quarters", "three quarter", "three quarters of a"), Fraction(3, 4)),
    **dict.fromkeys(("a third", "one third", "a third of a", "one third of a"), Fraction(1, 3)),
    **dict.fromkeys(("two thirds", "two thirds of a"), Fraction(2, 3)),
    **dict.fromkeys(("an eighth", "one eighth", "an eighth of a", "eighth of a"), Fraction(1, 8)),
    **dict.fromkeys(("a sixth", "one sixth", "a sixth of a"), Fraction(1, 6)),
}
_AND_A_SHARE = {
    "and a half": Fraction(1, 2),
    "and a quarter": Fraction(1, 4),
    "and three quarters": Fraction(3, 4),
}
_ONES = {word: number for number, word in enumerate(SMALL)}
_TENS = {word: number * 10 for number, word in enumerate(TENS) if number}
_DIGITS = frozenset(SMALL[:10])
_MOST_DECIMALS = 9


def is_share(scan: Scan) -> bool:
    """Whether a share in words, such as `a third of a`, begins at the cursor, which stays."""
    here = scan.at
    found = scan.phrase(_SHARES) is not None
    scan.at = here
    return found


def spoken(scan: Scan) -> Fraction | None:
    """The number in words at the cursor, which goes past it; None if none stands there.

    >>> from torqref.quantity.folding import Folded
    >>> spoken(Scan(Folded(text="one hundred and twenty-five point five", source=""), {}))
    Fraction(251, 2)
    """
    share = scan.phrase(_SHARES)
    if share is not None:
        return share
    whole = _whole(scan)
    if whole is None:
        return None
    return whole + (scan.phrase(_AND_A_SHARE) or _decimals(scan))


def _whole(scan: Scan) -> int | None:
    """Groups from the largest down: million, thousand, hundred."""
    return _group(scan, (("million", 1_000_000), ("thousand", 1_000), ("hundred", 100)))


def _group(scan: Scan, groups: tuple[tuple[str, int], ...]) -> int | None:
    if not groups:
        return _below_hundred(scan)
    (name, size), smaller = groups[0], groups[1:]
    number = _group(scan, smaller)
    if number is None or not scan.accept(name):
        return number
    here = scan.at
    scan.accept("and")
    rest = _group(scan, smaller)
    if rest is None:
        scan.at = here
    return number * size + (rest or 0)


def _below_hundred(scan: Scan) -> int | None:
    text = scan.token.text
    if text in _ONES:
        scan.at += 1
        return _ONES[text]
    if text not in _TENS:
        return None
    scan.at += 1
    hyphen = scan.token.text == "-" and not scan.token.gap
    after = scan.ahead().text if hyphen else scan.token.text
    if not 0 < _ONES.get(after, 0) < 10:
        return _TENS[text]
    scan.at += 1 + hyphen
    return _TENS[text] + _ONES[after]


def _decimals(scan: Scan) -> Fraction:
    """`point five`, digit by digit."""
    here = scan.at
    digits = ""
    if scan.accept("point"):
        while scan.token.text in _DIGITS and len(digits) < _MOST_DECIMALS:
            digits += str(_ONES[scan.token.text])
            scan.at += 1
    if not digits:
        scan.at = here
        return Fraction(0)
    return Fraction(int(digits), 10 ** len(digits))
