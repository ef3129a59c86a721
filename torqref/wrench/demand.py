"""What is asked for and what was worked out: the facts that the setting and its sentences share."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from torqref.quantity.conversion import convert, torque_in
from torqref.quantity.term import Length, Torque
from torqref.wrench.adapter import Part
from torqref.wrench.band import Delivery, Verdict, Window
from torqref.wrench.figure import figures, printed
from torqref.wrench.rack import Wrench
from torqref.wrench.scale import Scale

AT_FASTENER = "at fastener"
WITH_TOOL = "setting with tool"


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What must arrive at the fastener, drag included, in the unit of one scale.

    Args:
        printed: the torque as its source printed it.
        parts: what stands between wrench and fastener, as given.
        unit: symbol of the unit of the three numbers.
        low: lower limit, or None.
        target: the value to aim at, or None where only one limit is given.
        high: upper limit, or None.
        drag: drag of a locking nut that is in the numbers, as it was measured.
        value_is: `at fastener`, or `setting with tool`, which is never corrected again.
    """

    printed: Torque
    parts: tuple[Part, ...]
    unit: str
    low: Fraction | None
    target: Fraction | None
    high: Fraction | None
    drag: Torque | None
    value_is: str

    @property
    def window(self) -> Window:
        """The limits."""
        return Window(low=self.low, high=self.high)

    @property
    def applied(self) -> tuple[Part, ...]:
        """The parts that are corrected for."""
        return applied(self.parts, self.value_is)

    def aim(self, delivery: Delivery) -> Fraction:
        """The setting worked out; a limit alone is kept off by what the wrench may be off."""
        if self.target is not None:
            return self.target / delivery.nominal
        if self.high is not None:
            return delivery.error.highest_setting(self.high / delivery.most)
        assert self.low is not None, "a torque holds at least one number"
        return delivery.error.lowest_setting(self.low / (delivery.least or delivery.nominal))


def demand_of(
    target: Torque, unit: str, parts: tuple[Part, ...], drag: Torque | None, value_is: str
) -> Demand:
    """A printed torque as the demand in one unit, with the drag of a locking nut added."""
    more = convert(drag.aim, drag.unit, unit) if drag else Fraction(0)
    low, aim, high = (None if value is None else value + more for value in torque_in(target, unit))
    return Demand(
        printed=target, parts=parts, unit=unit, low=low, target=aim, high=high, drag=drag, value_is=value_is
    )


def applied(parts: tuple[Part, ...], value_is: str) -> tuple[Part, ...]:
    """The parts that are corrected for: none where the page already did."""
    return () if value_is == WITH_TOOL else parts


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A setting worked out on one scale, before its sentences are made.

    Args:
        demand: what is asked for.
        delivery: the way from a setting to the fastener.
        value: the setting worked out, unrounded.
        dial: the number to dial.
        marks: the marks around the value, one or two; empty without a wrench.
        verdict: whether what arrives stays inside the window.
        span: settings that keep the whole band inside.
        wrench: the wrench, or None.
        scale: the scale of it, or None.
        length: the effective length that was used, or None.
        asked_unit: the unit that was asked for, empty for the printed one.
    """

    demand: Demand
    delivery: Delivery
    value: Fraction
    dial: Fraction
    marks: tuple[Fraction, ...]
    verdict: Verdict
    span: tuple[Fraction, Fraction] | None
    wrench: Wrench | None = None
    scale: Scale | None = None
    length: Length | None = None
    asked_unit: str = ""

    def shown(self, setting: Fraction) -> str:
        """A setting with the digits of the scale, or of the page where there is no wrench."""
        return shown(self.demand, self.scale, setting)

    def settable(self, setting: Fraction) -> str | None:
        """A setting as the nearest mark in figures, or None where it is off the scale."""
        if self.scale is None:
            return shown(self.demand, None, setting)
        mark = self.scale.nearest(setting)
        return None if mark is None else self.scale.shown(mark)

    def arrives(self, setting: Fraction) -> str:
        """What a setting nominally delivers, with one digit more than the scale where that helps."""
        return figures(setting * self.delivery.nominal, self.scale.decimals if self.scale else 0)


def shown(demand: Demand, scale: Scale | None, setting: Fraction) -> str:
    """A setting with the digits of the scale, or of the page where there is no wrench."""
    if scale is not None:
        return scale.shown(setting)
    page = demand.printed
    as_printed = setting == page.target and demand.unit == page.unit
    return printed(setting, page.decimals) if as_printed else figures(setting, page.decimals)
