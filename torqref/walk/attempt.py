"""A command on its way: the state, the moment and the rest of the line; and what it can come to."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from torqref.walk.event import Event
from torqref.walk.moment import Moment
from torqref.walk.plan import Round, Step
from torqref.walk.state import Progress
from torqref.wrench.rack import Rack

NO_RACK = Rack()


@dataclass(frozen=True, slots=True, kw_only=True)
class No:
    """A command that may not be done now: why, and what would do.

    Args:
        message: the sentence for the person who gave it.
        events: what the record keeps of it all the same.
    """

    message: str
    events: tuple[Event, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """A command on its way: what it acts on.

    Args:
        progress: the state before it.
        moment: what was asked for.
        argument: the rest of the line.
        now: the time.
        events: all events so far, for undo.
        rack: the wrenches and adapters at hand.
    """

    progress: Progress
    moment: Moment
    argument: str
    now: datetime
    events: tuple[Event, ...] = ()
    rack: Rack = NO_RACK

    @property
    def round(self) -> Round | None:
        """The current round."""
        return self.progress.current

    @property
    def number(self) -> int:
        """Number of the current round, from 1; 0 when all are through."""
        return self.progress.round + 1 if self.progress.current else 0

    def step(self, place: int | None = None) -> Step | None:
        """The step at a place of the round, or the one to do now."""
        round_, at = self.progress.current, self.moment.step if place is None else place
        return round_.steps[at] if round_ and 0 <= at < len(round_.steps) else None

    @property
    def here(self) -> tuple[int, ...]:
        """The bolts that the hand is at; none where a whole round, or nothing yet, is being done."""
        step = self.step() if self.moment.kind in ("bolt", "measure", "question") else None
        return step.labels if step else ()

    def at(self, label: str) -> tuple[int, ...]:
        """The bolts of the current or the last round that go by a label; none where it has no such bolt."""
        round_ = self.round or self.progress.plan.rounds[-1]
        steps = round_.steps
        return next((step.labels for step in steps if label in {str(bolt) for bolt in step.labels}), ())


Answer = tuple[Event, ...] | No
# A click on a bolt that does not move says no more than that: common practice, no source.
_STILL = "still: it clicked without moving, so it has at least this"
NOT_IN_RACK = "with a wrench that is not in the rack"


def tick_of(attempt: Act, step: Step, *, text: str = "", afterwards: bool = False) -> Event:
    """The check-off of a step, saying what was set or turned and nothing more."""
    dial, round_ = attempt.progress.dial(step), attempt.round
    value = f"set {dial.shown} {dial.unit}" if dial else ""
    if round_ is not None and not text and (round_.recheck or round_.until_still):
        text = _STILL if dial else "still, by its mark"
    if dial is not None and dial.beyond:
        text = f"{text}; {NOT_IN_RACK}" if text else NOT_IN_RACK
    if step.kind in ("angle", "back_off") and step.degrees is not None:
        value = f"turned {show_degrees(step.degrees)}°"
    return Event(
        kind="check-off",
        round=attempt.number,
        bolts=step.labels,
        value=value,
        text=text,
        wrench=dial.wrench if dial else "",
        afterwards=afterwards or attempt.progress.afterwards,
    )


def show_degrees(value: Fraction) -> str:
    """Degrees without a sign for the unit, whole where they are whole."""
    from torqref.quantity.showing import show_number

    return show_number(value, 0 if value.denominator == 1 else 1)
