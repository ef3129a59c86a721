"""The words a person says beside the main key: undo, moved, later, skip, trouble, note, round, pause."""

from __future__ import annotations

from torqref.document.escape import escape
from torqref.pattern.layout import labels_text
from torqref.walk.attempt import Act, Answer, No, tick_of
from torqref.walk.choice import ABANDON_REASONS, PART_CHOICES, SKIP_REASONS, chosen, listed
from torqref.walk.event import Event
from torqref.walk.press import whole_round
from torqref.walk.progress import UNDOABLE, press_of, undone_numbers
from torqref.walk.state import WHOLE

PULLING = ("bolt", "card")


def undo(attempt: Act) -> Answer:
    """Take back the last press, or the tick of a named bolt of this round; the record keeps both."""
    if attempt.progress.abandoned:
        return No(message="The walk was abandoned; begin a new one with --new.")
    gone = undone_numbers(attempt.events)
    acts = [event for event in attempt.events if event.kind in UNDOABLE and event.number not in gone]
    if attempt.argument:
        return _undo_bolt(attempt, acts)
    if not acts:
        return No(message="Nothing to undo.")
    last = acts[-1]
    return (Event(kind="undo", round=last.round, bolts=last.bolts, undoes=press_of(last), text=last.kind),)


def _undo_bolt(attempt: Act, acts: list[Event]) -> Answer:
    """One tick of the round that is open; later ones stay, and the bolt comes next."""
    bolts = attempt.at(attempt.argument)
    done = {attempt.round.steps[place].labels for place in attempt.progress.done} if attempt.round else set()
    ticks = [event for event in acts if event.kind == "check-off" and event.bolts == bolts]
    if not bolts or bolts not in done or not ticks:
        return No(message=f'"{escape(attempt.argument)}" is no bolt that is ticked in this round.')
    last = ticks[-1]
    return (Event(kind="undo", round=last.round, bolts=bolts, undoes=press_of(last), text="check-off"),)


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
    """Put a bolt off: not reachable yet, no skip and no reason needed."""
    if attempt.moment.kind not in PULLING:
        return No(message="`later` puts off a bolt that is not reachable yet; no bolt is being pulled now.")
    if attempt.moment.kind == "card" and not attempt.argument:
        return No(message="Which bolt? Write later and its number.")
    places = _open_places(attempt) if attempt.argument else [attempt.moment.step]
    step = attempt.step(places[0]) if places else None
    if step is None:
        return No(message=_no_open_bolt(attempt, attempt.argument, "later"))
    if places[0] in attempt.progress.later:
        open_ = _open_labels(attempt)
        if len(open_) > 1:
            return No(message=f"Bolts {', '.join(open_)} are open. The round cannot close without them.")
        return No(message=f"Bolt {open_[0]} is open. The round cannot close without it.")
    return (Event(kind="later", round=attempt.number, bolts=step.labels, text="not reachable yet"),)


def skip(attempt: Act) -> Answer:
    """Leave a bolt out of this round; a group that is checked twice asks for a reason as well."""
    label, _, reason = attempt.argument.partition(" ")
    places = _open_places(attempt, label)
    step = attempt.step(places[0]) if places else None
    if step is None or attempt.moment.kind not in (*PULLING, "stop", "measure"):
        return No(message=_no_open_bolt(attempt, label, "skip"))
    digit = chosen(reason, SKIP_REASONS)
    if attempt.progress.plan.second_check and not reason.strip():
        return No(message=f"This group is checked twice: skip {label} and a reason: {listed(SKIP_REASONS)}.")
    if not digit and reason.strip().isdigit():
        return No(message=f"{reason.strip()} is no reason. Write skip {label} and: {listed(SKIP_REASONS)}.")
    text = SKIP_REASONS[digit - 1] if digit else reason.strip()
    return (Event(kind="skip", round=attempt.number, bolts=step.labels, text=text, reason=digit),)


def _open_places(attempt: Act, label: str = "") -> list[int]:
    wanted = label or attempt.argument
    steps = ((place, attempt.step(place)) for place in attempt.progress.open_steps)
    return [place for place, step in steps if step and wanted in {str(bolt) for bolt in step.labels}]


def _open_labels(attempt: Act) -> list[str]:
    steps = (attempt.step(place) for place in attempt.progress.open_steps)
    return list(dict.fromkeys(labels_text(step.labels) for step in steps if step))


def _no_open_bolt(attempt: Act, label: str, word: str) -> str:
    shown = ", ".join(_open_labels(attempt))
    found = f'"{escape(label)}" is not open in this round' if label else "No bolt is named"
    return f"{found}. Write {word} and one of: {shown}." if shown else "No bolt is being pulled now."


