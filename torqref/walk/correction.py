"""The page says other: the value is typed with its page, walked with, and told to the shop lead."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from torqref.pattern.layout import labels_text
from torqref.quantity.folding import unquoted
from torqref.quantity.term import Torque
from torqref.walk.attempt import Act, Answer, No, show_degrees
from torqref.walk.event import Event
from torqref.walk.plan import Step
from torqref.walk.reading import angle_of, torque_of
from torqref.walk.swap import newly_taken, redialled


def page(attempt: Act) -> Answer:
    """`page VALUE`, or `page VALUE on PAGE`: walk with the typed value from here on."""
    text, _, source = unquoted(attempt.argument).partition(" on ")
    text = unquoted(text)
    step = attempt.step()
    if step is None or attempt.moment.kind not in ("bolt", "card", "stop", "question"):
        return No(message="No value is being pulled now that the page could correct.")
    if step.kind == "angle":
        return _angle(attempt, step, text, source)
    if step.dial < 0:
        return No(message="No value is being pulled now that the page could correct.")
    return _torque(attempt, step, text, source)


def _torque(attempt: Act, step: Step, text: str, source: str) -> Answer:
    reading = torque_of(text)
    if isinstance(reading, No):
        return reading
    doubt = _doubt(attempt, step, reading)
    if doubt and not source.strip():
        return No(message=f"{doubt} If the page says so, name it: page {text.strip()} on PAGE.")
    old = attempt.progress.dials[step.dial]
    new = redialled(attempt, old, reading)
    if isinstance(new, No):
        return new
    new = replace(new, doubt=doubt)
    dials = tuple(new if place == step.dial else dial for place, dial in enumerate(attempt.progress.dials))
    told = (
        f"{old.target.text} in the library, {reading.text} on the page{_on(source)}{_pulled(attempt, step)}"
    )
    taken = newly_taken(attempt, dials)
    return (
        Event(kind="page", round=attempt.number, value=text.strip(), text=told, dials=dials, wrenches=taken),
    )


def _doubt(attempt: Act, step: Step, reading: Torque) -> str:
    """Why the typed value cannot be right for this fastener; empty where it can."""
    from torqref.library.doubt import doubt_about

    plan = attempt.progress.plan
    thread = step.thread or plan.thread
    if not thread or plan.value_is != "at fastener":
        return ""
    turned = any(other.kind == "angle" for round_ in plan.rounds for other in round_.steps)
    return doubt_about(
        reading,
        thread=thread,
        grade=step.grade or plan.grade,
        purpose=plan.purpose,
        condition=plan.condition,
        then_angle=turned,
    )


def _pulled(attempt: Act, step: Step) -> str:
    """Bolts of this round that already have the other value: each can be taken back and pulled again."""
    steps = attempt.round.steps if attempt.round else ()
    done = [steps[place].labels for place in sorted(attempt.progress.done) if steps[place].dial == step.dial]
    if not done:
        return ""
    shown = ", ".join(labels_text(labels) for labels in done)
    return f"; bolt {shown} already pulled to the other value: undo N and pull again"


def _angle(attempt: Act, step: Step, text: str, source: str) -> Answer:
    found = angle_of(text.strip())
    if isinstance(found, No):
        return found
    old = show_degrees(step.degrees) if step.degrees is not None else "another turn"
    limits = (found.low, found.high) if found.low is not None or found.high is not None else ()
    return (
        Event(
            kind="page",
            round=attempt.number,
            bolts=step.labels,
            value=found.text,
            text=f"{old}° in the library, {found.text} on the page{_on(source)}{_turned(attempt, found.aim)}",
            degrees=str(found.aim),
            limits=tuple("" if limit is None else str(limit) for limit in limits),
        ),
    )


def _turned(attempt: Act, wanted: Fraction) -> str:
    """Bolts of this round that already have the other turn: what is short is turned on, never turned back."""
    steps = attempt.round.steps if attempt.round else ()
    done = [steps[place] for place in sorted(attempt.progress.done) if steps[place].kind == "angle"]
    turned = done[0].degrees if done else None
    if turned is None or turned == wanted:
        return ""
    shown, got = ", ".join(labels_text(step.labels) for step in done), f"{show_degrees(turned)}°"
    mend = f"undo N, then actual {got}, and turn the rest" if turned < wanted else "do not turn back, trouble"
    return f"; bolt {shown} already turned {got}: {mend}"


def _on(source: str) -> str:
    return f" ({source.strip()})" if source.strip() else ""
