"""One reading with its limits, before anybody asks whether it is a torque, a turn or a gap."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from torqref.quantity.number import Amount
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import Spelled
from torqref.quantity.units import BY_SYMBOL

Side = Literal["low", "high"]
OTHER: dict[Side, Side] = {"low": "high", "high": "low"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """What the numbers of one reading say.

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

    @property
    def values(self) -> tuple[Fraction, ...]:
        """The numbers it gives, lowest first."""
        return tuple(value for value in (self.low, self.target, self.high) if value is not None)


def limited(bounds: Bounds, side: Side, value: Fraction) -> Bounds:
    """A reading that is one limit and nothing else."""
    bounds = replace(bounds, target=None, is_printed=False)
    return replace(bounds, high=value) if side == "high" else replace(bounds, low=value)


def ranged(scan: Scan, low: Amount, high: Amount, unit: Spelled | None, first: int) -> Bounds:
    """A reading from one number to another; its unit may still follow.

    Raises:
        Unread: the first number is not the lower one.
    """
    unit = unit or scan.unit()
    if low.value >= high.value:
        raise _reversed(scan, low, high, unit, first)
    middle = (low.value + high.value) / 2
    numbers = (low, high)
    return Bounds(low=low.value, target=middle, high=high.value, numbers=numbers, unit=unit, first=first)


def _reversed(scan: Scan, low: Amount, high: Amount, unit: Spelled | None, first: int) -> Unread:
    one, other = scan.written(low), scan.written(high)
    symbol = f" {unit.symbol}" if unit else ""
    if low.value == high.value:
        message = "both ends of the range are the same"
        return Unread(message, at=high.start, options=(f"{one}{symbol}",), span=scan.span(first))
    if high.is_slashed:
        return Unread(f'"{other}" behind a dash may be a fraction or two numbers', at=high.start)
    message = "the range runs from the larger value to the smaller"
    options: tuple[str, ...] = (f"{other}–{one}{symbol}", f"{one}{symbol} then {other}{symbol}")
    if high.value * 2 < low.value:
        # `24 N·m -2`: the upper half of a tolerance is missing.
        options = (f"{one} ± {other}{symbol}", f"{one} +0/-{other}{symbol}", *options)
    return Unread(message, at=low.start, options=options, span=scan.span(first))


def same_unit(
    scan: Scan, first: int, one: Spelled | None, other: Spelled | None, *, is_off: bool = False
) -> Spelled | None:
    """The one unit of a reading whose parts may each carry it.

    Args:
        scan: the text.
        first: index of the first token of the reading.
        one: the unit of the value.
        other: the unit of its other end or of its tolerance.
        is_off: whether it is that of its tolerance.

    Raises:
        Unread: the parts carry different units.
    """
    if one is None or other is None or one.symbol == other.symbol:
        return one or other
    start, end = scan.span(first)
    gap = scan.found[one.after - 1].end
    left, right = scan.folded.text[start:gap], scan.folded.text[gap:end].lstrip(" -~±+/.")
    right = right.removeprefix("to ")
    is_turn = BY_SYMBOL.get(other.symbol) and BY_SYMBOL[other.symbol].kind == "angle"
    options: tuple[str, ...] = (f"{left} + {right}", f"{left} then back off {right}")
    if not is_turn:
        options = () if is_off else (f"{left} ({right})", f"{left} then {right}")
    message = f"one value in {one.symbol} and in {other.symbol}; write both parts in one unit"
    raise Unread(message, at=gap, options=options, span=(start, end))
