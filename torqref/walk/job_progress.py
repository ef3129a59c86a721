"""Progress of a job: a pure fold of its own events, beside the progress of the walks of its groups.

A group step has no tick of its own: it is done when its walk has passed the stage it stops at, so that the
job can never say more than the walk does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from torqref.walk.event import Event
from torqref.walk.job_plan import JobPlan
from torqref.walk.progress import press_of

Kept = TypeVar("Kept")
# What the journal of a job holds. `round` of an event is the number of the step it is about.
KINDS = (
    "opened", "gate", "fact", "step", "walk", "part", "measure", "adapter", "later", "go", "skip", "again",
    "due", "note", "order", "undo", "pause", "hand-over", "finished", "signed", "recheck", "abandoned",
)  # fmt: skip
UNDOABLE = frozenset(
    {"gate", "fact", "step", "measure", "adapter", "later", "go", "skip", "again", "note", "order", "recheck"}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobProgress:
    """Where a job stands, without its walks.

    Args:
        plan: what is done.
        facts: what is known of the vehicle.
        gates: stops that were opened.
        done: when each step was done, by number; for a group step when its walk had passed it.
        left_out: why a step was left out, by number.
        later: numbers of steps put off, in the order they were put off.
        readings: last reading of each checked step, and whether it lay outside, by number.
        walks: id of the walk of each group, by `JobStep.walk`.
        earlier: ids of the walks before, that were begun again.
        adapters: adapter chosen at the vehicle, by number of the step.
        due: when a wait is over, by number of the step.
        rechecked: what was seen at a recheck, by its place from 1.
        notes: remarks.
        work_order: number of the work order.
        signed: who signed, and when.
        started, opened, last_time: times; `by` is who worked last.
        paused, abandoned: how it stands.
    """

    plan: JobPlan
    facts: Mapping[str, str] = field(default_factory=dict)
    gates: frozenset[str] = frozenset()
    done: Mapping[int, str] = field(default_factory=dict)
    left_out: Mapping[int, str] = field(default_factory=dict)
    later: tuple[int, ...] = ()
    readings: Mapping[int, tuple[str, str]] = field(default_factory=dict)
    walks: Mapping[str, str] = field(default_factory=dict)
    earlier: tuple[str, ...] = ()
    adapters: Mapping[int, str] = field(default_factory=dict)
    due: Mapping[int, str] = field(default_factory=dict)
    rechecked: Mapping[int, str] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    work_order: str = ""
    signed: tuple[tuple[str, str], ...] = ()
    started: str = ""
    last_time: str = ""
    by: str = ""
    paused: bool = False
    abandoned: bool = False

    @property
    def is_signed(self) -> bool:
        """Whether everybody who has to sign has signed."""
        return len(self.signed) >= self.plan.signatures

    @property
    def open_rechecks(self) -> tuple[int, ...]:
        """Places of the rechecks that nobody has done, from 1."""
        return tuple(n for n in range(1, len(self.plan.rechecks) + 1) if n not in self.rechecked)


def begin_job(plan: JobPlan, work_order: str = "") -> JobProgress:
    """A job in which nothing has happened yet; facts with one word are known."""
    known = {name: words[0] for name, words in plan.facts if len(words) == 1}
    return JobProgress(plan=plan, facts=known, work_order=work_order)


def fold_job(plan: JobPlan, events: Iterable[Event], work_order: str = "") -> JobProgress:
    """The state after these events; what was undone never happened."""
    told = tuple(events)
    undone = undone_in_job(told)
    progress = begin_job(plan, work_order)
    for event in told:
        progress = apply_job(progress, event) if event.number not in undone else progress
    return progress


def undone_in_job(events: Iterable[Event]) -> frozenset[int]:
    """Numbers of the events that were taken back: each undo takes back one whole press."""
    told = tuple(events)
    presses = {event.undoes for event in told if event.kind == "undo"}
    return frozenset(event.number for event in told if press_of(event) in presses and event.kind in UNDOABLE)


def apply_job(progress: JobProgress, event: Event) -> JobProgress:
    """The state after one more event."""
    change = _CHANGES.get(event.kind)
    after = progress if change is None else change(progress, event)
    return replace(after, last_time=event.time, by=event.by or after.by)


def _opened(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, started=progress.started or event.time, paused=False)


def _gate(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, gates=progress.gates | {event.gate})


def _fact(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, facts={**progress.facts, event.gate: event.value})


def _step(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, done={**progress.done, event.round: event.time})


def _walk(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, walks={**progress.walks, event.gate: event.text})


def _measure(progress: JobProgress, event: Event) -> JobProgress:
    read = replace(progress, readings={**progress.readings, event.round: (event.value, event.text)})
    return read if event.text else _step(read, event)


def _adapter(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, adapters={**progress.adapters, event.round: event.text})


def _later(progress: JobProgress, event: Event) -> JobProgress:
    rest = tuple(number for number in progress.later if number != event.round)
    return replace(progress, later=(*rest, event.round))


def _go(progress: JobProgress, event: Event) -> JobProgress:
    """Everything that is open before the step gone to is put off."""
    before = range(1, event.round)
    open_ = [number for number in before if number not in progress.done and number not in progress.later]
    return replace(progress, later=tuple(n for n in (*progress.later, *open_) if n != event.round))


def _skip(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, left_out={**progress.left_out, event.round: event.text})


def _again(progress: JobProgress, event: Event) -> JobProgress:
    """A step is open again; a group begins another walk, and the record keeps the one before."""
    walk = progress.walks.get(event.gate, "")
    return replace(
        progress,
        done=_without(progress.done, event.round),
        left_out=_without(progress.left_out, event.round),
        readings=_without(progress.readings, event.round),
        due=_without(progress.due, event.round),
        walks={key: known for key, known in progress.walks.items() if key != event.gate},
        earlier=(*progress.earlier, walk) if walk else progress.earlier,
    )


def _without(known: Mapping[int, Kept], number: int) -> dict[int, Kept]:
    return {key: value for key, value in known.items() if key != number}


def _due(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, due={**progress.due, event.round: event.due})


def _note(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, notes=(*progress.notes, event.text))


def _order(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, work_order=event.text)


def _signed(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, signed=(*progress.signed, (event.by, event.time)))


def _recheck(progress: JobProgress, event: Event) -> JobProgress:
    if event.text:
        return progress  # outside its band: it stays due
    return replace(progress, rechecked={**progress.rechecked, event.round: event.value})


def _pause(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, paused=True)


def _abandoned(progress: JobProgress, event: Event) -> JobProgress:
    return replace(progress, abandoned=True)


# Kinds that are not here change nothing but the record: undo, hand-over, finished.
_CHANGES: dict[str, Callable[[JobProgress, Event], JobProgress]] = {
    "opened": _opened,
    "gate": _gate,
    "fact": _fact,
    "step": _step,
    "walk": _walk,
    "part": _step,
    "measure": _measure,
    "adapter": _adapter,
    "later": _later,
    "go": _go,
    "skip": _skip,
    "again": _again,
    "due": _due,
    "note": _note,
    "order": _order,
    "signed": _signed,
    "recheck": _recheck,
    "pause": _pause,
    "abandoned": _abandoned,
}
