"""Progress: the state of a walk as a pure fold of its events over the plan. No clock, no file."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from torqref.walk.event import Event
from torqref.walk.plan import Dial, Plan, Round, Step, WrenchFacts

MOST_TRIPS = 5
# Acts that a press of undo can take back; everything else stands.
UNDOABLE = frozenset(
    {
        "gate", "check-off", "round", "moved", "verify", "later", "skip", "trouble",
        "found", "actual", "page", "measure", "wrench", "note", "due", "finished",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """Where a walk stands.

    Args:
        plan: what is walked.
        round: index of the current round; the number of rounds once all are through.
        trip: which time round the pattern at this stage, from 1.
        done: places of the steps already done on this trip.
        later: places of steps put off, in the order they were put off.
        skipped: (round, step) pairs left out.
        moved: labels that moved on this trip.
        half: place of a step whose angle was begun, and the degrees it got; None for none.
        gates: names of the stops opened so far.
        setup: what the hand is set up for, as `setup_of` writes it; empty before the first pull.
        dials: the settings that hold now.
        taken: facts of the wrenches taken in the middle of the walk.
        stood: where each wrench was last set in this walk, as (wrench, setting) pairs.
        trouble: the trouble that is open, or None.
        corrections: what the page said other, as typed.
        last: number of the last event, and `last_time` its time.
        pulled: labels of the last pulls, newest last, and `pulled_at` the number of the last one.
        pulled_by: who pulled last.
        opened: number of the last time the walk was opened, `opened_by` by whom.
        started: time of the first opening; `begun` time of the first stop (for deadlines).
        settled: number of the last press that settled where the hand is, `settled_at` its time.
        due: when the current wait is over, ISO 8601; empty for none.
        marks_seen: round whose marks were looked at, so that it may close.
        verified: the second check is done.
        restarts: how often the walk went back to an earlier round.
        paused, finished, abandoned: how it stands.
    """

    plan: Plan
    dials: tuple[Dial, ...]
    taken: tuple[WrenchFacts, ...] = ()
    round: int = 0
    trip: int = 1
    done: frozenset[int] = frozenset()
    later: tuple[int, ...] = ()
    skipped: tuple[tuple[int, int], ...] = ()
    moved: tuple[int, ...] = ()
    half: tuple[int, str] | None = None
    gates: frozenset[str] = frozenset()
    setup: str = ""
    stood: tuple[tuple[str, str], ...] = ()
    trouble: Event | None = None
    corrections: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    last: int = 0
    last_time: str = ""
    pulled: tuple[tuple[int, ...], ...] = ()
    pulled_at: int = 0
    pulled_by: str = ""
    opened: int = 0
    opened_by: str = ""
    started: str = ""
    begun: str = ""
    settled: int = 0
    settled_at: str = ""
    due: str = ""
    marks_seen: int = -1
    verified: bool = False
    restarts: int = 0
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
        open_steps = self.open_steps
        put_off = [place for place in self.later if place in open_steps]
        straight = [place for place in open_steps if place not in put_off]
        return (straight or put_off or [-1])[0]

    @property
    def open_steps(self) -> tuple[int, ...]:
        """Places of the steps of this trip that are neither done nor left out."""
        if self.current is None:
            return ()
        return tuple(
            place
            for place in range(len(self.current.steps))
            if place not in self.done and (self.round, place) not in self.skipped
        )

    @property
    def wrenches(self) -> dict[str, WrenchFacts]:
        """Facts of every wrench of this walk, by id."""
        return {facts.id: facts for facts in (*self.plan.wrenches, *self.taken)}

    def dial(self, step: Step) -> Dial | None:
        """The setting for a step, or None where it has none."""
        return self.dials[step.dial] if step.dial >= 0 else None


def begin(plan: Plan) -> Progress:
    """A walk in which nothing has happened yet."""
    return Progress(plan=plan, dials=plan.dials)


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
    numbers: set[int] = set()
    told = tuple(events)
    for event in told:
        if event.kind == "undo":
            numbers |= {
                other.number
                for other in told
                if other.number < event.number and press_of(other) == event.undoes and other.kind in UNDOABLE
            }
    return frozenset(numbers)


def press_of(event: Event) -> int:
    """Number of the first event of the press that an event belongs to."""
    return event.press or event.number


def apply(progress: Progress, event: Event) -> Progress:
    """The state after one more event."""
    change = _CHANGES.get(event.kind)
    after = progress if change is None else change(progress, event)
    return _seen(after, event)


def _seen(progress: Progress, event: Event) -> Progress:
    return replace(progress, last=event.number, last_time=event.time)


def setup_of(progress: Progress, round_: Round, step: Step) -> str:
    """What the hand must be set up for to do a step; a change of it asks for a stop."""
    if round_.each_bolt:
        return f"each bolt|{round_.stage}"
    dial = progress.dial(step)
    wrench = f"{dial.wrench}|{dial.shown} {dial.unit}|{dial.with_adapter}" if dial else ""
    turn = "" if step.kind == "torque" else f"{step.kind} {step.degrees}"
    return "|".join((wrench, turn, *(word for word in round_.words if word)))


def _opened(progress: Progress, event: Event) -> Progress:
    return replace(
        progress,
        opened=event.number,
        opened_by=event.by,
        started=progress.started or event.time,
        paused=False,
    )


def _gate(progress: Progress, event: Event) -> Progress:
    opened = replace(
        progress,
        gates=progress.gates | {event.gate},
        begun=progress.begun or event.time,
        settled=event.number,
        settled_at=event.time,
        trouble=None if event.gate.startswith("trouble") else progress.trouble,
    )
    if event.gate.startswith("wait"):
        opened = _advance(replace(opened, done=frozenset()))
    if event.back_to >= 0:
        return _go_back(opened, event.back_to)
    return _set_up(opened)


def _set_up(progress: Progress) -> Progress:
    """An opened stop means that the hand is now set up for the next step that turns a bolt."""
    round_ = progress.current
    if round_ is None or progress.step < 0 or round_.kind in WHOLE or round_.kind == "measure":
        return progress
    step = round_.steps[progress.step]
    dial = progress.dial(step)
    stood = dict(progress.stood)
    if dial is not None:
        stood[dial.wrench] = f"{dial.shown} {dial.unit}"
    return replace(progress, setup=setup_of(progress, round_, step), stood=tuple(stood.items()))


WHOLE = ("hand", "place", "wait")


def _go_back(progress: Progress, round_index: int) -> Progress:
    """Back to an earlier round: its ticks and those after it no longer count, the record keeps them."""
    return replace(
        progress,
        round=round_index,
        trip=1,
        done=frozenset(),
        later=(),
        moved=(),
        half=None,
        skipped=tuple(pair for pair in progress.skipped if pair[0] < round_index),
        setup="",
        marks_seen=min(progress.marks_seen, round_index - 1),
        restarts=progress.restarts + 1,
        due="",
    )


def _check_off(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    if place < 0:
        return progress
    ticked = replace(
        progress,
        done=progress.done | {place},
        later=tuple(other for other in progress.later if other != place),
        half=None if progress.half and progress.half[0] == place else progress.half,
        pulled=(*progress.pulled[-1:], event.bolts),
        pulled_at=event.number,
        pulled_by=event.by,
        settled=event.number,
        settled_at=event.time,
    )
    return close_round(_set_up(ticked) if ticked.current and ticked.current.each_bolt else ticked)


def step_at(progress: Progress, bolts: tuple[int, ...]) -> int:
    """Place of the first open step of this trip at these bolts, -1 for none."""
    round_ = progress.current
    if round_ is None:
        return -1
    fitting = [place for place in progress.open_steps if round_.steps[place].labels == bolts]
    return fitting[0] if fitting else -1


def close_round(progress: Progress) -> Progress:
    """Go on to the next round when nothing of this one is open; angle rounds close by their marks."""
    round_ = progress.current
    if round_ is None or not round_.steps or progress.open_steps:
        return progress
    if needs_marks(round_) and progress.marks_seen < progress.round:
        return progress
    if round_.until_still and progress.moved and progress.trip < MOST_TRIPS:
        return replace(progress, trip=progress.trip + 1, done=frozenset(), later=(), moved=())
    return _advance(progress)


def needs_marks(round_: Round) -> bool:
    """Whether a round ends with a look at where every mark points."""
    return round_.kind == "angle" and len(round_.steps) > 1 and not round_.each_bolt


def _advance(progress: Progress) -> Progress:
    return replace(
        progress,
        round=progress.round + 1,
        trip=1,
        done=frozenset(),
        later=(),
        moved=(),
        half=None,
        due="",
    )


def _round(progress: Progress, event: Event) -> Progress:
    """A hand round is done by one press; other rounds ticked as a whole have a check-off for each bolt."""
    settled = replace(progress, settled=event.number, settled_at=event.time)
    round_ = progress.current
    if round_ is None or round_.kind not in WHOLE:
        return settled
    return _advance(replace(settled, pulled_at=event.number, pulled_by=event.by))


def _moved(progress: Progress, event: Event) -> Progress:
    return replace(progress, moved=progress.moved + event.bolts)


def _verify(progress: Progress, event: Event) -> Progress:
    if event.gate.startswith("marks"):
        seen = replace(progress, marks_seen=progress.round, settled=event.number, settled_at=event.time)
        return close_round(seen)
    return replace(progress, verified=True)


def _later(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    return progress if place < 0 else replace(progress, later=(*progress.later, place))


def _skip(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    if place < 0:
        return progress
    return close_round(replace(progress, skipped=(*progress.skipped, (progress.round, place))))


def _trouble(progress: Progress, event: Event) -> Progress:
    return replace(progress, trouble=event)


def _actual(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    return replace(progress, half=(place, event.degrees)) if event.degrees and place >= 0 else progress


def _dials(progress: Progress, event: Event) -> Progress:
    corrections = (*progress.corrections, event.value) if event.kind == "page" else progress.corrections
    taken = (*progress.taken, *event.wrenches)
    return replace(progress, dials=event.dials or progress.dials, corrections=corrections, taken=taken)


def _measure(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    settled = replace(progress, settled=event.number, settled_at=event.time)
    if event.back_to >= 0:
        return _go_back(settled, event.back_to)
    return settled if place < 0 else close_round(replace(settled, done=progress.done | {place}))


def _note(progress: Progress, event: Event) -> Progress:
    return replace(progress, notes=(*progress.notes, event.text))


def _due(progress: Progress, event: Event) -> Progress:
    return replace(progress, due=event.due)


def _pause(progress: Progress, event: Event) -> Progress:
    return replace(progress, paused=True)


def _finished(progress: Progress, event: Event) -> Progress:
    return replace(progress, finished=True)


def _abandoned(progress: Progress, event: Event) -> Progress:
    return replace(progress, abandoned=True)


# Kinds that are not here change nothing but the record: found, undo, hand-over.
_CHANGES: dict[str, Callable[[Progress, Event], Progress]] = {
    "opened": _opened,
    "gate": _gate,
    "check-off": _check_off,
    "round": _round,
    "moved": _moved,
    "verify": _verify,
    "later": _later,
    "skip": _skip,
    "trouble": _trouble,
    "actual": _actual,
    "page": _dials,
    "wrench": _dials,
    "measure": _measure,
    "note": _note,
    "due": _due,
    "pause": _pause,
    "finished": _finished,
    "abandoned": _abandoned,
}
