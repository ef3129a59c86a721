"""The second check, by another person: the value is typed blind, or the marks are looked at."""

from __future__ import annotations

from fractions import Fraction

from torqref.document.escape import escape
from torqref.document.nearest import folded
from torqref.quantity.term import Torque
from torqref.walk.attempt import Act, Answer, No
from torqref.walk.event import Event
from torqref.walk.plan import Dial, Plan
from torqref.walk.state import Progress

MARKS, TYPED = "marks", "typed"


def check_kind(plan: Plan) -> str:
    """How a group is checked twice: by marks where a wrench can prove nothing, else by typing the value.

    A torque wrench clicks on a bolt that was turned by angle, and breaks the bond of a cured threadlocker.
    """
    if not plan.second_check:
        return ""
    pulled = [round_ for round_ in plan.rounds if round_.kind in ("torque", "angle")]
    by_angle = bool(pulled) and any(step.kind == "angle" for step in pulled[-1].steps)
    return MARKS if plan.second_check == MARKS or plan.threadlocker or by_angle else TYPED


def verify(attempt: Act) -> Answer:
    """`verify VALUE` or `verify marks`, and `by NAME` behind it: another person looks, and answers alone."""
    if attempt.moment.kind != "second-check":
        return No(message="The second check comes when all rounds are done.")
    text, _, name = attempt.argument.partition(" by ")
    name = name.strip()
    puller = attempt.progress.pulled_by
    if name and folded(name) == folded(puller):
        return No(message=f"{escape(name)} has pulled them; another person checks.")
    by_marks = check_kind(attempt.progress.plan) == MARKS
    answer = _looked(text, name) if by_marks else _typed(attempt, text, name)
    if puller and not name and not isinstance(answer, No):
        return No(message=f"{escape(puller)} has pulled them. Who checks? Add by and the name.")
    return answer


def _looked(text: str, name: str) -> Answer:
    if text.strip() not in (MARKS, "yes"):
        return No(message="Look at every mark, then write: verify marks by NAME.")
    return (Event(kind="verify", gate="second", by=name, text="every mark stands right"),)


def _typed(attempt: Act, text: str, name: str) -> Answer:
    from torqref.walk.reading import torque_of

    reading = torque_of(text)
    return reading if isinstance(reading, No) else _compared(attempt, reading, text.strip(), name)


def _compared(attempt: Act, reading: Torque, text: str, name: str) -> Answer:
    from torqref.quantity.conversion import convert

    dial = last_dial(attempt.progress)
    told = Event(kind="verify", gate="second", by=name, value=text)
    if dial is None:
        return (told,)
    value = convert(reading.aim, reading.unit, dial.target.unit)
    limits = [limit for limit in (dial.target.low, dial.target.high) if limit is not None]
    low, high = (min(limits), max(limits)) if len(limits) == 2 else (dial.target.aim, dial.target.aim)
    # typed in another unit, it is as near as its last digit can say
    half = Fraction(1, 2 * 10**reading.decimals) if reading.unit != dial.target.unit else Fraction(0)
    off = convert(half, reading.unit, dial.target.unit)
    if low - off <= value <= high + off:
        return (told,)
    differs = f"typed {text}, the walk says {_spoken(dial.target)}"
    kept = Event(kind="note", gate="second", by=name, text=f"second check: {differs}")
    return No(message=f"Look at the page together: you {differs}.", events=(kept,))


def _spoken(target: Torque) -> str:
    """A value in words and figures, so that fifteen is not heard for fifty."""
    from torqref.quantity.showing import in_words, show_torque

    return f"{in_words(target.aim, target.unit)}, {show_torque(target)}"


def last_dial(progress: Progress) -> Dial | None:
    """The setting of the last torque round: the value the group ends with."""
    places = [step.dial for round_ in progress.plan.rounds for step in round_.steps if step.dial >= 0]
    return progress.dials[places[-1]] if places else None
