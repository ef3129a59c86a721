"""Readings told during a walk: found, actual, measured, what the page says, and the second check."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from torqref.document.escape import escape
from torqref.document.refusal import Refusal
from torqref.quantity.term import Torque
from torqref.walk.attempt import Act, Answer, No, show_degrees, tick_of
from torqref.walk.event import Event
from torqref.walk.plan import Dial, Step
from torqref.walk.progress import Progress


def _reading(attempt: Act) -> Torque | No:
    from torqref.quantity.reading import read_torque

    found = read_torque(attempt.argument)
    return No(message=found.sentence()) if isinstance(found, Refusal) else found


def found(attempt: Act) -> Answer:
    """What the fastener had before it was touched."""
    reading, step = _reading(attempt), attempt.step()
    if isinstance(reading, No):
        return reading
    bolts = step.labels if step else ()
    return (Event(kind="found", round=attempt.number, bolts=bolts, value=attempt.argument.strip()),)


def actual(attempt: Act) -> Answer:
    """What was really reached: a torque that a wrench showed, or the degrees of an angle step."""
    step = attempt.step()
    if step is None or attempt.moment.kind not in ("bolt", "card"):
        return No(message="No bolt is being pulled now.")
    return _actual_angle(attempt, step) if step.degrees is not None else _actual_torque(attempt, step)


def _actual_torque(attempt: Act, step: Step) -> Answer:
    reading = _reading(attempt)
    if isinstance(reading, No):
        return reading
    from torqref.quantity.showing import show_torque

    dial = attempt.progress.dial(step)
    verdict = "" if dial is None else window_verdict(reading, dial.target)
    shown = show_torque(reading)
    told = Event(kind="actual", round=attempt.number, bolts=step.labels, value=shown, text=verdict)
    if verdict:
        return (told,)
    return (told, tick_of(attempt, step, text=f"measured {shown}"))


def window_verdict(reading: Torque, target: Torque) -> str:
    """Empty when a reading lies inside the printed window; otherwise by how much it is outside."""
    from torqref.quantity.conversion import convert
    from torqref.quantity.showing import show_torque

    value = convert(reading.aim, reading.unit, target.unit)
    if target.low is not None and value < target.low:
        return f"BELOW the window {show_torque(target)}"
    if target.high is not None and value > target.high:
        return f"ABOVE the window {show_torque(target)}"
    return ""


def _actual_angle(attempt: Act, step: Step) -> Answer:
    """Less than wanted is half done and says what is left; more than allowed is trouble."""
    from torqref.quantity.reading import read_angle

    # Here an angle alone can be meant, so that a bare number is degrees.
    bare = attempt.argument.replace(".", "", 1).isdecimal()
    found = read_angle(f"{attempt.argument}°" if bare else attempt.argument)
    if isinstance(found, Refusal):
        return No(message=found.sentence())
    wanted, got = abs(step.degrees or Fraction(0)), abs(found.aim)
    limits = sorted(abs(limit) for limit in (step.low, step.high) if limit is not None)
    least, most = (limits[0], limits[-1]) if limits else (wanted, wanted)
    told = Event(kind="actual", round=attempt.number, bolts=step.labels, value=f"{show_degrees(got)}°")
    if got < least:
        left = f"about {show_degrees(got)}° reached, {show_degrees(wanted - got)}° left"
        return (replace(told, degrees=show_degrees(got), text=left),)
    if got > most:
        over = f"{show_degrees(got - most)}° over the limit. Do not turn back. Trouble: see the source"
        return (told, Event(kind="trouble", round=attempt.number, bolts=step.labels, text=over))
    return (told, tick_of(attempt, step, text=f"turned {show_degrees(got)}°"))


def page(attempt: Act) -> Answer:
    """The page says other: walk with the typed value from here on; the record and the shop lead are told."""
    reading, step = _reading(attempt), attempt.step()
    if isinstance(reading, No):
        return reading
    if step is None or step.dial < 0:
        return No(message="No value is being pulled now that the page could correct.")
    from torqref.quantity.showing import show_number

    old = attempt.progress.dials[step.dial]
    shown = show_number(reading.aim, reading.decimals)
    new = Dial(
        target=reading,
        value=reading.aim,
        unit=reading.unit,
        shown=shown,
        notes=("as typed from the page; choose the wrench again if it no longer fits",),
    )
    dials = tuple(new if place == step.dial else dial for place, dial in enumerate(attempt.progress.dials))
    told = f"{old.target.text} in the library, {reading.text} on the page"
    return (Event(kind="page", round=attempt.number, value=attempt.argument.strip(), text=told, dials=dials),)


def measure(attempt: Act) -> Answer:
    """A reading of a measure stage; out of its band the walk goes back to where the page says."""
    from torqref.quantity.measure import read_measure

    round_, step = attempt.round, attempt.step()
    if attempt.moment.kind != "measure" or round_ is None or step is None:
        return No(message="No measurement is asked for now; `actual` and `found` take a torque.")
    found = read_measure(attempt.argument)
    if isinstance(found, Refusal):
        return No(message=found.sentence())
    band, value = round_.band, found.target
    if value is None or (band is not None and band.unit != found.unit):
        unit = band.unit if band else found.unit
        return No(message=f"One reading in {unit} is expected, for example 0.08 {unit}.")
    told = Event(kind="measure", round=attempt.number, bolts=step.labels, value=attempt.argument.strip())
    outside = band is not None and (
        (band.low is not None and value < band.low) or (band.high is not None and value > band.high)
    )
    if not outside or band is None:
        return (told,)
    return (replace(told, text=f"outside {band.text}", back_to=round_.otherwise),)


def verify(attempt: Act) -> Answer:
    """The second check: another person types the value, or says that the marks stand right."""
    if attempt.moment.kind != "second-check":
        return No(message="The second check comes when all rounds are done.")
    if attempt.progress.plan.second_check == "marks":
        if attempt.argument.strip() not in ("marks", "yes"):
            return No(message="Look at every mark, then write: verify marks.")
        return (Event(kind="verify", gate="second", text="every mark stands right"),)
    reading = _reading(attempt)
    if isinstance(reading, No):
        return reading
    return _compare(attempt, reading)


def _compare(attempt: Act, reading: Torque) -> Answer:
    from torqref.quantity.conversion import convert

    dial = last_dial(attempt.progress)
    if dial is None:
        return (Event(kind="verify", gate="second", value=attempt.argument.strip()),)
    value = convert(reading.aim, reading.unit, dial.target.unit)
    limits = [limit for limit in (dial.target.low, dial.target.high) if limit is not None]
    low, high = (min(limits), max(limits)) if len(limits) == 2 else (dial.target.aim, dial.target.aim)
    if low <= value <= high:
        return (Event(kind="verify", gate="second", value=attempt.argument.strip()),)
    return No(
        message=f'"{escape(attempt.argument)}" is not what this walk pulled. Look at the page together.'
    )


def last_dial(progress: Progress) -> Dial | None:
    """The setting of the last torque round: the value the group ends with."""
    places = [step.dial for round_ in progress.plan.rounds for step in round_.steps if step.dial >= 0]
    return progress.dials[places[-1]] if places else None
