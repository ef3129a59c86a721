"""From a target to the number to dial: through the adapter, onto a mark, with what then arrives.

Nothing here knows a file or a screen. The sentences beside the number are made in `note`, the reasons
why a wrench cannot do it in `objection`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import convert
from torqref.quantity.term import Length, Torque
from torqref.wrench import objection
from torqref.wrench.adapter import Part, arrival, arrival_span
from torqref.wrench.band import Band, Delivery, Error, Verdict, error_of
from torqref.wrench.demand import AT_FASTENER, WITH_TOOL, Demand, Outcome, applied, demand_of, shown
from torqref.wrench.figure import figures
from torqref.wrench.note import AFTERWARDS, BEFOREHAND, Rule, in_short, notes_on
from torqref.wrench.objection import Objection
from torqref.wrench.rack import ORDINARY_TOLERANCE, Wrench
from torqref.wrench.scale import Scale

_FITS: dict[Verdict, str] = {
    "inside": ", inside the window",
    "touches": ", which may leave the window",
    "outside": ", outside the window",
    "no window": "",
}
_RANK: dict[Verdict, int] = {"inside": 0, "no window": 0, "touches": 1, "outside": 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What to set, and what that does at the fastener.

    Args:
        wrench_id: the wrench, or empty where none was named.
        value: the setting worked out, unrounded.
        dial: the number to dial, on a mark of the scale.
        unit: symbol of the unit of the scale.
        shown: the number to dial as text, with the digits of the scale.
        factor: setting for one unit of torque at the fastener.
        at_fastener: what arrives; None where the error of the wrench or the tool of the page is not known.
        verdict: whether what arrives stays inside the window; without a wrench, for one of ±4 %.
        span: settings that keep all of it inside; None where there are none or no window is given.
        notes: what the technician may want to know, a sentence each, the most useful first.
        short: what of it a stop has room for, in few words.
    """

    wrench_id: str
    value: Fraction
    dial: Fraction
    unit: str
    shown: str
    factor: Fraction
    at_fastener: Band | None
    verdict: Verdict
    span: tuple[Fraction, Fraction] | None
    notes: tuple[str, ...] = ()
    short: tuple[str, ...] = ()

    def sentence(self) -> str:
        """What arrives at the fastener and whether it fits, or an empty string where it is not known."""
        band = self.at_fastener
        if band is None:
            return ""
        ends = f"{figures(band.low)} to {figures(band.high)} {band.unit}"
        return f"At the fastener: {figures(band.target)} {band.unit}; it may be {ends}{_FITS[self.verdict]}."


def setting_for(
    target: Torque,
    wrench: Wrench | None = None,
    pieces: tuple[Part, ...] = (),
    *,
    length: Length | None = None,
    drag: Torque | None = None,
    value_is: str = AT_FASTENER,
    unit: str | None = None,
    direction: str = "clockwise",
) -> Setting | Refusal:
    """What to set on a wrench so that the target arrives at the fastener.

    setting = (target + drag) · factor, put on the mark that stays inside the window

    Args:
        target: the torque as printed.
        wrench: a wrench of the rack; None for an ordinary one of ±4 % without marks.
        pieces: what is on the drive square, from the wrench outwards.
        length: effective length, where it is not that of the wrench in the rack.
        drag: measured drag of a locking nut, added before the adapter.
        value_is: `setting with tool` where the page already corrected for its tool.
        unit: unit that the scale should have; the printed one where the wrench has none in it, or where
            that scale will not do. Without a wrench it is the unit of the number.
        direction: clockwise or anticlockwise.

    Returns:
        The setting; or a refusal that says what would do instead.
    """
    found = attempt(
        target,
        wrench,
        pieces,
        length=length,
        drag=drag,
        value_is=value_is,
        unit=unit,
        direction=direction,
    )
    return found if isinstance(found, Setting) else found.refusal()


def attempt(
    target: Torque,
    wrench: Wrench | None,
    pieces: tuple[Part, ...],
    *,
    length: Length | None = None,
    drag: Torque | None = None,
    value_is: str = AT_FASTENER,
    unit: str | None = None,
    direction: str = "clockwise",
) -> Setting | Objection:
    """The same as `setting_for`, with the objection itself where the wrench cannot do it."""
    if wrench is not None and not wrench.measures(direction):
        return objection.to_direction(wrench, direction)
    length = length or (wrench.length if wrench else None)
    parts = applied(pieces, value_is)
    share = arrival(length, parts)
    if isinstance(share, Refusal):
        return objection.to_geometry(share)
    delivery_of = (direction, share, arrival_span(length, parts))
    first: Outcome | Objection | None = None
    for scale in _scales(wrench, target.unit, unit):
        demand = demand_of(target, scale.unit if scale else unit or target.unit, pieces, drag, value_is)
        found = _outcome(demand, _delivery(wrench, scale, *delivery_of), wrench, scale, length)
        if isinstance(found, Outcome):
            return _setting(replace(found, asked_unit=unit or ""))
        first = first or found
    assert isinstance(first, Objection), "there is at least one scale, or None in its place"
    return first


