"""The page says other: the value is typed with its page, walked with, and told to the shop lead."""

from __future__ import annotations

from torqref.walk.attempt import Act, Answer, No, show_degrees
from torqref.walk.event import Event
from torqref.walk.plan import Step
from torqref.walk.reading import torque_of
from torqref.walk.swap import redialled


def page(attempt: Act) -> Answer:
    """`page VALUE`, or `page VALUE on PAGE`: walk with the typed value from here on."""
    text, _, source = attempt.argument.partition(" on ")
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
    old = attempt.progress.dials[step.dial]
    new = redialled(attempt, old, reading)
    if isinstance(new, No):
        return new
    dials = tuple(new if place == step.dial else dial for place, dial in enumerate(attempt.progress.dials))
    told = (
        f"{old.target.text} in the library, {reading.text} on the page{_on(source)}{_pulled(attempt, step)}"
    )
    return (Event(kind="page", round=attempt.number, value=text.strip(), text=told, dials=dials),)


def _pulled(attempt: Act, step: Step) -> str:
    """Bolts of this round that already have the other value: each can be taken back and pulled again."""
    steps = attempt.round.steps if attempt.round else ()
    done = [steps[place].labels for place in sorted(attempt.progress.done) if steps[place].dial == step.dial]
    if not done:
        return ""
    shown = ", ".join("+".join(str(label) for label in labels) for labels in done)
    return f"; bolt {shown} already pulled to the other value: undo N and pull again"


def _angle(attempt: Act, step: Step, text: str, source: str) -> Answer:
    from torqref.document.refusal import Refusal
    from torqref.quantity.reading import read_angle

    found = read_angle(text)
    if isinstance(found, Refusal):
        return No(message=found.sentence())
    old = show_degrees(step.degrees) if step.degrees is not None else "another turn"
    limits = (found.low, found.high) if found.low is not None or found.high is not None else ()
    return (
        Event(
            kind="page",
            round=attempt.number,
            bolts=step.labels,
            value=text.strip(),
            text=f"{old}° in the library, {found.text} on the page{_on(source)}",
            degrees=str(found.aim),
            limits=tuple("" if limit is None else str(limit) for limit in limits),
        ),
    )


def _on(source: str) -> str:
    return f" ({source.strip()})" if source.strip() else ""
