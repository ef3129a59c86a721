"""The sentences beside a setting: made once, here, for screen, command line and card alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.wrench.adapter import (
    JUDGED_ANGLE,
    STRAY_HAND,
    Extension,
    Joint,
    Multiplier,
    Part,
    arrival,
    cosine,
    crowfeet,
    needs_length,
    turned,
)
from torqref.wrench.cost import angle_cost, hand_cost
from torqref.wrench.demand import WITH_TOOL, Outcome
from torqref.wrench.doubt import doubts
from torqref.wrench.figure import figures, percent, printed
from torqref.wrench.loss import lossless, lossless_arrival, lossless_in_short, ratio_text
from torqref.wrench.rack import ORDINARY_TOLERANCE

# Said wherever a setting through an adapter is shown.
CAUTION = (
    "Pull square to the handle with the hand on the mark, and keep the angle. "
    "The manufacturer's service information comes first."
)

# No wrench was named: what is said then holds for one as a wrench usually is.
_ORDINARY = f"With a wrench of ±{percent(ORDINARY_TOLERANCE)}"

Rule = Callable[[Outcome], tuple[str, ...]]


def notes_on(outcome: Outcome, rules: tuple[Rule, ...]) -> tuple[str, ...]:
    """Every sentence that applies, in the order of the rules."""
    return tuple(sentence for rule in rules for sentence in rule(outcome))


def _with_tool(outcome: Outcome) -> tuple[str, ...]:
    """The page already corrected for its tool."""
    if outcome.demand.value_is != WITH_TOOL:
        return ()
    number = outcome.shown(outcome.dial)
    return (f"The printed value is already the setting with the tool. Set {number} as printed.",)


def _asked_unit(outcome: Outcome) -> tuple[str, ...]:
    """The scale is not in the unit that was asked for: why not."""
    wrench, asked = outcome.wrench, outcome.asked_unit
    if not asked or wrench is None or asked == outcome.demand.unit:
        return ()
    own = next((scale for scale in wrench.scales if scale.unit == asked), None)
    if own is None:
        return (f"No scale in {asked} on {wrench.id}; it has {', '.join(s.unit for s in wrench.scales)}.",)
    return (f"The {asked} scale of {wrench.id}, {own.shown(own.low)} to {own.shown(own.high)}, will not do.",)


def _unit(outcome: Outcome) -> tuple[str, ...]:
    """The scale has another unit than the page."""
    page, unit = outcome.demand.printed, outcome.demand.unit
    if page.unit == unit or outcome.demand.drag is not None:
        return ()
    aim = outcome.value * outcome.delivery.nominal
    number = f"{printed(page.aim, page.decimals)} {page.unit}"
    return (f"{number} is {figures(aim, outcome.scale.decimals if outcome.scale else 0)} {unit}.",)


def _drag(outcome: Outcome) -> tuple[str, ...]:
    """The drag of a locking nut is in the numbers."""
    drag, demand = outcome.demand.drag, outcome.demand
    if drag is None:
        return ()
    ends = [value for value in (demand.low, demand.high) if value is not None]
    ends = ends or [demand.target or demand.aim(outcome.delivery)]
    places = max(demand.printed.decimals, drag.decimals)
    numbers = " to ".join(printed(value, places) for value in ends)
    where = "on the wrench" if demand.value_is == WITH_TOOL else "at the nut"
    added = f"{printed(drag.aim, drag.decimals)} {drag.unit}"
    return (f"Locking nut: {added} of drag added: {numbers} {demand.unit} {where}.",)


def _across(outcome: Outcome) -> tuple[str, ...]:
    """A crowfoot across the handle needs no sum: offered before anything else is explained."""
    if not needs_length(outcome.demand.applied):
        return ()
    number = _at_angle(outcome, 90)
    what = "it" if len(crowfeet(outcome.demand.applied)) == 1 else "every piece"
    return (
        (f"If there is room, turn {what} across the handle (90°): set {number}, no sum.",) if number else ()
    )


def _both_ways(outcome: Outcome) -> tuple[str, ...]:
    """A crowfoot that points back is set higher: both settings, so that a wrong picture is seen."""
    if not needs_length(outcome.demand.applied) or len(crowfeet(outcome.demand.applied)) > 1:
        return ()
    away, back = _at_angle(outcome, 0), _at_angle(outcome, 180)
    return (f"Pointing AWAY from your hand: {away}. BACK towards it: {back}.",) if away and back else ()


def _at_angle(outcome: Outcome, angle: int) -> str | None:
    """The setting with every piece at this angle, or None where the wrench or the geometry has none."""
    share = arrival(outcome.length, turned(outcome.demand.applied, Fraction(angle)))
    if outcome.demand.target is None or isinstance(share, Refusal):
        return None
    return outcome.settable(outcome.demand.target / share)


def _uncorrected(outcome: Outcome) -> tuple[str, ...]:
    """What the printed number itself would do on the wrench."""
    found = _without_sum(outcome)
    if found is None:
        return ()
    number, arrives, excess = found
    return (f"At {number} the fastener gets {arrives} {outcome.demand.unit} ({excess}).",)


def _without_sum(outcome: Outcome) -> tuple[str, str, str] | None:
    """The printed number as a setting, what it delivers and how far that is off; None where nothing is."""
    demand = outcome.demand
    if demand.target is None or not needs_length(demand.applied):
        return None
    arrives = demand.target * outcome.delivery.nominal
    excess = percent(outcome.delivery.nominal - 1, signed=True)
    return outcome.shown(demand.target), figures(arrives), excess


def _arrived(outcome: Outcome) -> tuple[str, ...]:
    """What a wrench that was set to this delivered."""
    change = outcome.delivery.nominal - 1
    excess = f" ({percent(change, signed=True)})" if change else ""
    number, arrives = outcome.shown(outcome.dial), outcome.arrives(outcome.dial)
    return (f"Set to {number}, the fastener gets {arrives} {outcome.demand.unit}{excess}.",)


def _costs(outcome: Outcome) -> tuple[str, ...]:
    """What a misjudged angle and a stray hand cost."""
    parts, length, range_ = outcome.demand.applied, outcome.length, _angle_cost(outcome)
    if not range_ or length is None:
        return ()
    sentences = [f"±{JUDGED_ANGLE}° of angle: {range_} at the fastener."]
    pivoted = outcome.wrench is not None and outcome.wrench.length_to == "pivot"
    if needs_length(parts) and not pivoted:
        inward, outward = hand_cost(length, parts)
        sentences.append(
            f"Hand {STRAY_HAND.text} off the mark: {percent(inward, signed=True)} towards the drive, "
            f"{percent(outward, signed=True)} towards the end."
        )
    return tuple(sentences)


def _angle_cost(outcome: Outcome) -> str:
    """What a misjudged angle costs at the fastener, empty without a crowfoot or a length."""
    parts, length = outcome.demand.applied, outcome.length
    if not crowfeet(parts) or length is None:
        return ""
    low, high = angle_cost(length, parts)
    return f"{percent(low, signed=True)} to {percent(high, signed=True)}"


def _marks(outcome: Outcome) -> tuple[str, ...]:
    """The setting falls between two marks: what each delivers, and which is taken."""
    if outcome.scale is None or len(outcome.marks) < 2:
        return _clamped(outcome)
    nearest = min(outcome.marks, key=lambda mark: abs(mark - outcome.value))
    why = "the nearer mark" if outcome.dial == nearest else "the one inside the window"
    return (f"Between marks: {_each_mark(outcome)}. {outcome.shown(outcome.dial)} is {why}.",)


def _each_mark(outcome: Outcome) -> str:
    """What each of the marks around the setting delivers."""
    return ", ".join(f"{outcome.shown(mark)} gives {outcome.arrives(mark)}" for mark in outcome.marks)


def _clamped(outcome: Outcome) -> tuple[str, ...]:
    """The value itself is just off the scale, and the last mark still stays inside the window."""
    scale = outcome.scale
    if scale is None or scale.low <= outcome.value <= scale.high:
        return ()
    asked = figures(outcome.value, outcome.demand.printed.decimals)
    dial = outcome.shown(outcome.dial)
    return (f"{asked} {scale.unit} is off this scale; {dial} still stays inside the window.",)


def _low_on_scale(outcome: Outcome) -> tuple[str, ...]:
    """Below the lowest certified share of the scale."""
    floor, scale = outcome.delivery.error.floor, outcome.scale
    if scale is None or outcome.dial >= floor or outcome.wrench is None:
        return ()
    share = outcome.wrench.certified_from
    fifth = "a fifth of scale" if share == Fraction(1, 5) else f"{percent(share)} of scale"
    fit = {
        "inside": "the band still fits the window",
        "no window": "it may be further off than its tolerance",
        "touches": "the band does not fit the window",
        "outside": "the band does not fit the window",
    }[outcome.verdict]
    return (f"Below {fifth} ({figures(floor)} {scale.unit}), where nothing is certified; estimated, {fit}.",)


def _touches(outcome: Outcome) -> tuple[str, ...]:
    """The band reaches beyond the window: how far, and which settings do not."""
    if outcome.verdict != "touches":
        return ()
    window, unit = outcome.demand.window, outcome.demand.unit
    band = outcome.delivery.band(outcome.dial, unit)
    number, places = outcome.shown(outcome.dial), outcome.demand.printed.decimals
    number = number if outcome.wrench else f"{_ORDINARY}, {number}"
    sentences = []
    if window.high is not None and window.exceeds(band.high):
        most, limit = figures(band.high, places), printed(window.high, places)
        sentences.append(f"{number} may deliver {most} {unit}; the limit is {limit}.")
    if window.low is not None and window.lacks(band.low):
        least, limit = figures(band.low, places), printed(window.low, places)
        sentences.append(f"{number} may deliver only {least} {unit}; the limit is {limit}.")
    if outcome.span is None and window.low is not None and window.high is not None:
        sentences.append(
            "No setting of this wrench keeps all of it inside the window; a better wrench would."
        )
    return tuple(sentences)


def _stay(outcome: Outcome) -> tuple[str, ...]:
    """The safe settings, put on marks that are themselves inside."""
    if outcome.span is None:
        return ()
    low, high = outcome.span
    places = outcome.demand.printed.decimals
    if outcome.scale is None:
        return (f"{_ORDINARY}, stay within {figures(low, places, 'up')} to {figures(high, places, 'down')}.",)
    marks = outcome.scale.marks_within(low, high)
    if marks is None or marks[0] == marks[1]:
        return ()
    return (f"Stay within {outcome.shown(marks[0])} to {outcome.shown(marks[1])}.",)


def _limit_alone(outcome: Outcome) -> tuple[str, ...]:
    """Only a maximum or a minimum is printed: it is kept off by what the wrench may be off."""
    demand = outcome.demand
    if demand.target is not None:
        return ()
    word, side = ("maximum", "below") if demand.high is not None else ("minimum", "above")
    share = outcome.delivery.error.share
    return (f"Only a {word} is printed: set {side} it by the ±{percent(share)} of the wrench.",)


def _coarse(outcome: Outcome) -> tuple[str, ...]:
    """The marks are far apart for so small a torque."""
    scale = outcome.scale
    if scale is None or not scale.is_coarse_at(outcome.dial):
        return ()
    return (f"Marks of {scale.shown(scale.graduation)} {scale.unit} are coarse for this torque.",)


def _passive(outcome: Outcome) -> tuple[str, ...]:
    """Straight extensions, universal joints and multipliers."""
    return tuple(sentence for part in outcome.demand.parts for sentence in _about(part))


def _about(part: Part) -> tuple[str, ...]:
    if isinstance(part, Extension):
        return ("A straight extension under the drive changes nothing; hold it in line.",)
    if isinstance(part, Multiplier):
        loss = part.efficiency
        share = "" if loss is None else f" at {percent(loss)}: best measured for this box"
        return (f"Multiplier {ratio_text(part)}:1{share}. Keep hands clear of the reaction arm.",)
    return (_swing(part),) if isinstance(part, Joint) else ()


def _swing(joint: Joint) -> str:
    if joint.bend is None:
        swings = " and ".join(f"{_swing_of(Fraction(bend))} at {bend}°" for bend in (15, 30))
        return f"Universal joint: the torque swings by {swings} as it turns. No setting corrects that."
    bend = figures(joint.bend, -1)
    return (
        f"Universal joint bent {bend}°: the torque swings by {_swing_of(joint.bend)} as it turns. "
        "No setting corrects that."
    )


def _swing_of(bend: Fraction) -> str:
    return f"+{percent(1 / cosine(bend) - 1)}/{percent(cosine(bend) - 1)}"


def _doubts(outcome: Outcome) -> tuple[str, ...]:
    """Offsets that look like something else than an offset."""
    drive = outcome.wrench.drive if outcome.wrench else ""
    return doubts(outcome.demand.parts, drive, outcome.length)


def _no_wrench(outcome: Outcome) -> tuple[str, ...]:
    """No wrench was named: what an ordinary one would deliver through the adapter."""
    if outcome.wrench is not None or not outcome.demand.applied:
        return ()
    band = outcome.delivery.band(outcome.dial, outcome.demand.unit)
    low, high = (figures(end, outcome.demand.printed.decimals) for end in (band.low, band.high))
    return (f"{_ORDINARY}, {low} to {high} {outcome.demand.unit} arrives.",)


# Before the pull, the most useful first: what the number is made from, the crowfoot, and how well it fits.
_MADE_FROM: tuple[Rule, ...] = (_asked_unit, _with_tool, _unit, _drag, _limit_alone, lossless, _doubts)
_CROWFOOT: tuple[Rule, ...] = (_across, _both_ways, _uncorrected)
_FIT: tuple[Rule, ...] = (_marks, _touches, _stay, _low_on_scale, _coarse, _costs, _passive, _no_wrench)
BEFOREHAND: tuple[Rule, ...] = (*_MADE_FROM, *_CROWFOOT, *_FIT)

# After the pull: what a setting has done.
AFTERWARDS: tuple[Rule, ...] = (_arrived, lossless_arrival, _doubts, _costs, _passive, _no_wrench)


def in_short(outcome: Outcome) -> tuple[str, ...]:
    """What a stop has room for: the first thing to know, and in few words what is never left out.

    Never left out are the ways a crowfoot can point, what ten degrees and a setting without the sum cost,
    and what the marks around the setting deliver.
    """
    fitted = bool(crowfeet(outcome.demand.applied))
    rules = (lossless_in_short, *_MADE_FROM, *(() if fitted else _FIT))
    lead = notes_on(outcome, rules)[:1]
    if fitted:
        more = (*_crowfoot_in_short(outcome), *_marks_in_short(outcome, "marks"))
    else:
        more = () if lead == _marks(outcome) else _marks_in_short(outcome, "between marks")
    return (*(sentence.rstrip(".") for sentence in lead), *more) if more else lead


def _crowfoot_in_short(outcome: Outcome) -> Iterator[str]:
    """Across, away and back, ten degrees either way, and what comes of no sum at all."""
    if number := _across(outcome) and _at_angle(outcome, 90):
        yield f"across (90°): set {number}, no sum"
    if _both_ways(outcome):
        yield f"AWAY from your hand {_at_angle(outcome, 0)}, BACK {_at_angle(outcome, 180)}"
    if cost := _angle_cost(outcome):
        yield f"±{JUDGED_ANGLE}°: {cost}"
    if arrival := _without_sum(outcome):
        number, arrives, excess = arrival
        yield f"uncorrected {number} gives {arrives} ({excess})"


def _marks_in_short(outcome: Outcome, name: str) -> tuple[str, ...]:
    return (f"{name}: {_each_mark(outcome)}",) if len(outcome.marks) > 1 else ()
