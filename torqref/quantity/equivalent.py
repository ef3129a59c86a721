"""The same torque printed again in another unit: does it say the same, nearly the same, or another thing."""

from __future__ import annotations

from fractions import Fraction

from torqref.quantity.bounds import Bounds
from torqref.quantity.conversion import convert
from torqref.quantity.number import Amount
from torqref.quantity.showing import plain, show_torque
from torqref.quantity.term import Torque

_TOLD_UP_TO = Fraction(3, 100)
_TRADE = ("N·m", "ft-lb", "in-lb", "kgf·m", "kgf·cm", "N·cm", "cN·m", "daN·m", "ozf·in")


def apart(spec: Torque, spec_bounds: Bounds, other: Torque, other_bounds: Bounds, unit: str = "") -> Fraction:
    """How far an equivalent is from the value printed first, as a share; zero if rounding explains it.

    Args:
        spec: the value printed first.
        spec_bounds: its numbers.
        other: the equivalent.
        other_bounds: its numbers.
        unit: a unit to try for the equivalent instead of its own.
    """
    unit = unit or other.unit
    pairs = _pairs(spec, spec_bounds, other, other_bounds)
    return max(_distance(one, spec.unit, two, unit) for one, two in pairs)


Printed = tuple[Fraction, Fraction]


def _pairs(
    spec: Torque, spec_bounds: Bounds, other: Torque, other_bounds: Bounds
) -> list[tuple[tuple[Fraction, Fraction], Printed]]:
    """What to compare with what: each span of the spec with a printed number of the equivalent."""
    ones, twos = _numbers(spec, spec_bounds), _numbers(other, other_bounds)
    shared = [side for side in ("low", "target", "high") if side in ones and side in twos]
    if shared:
        return [(ones[side], twos[side]) for side in shared]
    low = min(value - half for value, half in ones.values())
    high = max(value + half for value, half in ones.values())
    window = ((low + high) / 2, (high - low) / 2)
    return [(window, number) for number in twos.values()]


def _numbers(torque: Torque, bounds: Bounds) -> dict[str, Printed]:
    """The numbers a text prints, by what they are, each with half of its last digit."""
    first, last = bounds.numbers[0], bounds.numbers[-1]
    if torque.low is not None and torque.high is not None and not torque.is_nominal:
        return {"low": (torque.low, _half(first)), "high": (torque.high, _half(last))}
    named = {"low": torque.low, "target": torque.target, "high": torque.high}
    return {name: (value, _half(first)) for name, value in named.items() if value is not None}


def _half(number: Amount) -> Fraction:
    return Fraction(1, 2 * 10**number.decimals)


def _distance(one: Printed, one_unit: str, two: Printed, two_unit: str) -> Fraction:
    value, half = one
    other, other_half = (convert(part, two_unit, one_unit) for part in two)
    gap = abs(value - other)
    return Fraction(0) if gap <= half + other_half else (gap / value)


def note(spec: Torque, other: Torque, share: Fraction) -> str:
    """The sentence about an equivalent that is a little off."""
    percent = plain(Fraction(round(share * 1000), 10))
    exact = show_torque(spec, other.unit)
    return f"{show_torque(other)} is {percent} % off: {show_torque(spec)} is {exact}."


def is_told(share: Fraction) -> bool:
    """Whether a deviation is told and not refused."""
    return share <= _TOLD_UP_TO


def likely_unit(spec: Torque, spec_bounds: Bounds, other: Torque, other_bounds: Bounds) -> str:
    """The unit that would make the equivalent right, or an empty string."""
    others = [unit for unit in _TRADE if unit not in (other.unit, spec.unit)]
    shares = {unit: apart(spec, spec_bounds, other, other_bounds, unit) for unit in others}
    best = min(others, key=lambda unit: shares[unit])
    return best if is_told(shares[best]) else ""
