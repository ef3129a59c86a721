"""One scale of a wrench: its unit, its two ends, and the marks between them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from torqref.wrench.figure import fixed

_MOST_DIGITS = 4
# Marks further apart than this share of the torque are too coarse for it:
# TM 1-1500-204-23-9 (US Army, 1992), paragraph 8-3.
COARSEST = Fraction(1, 10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """One scale of a wrench, in the unit that is printed on it.

    Args:
        unit: symbol of a torque unit.
        low: lowest mark.
        high: highest mark, the full scale; equal to `low` on a preset wrench.
        graduation: step from mark to mark, or the last digit of a display; 0 on a preset wrench.
    """

    unit: str
    low: Fraction
    high: Fraction
    graduation: Fraction

    @property
    def decimals(self) -> int:
        """Digits after the point that tell one mark from the next."""
        return max(digits(self.graduation), digits(self.low))

    def shown(self, value: Fraction) -> str:
        """A value with the digits of the marks.

        >>> scale = Scale(unit="N·m", low=Fraction(10), high=Fraction(60), graduation=Fraction(1, 2))
        >>> scale.shown(Fraction(25))
        '25.0'
        """
        return fixed(value, self.decimals)

    def marks(self, value: Fraction) -> tuple[Fraction, ...]:
        """The mark at a value, or the two marks around it, as far as the scale has them.

        >>> scale = Scale(unit="ft-lb", low=Fraction(20), high=Fraction(150), graduation=Fraction(2))
        >>> [int(mark) for mark in scale.marks(Fraction(8182, 100))]
        [80, 82]
        """
        if not self.graduation:
            return (self.low,)
        steps = (value - self.low) / self.graduation
        below = steps.numerator // steps.denominator
        last = (self.high - self.low) // self.graduation
        numbers = {min(max(number, 0), last) for number in (below, below + (steps != below))}
        return tuple(self.low + number * self.graduation for number in sorted(numbers))

    def is_coarse_at(self, dial: Fraction) -> bool:
        """Whether the marks are too far apart for so small a torque."""
        return self.graduation > COARSEST * dial

    def nearest(self, value: Fraction) -> Fraction | None:
        """The mark nearest to a value, or None where the value is off the scale."""
        if not self.low <= value <= self.high:
            return None
        return min(self.marks(value), key=lambda mark: abs(mark - value))

    def marks_within(self, low: Fraction, high: Fraction) -> tuple[Fraction, Fraction] | None:
        """The lowest and the highest mark inside a span, or None where no mark is inside."""
        least, most = self.marks(low)[-1], self.marks(high)[0]
        return (least, most) if low <= least <= most <= high else None


def digits(value: Fraction) -> int:
    """Digits after the point that write a number exactly, four at most.

    >>> digits(Fraction("0.25"))
    2
    """
    exact = (places for places in range(_MOST_DIGITS) if (value * 10**places).denominator == 1)
    return next(exact, _MOST_DIGITS)
