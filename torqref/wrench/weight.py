"""A check of a wrench with a weight at a measured arm: what it should read. A check, not a calibration."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import convert
from torqref.quantity.measure import read_measure
from torqref.quantity.term import Length
from torqref.quantity.units import BY_SYMBOL
from torqref.wrench.band import error_of
from torqref.wrench.figure import figures, percent
from torqref.wrench.iso6789 import LOAD_SECONDS, OVERLOAD, TEMPERATURE, TEST_POINTS, TIMES_BETTER
from torqref.wrench.rack import Wrench
from torqref.wrench.scale import Scale

NOT_A_CALIBRATION = "A check, not a calibration: a calibration comes with a certificate."
# A test point is met within this share of full scale: our own limit.
_NEAR = Fraction(1, 20)
# An arm further from the mark on the grip than this share of the handle is told: our own limit.
_OFF_MARK = Fraction(1, 20)
_READ = {
    "click": "Hang it gently at the grip mark: at the lower end it must click, at the upper it must not.",
    "preset": "Hang it gently at the grip mark: this wrench must just signal.",
}
# A mass on a scale, and the force it hangs with.
_HANGING = {"kg": "kgf", "g": "gf"}
_READ_OTHER = "Hang it gently at the grip mark, and read when it hangs still."


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight as it was written, as the force it pulls with: lb and kg are forces here.

    Args:
        value: the number.
        unit: symbol of a force unit.
        text: the text as written.
    """

    value: Fraction
    unit: str
    text: str


def read_weight(text: str) -> Weight | Refusal:
    """A weight such as `25 lb`, `10 kg` or `98.1 N`; a mass counts as the force it hangs with.

    >>> weight = read_weight("10 kg")
    >>> isinstance(weight, Weight) and (weight.value, weight.unit)
    (Fraction(10, 1), 'kgf')
    """
    found = read_measure(text)
    if isinstance(found, Refusal):
        bare = text.strip()
        if not bare.replace(",", "").replace(".", "").isdecimal():
            return found
        readings = tuple(f"{bare} {unit}" for unit in ("kg", "lb", "N"))
        return replace(found, message="this weight has no unit; kg, lb or N is expected", readings=readings)
    unit = _HANGING.get(found.unit, found.unit)
    if unit not in BY_SYMBOL or BY_SYMBOL[unit].kind != "force":
        return Refusal(
            text=text, message=f'"{text}" is no weight; kg, lb or N is expected', readings=("10 kg", "25 lb")
        )
    if found.target is None or found.target <= 0:
        return Refusal(
            text=text, message=f'"{text}" is not one weight above zero', readings=("10 kg", "25 lb")
        )
    return Weight(value=found.target, unit=unit, text=found.text)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightCheck:
    """What a wrench should show under a weight.

    Args:
        wrench: the wrench.
        unit: symbol of the unit of its scale.
        expected: weight times arm.
        low: least reading the tolerance allows.
        high: greatest reading the tolerance allows.
        notes: how to do it, and what it is worth.
        decimals: digits after the point of the scale.
    """

    wrench: Wrench
    unit: str
    expected: Fraction
    low: Fraction
    high: Fraction
    decimals: int
    notes: tuple[str, ...]

    def judge(self, reading: Fraction) -> Literal["inside", "outside"]:
        """Whether a reading lies inside the allowed span."""
        return "inside" if self.low <= reading <= self.high else "outside"

    def sentence(self) -> str:
        """The expected reading and the allowed span."""
        expected = figures(self.expected, self.decimals)
        low, high = figures(self.low, self.decimals, "up"), figures(self.high, self.decimals, "down")
        return f"{self.wrench.called}: should read {expected} {self.unit}; {low} to {high} is allowed."

    def result(self, reading: Fraction) -> str:
        """What a reading says about the wrench."""
        number = figures(reading, self.decimals)
        if self.judge(reading) == "inside":
            return f"Read {number}: inside."
        off = percent(reading / self.expected - 1, signed=True)
        return f"Read {number}: OUTSIDE ({off}). Check weight and arm; if it stays so, have it calibrated."


def moment(weight: Weight, arm: Length, unit: str) -> Fraction:
    """Torque of a weight that hangs at a horizontal arm: weight · arm.

    Args:
        weight: the force.
        arm: horizontal distance from the centre of the drive square to the string.
        unit: symbol of the torque unit wanted.

    Source: definition of a moment; the weight as a force with standard gravity, 9.80665 m/s².

    >>> pound = Weight(value=Fraction(18), unit="lbf", text="18 lb")
    >>> moment(pound, Length(value=Fraction(6), unit="in", decimals=0, text="6 in"), "ft-lb")
    Fraction(9, 1)
    """
    newton_metres = convert(weight.value, weight.unit, "N") * convert(arm.value, arm.unit, "m")
    return convert(newton_metres, "N·m", unit)


