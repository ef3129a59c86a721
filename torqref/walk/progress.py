"""Progress: the state of a walk as a pure fold of its events over the plan. No clock, no file.

`state` says what there is to know, `change` what each kind of event does to it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from torqref.walk.change import change_by, close_round
from torqref.walk.event import Event
from torqref.walk.plan import Plan
from torqref.walk.state import MOST_TRIPS, WHOLE, Progress, begin, needs_marks, setup_of, step_at

__all__ = [
    "MOST_TRIPS",
    "UNDOABLE",
    "WHOLE",
    "Progress",
    "apply",
    "begin",
    "close_round",
    "fold",
    "needs_marks",
    "press_of",
    "setup_of",
    "step_at",
    "undone_numbers",
]

# Acts that a press of undo can take back; everything else stands.
UNDOABLE = frozenset(
    {
        "gate", "check-off", "round", "moved", "verify", "later", "skip", "trouble",
        "found", "actual", "page", "measure", "wrench", "note", "due", "finished",
    }
)  # fmt: skip
# Work begins at a place with its first stop or pull; a caution or an answer is not work yet.
_WORK = frozenset({"gate", "check-off", "round", "measure", "verify"})
_NOT_YET = ("caution", "doubt", "calibration", "beyond", "changed", "again", "uses")


def fold(plan: Plan, events: Iterable[Event]) -> Progress:
    """The state after these events; what was undone never happened."""
    told = tuple(events)
    undone = undone_numbers(told)
    progress = begin(plan)
    for event in told:
        progress = apply(progress, event) if event.number not in undone else _seen(progress, event)
    return progress


def undone_numbers(events: Iterable[Event]) -> frozenset[int]:
    """Numbers of the events that were taken back: each undo takes back one whole press."""
    told = tuple(events)
    taken = {event.undoes: event.number for event in told if event.kind == "undo"}
    return frozenset(
        event.number
        for event in told
        if event.kind in UNDOABLE and event.number < taken.get(press_of(event), 0)
    )


def press_of(event: Event) -> int:
    """Number of the first event of the press that an event belongs to."""
    return event.press or event.number


def apply(progress: Progress, event: Event) -> Progress:
    """The state after one more event."""
    change = change_by(event.kind)
    after = progress if change is None else change(progress, event)
    return _seen(_begun(after, event), event)


def _begun(progress: Progress, event: Event) -> Progress:
    """The time of a place runs from its first stop, or from when the walk came to it."""
    if event.kind not in _WORK or progress.current is None or progress.begun:
        return progress
    if event.kind == "gate" and event.gate.startswith(_NOT_YET):
        return progress
    return replace(progress, begun_at=(*progress.begun_at, (progress.current.place, event.time)))


def _seen(progress: Progress, event: Event) -> Progress:
    paused = progress.paused and event.kind in ("pause", "opened")
    return replace(progress, last=event.number, last_time=event.time, paused=paused)
