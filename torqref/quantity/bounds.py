"""One reading with its limits: a value, a range, a tolerance or a single limit, in one unit."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from torqref.quantity.number import Amount, amount
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import Spelled

Side = Literal["low", "high"]

_BEFORE: dict[str, Side] = {
    **dict.fromkeys(
        (
            "<", "≤", "max", "maximum", "at most", "up to", "not to exceed", "do not exceed", "not exceeding",
            "must not exceed", "should not exceed", "shall not exceed", "never exceed", "no more than",
            "not more than", "less than", "not over", "not above", "no higher than", "under", "below",
        ),
        "high",
    ),
    **dict.fromkeys(
        (
            ">", "≥", "min", "minimum", "at least", "no less than", "not less than", "not under", "not below",
            "no lower than", "more than", "over", "above",
        ),
        "low",
    ),
}  # fmt: skip
_AFTER: dict[str, Side] = {
    **dict.fromkeys(("max", "maximum", "or less", "or below", "at most", "at the most"), "high"),
    **dict.fromkeys(("min", "minimum", "or more", "or above", "at least"), "low"),
}
_PLUS_MINUS = {"±", "plus or minus", "plus minus", "plus / minus", "+ or -", "+ -"}
_TOLERANCE = dict.fromkeys(_PLUS_MINUS, True)
_PERCENT = {"percent": "%", "per cent": "%"}
_RANGE = frozenset({"-", "~", "to", "..", "...", "through", "thru"})
_OTHER: dict[Side, Side] = {"low": "high", "high": "low"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """What was read before anybody asks whether it is a torque.

    Args:
        low: lower limit, or None.
        target: the value itself, or the middle of a range; None where only one limit is given.
        high: upper limit, or None.
        is_printed: whether the text prints the target itself.
        numbers: the numbers as printed.
        unit: the unit, or None where none was found.
        first: index of its first token.
    """

    low: Fraction | None = None
    target: Fraction | None = None
    high: Fraction | None = None
    is_printed: bool = False
    numbers: tuple[Amount, ...]
    unit: Spelled | None = None
    first: int

    @property
    def decimals(self) -> int:
        """Digits after the point of the most precise number printed."""
        return max(number.decimals for number in self.numbers)

    @property
    def side(self) -> Side | None:
        """The limit it gives, where it gives one limit and nothing else."""
        if self.target is not None:
            return None
        return "high" if self.low is None else "low"


def read_bounds(scan: Scan, *, signed: bool = False) -> Bounds | None:
    """The reading at the cursor, which goes past it; None if none begins here.

    Raises:
        Unread: a number, a tolerance or a range that has no one meaning.
    """
    first = scan.at
    side = scan.phrase(_BEFORE)
    if side:
        scan.accept("of", "torque")
    between = not side and scan.accept("between", "from")
    number = amount(scan, signed=signed)
    if number is None:
        scan.at = first
        return None
    if side:
        return _one_limit(scan, side, number, first)
    return _spread(scan, number, first, signed=signed, between=bool(between))


def _one_limit(scan: Scan, side: Side, number: Amount, first: int) -> Bounds:
    """`max 12 N·m`, or `min 8 max 12 N·m` with one unit for both."""
    unit, here = scan.unit(), scan.at
    if unit is None:
        scan.accept(",", "/", "and", "-")
        other = scan.phrase(_BEFORE)
        second = amount(scan) if other == _OTHER[side] else None
        if second is not None:
            limits = {side: number, _OTHER[side]: second}
            return _range(scan, limits["low"], limits["high"], scan.unit(), first)
        scan.at = here
    return _limited(Bounds(numbers=(number,), unit=unit, first=first), side, number.value)


def _limited(bounds: Bounds, side: Side, value: Fraction) -> Bounds:
    return replace(bounds, high=value) if side == "high" else replace(bounds, low=value)


def _spread(scan: Scan, number: Amount, first: int, *, signed: bool, between: bool) -> Bounds:
    """A value, and what follows it: a second number, a tolerance, or the word that makes it a limit."""
    nominal = Bounds(target=number.value, is_printed=True, numbers=(number,), first=first)
    nominal = replace(nominal, unit=scan.unit())
    found = _tolerance(scan, nominal) or _second(scan, nominal, signed=signed, between=between)
    bounds = found or nominal
    if bounds.unit is None:
        bounds = replace(bounds, unit=scan.unit())
    if found is None and bounds.unit is not None and nominal.unit is None:
        bounds = _tolerance(scan, bounds) or bounds
    return _after(scan, bounds) if bounds.low is None and bounds.high is None else bounds


def _after(scan: Scan, bounds: Bounds) -> Bounds:
    """`12 N·m max`, `8 min 12 max N·m`."""
    here = scan.at
    in_bracket = bool(scan.accept("(", "["))
    side = scan.phrase(_AFTER)
    if side is None or (in_bracket and not scan.accept(")", "]")):
        scan.at = here
        return bounds
    bounds = replace(bounds, target=None, is_printed=False)
    value = bounds.numbers[0]
    if bounds.unit is None:
        return _two_sides(scan, bounds, side, value)
    return _limited(bounds, side, value.value)


def _two_sides(scan: Scan, bounds: Bounds, side: Side, value: Amount) -> Bounds:
    here = scan.at
    scan.accept(",", "/", "and", "-")
    second = amount(scan)
    unit = scan.unit() if second else None
    if second and scan.phrase(_AFTER) == _OTHER[side]:
        limits = {side: value, _OTHER[side]: second}
        return _range(scan, limits["low"], limits["high"], unit or scan.unit(), bounds.first)
    scan.at = here
    return _limited(replace(bounds, unit=scan.unit()), side, value.value)


def _second(scan: Scan, nominal: Bounds, *, signed: bool, between: bool) -> Bounds | None:
    """The upper end of a range."""
    here = scan.at
    marked = scan.accept(*_RANGE, "and") if between else scan.accept(*_RANGE)
    if marked == "-" and not signed:
        scan.accept("-")
    second = amount(scan, signed=signed) if marked else None
    if second is None:
        scan.at = here
        return None
    return _range(scan, nominal.numbers[0], second, _same(scan, nominal.unit, scan.unit()), nominal.first)


def _same(scan: Scan, one: Spelled | None, other: Spelled | None) -> Spelled | None:
    if one and other and one.symbol != other.symbol:
        start = scan.found[scan.at - 1].start
        raise Unread(
            f"one value in {one.symbol} and in {other.symbol}: write both ends in one unit", at=start
        )
    return one or other


def _range(scan: Scan, low: Amount, high: Amount, unit: Spelled | None, first: int) -> Bounds:
    unit = unit or scan.unit()
    if low.value >= high.value:
        raise _reversed(scan, low, high, unit, first)
    middle = (low.value + high.value) / 2
    return Bounds(
        low=low.value, target=middle, high=high.value, numbers=(low, high), unit=unit, first=first
    )  # fmt: skip


def _reversed(scan: Scan, low: Amount, high: Amount, unit: Spelled | None, first: int) -> Unread:
    text, symbol = scan.folded.text, unit.symbol if unit else "N·m"
    one, other = text[low.start : low.end], text[high.start : high.end]
    if low.value == high.value:
        return Unread("both ends of the range are the same", at=high.start, options=(f"{one} {symbol}",))
    options = (f"{other}–{one} {symbol}", f"{one} {symbol} then {other} {symbol}")
    message = "the range runs from the larger value to the smaller"
    return Unread(message, at=low.start, options=options, span=scan.span(first))


def _tolerance(scan: Scan, nominal: Bounds) -> Bounds | None:
    """`± 5`, `± 10 %`, `+2/-1`, in brackets or not; the cursor stays where none of them stands."""
    here = scan.at
    in_bracket = bool(scan.accept("(", "["))
    found = (
        _both_ways(scan, nominal)
        or _each_way(scan, nominal)
        or (_inner(scan, nominal) if in_bracket else None)
    )
    if found is None or (in_bracket and not scan.accept(")", "]")):
        scan.at = here
        return None
    return found


def _both_ways(scan: Scan, nominal: Bounds) -> Bounds | None:
    if not scan.phrase(_TOLERANCE):
        return None
    start = scan.token.start
    off = _off(scan, nominal)
    if off is None:
        raise Unread("a number is expected after ±", at=start)
    part, number, unit = off
    return _around(nominal, part, part, (number,), _same(scan, nominal.unit, unit))


def _each_way(scan: Scan, nominal: Bounds) -> Bounds | None:
    """`+2/-1`, `-1 +2`, `+5/0 %`: two signs, one of each; a nought may go without."""
    here = scan.at
    parts: dict[str, tuple[Fraction, Amount, Spelled | None]] = {}
    for _ in range(2):
        if parts:
            scan.accept("/", ",")
        sign = scan.accept("+", "-") or _sign_of_nought(scan, parts)
        off = _off(scan, nominal) if sign else None
        if off is None or sign in parts:
            scan.at = here
            return None
        parts[sign] = off
    up, down = parts["+"], parts["-"]
    up, down = _shared_percent(nominal, up, down)
    unit = _same(scan, nominal.unit, _same(scan, up[2], down[2]))
    return _around(nominal, down[0], up[0], (up[1], down[1]), unit)


def _sign_of_nought(scan: Scan, parts: dict[str, tuple[Fraction, Amount, Spelled | None]]) -> str:
    if not parts or scan.token.text.strip("0.") or scan.token.kind != "number":
        return ""
    return "-" if "+" in parts else "+"


Part = tuple[Fraction, Amount, Spelled | None]


def _shared_percent(nominal: Bounds, up: Part, down: Part) -> tuple[Part, Part]:
    """`+5/-3 %`: one percent sign behind both."""
    value = nominal.numbers[0].value
    if down[0] != down[1].value and up[0] == up[1].value and up[2] is None:
        return (up[1].value * value / 100, up[1], None), down
    return up, down


def _off(scan: Scan, nominal: Bounds) -> Part | None:
    """How far off the value may be: a number with a percent sign, with the unit, or with neither."""
    number = amount(scan) if scan.token.kind in ("number", "fraction") else None
    if number is None:
        return None
    if scan.accept("%") or scan.phrase(_PERCENT) is not None:
        return number.value * nominal.numbers[0].value / 100, number._replace(decimals=0), None
    return number.value, number, scan.unit()


def _around(
    nominal: Bounds, down: Fraction, up: Fraction, numbers: tuple[Amount, ...], unit: Spelled | None
) -> Bounds:
    value = nominal.numbers[0].value
    return replace(
        nominal, low=value - down, high=value + up, numbers=(*nominal.numbers, *numbers), unit=unit
    )  # fmt: skip


def _inner(scan: Scan, nominal: Bounds) -> Bounds | None:
    """Limits in brackets behind the value: `22 N·m (20–24)`."""
    here = scan.at
    number = amount(scan)
    limits = (
        _second(scan, Bounds(numbers=(number,), first=here), signed=False, between=False) if number else None
    )
    if number is None or limits is None or limits.low is None or limits.high is None:
        scan.at = here
        return None
    if limits.unit and nominal.unit and limits.unit.symbol != nominal.unit.symbol:
        scan.at = here
        return None
    value = nominal.numbers[0].value
    if not limits.low <= value <= limits.high:
        raise Unread("the limits in brackets do not hold the value before them", at=number.start)
    unit = nominal.unit or limits.unit
    return replace(
        nominal, low=limits.low, high=limits.high, numbers=(*nominal.numbers, *limits.numbers), unit=unit
    )
