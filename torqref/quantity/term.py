"""What a text on a page says: a torque, an angle, a hand turn, or a chain of them.

The classes here hold what was read and nothing else. `reading` makes them from text, `showing` makes
text from them, `conversion` changes units. Numbers are exact fractions from the first digit on.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Torque:
    """A torque as its source printed it, in the unit it was printed in.

    Args:
        low: lower limit, or None where the text gives none.
        target: the value to aim at; None where the text gives only one limit.
        high: upper limit, or None where the text gives none.
        unit: symbol of a torque unit in `units.UNITS`.
        decimals: digits after the point of the most precise number printed.
        text: the text as written, without its equivalents.
        is_nominal: whether the page prints the target itself beside its limits, as in `57 ± 6 in-lb`, or
            the limits apart from it; the target of a range is only its middle.
    """

    low: Fraction | None
    target: Fraction | None
    high: Fraction | None
    unit: str
    decimals: int
    text: str
    is_nominal: bool = False
    kind: Literal["torque"] = "torque"

    @property
    def has_window(self) -> bool:
        """Whether the text gives both limits."""
        return self.low is not None and self.high is not None

    @property
    def aim(self) -> Fraction:
        """The number to aim at: the target, else the only limit there is."""
        for value in (self.target, self.high, self.low):
            if value is not None:
                return value
        raise ValueError("a torque holds at least one number")


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle:
    """A turn in degrees, positive in the tightening direction, negative for a back-off.

    Args:
        degrees: the turn to make; None where only limits are given.
        low: smallest turn allowed, or None.
        high: largest turn allowed, or None.
        text: the text as written.
    """

    degrees: Fraction | None
    low: Fraction | None
    high: Fraction | None
    text: str
    kind: Literal["angle"] = "angle"

    @property
    def aim(self) -> Fraction:
        """The turn to make: the value, else the middle of the limits, else the only limit."""
        if self.degrees is not None:
            return self.degrees
        limits = [limit for limit in (self.low, self.high) if limit is not None]
        return sum(limits, Fraction(0)) / len(limits)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """Turned by hand: finger tight, snug, until seated; or loosened again until it is free.

    Args:
        text: the text as written.
        loosen: whether the bolt is to be loosened fully, not run down.
    """

    text: str
    loosen: bool = False
    kind: Literal["hand"] = "hand"


Stage = Torque | Angle | Hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A value as text says it: one stage, or a chain of stages one after the other.

    Args:
        text: the text as given.
        stages: what it asks for, in order.
        notes: what was read in an unusual way, one sentence each.
        equivalents: the same torque printed again in other units.
    """

    text: str
    stages: tuple[Stage, ...]
    notes: tuple[str, ...] = ()
    equivalents: tuple[Torque, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length with its unit as written.

    Args:
        value: the number, exact.
        unit: symbol of a length unit in `units.UNITS`.
        decimals: digits after the point as written.
        text: the text as written.
    """

    value: Fraction
    unit: str
    decimals: int
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A reading of any kind with its unit, such as a gap, a temperature or a distance, and its limits.

    Args:
        low: lower limit, or None.
        target: the value itself, or None where only limits are given.
        high: upper limit, or None.
        unit: the unit as the measuring table writes it, such as `mm`, `°C`, `km` or `L`.
        decimals: digits after the point of the most precise number printed.
        text: the text as written.
    """

    low: Fraction | None
    target: Fraction | None
    high: Fraction | None
    unit: str
    decimals: int
    text: str