def trouble(attempt: Act) -> Answer:
    """Tell what went wrong, by digit: at the bolt in hand, or at the one that is named behind the digit."""
    reasons = attempt.progress.plan.reasons
    digit, _, label = attempt.argument.partition(" ")
    reason = chosen(digit, reasons)
    if attempt.moment.kind in ("caution", "wait", "finished"):
        return No(message="No bolt is being worked on now.")
    if not reason:
        return No(message=f"Write trouble and a digit: {listed(reasons)}.")
    bolts = attempt.at(label.strip()) if label.strip() else attempt.here
    if not bolts and not label.strip() and attempt.moment.kind == "card":
        open_ = _open_labels(attempt)
        if len(open_) > 1:
            return No(message=f"Which bolt? Write trouble {reason} and one of: {', '.join(open_)}.")
        bolts = attempt.at(open_[0])
    if label.strip() and not bolts:
        return No(message=f'"{escape(label.strip())}" is no bolt of this round.')
    return (
        Event(
            kind="trouble",
            round=attempt.number,
            bolts=bolts,
            reason=reason,
            text=reasons[reason - 1],
        ),
    )


def note(attempt: Act) -> Answer:
    """Keep a remark."""
    if not attempt.argument:
        return No(message="Write note and the text.")
    return (Event(kind="note", round=attempt.number, bolts=attempt.here, text=attempt.argument),)


def tick_rest(attempt: Act) -> Answer:
    """Tick the rest of the round as a whole; the record says that it was ticked so."""
    round_ = attempt.round
    if round_ is None or attempt.moment.kind not in (*PULLING, "whole"):
        return No(message="No round is open that could be ticked as a whole.")
    if round_.kind in WHOLE:
        return whole_round(attempt)
    steps = [round_.steps[place] for place in attempt.progress.open_steps]
    bolts = tuple(label for step in steps for label in step.labels)
    told = Event(kind="round", round=attempt.number, bolts=bolts, text="ticked as a whole", afterwards=True)
    ticks = (tick_of(attempt, step, text="ticked as a whole", afterwards=True) for step in steps)
    return (told, *ticks)


def old(attempt: Act) -> Answer:
    """At the first stop: the parts that may be used once only are not new; what then is a digit."""
    plan = attempt.progress.plan
    if "opening" not in attempt.moment.why or not plan.one_time or plan.action != "tighten":
        return No(message="`old` belongs to the first stop of a group with parts that are used once only.")
    choice = chosen(attempt.argument, PART_CHOICES)
    if not choice:
        return No(message=f"{plan.one_time} used again? Write old and a digit: {listed(PART_CHOICES)}.")
    text = f"{plan.one_time}: {PART_CHOICES[choice - 1]}"
    if choice == 1:
        return (Event(kind="pause", round=attempt.number, text=text),)
    gate = attempt.moment.gate
    return (Event(kind="gate", gate=gate, round=attempt.number, text=text, reason=choice),)


def afterwards(attempt: Act) -> Answer:
    """From here on entries are made afterwards, from paper; said once more, they are made at the vehicle."""
    if attempt.progress.afterwards:
        return (Event(kind="note", gate="at the vehicle", text="entries at the vehicle again"),)
    text = "entries from here on are made afterwards, from paper"
    return (Event(kind="note", gate="afterwards", text=text, afterwards=True),)


def pause(attempt: Act) -> Answer:
    """Put the walk down; it goes on at the same bolt."""
    return (Event(kind="pause", round=attempt.number, text=attempt.argument),)


def abandon(attempt: Act) -> Answer:
    """End the walk unfinished, with the reason: a digit, or words."""
    if not attempt.argument:
        return No(message=f"The walk then ends unfinished. Write abandon and why: {listed(ABANDON_REASONS)}.")
    digit = chosen(attempt.argument, ABANDON_REASONS)
    if not digit and attempt.argument.isdigit():
        return No(message=f"{attempt.argument} is no reason. Write abandon and: {listed(ABANDON_REASONS)}.")
    text = ABANDON_REASONS[digit - 1] if digit else attempt.argument
    return (Event(kind="abandoned", round=attempt.number, text=text, reason=digit),)


def sign(attempt: Act) -> Answer:
    """Put a name to the walk: who works from here on, or who did it where it is at its end."""
    name = attempt.argument
    if not name:
        return No(message="Write sign and the name.")
    if attempt.moment.kind == "finished":
        return (Event(kind="note", gate="sign-off", by=name, text=f"signed off by {name}"),)
    before = attempt.progress.pulled_by
    if before and before != name and name != attempt.progress.opened_by:
        return (Event(kind="hand-over", round=attempt.number, by=name, text=f"from {before} to {name}"),)
    return (Event(kind="note", gate="sign", by=name, text=f"{name} works from here on"),)
