"""What arrives at the fastener: how far a wrench may be off, the band it gives, and whether that fits.

Everything is worst case, never statistics: tolerance of the wrench, half a graduation, and what the
adapter adds are summed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from torqref.wrench.rack import Wrench
from torqref.wrench.scale import Scale

Verdict = Literal["inside", "touches", "outside", "no window"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """The torque that arrives, least, nominal and most.

    Args:
        low: least that may arrive.
        target: what arrives if nothing is off.
        high: most that may arrive.
        unit: symbol of the torque unit.
    """

    low: Fraction
    target: Fraction
    high: Fraction
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The limits of a specification, each as far as it is given."""

    low: Fraction | None
    high: Fraction | None

    @property
    def given(self) -> bool:
        """Whether there is any limit."""
        return self.low is not None or self.high is not None

    def holds(self, value: Fraction) -> bool:
        """Whether a value lies inside the limits that are given."""
        return self.lacks(value) == 0 and self.exceeds(value) == 0

    def lacks(self, value: Fraction) -> Fraction:
        """By how much a value is too little, 0 if it is enough."""
        return max(self.low - value, Fraction(0)) if self.low is not None else Fraction(0)

    def exceeds(self, value: Fraction) -> Fraction:
        """By how much a value is too much, 0 if it is not."""
        return max(value - self.high, Fraction(0)) if self.high is not None else Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Error:
    """How far a setting may be off on one scale: share · max(setting, floor) + fixed.

    Below the lowest certified value nothing is promised; there the error at that value is taken, because
    it does not shrink with the setting. That is an estimate.

    Args:
        share: tolerance as a share of the reading.
        floor: lowest certified value.
        fixed: half a graduation.
    """

    share: Fraction
    floor: Fraction = Fraction(0)
    fixed: Fraction = Fraction(0)

    def at(self, setting: Fraction) -> Fraction:
        """The error at a setting, in the unit of the scale."""
        return self.share * max(setting, self.floor) + self.fixed

    def highest_setting(self, limit: Fraction) -> Fraction:
        """The setting that delivers a limit at most: the inverse of setting + error."""
        setting = (limit - self.fixed) / (1 + self.share)
        return setting if setting >= self.floor else limit - self.fixed - self.share * self.floor

    def lowest_setting(self, limit: Fraction) -> Fraction:
        """The setting that delivers a limit at least: the inverse of setting - error."""
        setting = (limit + self.fixed) / (1 - self.share)
        return setting if setting >= self.floor else limit + self.fixed + self.share * self.floor


def error_of(wrench: Wrench, scale: Scale, direction: str) -> Error:
    """How far this wrench may be off on this scale: tolerance and half a graduation."""
    return Error(
        share=wrench.tolerance_in(direction),
        floor=wrench.certified_from * scale.high,
        fixed=scale.graduation / 2,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """The way from a setting to the fastener: the error of the wrench, and what the adapter passes on.

    Args:
        error: how far the wrench may be off.
        nominal: torque at the fastener for one unit of setting.
        least: the least of it, with lengths and angles as well as known.
        most: the most of it.
    """

    error: Error
    nominal: Fraction = Fraction(1)
    least: Fraction = Fraction(1)
    most: Fraction = Fraction(1)

    def band(self, setting: Fraction, unit: str) -> Band:
        """What arrives for a setting.

        >>> Delivery(error=Error(share=Fraction(4, 100))).band(Fraction(100), "N·m").low
        Fraction(96, 1)
        """
        error = self.error.at(setting)
        return Band(
            low=max(setting - error, Fraction(0)) * self.least,
            target=setting * self.nominal,
            high=(setting + error) * self.most,
            unit=unit,
        )

    def span(self, window: Window) -> tuple[Fraction, Fraction] | None:
        """The settings that keep the whole band inside the window; None where there are none.

        >>> delivery = Delivery(error=Error(share=Fraction(4, 100)))
        >>> [round(float(end), 2) for end in delivery.span(Window(low=Fraction(20), high=Fraction(25)))]
        [20.83, 24.04]
        """
        if window.low is None or window.high is None or not self.least:
            return None
        low = self.error.lowest_setting(window.low / self.least)
        high = self.error.highest_setting(window.high / self.most)
        return (low, high) if low <= high else None

    def verdict(self, setting: Fraction, window: Window) -> Verdict:
        """Whether what arrives stays inside the window.

        `inside`: the whole band does. `touches`: what should arrive does, the band reaches beyond.
        `outside`: even what should arrive does not.
        """
        if not window.given:
            return "no window"
        band = self.band(setting, "")
        if window.holds(band.low) and window.holds(band.high):
            return "inside"
        return "touches" if window.holds(band.target) else "outside"
