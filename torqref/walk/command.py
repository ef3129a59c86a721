"""What a person can say during a walk, and the events it makes; a rule that forbids it comes back as words.

Each command looks at the progress and the moment and returns events, or a `No` with the reason and what
would do. Nothing is changed here: the session writes the events and only then shows them.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.walk import reading, swap, word
from torqref.walk.attempt import Act, Answer, No
from torqref.walk.event import Event
from torqref.walk.press import digit_answer, done
from torqref.walk.progress import Progress

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
    "page": reading.page,
    "measure": reading.measure,
    "round": word.tick_rest,
    "wrench": swap.wrench,
    "unit": swap.unit,
    "sign": word.sign,
    "verify": reading.verify,
    "pause": word.pause,
    "abandon": word.abandon,
}


def act(name: str, attempt: Act) -> Answer:
    """The events of one command, or why not; a digit answers the question that is open."""
    if name.isascii() and name.isdigit():
        return digit_answer(int(name), attempt)
    command = COMMANDS.get(name)
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
    if round_.kind == "wait" and round_.due_minutes is not None and not progress.due:
        due = now + timedelta(minutes=float(round_.due_minutes))
        when = due.isoformat(timespec="seconds")
        return (Event(kind="due", round=progress.round + 1, due=when, text=round_.text),)
    return ()


def _ending(progress: Progress) -> str:
    if not progress.skipped:
        return ""
    labels = sorted(
        {label for round_, place in progress.skipped for label in _labels(progress, round_, place)}
    )
    return f"left out: {', '.join(str(label) for label in labels)}"


def _labels(progress: Progress, round_: int, place: int) -> tuple[int, ...]:
    return progress.plan.rounds[round_].steps[place].labels
