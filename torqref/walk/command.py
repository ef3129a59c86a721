"""What a person can say during a walk, and the events it makes; a rule that forbids it comes back as words.

Each command looks at the progress and the moment and returns events, or a `No` with the reason and what
would do. Nothing is changed here: the session writes the events and only then shows them.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.walk import correction, reading, swap, verification, word
from torqref.walk.attempt import Act, Answer, No
from torqref.walk.event import Event
from torqref.walk.plan import Round
from torqref.walk.press import digit_answer, done
from torqref.walk.state import Progress

COMMANDS: dict[str, Callable[[Act], Answer]] = {
    "done": done,
    "undo": word.undo,
    "moved": word.moved,
    "later": word.later,
    "skip": word.skip,
    "trouble": word.trouble,
    "note": word.note,
    "found": reading.found,
    "actual": reading.actual,
    "page": correction.page,
    "drag": reading.drag,
    "old": word.old,
    "afterwards": word.afterwards,
    "measure": reading.measure,
    "round": word.tick_rest,
    "wrench": swap.wrench,
    "unit": swap.unit,
    "sign": word.sign,
    "verify": verification.verify,
    "pause": word.pause,
    "abandon": word.abandon,
}

_MOST_DIGITS = 4


def act(name: str, attempt: Act) -> Answer:
    """The events of one command, or why not; a digit answers the question that is open."""
    if name.isascii() and name.isdigit() and len(name) < _MOST_DIGITS:
        return digit_answer(int(name), attempt)
    command = COMMANDS.get(name.casefold())
    if command is None:
        near = nearest(name, COMMANDS)
        mend = f'Did you mean "{near}"?' if near else f"Known: {', '.join(COMMANDS)}."
        return No(message=f'"{escape(name)}" is not known here. {mend}')
    return command(attempt)


def consequences(progress: Progress, now: datetime) -> tuple[Event, ...]:
    """What follows by itself once a press is through: a wait gets its due time, a walk its end."""
    round_ = progress.current
    if progress.finished or progress.abandoned:
        return ()
    if round_ is None:
        open_check = progress.plan.second_check and not progress.verified
        return () if open_check else (Event(kind="finished", text=_ending(progress)),)
    if round_.kind == "wait" and not progress.waiting:
        return (Event(kind="due", round=progress.round + 1, due=_due(round_, now), text=round_.text),)
    return ()


def _due(round_: Round, now: datetime) -> str:
    """When a wait is over; empty where it is counted in distance or heat cycles."""
    if round_.due_minutes is None:
        return ""
    return (now + timedelta(minutes=float(round_.due_minutes))).isoformat(timespec="seconds")


def _ending(progress: Progress) -> str:
    if not progress.skipped:
        return ""
    labels = sorted(
        {label for round_, place in progress.skipped for label in _labels(progress, round_, place)}
    )
    return f"left out: {', '.join(str(label) for label in labels)}"


def _labels(progress: Progress, round_: int, place: int) -> tuple[int, ...]:
    return progress.plan.rounds[round_].steps[place].labels
