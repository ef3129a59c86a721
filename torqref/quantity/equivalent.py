"""The same torque printed again in another unit: does it say the same, nearly the same, or another thing."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from torqref.quantity.bounds import Bounds
from torqref.quantity.conversion import convert
from torqref.quantity.number import Amount
from torqref.quantity.scan import CLOSE, Scan, Unread
from torqref.quantity.showing import plain, show_torque
from torqref.quantity.term import Torque

_TOLD_UP_TO = Fraction(3, 100)
# In the order in which a slip is likely.
_TRADE = ("in-lb", "ft-lb", "N·m", "kgf·m", "kgf·cm", "N·cm", "cN·m", "daN·m", "ozf·in")
_LOST_POINT = (Fraction(1, 10), Fraction(10), Fraction(1, 100))


class Printed(NamedTuple):
    """A torque and the numbers its text prints for it."""

    torque: Torque
    bounds: Bounds


class Rounded(NamedTuple):
    """A number and half of its last digit."""

    value: Fraction
    half: Fraction


def apart(spec: Printed, other: Printed, unit: str = "", times: Fraction = Fraction(1)) -> Fraction:
    """How far an equivalent is from the value printed first, as a share; zero if rounding explains it.

    Args:
        spec: the value printed first.
        other: the equivalent.
        unit: a unit to try for the equivalent instead of its own.
        times: a factor to try on its number.

    Returns:
        The largest share of the spec by which a number is off.
    """
    unit = unit or other.torque.unit
    pairs = _pairs(_numbers(spec), _numbers(other))
    scaled = ((one, Rounded(two.value * times, two.half * times)) for one, two in pairs)
    return max(_distance(one, spec.torque.unit, two, unit) for one, two in scaled)


def _pairs(spec: dict[str, Rounded], other: dict[str, Rounded]) -> list[tuple[Rounded, Rounded]]:
    """What to compare with what: like with like, else each number with the span of the spec."""
    shared = [side for side in spec if side in other]
    if shared:
        return [(spec[side], other[side]) for side in shared]
    low = min(number.value - number.half for number in spec.values())
    high = max(number.value + number.half for number in spec.values())
    span = Rounded((low + high) / 2, (high - low) / 2)
    return [(span, number) for number in other.values()]


def _numbers(printed: Printed) -> dict[str, Rounded]:
    """The numbers a text prints, by what they are, each with half of its last digit."""
    torque, numbers = printed.torque, printed.bounds.numbers
    if torque.has_window and not torque.is_nominal:
        assert torque.low is not None
        assert torque.high is not None
        return {
            "low": Rounded(torque.low, _half(numbers[0])),
            "high": Rounded(torque.high, _half(numbers[-1])),
        }
    named = {"low": torque.low, "target": torque.target, "high": torque.high}
    half = _half(max(numbers, key=_half))
    # A limit of `18 ± 1` is made of two numbers, and each of them is rounded.
    sides = 2 if torque.is_nominal else 1
    return {
        name: Rounded(value, half if name == "target" else half * sides)
        for name, value in named.items()
        if value is not None
    }


def _half(number: Amount) -> Fraction:
    return Fraction(1, 2 * 10**number.decimals)


def _distance(one: Rounded, one_unit: str, two: Rounded, two_unit: str) -> Fraction:
    other, half = (convert(part, two_unit, one_unit) for part in two)
    gap = abs(one.value - other)
    return Fraction(0) if gap <= one.half + half else gap / one.value


def is_told(share: Fraction) -> bool:
    """Whether a deviation is told and not refused."""
    return share <= _TOLD_UP_TO


def note(spec: Torque, other: Torque, share: Fraction) -> str:
    """The sentence about an equivalent that is a little off."""
    percent = plain(max(Fraction(round(share * 1000), 10), Fraction(1, 10)))
    exact = show_torque(spec, other.unit)
    return f"{show_torque(other)} is {percent} % off: {show_torque(spec)} is {exact}. The first value counts."


def contradiction(scan: Scan, spec: Printed, other: Printed, *, in_bracket: bool) -> Unread:
    """Two values that cannot both be right: both of them, and the slip that would explain it."""
    one, two = _shown(spec), _shown(other)
    fit, slip = _likely_slip(spec, other)
    size = _in_words(apart(spec, other))
    message = f"{one} and {two} contradict each other: {two} is {show_torque(other.torque, spec.torque.unit)}"
    options = [one, two]
    if fit:
        options.insert(0, f"{one} ({fit})")
    if not in_bracket:
        options.append(f"{one} then {two}")
    start = scan.found[spec.bounds.first].start
    end = scan.found[scan.at - 1 + (in_bracket and scan.token.text in CLOSE)].end
    at = other.bounds.numbers[0].start
    return Unread(f"{message}, {size}{slip}", at=at, options=tuple(options), span=(start, end))


def _shown(printed: Printed) -> str:
    """A torque as it is shown."""
    return show_torque(printed.torque)


def _in_words(share: Fraction) -> str:
    """How far apart two values are: in percent, or as a multiple."""
    if share < 1:
        return f"{plain(Fraction(round(share * 100)))} % apart"
    return f"{plain(Fraction(round(share + 1)))} times as much"


def _likely_slip(spec: Printed, other: Printed) -> tuple[str, str]:
    """The equivalent with the unit or the decimal point that would make it right, and the words for it."""
    shares = {
        unit: apart(spec, other, unit) for unit in _TRADE if unit not in (other.torque.unit, spec.torque.unit)
    }
    unit = min(shares, key=lambda unit: shares[unit])
    if is_told(shares[unit]):
        fit = show_torque(replace(other.torque, unit=unit))
        return fit, f"; {fit} would fit, so the unit {other.torque.unit} looks wrong"
    for times in _LOST_POINT:
        if is_told(apart(spec, other, times=times)):
            fit = show_torque(_scaled(other.torque, times))
            return fit, f"; {fit} would fit, so a decimal point may be lost"
    return "", ""


def _scaled(torque: Torque, times: Fraction) -> Torque:
    low, target, high = (
        None if value is None else value * times for value in (torque.low, torque.target, torque.high)
    )
    decimals = torque.decimals + (1 if times < 1 else 0)
    return replace(torque, low=low, target=target, high=high, decimals=decimals)
