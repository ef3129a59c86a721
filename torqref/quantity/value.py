"""The grammar of one reading: a value, a range, a tolerance or a single limit, in one unit."""

from __future__ import annotations

from dataclasses import replace

from torqref.quantity.bounds import OTHER, Bounds, Side, limited, ranged, same_unit
from torqref.quantity.number import Amount, amount
from torqref.quantity.scan import CLOSE, OPEN, Scan
from torqref.quantity.spelling import Spelled
from torqref.quantity.tolerance import RANGE, read_tolerance

_BEFORE: dict[str, Side] = {
    **dict.fromkeys(
        (
            "<", "≤", "max", "maximum", "at most", "up to", "not to exceed", "do not exceed", "not exceeding",
            "must not exceed", "should not exceed", "shall not exceed", "never exceed", "no more than",
            "not more than", "less than", "not over", "not above", "no higher than", "under", "below", "upto",
            "not greater than", "no greater than", "max of", "maximum of", "a maximum of",
        ),
        "high",
    ),
    **dict.fromkeys(
        (
            ">", "≥", "min", "minimum", "at least", "no less than", "not less than", "not under", "not below",
            "no lower than", "more than", "over", "above", "min of", "minimum of", "a minimum of",
            "greater than", "not lower than",
        ),
        "low",
    ),
}  # fmt: skip
_AFTER: dict[str, Side] = {
    **dict.fromkeys(("max", "maximum", "or less", "or below", "at most", "at the most", "or lower"), "high"),
    **dict.fromkeys(("min", "minimum", "or more", "or above", "at least", "at the least"), "low"),
}
_BETWEEN = ("between", "from")
_JOINTS = (",", "/", "and", "-", ";")


def read_value(scan: Scan, *, signed: bool = False) -> Bounds | None:
    """The reading at the cursor, which goes past it; None if none begins here.

    Args:
        scan: the text; its units are those the reading may have.
        signed: whether a number may have a sign, as a temperature may.

    Raises:
        Unread: a number, a tolerance or a range that has no one meaning.
    """
    first = scan.at
    side = scan.phrase(_BEFORE)
    if side:
        scan.accept("torque", "value", ":")
    between = not side and bool(scan.accept(*_BETWEEN))
    number = amount(scan, signed=signed)
    if number is None:
        scan.at = first
        return None
    if side:
        return _after_word(scan, side, number, first)
    return _spread(scan, number, first, signed=signed, between=between)


def _after_word(scan: Scan, side: Side, number: Amount, first: int) -> Bounds:
    """`max 12 N·m`, or `min 8 max 12 N·m` with one unit for both."""
    unit, here = scan.unit(), scan.at
    if unit is None:
        scan.accept(*_JOINTS)
        second = amount(scan) if scan.phrase(_BEFORE) == OTHER[side] else None
        if second is not None:
            return _two_sides(scan, {side: number, OTHER[side]: second}, first)
        scan.at = here
    return limited(Bounds(numbers=(number,), unit=unit, first=first), side, number.value)


def _two_sides(scan: Scan, limits: dict[Side, Amount], first: int) -> Bounds:
    return ranged(scan, limits["low"], limits["high"], None, first)


def _spread(scan: Scan, number: Amount, first: int, *, signed: bool, between: bool) -> Bounds:
    """A value, and what follows it: a second number, a tolerance, or the word that makes it a limit."""
    nominal = Bounds(target=number.value, is_printed=True, numbers=(number,), first=first, unit=_unit(scan))
    found = read_tolerance(scan, nominal) or _second(scan, nominal, signed=signed, between=between)
    bounds = found or nominal
    if bounds.unit is None:
        bounds = replace(bounds, unit=scan.unit())
        if found is None and bounds.unit is not None:
            bounds = read_tolerance(scan, bounds) or bounds
    return bounds if bounds.low is not None else _before_word(scan, bounds)


def _unit(scan: Scan) -> Spelled | None:
    """The unit behind a number; `1/4 of a turn` has two words more."""
    here = scan.at
    if scan.accept("of"):
        scan.accept("a", "an")
    unit = scan.unit()
    if unit is None:
        scan.at = here
    return unit


def _second(scan: Scan, nominal: Bounds, *, signed: bool, between: bool) -> Bounds | None:
    """The upper end of a range."""
    here = scan.at
    mark = scan.accept(*RANGE, "and") if between else scan.accept(*RANGE)
    if mark == "-" and not signed:
        scan.accept("-")
    high = amount(scan, signed=signed) if mark else None
    if high is None:
        scan.at = here
        return None
    unit = same_unit(scan, nominal.first, nominal.unit, scan.unit())
    return ranged(scan, nominal.numbers[0], high, unit, nominal.first)


def _before_word(scan: Scan, bounds: Bounds) -> Bounds:
    """`12 N·m max`, `12 N·m (max)`, `8 min, 12 max N·m`."""
    here = scan.at
    in_bracket = bool(scan.accept(*OPEN))
    side = scan.phrase(_AFTER)
    if side is None or (in_bracket and not scan.accept(*CLOSE)):
        scan.at = here
        return bounds
    if not in_bracket and scan.token.kind == "number" and bounds.unit and not _follows_limit(scan):
        # `24 N·m max 26 N·m`: the word belongs to the number behind it.
        scan.at = here
        return bounds
    return _other_side(scan, bounds, side)


def _follows_limit(scan: Scan) -> bool:
    """Whether the number at the cursor has a limit word of its own behind it."""
    here = scan.at
    found = amount(scan) is not None and (scan.unit(), scan.phrase(_AFTER))[1] is not None
    scan.at = here
    return found


def _other_side(scan: Scan, bounds: Bounds, side: Side) -> Bounds:
    number, here = bounds.numbers[0], scan.at
    if bounds.unit is None:
        scan.accept(*_JOINTS)
        second = amount(scan) if scan.token.kind == "number" else None
        unit = scan.unit() if second else None
        if second and scan.phrase(_AFTER) == OTHER[side]:
            limits: dict[Side, Amount] = {side: number, OTHER[side]: second}
            return ranged(scan, limits["low"], limits["high"], unit, bounds.first)
        scan.at = here
    unit = bounds.unit or scan.unit()
    return limited(replace(bounds, unit=unit), side, number.value)
