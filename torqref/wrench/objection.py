"""Why a wrench cannot do what is asked, and what would do: each reason is one refusal."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import convert
from torqref.quantity.term import Torque
from torqref.wrench.adapter import needs_length
from torqref.wrench.demand import Outcome
from torqref.wrench.figure import figures, printed
from torqref.wrench.rack import Wrench
from torqref.wrench.scale import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Objection:
    """Why a wrench cannot do it.

    Args:
        text: what was asked for.
        few: the reason in a few words, for a list of wrenches.
        message: the reason and what would do, one sentence without a full stop.
    """

    text: str
    few: str
    message: str

    def refusal(self) -> Refusal:
        """The same as the answer to a question."""
        return Refusal(text=self.text, message=self.message)


def to_geometry(refusal: Refusal) -> Objection:
    """The adapter cannot pass on torque on this wrench."""
    few = refusal.message.partition(":")[0].partition(";")[0]
    return Objection(text=refusal.text, few=few, message=refusal.message)


def to_direction(wrench: Wrench, direction: str) -> Objection:
    """The wrench does not measure the way the fastener turns."""
    few = f"does not measure {direction}"
    return Objection(text=wrench.id, few=few, message=f"{wrench.called} {few}; take a wrench that does")


def to_outcome(outcome: Outcome) -> Objection | None:
    """What speaks against a setting on this scale, or None if it will do."""
    wrench, scale = outcome.wrench, outcome.scale
    if wrench is None or scale is None:
        return None
    is_off = not scale.low <= outcome.value <= scale.high
    # The last mark will do where a window holds all of it; a lone limit says nothing about the other side.
    if is_off and (outcome.verdict != "inside" or outcome.span is None):
        fixed = scale.low == scale.high
        return _preset(outcome, wrench, scale) if fixed else _off_scale(outcome, wrench, scale)
    return _no_mark(outcome, wrench) if outcome.verdict == "outside" else None


def _off_scale(outcome: Outcome, wrench: Wrench, scale: Scale) -> Objection:
    above = outcome.value > scale.high
    verb, end = ("ends", scale.high) if above else ("starts", scale.low)
    few = f"{verb} at {_both(outcome, scale, end)}"
    mend = f"take a {'larger' if above else 'smaller'} wrench{_across(outcome, scale)}"
    return Objection(
        text=outcome.demand.printed.text,
        few=few,
        message=f"{_asked(outcome)} is {'above' if above else 'below'} {wrench.called}, which {few}; {mend}",
    )


def _both(outcome: Outcome, scale: Scale, end: Fraction) -> str:
    """An end of the scale in its own unit, and in the printed one where that is another."""
    page = outcome.demand.printed
    own = f"{scale.shown(end)} {scale.unit}"
    if page.unit == scale.unit:
        return own
    return f"{own} ({figures(convert(end, scale.unit, page.unit))} {page.unit})"


def _preset(outcome: Outcome, wrench: Wrench, scale: Scale) -> Objection:
    few = f"is fixed at {scale.shown(scale.low)} {scale.unit}"
    return Objection(
        text=outcome.demand.printed.text,
        few=few,
        message=f"{wrench.called} {few} and {_asked(outcome)} is asked for; take a wrench that can be set",
    )


def _no_mark(outcome: Outcome, wrench: Wrench) -> Objection:
    marks = " and ".join(f"{outcome.shown(mark)} gives {outcome.arrives(mark)}" for mark in outcome.marks)
    mend = "take a wrench with finer marks"
    if needs_length(outcome.demand.applied):
        mend += ", or turn the crowfoot to 90°"
    return Objection(
        text=outcome.demand.printed.text,
        few=f"no mark meets {_limits(outcome)}",
        message=f"no mark of {wrench.called} meets {_limits(outcome)}: {marks} {outcome.demand.unit}; {mend}",
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
    if demand.target is None or not needs_length(demand.applied):
        return ""
    fits = scale.low <= demand.target <= scale.high
    return f", or turn the crowfoot to 90° and set {figures(demand.target)}" if fits else ""


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
