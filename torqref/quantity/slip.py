"""Whether two values look like one value read in two units: for places that should be alike."""

from __future__ import annotations

from fractions import Fraction

from torqref.quantity.conversion import convert
from torqref.quantity.showing import show_torque
from torqref.quantity.term import Torque

_DOZEN = 12


def unit_slip(one: Torque, other: Torque) -> str:
    """Why one of two values may carry the unit of the other; empty where nothing points to it.

    Args:
        one: a torque as printed.
        other: another, of a place that one expects to be like it, such as one of the same thread.

    Returns:
        One sentence, or an empty string. The same number in another unit is told, and a factor of twelve
        in inch-pounds and foot-pounds. A factor of about ten or 1.36 is common between honest values and
        is not told.

    >>> from torqref.quantity.reading import read_torque
    >>> unit_slip(read_torque("35 in-lb"), read_torque("35 ft-lb"))
    '35 in-lb and 35 ft-lb are one number in two units; one of the units may be wrong.'
    """
    first, second = show_torque(one), show_torque(other)
    if one.unit != other.unit and (one.low, one.target, one.high) == (other.low, other.target, other.high):
        return f"{first} and {second} are one number in two units; one of the units may be wrong."
    units = {one.unit, other.unit}
    if units <= {"in-lb", "ft-lb"} and _ratio(one, other) in (_DOZEN, Fraction(1, _DOZEN)):
        return f"{first} and {second} differ by the twelve inches of a foot; one of the units may be wrong."
    return ""


def _ratio(one: Torque, other: Torque) -> Fraction:
    return convert(one.aim, one.unit, "in-lb") / convert(other.aim, other.unit, "in-lb")
