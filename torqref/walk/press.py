"""The main key and the digits: a stop is opened, a bolt ticked, a question answered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from torqref.walk.attempt import Act, Answer, No, tick_of
from torqref.walk.event import Event


def done(attempt: Act) -> Answer:
    """The main key: it opens what is closed, ticks what is open, and never answers a question."""
    return _MAIN[attempt.moment.kind](attempt)


def _open(attempt: Act) -> Answer:
    moment, plan = attempt.moment, attempt.progress.plan
    fitted = "opening" in moment.why and plan.one_time and plan.action == "tighten"
    text = ", ".join((*moment.why, f"new {plan.one_time} fitted") if fitted else moment.why)
    return (Event(kind="gate", gate=moment.gate, round=attempt.number, text=text, back_to=moment.back_to),)


def whole_round(attempt: Act) -> Answer:
    """One press for a hand or place round."""
    bolts = tuple(label for step in (attempt.round.steps if attempt.round else ()) for label in step.labels)
    on_paper = attempt.progress.afterwards
    return (Event(kind="round", round=attempt.number, bolts=bolts, afterwards=on_paper),)


def _tick(attempt: Act) -> Answer:
    step = attempt.step()
    return (tick_of(attempt, step),) if step else No(message="Nothing is open here.")


def _card(attempt: Act) -> Answer:
    round_ = attempt.round
    places = attempt.progress.open_steps
    return tuple(tick_of(attempt, round_.steps[place]) for place in places) if round_ else ()


def _marks(attempt: Act) -> Answer:
    return (
        Event(kind="verify", gate=attempt.moment.gate, round=attempt.number, text="every mark points right"),
    )


def _needs_digit(attempt: Act) -> Answer:
    choices = "; ".join(f"{option.digit} = {option.text}" for option in attempt.moment.options)
    return No(message=f"This needs a digit: {choices}.")


def _needs_reading(attempt: Act) -> Answer:
    return No(message="This needs a reading: measure VALUE, with its unit.")


def _needs_waiting(attempt: Act) -> Answer:
    due = attempt.progress.due
    when = f"Not before {due}." if due else "Not before it is so."
    return No(message=f"{when} Pause and come back then, or give a digit: {_choices(attempt)}.")


def _choices(attempt: Act) -> str:
    return "; ".join(f"{option.digit} = {option.text}" for option in attempt.moment.options)


def _needs_second(attempt: Act) -> Answer:
    return No(message="A second person checks now: verify VALUE with its unit, or verify marks.")


def _over(attempt: Act) -> Answer:
    return No(message="The walk is finished.")


_MAIN: dict[str, Callable[[Act], Answer]] = {
    "caution": _open,
    "stop": _open,
    "whole": whole_round,
    "bolt": _tick,
    "card": _card,
    "marks": _marks,
    "measure": _needs_reading,
    "wait": _needs_waiting,
    "question": _needs_digit,
    "second-check": _needs_second,
    "finished": _over,
}


def digit_answer(digit: int, attempt: Act) -> Answer:
    """The answer to an open question; elsewhere a digit means nothing, so that no bolt is ticked by it."""
    moment = attempt.moment
    texts = {option.digit: option.text for option in moment.options}
    if digit not in texts:
        return _needs_digit(attempt) if texts else No(message="No question is open; a digit does nothing.")
    opened = Event(kind="gate", gate=moment.gate, round=attempt.number, text=texts[digit], reason=digit)
    why = moment.why[0] if moment.why else moment.kind
    consequence = _ANSWERS.get((why, digit))
    if why == "uses" and digit > attempt.progress.plan.uses:
        consequence = _put_down
    return (opened,) if consequence is None else consequence(attempt, opened)


def _mark_turned(attempt: Act, opened: Event) -> Answer:
    step = attempt.step()
    tick = (tick_of(attempt, step, text="turned before the pause, seen by its mark"),) if step else ()
    return (opened, *tick)


def _mark_unknown(attempt: Act, opened: Event) -> Answer:
    step = attempt.step()
    bolts = step.labels if step else ()
    return (opened, Event(kind="trouble", round=attempt.number, bolts=bolts, text="cannot tell if turned"))


def _start_again(attempt: Act, opened: Event) -> Answer:
    here = attempt.round.place if attempt.round else ""
    rounds = attempt.progress.plan.rounds
    first = next(at for at, round_ in enumerate(rounds) if round_.place == here)
    return (replace(opened, back_to=first),)


def _put_down(attempt: Act, opened: Event) -> Answer:
    return (Event(kind="pause", round=attempt.number, text=opened.text),)


_ANSWERS: dict[tuple[str, int], Callable[[Act, Event], Answer]] = {
    ("mark", 2): _mark_turned,
    ("mark", 3): _mark_unknown,
    ("deadline", 1): _start_again,
    ("calibration", 2): _put_down,
    ("doubt", 2): _put_down,
    ("beyond", 2): _put_down,
    ("changed", 2): _put_down,
    ("again", 2): _put_down,
}
