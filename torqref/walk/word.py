"""The words a person says beside the main key: undo, moved, later, skip, trouble, note, round, pause."""

from __future__ import annotations

from torqref.document.escape import escape
from torqref.walk.attempt import Act, Answer, No, tick_of
from torqref.walk.event import Event
from torqref.walk.press import whole_round
from torqref.walk.progress import UNDOABLE, WHOLE, press_of, undone_numbers


def undo(attempt: Act) -> Answer:
    """Take back the last press; the record keeps both."""
    gone = undone_numbers(attempt.events)
    acts = [event for event in attempt.events if event.kind in UNDOABLE and event.number not in gone]
    if not acts:
        return No(message="Nothing to undo.")
    last = acts[-1]
    return (Event(kind="undo", round=last.round, bolts=last.bolts, undoes=press_of(last), text=last.kind),)


def moved(attempt: Act) -> Answer:
    """In a recheck, or a round that goes on until nothing moves: this bolt moved, and is now tight."""
    step, round_ = attempt.step(), attempt.round
    if attempt.moment.kind != "bolt" or step is None or round_ is None:
        return No(message="`moved` tells of a bolt in a recheck; no bolt is being pulled now.")
    if not (round_.recheck or round_.until_still):
        return No(message="`moved` is for rechecks; this round tightens. The main key ticks the bolt.")
    return (
        Event(kind="moved", round=attempt.number, bolts=step.labels),
        tick_of(attempt, step, text="moved"),
    )


def later(attempt: Act) -> Answer:
    """Put the bolt off: not reachable yet, no skip and no reason needed."""
    step = attempt.step()
    if attempt.moment.kind != "bolt" or step is None:
        return No(message="`later` puts off a bolt that is not reachable yet; no bolt is being pulled now.")
    if attempt.moment.step in attempt.progress.later:
        return No(message="Only bolts that were put off are left: the round cannot close without them.")
    return (Event(kind="later", round=attempt.number, bolts=step.labels, text="not reachable yet"),)


def skip(attempt: Act) -> Answer:
    """Leave a bolt out of this round; a group that is checked twice asks for a reason as well."""
    label, _, reason = attempt.argument.partition(" ")
    places = [place for place in attempt.progress.open_steps if _holds(attempt, place, label)]
    if not places:
        return No(message=_no_open_bolt(attempt, label, "skip"))
    if attempt.progress.plan.second_check and not reason.strip():
        return No(message=f"This group is checked twice: skip {label} and the reason, in one line.")
    step = attempt.step(places[0])
    bolts = step.labels if step else ()
    return (Event(kind="skip", round=attempt.number, bolts=bolts, text=reason.strip()),)


def _holds(attempt: Act, place: int, label: str) -> bool:
    step = attempt.step(place)
    return step is not None and label in {str(bolt) for bolt in step.labels}


def _no_open_bolt(attempt: Act, label: str, word: str) -> str:
    round_ = attempt.round
    open_ = [round_.steps[place].labels for place in attempt.progress.open_steps] if round_ else []
    shown = ", ".join("+".join(str(label) for label in labels) for labels in open_)
    found = f'"{escape(label)}" is not open in this round' if label else "no bolt is named"
    return f"{found}. Write {word} and one of: {shown or 'none is open'}."


def trouble(attempt: Act) -> Answer:
    """Tell what went wrong at this bolt, by digit."""
    reasons = attempt.progress.plan.reasons
    digit = attempt.argument.strip()
    step = attempt.step()
    if step is None:
        return No(message="No bolt is being worked on now.")
    if not (digit.isascii() and digit.isdigit() and 1 <= int(digit) <= len(reasons)):
        choices = "; ".join(f"{number} {text}" for number, text in enumerate(reasons, start=1))
        return No(message=f"Write trouble and a digit: {choices}.")
    reason = int(digit)
    return (
        Event(
            kind="trouble",
            round=attempt.number,
            bolts=step.labels,
            reason=reason,
            text=reasons[reason - 1],
        ),
    )


def note(attempt: Act) -> Answer:
    """Keep a remark."""
    if not attempt.argument.strip():
        return No(message="Write note and the text.")
    step = attempt.step()
    bolts = step.labels if step else ()
    return (Event(kind="note", round=attempt.number, bolts=bolts, text=attempt.argument.strip()),)


def tick_rest(attempt: Act) -> Answer:
    """Tick the rest of the round as a whole; the record says that it was ticked so."""
    round_ = attempt.round
    if round_ is None or attempt.moment.kind not in ("bolt", "card", "whole"):
        return No(message="No round is open that could be ticked as a whole.")
    if round_.kind in WHOLE:
        return whole_round(attempt)
    steps = [round_.steps[place] for place in attempt.progress.open_steps]
    bolts = tuple(label for step in steps for label in step.labels)
    told = Event(kind="round", round=attempt.number, bolts=bolts, text="ticked as a whole", afterwards=True)
    ticks = (tick_of(attempt, step, text="ticked as a whole", afterwards=True) for step in steps)
    return (told, *ticks)


def pause(attempt: Act) -> Answer:
    """Put the walk down; it goes on at the same bolt."""
    return (Event(kind="pause", round=attempt.number, text=attempt.argument.strip()),)


def abandon(attempt: Act) -> Answer:
    """End the walk unfinished, with the reason."""
    if not attempt.argument.strip():
        return No(message="Write abandon and the reason: the walk then ends unfinished.")
    return (Event(kind="abandoned", round=attempt.number, text=attempt.argument.strip()),)


def sign(attempt: Act) -> Answer:
    """Put a name to the walk, asked once at its end where none was given."""
    name = attempt.argument.strip()
    if not name:
        return No(message="Write sign and the name.")
    return (Event(kind="note", gate="sign-off", by=name, text=f"signed off by {name}"),)
