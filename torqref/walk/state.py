"""Where a walk stands: a value without clock or file, made by `progress` from the events of the walk."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import filterfalse

from torqref.quantity.term import Torque
from torqref.walk.event import Event
from torqref.walk.plan import Dial, Plan, Round, Step, WrenchFacts

MOST_TRIPS = 5
# Rounds that are done by one press for all bolts, without a wrench.
WHOLE = ("hand", "place", "wait")


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """Where a walk stands.

    Args:
        plan: what is walked, with the angles that the page corrected.
        round: index of the current round; the number of rounds once all are through.
        trip: which time round the pattern at this stage, from 1.
        redo: after going back at one place only: that place, and the round where the others go on too.
        done: places of the steps already done on this trip.
        later: places of steps put off, in the order they were put off.
        skipped: (round, step) pairs left out.
        moved: labels that moved on this trip.
        half: place of a step whose angle was begun, and the degrees it got; None for none.
        outside: the last reading outside its window, while its bolt is open.
        gates: names of the stops opened so far.
        setup: what the hand is set up for, as `setup_of` writes it; empty before the first pull.
        dials: the settings that hold now.
        drag: the drag of a locking nut that is in these settings, or None.
        taken: facts of the wrenches taken in the middle of the walk.
        stood: where each wrench stands, as (wrench, setting) pairs; `set_at` since when.
        trouble: the trouble that is open, or None.
        corrections: what the page said other, as typed.
        noted: the remarks.
        last: number of the last event, and `last_time` its time.
        pulled: labels of the last pulls, newest last, and `pulled_at` the number of the last one.
        pulled_by: who pulled last.
        opened: number of the last time the walk was opened, `opened_by` by whom.
        put_down: whether it had been put down properly before it was opened last.
        handed: number of a hand-over that nobody has taken notice of yet, 0 for none.
        changed: what the library says other since the walk began, empty for nothing; `changed_to` marks
            the revision.
        started: time of the first opening.
        begun_at: when the work at each place began, as (place, time) pairs.
        settled: number of the last press that settled where the hand is, `settled_at` its time.
        waiting: the current round is a wait whose due time was told; `waiting_since` when.
        due: when the current wait is over, ISO 8601; empty where that is not counted in time.
        marks_seen: round whose marks were looked at, so that it may close.
        verified: the second check is done.
        restarts: how often the walk went back to an earlier round.
        afterwards: what is told now is entered from paper.
        paused, finished, abandoned: how it stands.
    """

    plan: Plan
    dials: tuple[Dial, ...]
    drag: Torque | None = None
    taken: tuple[WrenchFacts, ...] = ()
    round: int = 0
    trip: int = 1
    redo: tuple[str, int] | None = None
    done: frozenset[int] = frozenset()
    later: tuple[int, ...] = ()
    skipped: tuple[tuple[int, int], ...] = ()
    moved: tuple[int, ...] = ()
    half: tuple[int, str] | None = None
    outside: Event | None = None
    gates: frozenset[str] = frozenset()
    setup: str = ""
    stood: tuple[tuple[str, str], ...] = ()
    set_at: tuple[tuple[str, str], ...] = ()
    trouble: Event | None = None
    corrections: tuple[str, ...] = ()
    noted: tuple[Event, ...] = ()
    last: int = 0
    last_time: str = ""
    pulled: tuple[tuple[int, ...], ...] = ()
    pulled_at: int = 0
    pulled_by: str = ""
    opened: int = 0
    opened_by: str = ""
    put_down: bool = False
    handed: int = 0
    changed: str = ""
    changed_to: str = ""
    started: str = ""
    begun_at: tuple[tuple[str, str], ...] = ()
    settled: int = 0
    settled_at: str = ""
    waiting: bool = False
    waiting_since: str = ""
    due: str = ""
    marks_seen: int = -1
    verified: bool = False
    restarts: int = 0
    afterwards: bool = False
    paused: bool = False
    finished: bool = False
    abandoned: bool = False

    @property
    def current(self) -> Round | None:
        """The round the walk is in, or None when all are through."""
        return self.plan.rounds[self.round] if self.round < len(self.plan.rounds) else None

    @property
    def step(self) -> int:
        """Place of the step to do now: the first open one, put-off ones last; -1 for none."""
        if not self.later:
            return next(self._open(), -1)
        open_, put_off = tuple(self._open()), set(self.later)
        first = next((place for place in open_ if place not in put_off), -1)
        if first >= 0:
            return first
        return next((place for place in self.later if place in open_), -1)

    @property
    def open_steps(self) -> tuple[int, ...]:
        """Places of the steps of this trip that are neither done nor left out."""
        return tuple(self._open())

    @property
    def is_round_open(self) -> bool:
        """Whether any step of this trip is open: counted, since it is asked after every pull."""
        round_ = self.current
        return round_ is not None and len(self._over) < len(round_.steps)

    def _open(self) -> Iterator[int]:
        steps = range(len(self.current.steps)) if self.current is not None else ()
        return filterfalse(self._over.__contains__, steps)

    @property
    def _over(self) -> frozenset[int]:
        if not self.skipped:
            return self.done
        return self.done.union(place for round_, place in self.skipped if round_ == self.round)

    @property
    def begun(self) -> str:
        """When the work at the current place began; empty before its first stop."""
        place = self.current.place if self.current else ""
        return dict(self.begun_at).get(place, "")

    @property
    def notes(self) -> tuple[str, ...]:
        """The remarks as words."""
        return tuple(event.text for event in self.noted)

    @property
    def wrenches(self) -> dict[str, WrenchFacts]:
        """Facts of every wrench of this walk, by id."""
        return {facts.id: facts for facts in (*self.plan.wrenches, *self.taken)}

    def dial(self, step: Step) -> Dial | None:
        """The setting for a step, or None where it has none."""
        return self.dials[step.dial] if step.dial >= 0 else None


def begin(plan: Plan) -> Progress:
    """A walk in which nothing has happened yet."""
    return Progress(
        plan=plan,
        dials=plan.dials,
        drag=plan.drag,
        stood=tuple((wrench, setting) for wrench, setting, _ in plan.stood),
        set_at=tuple((wrench, time) for wrench, _, time in plan.stood),
        gates=frozenset(plan.answered),
    )


def setup_of(progress: Progress, round_: Round, step: Step) -> str:
    """What the hand must be set up for to do a step; a change of it asks for a stop."""
    if round_.each_bolt:
        settings = dict.fromkeys(_tool_of(progress, other) for other in round_.steps)
        return "|".join(("each bolt", str(round_.stage), *settings))
    wrench = _tool_of(progress, step)
    # Loosening a quarter turn and then half a turn is one handling; angles of tightening are not.
    turn = f"{step.kind} {step.degrees}" if step.kind not in ("torque", "loosen") else ""
    return "|".join((wrench, turn, *(word for word in round_.words if word)))


def _tool_of(progress: Progress, step: Step) -> str:
    """What the hand holds for a step and where it is set; empty where nothing is set."""
    dial = progress.dial(step)
    return f"{dial.wrench}|{dial.shown} {dial.unit}|{dial.with_adapter}" if dial else ""


def step_at(progress: Progress, bolts: tuple[int, ...]) -> int:
    """Place of the open step of this trip at these bolts, the one to do now before others; -1 for none."""
    round_ = progress.current
    if round_ is None:
        return -1
    here = progress.step
    if here >= 0 and round_.steps[here].labels == bolts:
        return here
    return next((place for place in progress.open_steps if round_.steps[place].labels == bolts), -1)


def together(progress: Progress, place: int) -> tuple[int, ...]:
    """The open steps that go with one: in a round of one bolt after the other, all of its bolt."""
    round_ = progress.current
    if round_ is None or not round_.each_bolt:
        return (place,)
    labels = round_.steps[place].labels
    return tuple(other for other in progress.open_steps if round_.steps[other].labels == labels)


def needs_marks(round_: Round) -> bool:
    """Whether a round ends with a look at where every mark points."""
    return round_.kind == "angle" and len(round_.steps) > 1 and not round_.each_bolt


def turns_in(round_: Round | None) -> bool:
    """Whether a wrench turns the fasteners in a round, bolt by bolt."""
    return round_ is not None and round_.kind not in (*WHOLE, "measure")


def corrected(progress: Progress, event: Event) -> Plan:
    """The plan with an angle as the page has it: in this round, and in the same round at other places."""
    place = step_at(progress, event.bolts)
    if progress.current is None or place < 0:
        return progress.plan
    old, ordinal = progress.current.steps[place].degrees, _ordinal(progress.plan, progress.round)
    low, high, *_ = (*(Fraction(limit) if limit else None for limit in event.limits), None, None)
    new = {"degrees": Fraction(event.degrees), "low": low, "high": high}
    rounds = tuple(
        _with_text(
            replace(round_, steps=tuple(_with_turn(step, old, new) for step in round_.steps)), event.value
        )
        if _ordinal(progress.plan, index) == ordinal
        else round_
        for index, round_ in enumerate(progress.plan.rounds)
    )
    return replace(progress.plan, rounds=rounds)


def _with_text(round_: Round, text: str) -> Round:
    """An angle round as the page has it; in a round of several values the others stay as printed."""
    return replace(round_, text=text) if round_.kind == "angle" and not round_.each_bolt else round_


def _ordinal(plan: Plan, index: int) -> int:
    """Which round of its own place it is."""
    return sum(other.place == plan.rounds[index].place for other in plan.rounds[:index])


def _with_turn(step: Step, old: Fraction | None, new: dict[str, Fraction | None]) -> Step:
    if step.kind != "angle" or step.degrees != old:
        return step
    return replace(step, degrees=new["degrees"], low=new["low"], high=new["high"])
