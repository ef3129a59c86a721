"""What a value may be off: `± 5`, `± 10 %`, `+2/-1`, or limits in brackets behind it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from torqref.quantity.bounds import Bounds, ranged, same_unit
from torqref.quantity.number import Amount, amount
from torqref.quantity.scan import CLOSE, OPEN, Scan, Unread
from torqref.quantity.spelling import Spelled

_BOTH_WAYS = dict.fromkeys(
    ("±", "plus or minus", "plus minus", "plus / minus", "+ or -", "- / +", "give or take"), "±"
)
_PERCENT = dict.fromkeys(("%", "percent", "per cent", "pct"), "%")
# From one number to another, in the signs and words of several languages.
RANGE = frozenset({"-", "~", "÷", "to", "..", "...", "through", "thru", "à", "bis"})
_BEFORE_SIGN = frozenset({",", "tolerance", "tol", ".", "of", "with"})


class Part(NamedTuple):
    """One way off the value.

    Args:
        off: how far, in the unit of the value.
        number: the number as printed.
        unit: the unit printed behind it, or None.
        is_percent: whether it is a share of the value.
    """

    off: Fraction
    number: Amount
    unit: Spelled | None
    is_percent: bool


def read_tolerance(scan: Scan, nominal: Bounds) -> Bounds | None:
    """The value with the tolerance at the cursor, which goes past it; None where none stands.

    Raises:
        Unread: a tolerance of one sign only, or one in another unit.
    """
    here = scan.at
    in_bracket = bool(scan.accept(*OPEN))
    scan.skip(_BEFORE_SIGN)
    found = _both_ways(scan, nominal) or _each_way(scan, nominal)
    if found is None and in_bracket:
        found = _limits(scan, nominal)
    if found is None or (in_bracket and not scan.accept(*CLOSE)):
        scan.at = here
        return None
    return found


def _both_ways(scan: Scan, nominal: Bounds) -> Bounds | None:
    if scan.phrase(_BOTH_WAYS) is None:
        return None
    start = scan.token.start
    part = _part(scan, nominal)
    if part is None:
        raise Unread("a number is expected after ±", at=start)
    return _around(scan, nominal, part, part)


def _each_way(scan: Scan, nominal: Bounds) -> Bounds | None:
    """Two signs, one of each, a nought may go without; the percent sign may stand behind both."""
    here = scan.at
    parts: dict[str, Part] = {}
    for _ in range(2):
        if parts:
            scan.accept("/", ",")
        sign = scan.accept("+", "-") or _sign_of_nought(scan, parts)
        part = _part(scan, nominal) if sign else None
        if part is None or sign in parts or _is_other_unit(nominal, part):
            _check_one_sided(scan, nominal, parts)
            scan.at = here
            return None
        parts[sign] = part
    is_share = any(part.is_percent for part in parts.values())
    up, down = (_shared(nominal, parts[sign], is_share=is_share) for sign in "+-")
    return _around(scan, nominal, up, down)


def _is_other_unit(nominal: Bounds, part: Part) -> bool:
    return bool(part.unit and nominal.unit and part.unit.symbol != nominal.unit.symbol)


def _sign_of_nought(scan: Scan, parts: dict[str, Part]) -> str:
    if not parts or scan.token.kind != "number" or scan.token.text.strip("0.,"):
        return ""
    return "-" if "+" in parts else "+"


def _shared(nominal: Bounds, part: Part, *, is_share: bool) -> Part:
    """`+5/-3 %`: the percent sign stands for both."""
    if not is_share or part.is_percent or part.unit:
        return part
    return part._replace(off=part.number.value * nominal.numbers[0].value / 100, is_percent=True)


def _check_one_sided(scan: Scan, nominal: Bounds, parts: dict[str, Part]) -> None:
    """`24 N·m +10 %`: is nothing allowed below, or was the ± lost?"""
    for sign, part in parts.items():
        if not part.is_percent:
            continue
        start, end = scan.found[nominal.first].start, part.number.end
        value, share = scan.written(nominal.numbers[0]), scan.written(part.number)
        unit = f" {nominal.unit.symbol}" if nominal.unit else ""
        one = f"+{share}/-0 %" if sign == "+" else f"+0/-{share} %"
        after = scan.folded.text.find("%", end)
        raise Unread(
            "a tolerance with one sign only",
            at=part.number.start,
            options=(f"{value}{unit} ± {share} %", f"{value}{unit} {one}"),
            span=(start, end if after < 0 else after + 1),
        )


def _part(scan: Scan, nominal: Bounds) -> Part | None:
    """A number with a percent sign, with a unit, or with neither."""
    number = amount(scan) if scan.token.kind in ("number", "fraction") else None
    if number is None:
        return None
    # Here a slash can only be a fraction: `± 1/2`.
    number = number._replace(is_slashed=False)
    if scan.phrase(_PERCENT) is not None:
        off = number.value * nominal.numbers[0].value / 100
        return Part(off, number, None, is_percent=True)
    return Part(number.value, number, scan.unit(), is_percent=False)


def _around(scan: Scan, nominal: Bounds, up: Part, down: Part) -> Bounds:
    off = same_unit(scan, nominal.first, up.unit, down.unit, is_off=True)
    unit = same_unit(scan, nominal.first, nominal.unit, off, is_off=True)
    value = nominal.numbers[0].value
    if up.off == down.off == 0:
        start, end = scan.span(nominal.first)
        options = (scan.folded.text[start : nominal.numbers[0].end] + (f" {unit.symbol}" if unit else ""),)
        raise Unread("a tolerance of zero is none", at=up.number.start, options=options, span=(start, end))
    # A share tells nothing about the digits of the value.
    printed = tuple(part.number for part in (up, down) if not part.is_percent)
    return replace(
        nominal, low=value - down.off, high=value + up.off, numbers=(*nominal.numbers, *printed), unit=unit
    )


def _limits(scan: Scan, nominal: Bounds) -> Bounds | None:
    """`22 N·m (20–24)`: limits in brackets, in the unit of the value or in none."""
    here = scan.at
    low = amount(scan)
    high = amount(scan) if low and scan.accept(*RANGE) else None
    unit = scan.unit() if high else None
    if low is None or high is None or (unit and nominal.unit and unit.symbol != nominal.unit.symbol):
        scan.at = here
        return None
    limits = ranged(scan, low, high, unit, here)
    if not low.value <= nominal.numbers[0].value <= high.value:
        raise _outside(scan, low, high, unit)
    numbers = (*nominal.numbers, *limits.numbers)
    return replace(nominal, low=low.value, high=high.value, numbers=numbers, unit=nominal.unit or unit)


def _outside(scan: Scan, low: Amount, high: Amount, unit: Spelled | None) -> Unread:
    """Perhaps the brackets repeat the value in another unit and leave the unit out."""
    written = scan.folded.text[low.start : high.end]
    options = () if unit else tuple(f"{written} {symbol}" for symbol in ("ft-lb", "in-lb", "N·m", "kgf·m"))
    message = "the limits in brackets do not hold the value before them"
    return Unread(message, at=low.start, options=options, span=(low.start, high.end))