def _scales(wrench: Wrench | None, printed: str, asked: str | None) -> tuple[Scale | None, ...]:
    """The scales to try: the one in the unit asked for, then the one in the printed unit or the first."""
    if wrench is None:
        return (None,)
    return tuple(dict.fromkeys((wrench.scale_for(asked, printed), wrench.scale_for(printed))))


def achieved_by(
    set_to: Torque,
    wrench: Wrench | None = None,
    pieces: tuple[Part, ...] = (),
    *,
    length: Length | None = None,
    direction: str = "clockwise",
) -> Setting | Refusal:
    """What arrives at the fastener when a wrench was set to a value: the inverse of `setting_for`.

    achieved = setting / factor, which is the target of the band at the fastener

    Args:
        set_to: what the wrench was set to, one number.
        wrench: a wrench of the rack, or None.
        pieces: what was on the drive square.
        length: effective length, where it is not that of the wrench in the rack.
        direction: clockwise or anticlockwise.

    Returns:
        The setting as it was, with the band that it gives; refused where the wrench has no such mark.
    """
    if set_to.target is None or set_to.has_window:
        return objection.no_single_setting(set_to)
    if wrench is not None and not wrench.measures(direction):
        return objection.to_direction(wrench, direction).refusal()
    length = length or (wrench.length if wrench else None)
    share = arrival(length, pieces)
    if isinstance(share, Refusal):
        return share
    scale = wrench.scale_for(set_to.unit) if wrench else None
    unit = scale.unit if scale else set_to.unit
    value = convert(set_to.target, set_to.unit, unit)
    if wrench is not None and scale is not None and not scale.low <= value <= scale.high:
        return objection.not_on_scale(set_to, wrench, scale)
    outcome = Outcome(
        demand=demand_of(set_to, unit, pieces, None, AT_FASTENER),
        delivery=_delivery(wrench, scale, direction, share, arrival_span(length, pieces)),
        value=value,
        dial=value,
        marks=(),
        verdict="no window",
        span=None,
        wrench=wrench,
        length=length,
    )
    return _setting(outcome, AFTERWARDS)


def _delivery(
    wrench: Wrench | None,
    scale: Scale | None,
    direction: str,
    share: Fraction,
    span: tuple[Fraction, Fraction],
) -> Delivery:
    """The way to the fastener; without a wrench an ordinary one is taken."""
    error = error_of(wrench, scale, direction) if wrench and scale else Error(share=ORDINARY_TOLERANCE)
    return Delivery(error=error, nominal=share, least=span[0], most=span[1])


def _outcome(
    demand: Demand, delivery: Delivery, wrench: Wrench | None, scale: Scale | None, length: Length | None
) -> Outcome | Objection:
    """The setting on one scale, or why this scale cannot do it."""
    value = demand.aim(delivery)
    marks = scale.marks(value) if scale else ()
    dial = _best(marks, value, demand, delivery) if scale else _unmarked(demand, value)
    outcome = Outcome(
        demand=demand,
        delivery=delivery,
        value=value,
        dial=dial,
        marks=marks,
        verdict=delivery.verdict(dial, demand.window),
        span=_span(delivery, demand, scale),
        wrench=wrench,
        scale=scale,
        length=length,
    )
    return objection.to_outcome(outcome) or outcome


def _best(marks: tuple[Fraction, ...], value: Fraction, demand: Demand, delivery: Delivery) -> Fraction:
    """The mark that stays inside the window, and of two such the nearer one."""
    return min(marks, key=lambda mark: (_RANK[delivery.verdict(mark, demand.window)], abs(mark - value)))


def _unmarked(demand: Demand, value: Fraction) -> Fraction:
    """The number shown where there is no wrench; a lone limit is rounded away from it."""
    if demand.target is not None:
        text = shown(demand, None, value)
    else:
        text = figures(value, demand.printed.decimals, "down" if demand.low is None else "up")
    return Fraction(text)


def _span(delivery: Delivery, demand: Demand, scale: Scale | None) -> tuple[Fraction, Fraction] | None:
    """Settings that keep the whole band inside the window, as far as the scale has them."""
    span = delivery.span(demand.window)
    if span is None or scale is None:
        return span
    low, high = max(span[0], scale.low), min(span[1], scale.high)
    return (low, high) if low <= high else None


def _setting(outcome: Outcome, rules: tuple[Rule, ...] = BEFOREHAND) -> Setting:
    """The outcome with its sentences, which are made last and from the outcome alone."""
    demand, wrench = outcome.demand, outcome.wrench
    known = wrench is not None and demand.value_is != WITH_TOOL
    return Setting(
        wrench_id=wrench.id if wrench else "",
        value=outcome.value,
        dial=outcome.dial,
        unit=demand.unit,
        shown=outcome.shown(outcome.dial),
        factor=1 / outcome.delivery.nominal,
        at_fastener=outcome.delivery.band(outcome.dial, demand.unit) if known else None,
        verdict=outcome.verdict,
        span=outcome.span,
        notes=notes_on(outcome, rules),
        short=in_short(outcome),
    )
