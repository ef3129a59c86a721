"""Readings told during a walk: found, actual, measured, and the drag of a locking nut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.pattern.layout import labels_text
from torqref.quantity.term import Angle, Torque
from torqref.walk.attempt import Act, Answer, No, show_degrees, tick_of
from torqref.walk.event import Event
from torqref.walk.plan import Dial, Step
from torqref.walk.swap import newly_taken, redialled
from torqref.walk.window import deviation, drag_refused, found_verdict, outside_band, spec_at, window_verdict


def torque_of(text: str) -> Torque | No:
    """A torque as it was typed, or why it is none."""
    from torqref.quantity.reading import read_torque

    found = read_torque(text)
    return No(message=found.sentence()) if isinstance(found, Refusal) else found


def found(attempt: Act) -> Answer:
    """What a fastener had before it was touched: `found VALUE`, or `found VALUE at N`."""
    text, _, label = attempt.argument.partition(" at ")
    reading = torque_of(text)
    if isinstance(reading, No):
        return reading
    bolts = attempt.at(label.strip()) if label else attempt.here
    if label and not bolts:
        return No(message=f"Bolt {label.strip()} is not in this round. Write found {text} at a bolt of it.")
    spec = spec_at(attempt.progress, bolts)
    verdict = found_verdict(reading, spec.target) if spec else ""
    return (Event(kind="found", round=attempt.number, bolts=bolts, value=text.strip(), text=verdict),)


def actual(attempt: Act) -> Answer:
    """What was really reached: a torque that a wrench showed, or the degrees of an angle step."""
    step = attempt.step()
    if step is None or attempt.moment.kind not in ("bolt", "card"):
        return No(message="No bolt is being pulled now.")
    if step.kind == "loosen":
        return No(message="It is being taken apart: found VALUE keeps what it had.")
    if step.degrees is not None:
        turn = angle_of(attempt.argument)
        return turn if isinstance(turn, No) else _actual_angle(attempt, step, abs(turn.aim))
    return _actual_torque(attempt, step)


def angle_of(text: str) -> Angle | No:
    """A turn; a bare number is in degrees here, as nothing else turns."""
    from torqref.quantity.reading import read_angle

    bare = text.replace(".", "", 1)
    found = read_angle(f"{text}°" if bare.isascii() and bare.isdigit() else text)
    return No(message=found.sentence()) if isinstance(found, Refusal) else found


def as_wrenches_write(text: str) -> str:
    """A reading without what electronic wrenches put before it: a plus for clockwise, zeros to fill up.

    >>> [as_wrenches_write(text) for text in ("+24,1 N.m", "0024.1Nm", "0.5 Nm", "+ 8 in-lb")]
    ['24,1 N.m', '24.1Nm', '0.5 Nm', '8 in-lb']
    """
    text = text.removeprefix("+").lstrip()
    bare = text.lstrip("0")
    return bare if bare[:1].isdigit() else text[max(0, len(text) - len(bare) - 1) :]


def _actual_torque(attempt: Act, step: Step) -> Answer:
    reading = torque_of(as_wrenches_write(attempt.argument))
    if isinstance(reading, No):
        return reading
    from torqref.quantity.showing import show_torque

    dial, progress = attempt.progress.dial(step), attempt.progress
    verdict = "" if dial is None else window_verdict(reading, dial.target, progress.drag)
    shown = show_torque(reading)
    told = Event(kind="actual", round=attempt.number, bolts=step.labels, value=shown)
    if verdict:
        way = "pull it again" if verdict.startswith("BELOW") else "do not turn back; trouble: see the source"
        return (replace(told, text=f"{verdict}: {way}"),)
    off = "" if dial is None else deviation(reading, dial.target, progress.drag)
    return (replace(told, text=off), tick_of(attempt, step, text=f"measured {shown}"))


def _actual_angle(attempt: Act, step: Step, got: Fraction) -> Answer:
    """Less than wanted is half done and says what is left; more than allowed is trouble."""
    wanted = abs(step.degrees or Fraction(0))
    limits = sorted(abs(limit) for limit in (step.low, step.high) if limit is not None)
    least, most = (limits[0], limits[-1]) if limits else (wanted, None)
    half = attempt.progress.half
    if half is not None and half[0] == attempt.moment.step and got <= Fraction(half[1]):
        whole = f"{show_degrees(wanted)}°"
        return No(
            message=f"About {half[1]}° were reached already: write all of the turn, {whole} when it is done."
        )
    told = Event(kind="actual", round=attempt.number, bolts=step.labels, value=f"{show_degrees(got)}°")
    if step.kind != "angle" and not (least <= got <= (most or wanted)):
        return No(message="A half-done or overdone back-off cannot be judged: trouble, and seat it again.")
    if got < least:
        left = f"about {show_degrees(got)}° reached, {show_degrees(wanted - got)}° left"
        return (replace(told, degrees=show_degrees(got), text=left),)
    if most is not None and got > most:
        over = f"{show_degrees(got - most)}° over the limit. Do not turn back. Trouble: see the source"
        return (
            replace(told, text=over),
            Event(kind="trouble", round=attempt.number, bolts=step.labels, text=over),
        )
    over = f", {show_degrees(got - wanted)}° more than printed" if most is None and got > wanted else ""
    return (told, tick_of(attempt, step, text=f"turned {show_degrees(got)}°{over}"))


def measure(attempt: Act) -> Answer:
    """A reading of a measure stage; out of its band the walk goes back to where the page says."""
    from torqref.quantity.measure import read_measure

    round_, step = attempt.round, attempt.step()
    if attempt.moment.kind != "measure" or round_ is None or step is None:
        return No(message="No measurement is asked for now; `actual` and `found` take a torque.")
    found = read_measure(attempt.argument)
    if isinstance(found, Refusal):
        return No(message=found.sentence())
    band = round_.band
    outside = outside_band(found, band) if band else ""
    if found.target is None or outside is None:
        unit = band.unit if band else found.unit
        return No(message=f"One reading in {unit} is expected, for example 0.08 {unit}.")
    told = Event(kind="measure", round=attempt.number, bolts=step.labels, value=attempt.argument)
    if not outside:
        return (told,)
    told = replace(told, text=outside, back_to=round_.otherwise)
    if round_.otherwise >= 0:
        return (told,)
    text = f"{attempt.argument} is {outside}, and the page names no way back"
    return (told, Event(kind="trouble", round=attempt.number, bolts=step.labels, text=text))


def drag(attempt: Act) -> Answer:
    """The drag of a locking nut, measured while it runs down: added to every setting from here on."""
    reading = torque_of(attempt.argument)
    if isinstance(reading, No):
        return reading
    if attempt.progress.plan.action != "tighten":
        return No(message="It is being taken apart: nothing is set that a drag could be added to.")
    if (wrong := drag_refused(reading, (dial.target for dial in attempt.progress.dials))) is not None:
        return No(message=wrong)
    dials = tuple(_dragged(attempt, reading))
    refused = next((dial for dial in dials if isinstance(dial, No)), None)
    if refused is not None:
        return refused
    kept = tuple(dial for dial in dials if isinstance(dial, Dial))
    return (
        Event(
            kind="measure",
            round=attempt.number,
            value=attempt.argument,
            text=f"drag of the locking nut, measured: added, set {_settings(kept)}{_without(attempt)}",
            dials=kept,
            wrenches=newly_taken(attempt, kept),
            drag=reading,
        ),
    )


def _without(attempt: Act) -> str:
    """Bolts of this round that were pulled before: each can be taken back and pulled again."""
    steps = attempt.round.steps if attempt.round else ()
    done = [steps[place] for place in sorted(attempt.progress.done) if steps[place].dial >= 0]
    if not done:
        return ""
    shown = ", ".join(labels_text(step.labels) for step in done)
    return f"; bolt {shown} already pulled with another setting: undo N and pull again"


def _dragged(attempt: Act, reading: Torque) -> Iterator[Dial | No]:
    for dial in attempt.progress.dials:
        yield redialled(attempt, dial, dial.target, drag=reading)


def _settings(dials: tuple[Dial, ...]) -> str:
    return ", ".join(dict.fromkeys(f"{dial.shown} {dial.unit}" for dial in dials))
