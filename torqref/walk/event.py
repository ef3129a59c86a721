"""An event of a walk: one thing that happened, as the journal keeps it.

Exactly one kind, `check-off`, counts a bolt. An event is never changed; undoing one is another event.
"""

from __future__ import annotations

from dataclasses import dataclass

from torqref.quantity.term import Torque
from torqref.walk.plan import Dial, WrenchFacts

KINDS = (
    "opened",
    "gate",
    "check-off",
    "round",
    "moved",
    "verify",
    "undo",
    "later",
    "skip",
    "trouble",
    "note",
    "found",
    "actual",
    "page",
    "measure",
    "wrench",
    "hand-over",
    "pause",
    "due",
    "finished",
    "abandoned",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One thing that happened.

    Args:
        kind: one of `KINDS`.
        number: running number in the walk, from 1; 0 until the journal has given it.
        time: when, as ISO 8601 with the offset to UTC.
        by: who, as far as it is known.
        round: number of the round, from 1; 0 where it belongs to none.
        bolts: the bolts it is about.
        gate: name of the stop that was opened.
        text: note, reason or sentence.
        value: a value as typed or as set, with its unit.
        reason: digit of a trouble, from 1.
        undoes: number of the event that it takes back.
        wrench: id of the wrench that a bolt was pulled with, as far as the rack says it.
        dials: settings that hold from here on, after another wrench or a correction of the page.
        wrenches: facts of a wrench that was taken.
        due: when something is due, as ISO 8601.
        back_to: index of the round that the walk goes back to, -1 for none.
        degrees: how far a half-done angle got, or the angle that the page has, as text.
        limits: low and high of that angle as the page has it, as text, empty for none.
        drag: the drag of a locking nut as it was measured.
        stood: where wrenches were left since by other walks, as (wrench, setting, time).
        afterwards: entered from paper, or ticked as a whole.
        press: number of the first event of the same press; 0 where it is its own.
    """

    kind: str
    number: int = 0
    time: str = ""
    by: str = ""
    round: int = 0
    bolts: tuple[int, ...] = ()
    gate: str = ""
    text: str = ""
    value: str = ""
    reason: int = 0
    undoes: int = 0
    wrench: str = ""
    dials: tuple[Dial, ...] = ()
    wrenches: tuple[WrenchFacts, ...] = ()
    due: str = ""
    back_to: int = -1
    degrees: str = ""
    limits: tuple[str, ...] = ()
    drag: Torque | None = None
    stood: tuple[tuple[str, str, str], ...] = ()
    afterwards: bool = False
    press: int = 0
