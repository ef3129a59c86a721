"""The grammar of one reading: a value, a range, a tolerance or a single limit, in one unit."""

from __future__ import annotations

from dataclasses import replace

from torqref.quantity.bounds import OTHER, Bounds, Side, limited, ranged, same_unit
from torqref.quantity.number import Amount, amount
from torqref.quantity.scan import CLOSE, OPEN, Scan, Unread
from torqref.quantity.spelling import Spelled
from torqref.quantity.tolerance import RANGE, read_tolerance

_BEFORE: dict[str, Side] = {
    **dict.fromkeys(
        (
            "<", "≤", "max", "maximum", "at most", "up to", "not to exceed", "do not exceed", "not exceeding",
            "must not exceed", "should not exceed", "shall not exceed", "never exceed", "no more than",
            "not more than", "less than", "not over", "not above", "no higher than", "under", "below", "upto",
            "not greater than", "no greater than", "max of", "maximum of", "a maximum of", "maxi",
            "don ' t exceed",
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
AFTER: dict[str, Side] = {
    **dict.fromkeys(
        (
            "max", "maximum", "or less", "or below", "at most", "at the most", "or lower", "maxi",
            "do not exceed", "not to exceed", "not to be exceeded", "must not be exceeded",
        ),
        "high",
    ),
    **dict.fromkeys(("min", "minimum", "or more", "or above", "at least", "at the least"), "low"),
}  # fmt: skip
_BETWEEN = ("between", "from", "von", "de")
_AFTER_SIDE = frozenset(("torque", "value", ":", "=", "of"))
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
    if scan.token.text in OPEN and not signed:
        return _in_brackets(scan, first)
    side = scan.phrase(_BEFORE)
    if side:
        scan.skip(_AFTER_SIDE)
    between = not side and bool(scan.accept(*_BETWEEN))
    number = amount(scan, signed=signed)
    if number is None:
        scan.at = first
        return None
    if side:
        return _after_word(scan, side, number, first)
    return _spread(scan, number, first, signed=signed, between=between)


def _in_brackets(scan: Scan, first: int) -> Bounds | None:
    """`(25 ± 2) N·m`, `(20 to 25) N·m`, as the standards write it: the unit stands for all of it.

    NIST SP 811 (2008), 7.7: the unit symbol goes with both numbers, or both stand in brackets before it.
    """
    scan.at += 1
    inner = read_value(scan) if scan.token.kind == "number" else None
    if inner is not None and inner.unit is None and scan.accept(*CLOSE):
        unit = scan.unit()
        if unit is not None:
            return replace(inner, unit=unit, first=first)
    scan.at = first
    return None


def _after_word(scan: Scan, side: Side, number: Amount, first: int) -> Bounds:
    """`max 12 N·m`, or `min 8 max 12 N·m` with one unit for both."""
    unit, here = scan.unit(), scan.at
    if unit is None:
        _check_one_limit(scan, side, number, first)
        scan.accept(*_JOINTS)
        second = amount(scan) if scan.phrase(_BEFORE) == OTHER[side] else None
        if second is not None:
            return _two_sides(scan, {side: number, OTHER[side]: second}, first)
        scan.at = here
    return limited(Bounds(numbers=(number,), unit=unit, first=first), side, number.value)


def _check_one_limit(scan: Scan, side: Side, number: Amount, first: int) -> None:
    """`max 20-25 N·m`: a limit is one number."""
    here = scan.at
    second = amount(scan) if scan.accept(*RANGE) and scan.token.kind == "number" else None
    if second is None:
        scan.at = here
        return
    low, high = scan.written(number), scan.written(second)
    options = (f"{low}-{high}", f"max {high}" if side == "high" else f"min {low}")
    message = "a limit is one number, and a range has both"
    raise Unread(message, at=second.start, options=options, span=(scan.found[first].start, second.end))


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
    """The unit behind a number; `1/4 of a turn` has two words more, `25 [N·m]` has brackets."""
    here = scan.at
    if scan.accept(*OPEN):
        unit = scan.unit() if scan.token.kind == "word" else None
        if unit is None or not scan.accept(*CLOSE):
            scan.at = here
            return None
        return unit
    if _is_up_to(scan):
        return None
    if scan.accept("of"):
        scan.accept("a", "an")
    unit = scan.unit()
    if unit is None:
        scan.at = here
    return unit


def _is_up_to(scan: Scan) -> bool:
    """`20 a 25`: in some languages a range, and no ampere."""
    return scan.token.text == "a" and scan.ahead().kind == "number"


def _second(scan: Scan, nominal: Bounds, *, signed: bool, between: bool) -> Bounds | None:
    """The upper end of a range."""
    here = scan.at
    if scan.accept("up") and scan.token.text != "to":
        scan.at = here
        return None
    mark = scan.accept(*RANGE, *(("and", "&") if between else ()), *(("a",) if _is_up_to(scan) else ()))
    if mark == "-" and not signed:
        scan.accept("-")
    dots = scan.found[scan.at - 1]
    high = amount(scan, signed=signed) if mark else None
    if high is not None and mark == ".." and not dots.gap:
        _check_doubled_point(scan, nominal.numbers[0], high)
    if high is None:
        scan.at = here
        return None
    unit = same_unit(scan, nominal.first, nominal.unit, scan.unit())
    return ranged(scan, nominal.numbers[0], high, unit, nominal.first)


def _check_doubled_point(scan: Scan, low: Amount, high: Amount) -> None:
    """`2..5 Nm`: from one to the other, or a decimal point that was typed twice."""
    one, other = scan.written(low), scan.written(high)
    if len(other) > 1 or not one.isdigit() or high.start != low.end + len(".."):
        return
    message = "two points may be a range or a decimal point typed twice"
    options = (f"{one}.{other}", f"{one}–{other}")
    raise Unread(message, at=low.end, options=options, span=(low.start, high.end), topic="dots")


def _before_word(scan: Scan, bounds: Bounds) -> Bounds:
    """`12 N·m max`, `12 N·m (max)`, `8 min, 12 max N·m`."""
    here = scan.at
    in_bracket = bool(scan.accept(*OPEN))
    apart = bool(not in_bracket and bounds.unit and scan.accept(","))
    side = scan.phrase(AFTER)
    if side is None or (in_bracket and not scan.accept(*CLOSE)) or (apart and not scan.is_done()):
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
    found = amount(scan) is not None and (scan.unit(), scan.phrase(AFTER))[1] is not None
    scan.at = here
    return found


def _other_side(scan: Scan, bounds: Bounds, side: Side) -> Bounds:
    number, here = bounds.numbers[0], scan.at
    if bounds.unit is None:
        scan.accept(*_JOINTS)
        second = amount(scan) if scan.token.kind == "number" else None
        unit = scan.unit() if second else None
        if second and scan.phrase(AFTER) == OTHER[side]:
            limits: dict[Side, Amount] = {side: number, OTHER[side]: second}
            return ranged(scan, limits["low"], limits["high"], unit, bounds.first)
        scan.at = here
    unit = bounds.unit or scan.unit()
    return limited(replace(bounds, unit=unit), side, number.value)