def arm_for(torque: Fraction, unit: str, weight: Weight, arm_unit: str) -> Fraction:
    """The horizontal arm at which a weight gives a torque: the inverse of `moment`.

    The weight of a person on a bar is an estimate, and a record of it says so.

    >>> arm_for(Fraction(300), "ft-lb", Weight(value=Fraction(150), unit="lbf", text="150 lb"), "ft")
    Fraction(2, 1)
    """
    metres = convert(torque, unit, "N·m") / convert(weight.value, weight.unit, "N")
    return convert(metres, "m", arm_unit)


def check_with(
    wrench: Wrench, weight: Weight, arm: Length, *, unit: str | None = None, direction: str = "clockwise"
) -> WeightCheck | Refusal:
    """What this wrench should read under this weight at this arm.

    allowed = weight · arm ± (tolerance · reading + half a graduation)

    Args:
        wrench: the wrench, clamped by its square so that the handle lies level.
        weight: what hangs on it.
        arm: horizontal distance from the centre of the square to the string.
        unit: which scale is read; the first one if it is not given.
        direction: clockwise or anticlockwise.

    Returns:
        The expected reading with its span; refused where the weight is more or less than the scale.
    """
    scale = next((scale for scale in wrench.scales if scale.unit == unit), wrench.scales[0])
    expected = moment(weight, arm, scale.unit)
    if not wrench.measures(direction):
        return Refusal(text=wrench.id, message=f"{wrench.called} does not measure {direction}")
    if expected > scale.high or (expected < scale.low < scale.high):
        return _off_scale(wrench, scale, expected, weight, arm)
    error = error_of(wrench, scale, direction).at(expected)
    return WeightCheck(
        wrench=wrench,
        unit=scale.unit,
        expected=expected,
        low=expected - error,
        high=expected + error,
        decimals=scale.decimals,
        notes=_notes(wrench, scale, expected, arm, error),
    )


def _off_scale(wrench: Wrench, scale: Scale, expected: Fraction, weight: Weight, arm: Length) -> Refusal:
    above = expected > scale.high
    verb, mark = ("ends", scale.high) if above else ("starts", scale.low)
    end = f"{verb} at {scale.shown(mark)} {scale.unit}"
    overload = f"; past {percent(1 + OVERLOAD)} of its end it must be calibrated again" if above else ""
    return Refusal(
        text=wrench.id,
        message=f"{weight.text} at {arm.text} is {figures(expected)} {scale.unit} and {wrench.called} {end}; "
        f"take {'less' if above else 'more'} weight or a {'shorter' if above else 'longer'} arm{overload}",
    )


def _notes(wrench: Wrench, scale: Scale, expected: Fraction, arm: Length, error: Fraction) -> tuple[str, ...]:
    finest = error / expected / TIMES_BETTER
    seconds = f"{float(LOAD_SECONDS[0]):g} to {float(LOAD_SECONDS[1]):g} s"
    degrees = f"{TEMPERATURE[0]} to {TEMPERATURE[1]} °C"
    notes = [
        NOT_A_CALIBRATION,
        _READ.get(wrench.kind, _READ_OTHER),
        f"Let the last fifth of the load on in {seconds}, at {degrees}.",
        "The weight of the handle counts too: take its own reading off.",
        f"Weight and arm must be known to ±{percent(finest)}, a quarter of what the wrench may be off.",
        _test_points(scale, expected),
        _off_mark(wrench, arm),
    ]
    return tuple(note for note in notes if note)


def _test_points(scale: Scale, expected: Fraction) -> str:
    """Where on the scale this check stands, and where ISO 6789 tests."""
    share = expected / scale.high
    if scale.low == scale.high or any(abs(share - point) <= _NEAR for point in TEST_POINTS):
        return ""
    points = ", ".join(f"{scale.shown(point * scale.high)}" for point in TEST_POINTS)
    return f"This is at {round(share * 100)} % of scale; ISO 6789 tests at {points} {scale.unit}."


def _off_mark(wrench: Wrench, arm: Length) -> str:
    if wrench.length is None:
        return ""
    mark = convert(wrench.length.value, wrench.length.unit, arm.unit)
    if abs(arm.value / mark - 1) <= _OFF_MARK:
        return ""
    place = "pivot pin" if wrench.length_to == "pivot" else "mark on the grip"
    length = wrench.length.text
    return f"The {place} is at {length}, the weight at {arm.text}: some wrenches then read otherwise."
