"""Numbers as people write them: decimals with point or comma, thousands, fractions, words."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from torqref.quantity.folding import FRACTION_SLASH, THIN
from torqref.quantity.precision import decimals_of
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spoken import spoken

MOST_DIGITS = 15
# A group of three digits with its mark.
_GROUP = 4
_THOUSANDS_TO_OTHERS = re.compile(r"[1-9]\d{0,2}\.\d00")
# A thin blank, and the apostrophe of Switzerland.
_GROUPING = {ord(THIN): "", ord("'"): ""}
DENOMINATORS = frozenset(("2", "3", "4", "5", "6", "8", "10", "16", "32", "64"))


class Amount(NamedTuple):
    """A number with its printed precision.

    Args:
        value: the number, exact.
        decimals: digits after the point that it is printed with, or that its fraction needs.
        start: index in the folded text of its first character.
        end: index after its last character.
        is_slashed: whether it is written as two numbers with a slash, which may be a fraction or a range.
    """

    value: Fraction
    decimals: int
    start: int
    end: int
    is_slashed: bool = False


def amount(scan: Scan, *, signed: bool = False) -> Amount | None:
    """The number at the cursor, which goes past it; None if no number stands here.

    Raises:
        Unread: a number that can be read in two ways, or that no wrench knows.
    """
    sign = _sign(scan, signed)
    token = scan.token
    if token.kind == "number":
        found = _mixed(scan) or _decimal(scan)
    elif token.kind == "fraction":
        found = _fraction(scan)
    elif token.kind == "word" and not sign:
        return _worded(scan)
    else:
        return None
    return found._replace(value=-found.value) if sign == "-" else found


def _sign(scan: Scan, signed: bool) -> str:
    follows = scan.ahead().kind in ("number", "fraction")
    if scan.token.text not in ("-", "+") or not follows:
        return ""
    if not signed:
        raise _with_sign(scan)
    return scan.accept("-", "+")


def _with_sign(scan: Scan) -> Unread:
    start, value = scan.token.start, scan.ahead()
    kind = "a negative value" if scan.token.text == "-" else "a value with a plus sign"
    return Unread(
        f"{kind} is not read; write the full value without a sign",
        at=start,
        options=(scan.folded.text[value.start : value.end],),
        span=(start, value.end),
    )


def _decimal(scan: Scan) -> Amount:
    token = scan.token
    text = token.text.translate(_GROUPING)
    if sum(char.isdigit() for char in text) > MOST_DIGITS:
        raise Unread(f"a number of more than {MOST_DIGITS} digits", at=token.start)
    plain = _plain_decimal(text, grouped=len(text) < len(token.text))
    if plain is None:
        raise _two_ways(scan, text)
    scan.at += 1
    if _THOUSANDS_TO_OTHERS.fullmatch(token.text):
        less = plain.rstrip("0").rstrip(".")
        scan.notes.append(f'"{token.text}" is read as {less}; a point is never for thousands here.')
    return Amount(Fraction(plain), len(plain.partition(".")[2]), token.start, token.end)


def _plain_decimal(text: str, *, grouped: bool) -> str | None:
    """The digits with a point for the decimal mark; None where the text has no one meaning."""
    whole, mark, tail = _split(text)
    if mark == "," and not grouped and len(tail) == 3 and 1 <= len(whole) <= 3 and whole[0] != "0":
        return None
    if not whole.replace(",", "").replace(".", "").isdigit():
        return None if whole else f"0.{tail}"
    groups = whole.replace(".", ",").split(",")
    if len(groups) > 1 and not _are_thousands(groups, whole):
        return None
    if len(whole) > 1 and whole[0] == "0":
        return None
    joined = "".join(groups)
    return f"{joined}.{tail}" if tail else joined


def _split(text: str) -> tuple[str, str, str]:
    """Whole part, decimal mark and decimals; marks that stand twice separate thousands."""
    last = max(text.rfind("."), text.rfind(","))
    if last < 0 or text.count(text[last]) > 1:
        return text, "", ""
    return text[:last], text[last], text[last + 1 :]


def _are_thousands(groups: list[str], whole: str) -> bool:
    one_mark = not ("," in whole and "." in whole)
    return one_mark and 1 <= len(groups[0]) <= 3 and all(len(group) == 3 for group in groups[1:])


def _two_ways(scan: Scan, text: str) -> Unread:
    token = scan.token
    options, message = _meant(text)
    span = (token.start, token.end)
    return Unread(message, at=token.start, options=options, span=span, topic="thousands")


def _meant(text: str) -> tuple[tuple[str, ...], str]:
    """What a number of no one meaning may be, likeliest first and never far from it, and why it has none."""
    marks = [place for place, char in enumerate(text) if char in ".,"]
    if text[0] == "0" and text[1:2].isdigit():
        whole = text.lstrip("0") or "0"
        whole = f"0{whole}" if whole[0] in ".," else whole
        # One nought may be what is left of `0.8`; several are a counter or a slip of the finger.
        less = (f"0.{text[1:]}",) if not marks and text[1] != "0" else ()
        return (whole, *less), f'"{text}" begins with a nought; a decimal mark may be lost'
    question = f'"{text}" can be read in more than one way: is the mark for thousands or decimals'
    if len(marks) == 1:
        return (text.replace(",", ""), text.replace(",", ".")), question
    if len(marks) != 2:
        return (), f'"{text}" has more marks than a number has'
    first, last = (_marked_once(text, place) for place in marks)
    if text[0] == "0":
        return (first,), question
    # `1.200.00` may be thousands with decimals; `1.5.0` has a point too many.
    return ((last, first) if marks[1] - marks[0] == _GROUP else (first, last)), question


def _marked_once(text: str, place: int) -> str:
    """A number with one of its marks as the decimal point, and without the others."""
    whole, tail = (part.replace(",", "").replace(".", "") for part in (text[:place], text[place + 1 :]))
    return f"{whole}.{tail}"


def _fraction(scan: Scan) -> Amount:
    token = scan.token
    value = _ratio(token.text)
    if value is None:
        raise Unread(f'"{token.text}" is no fraction', at=token.start)
    scan.at += 1
    return Amount(value, decimals_of(value), token.start, token.end, FRACTION_SLASH not in token.text)


def _mixed(scan: Scan) -> Amount | None:
    """A whole number and a fraction: `7 1/2`, `7½`, and `7-1/2` written without a blank."""
    whole, token = scan.token, scan.ahead()
    dashed = token.text == "-" and not token.gap and not scan.ahead(2).gap
    token = scan.ahead(2) if dashed else token
    if token.kind != "fraction" or not whole.text.isdigit() or len(whole.text) > MOST_DIGITS:
        return None
    value = _ratio(token.text)
    # `20-25/30` is no fraction that anybody measures with.
    denominator = token.text.replace(FRACTION_SLASH, "/").partition("/")[2]
    if value is None or not 0 < value < 1 or denominator not in DENOMINATORS:
        return None
    scan.at += 3 if dashed else 2
    total = int(whole.text) + value
    return Amount(total, decimals_of(total), whole.start, token.end)


def _ratio(text: str) -> Fraction | None:
    above, _, below = text.replace(FRACTION_SLASH, "/").partition("/")
    if len(text) > MOST_DIGITS or not int(below):
        return None
    return Fraction(int(above), int(below))


def _worded(scan: Scan) -> Amount | None:
    first = scan.at
    value = spoken(scan)
    if value is None:
        return None
    start, end = scan.span(first)
    return Amount(value, decimals_of(value), start, end)
