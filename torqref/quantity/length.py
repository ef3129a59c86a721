"""Reads a length with its unit: the offset of an adapter, the lever of a wrench, the length of a bolt."""

from __future__ import annotations

from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import convert
from torqref.quantity.folding import Folded, fold
from torqref.quantity.mend import refusal
from torqref.quantity.number import Amount, amount
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.showing import plain
from torqref.quantity.spelling import symbols
from torqref.quantity.term import Length
from torqref.quantity.units import BY_SYMBOL

_LARGEST = 100_000
_EXAMPLE = "a length with its unit is expected, such as 38 mm or 1 1/2 in"
_BARE = ("mm", "in")


def read_length(text: str) -> Length | Refusal:
    """A length with its unit; a fraction is a fraction here, and zero is read.

    Args:
        text: such as `38 mm`, `1.5 in`, `1 1/2"` or `1 ft 6 in`.

    Returns:
        The length in the unit it is written in, feet and inches together in inches; or a refusal.

    >>> length = read_length('1 1/2"')
    >>> isinstance(length, Length) and (length.value, length.unit)
    (Fraction(3, 2), 'in')
    """
    folded = fold(text)
    if isinstance(folded, Refusal):
        return folded
    try:
        return _length(folded)
    except Unread as unread:
        return refusal(folded, unread, _length)


def _length(folded: Folded) -> Length:
    scan = Scan(folded, symbols())
    number, unit = _one(scan)
    value, decimals = number.value, number.decimals
    if unit == "ft" and not scan.is_done():
        inches, second = _one(scan)
        if second != "in":
            raise Unread("feet may be followed by inches only", at=inches.start)
        value, unit, decimals = convert(value, "ft", "in") + inches.value, "in", inches.decimals
    if not scan.is_done():
        raise scan.left_over("one length is expected and nothing after it")
    if not Fraction(0) <= value <= _LARGEST:
        raise Unread("this is no length of a tool or bolt", at=number.start)
    return Length(value=value, unit=unit, decimals=decimals, text=folded.source.strip())


def _one(scan: Scan) -> tuple[Amount, str]:
    first = scan.at
    number = amount(scan)
    if number is None:
        raise Unread(_EXAMPLE, at=scan.token.start)
    here = scan.token.start
    span = (number.start, number.end)
    written = scan.folded.text[number.start : number.end]
    unit = scan.unit()
    if unit is None:
        options = tuple(f"{written} {symbol}" for symbol in _BARE)
        raise Unread(f'"{written}" has no unit', at=number.end, options=options, span=span)
    if BY_SYMBOL[unit.symbol].kind != "length":
        raise Unread(f'"{unit.written}" is no unit of length; {_EXAMPLE}', at=here)
    if number.is_slashed and unit.symbol not in ("in", "ft"):
        options = (f"{plain(number.value)} {unit.symbol}",)
        message = f'"{written}" is no way to write a metric length'
        raise Unread(message, at=number.start, options=options, span=scan.span(first))
    return number, unit.symbol
