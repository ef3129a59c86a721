"""Why a wrench cannot do what is asked, and what would do: each reason is one refusal."""

from __future__ import annotations

from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import convert
from torqref.quantity.term import Torque
from torqref.wrench.adapter import crowfeet, needs_length
from torqref.wrench.demand import Outcome
from torqref.wrench.figure import figures, printed
from torqref.wrench.rack import Wrench
from torqref.wrench.scale import Scale


def wrong_direction(wrench: Wrench, direction: str) -> Refusal:
    """The wrench does not measure the way the fastener turns."""
    return Refusal(
        text=wrench.id,
        message=f"{wrench.called} does not measure {direction}; take a wrench that does",
    )


def to_outcome(outcome: Outcome) -> Refusal | None:
    """What speaks against a setting on this scale, or None if it will do."""
    wrench, scale = outcome.wrench, outcome.scale
    if wrench is None or scale is None:
        return None
    if outcome.value > scale.high and outcome.verdict != "inside":
        return _off_scale(outcome, wrench, scale, "above")
    if outcome.value < scale.low and outcome.verdict != "inside":
        return _off_scale(outcome, wrench, scale, "below")
    return _no_mark(outcome, wrench) if outcome.verdict == "outside" else None


def _off_scale(outcome: Outcome, wrench: Wrench, scale: Scale, side: str) -> Refusal:
    if scale.low == scale.high:
        return _preset(outcome, wrench, scale)
    verb, end, size = ("ends", scale.high, "larger") if side == "above" else ("starts", scale.low, "smaller")
    return Refusal(
        text=outcome.demand.printed.text,
        message=f"{_asked(outcome)} is {side} {wrench.called}, which {verb} at {_both(outcome, scale, end)}; "
        f"take a {size} wrench{_across(outcome, scale)}",
    )


def _both(outcome: Outcome, scale: Scale, end: Fraction) -> str:
    """An end of the scale in its own unit, and in the printed one where that is another."""
    page = outcome.demand.printed
    own = f"{scale.shown(end)} {scale.unit}"
    return (
        own
        if page.unit == scale.unit
        else f"{own} ({figures(convert(end, scale.unit, page.unit))} {page.unit})"
    )


def _preset(outcome: Outcome, wrench: Wrench, scale: Scale) -> Refusal:
    return Refusal(
        text=outcome.demand.printed.text,
        message=f"{wrench.called} is fixed at {scale.shown(scale.low)} {scale.unit} and {_asked(outcome)} "
        "is asked for; take a wrench that can be set",
    )


def _no_mark(outcome: Outcome, wrench: Wrench) -> Refusal:
    marks = " and ".join(f"{outcome.shown(mark)} gives {outcome.arrives(mark)}" for mark in outcome.marks)
    return Refusal(
        text=outcome.demand.printed.text,
        message=f"no mark of {wrench.called} meets {_limits(outcome)}: {marks} {outcome.demand.unit}; "
        "take a wrench with finer marks, or turn the crowfoot to 90° if there is one",
    )


def _asked(outcome: Outcome) -> str:
    """The setting asked for, and the printed value where that is another number."""
    page, unit = outcome.demand.printed, outcome.demand.unit
    if outcome.value == page.target and unit == page.unit:
        return f"{printed(outcome.value, page.decimals)} {unit}"
    if page.target is not None and outcome.delivery.nominal == 1 and outcome.demand.drag is None:
        return f"{page.text} ({figures(outcome.value)} {unit})"
    return f"a setting of {figures(outcome.value, page.decimals)} {unit} (for {page.text})"


def _across(outcome: Outcome, scale: Scale) -> str:
    """The hint that a crowfoot across the handle would do on the same wrench."""
    demand = outcome.demand
    if demand.target is None or not needs_length(demand.applied) or not crowfeet(demand.applied):
        return ""
    straight: Fraction = demand.target
    fits = scale.low <= straight <= scale.high
    return f", or turn the crowfoot to 90° and set {figures(straight)}" if fits else ""


def _limits(outcome: Outcome) -> str:
    window, places = outcome.demand.window, outcome.demand.printed.decimals
    low = figures(window.low, places, "up") if window.low is not None else ""
    high = figures(window.high, places, "down") if window.high is not None else ""
    if low and high:
        return f"{low} to {high} {outcome.demand.unit}"
    return f"at least {low} {outcome.demand.unit}" if low else f"at most {high} {outcome.demand.unit}"


def no_single_setting(set_to: Torque) -> Refusal:
    """A wrench is set to one number."""
    return Refusal(
        text=set_to.text,
        message=f'"{set_to.text}" is not what one wrench was set to; one number is expected',
        readings=tuple(
            f"{printed(value, set_to.decimals)} {set_to.unit}"
            for value in (set_to.low, set_to.high)
            if value is not None
        ),
    )


def not_on_scale(set_to: Torque, wrench: Wrench, scale: Scale) -> Refusal:
    """The wrench has no such mark, so it was not set to that."""
    ends = f"{scale.shown(scale.low)} to {scale.shown(scale.high)} {scale.unit}"
    return Refusal(
        text=set_to.text,
        message=f"{set_to.text} is not on the scale of {wrench.called} ({ends}); look at wrench and unit",
    )
