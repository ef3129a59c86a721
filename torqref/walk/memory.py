"""What the other walks of the folder say to a new one: where wrenches stand, what is done, what was noted.

Only a few of the newest journals are read, so that years of records cost nothing at the vehicle. Times are
those of the events, and a wrench is known by its bay: another bay's W1 is another wrench.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from torqref.walk.archive import Record, Wanted, journals, named_for, read_record
from torqref.walk.bench import LOOSEN, TIGHTEN
from torqref.walk.plan import Plan, Remark

NEWEST, OF_GROUP = 4, 6
# Without a work order nothing tells two vehicles apart but the time between their walks.
SAME_VISIT = timedelta(hours=12)
SAME_JOB = timedelta(days=3)

Standing = tuple[str, str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Memory:
    """Walks that may matter to one that is opened now.

    Args:
        recent: the ones that were written to last, at this bay.
        same: the newest ones of the same group, at any bay.
    """

    recent: tuple[Record, ...] = ()
    same: tuple[Record, ...] = ()


def recall(folder: Path, wanted: Wanted, but: Path | None = None, known: Iterable[Record] = ()) -> Memory:
    """Read what may matter; files that cannot be read say nothing here.

    Args:
        folder: the folder of records.
        wanted: the walk that is opened.
        but: the journal of the walk itself.
        known: records that were read for this opening already.
    """
    paths = [path for path in journals(folder) if path != but]
    same = [path for path in reversed(paths) if named_for(path, wanted.group)][:OF_GROUP]
    newest = sorted(paths, key=_written, reverse=True)[:NEWEST]
    read: dict[Path, Record | None] = {record.told.path: record for record in known}
    read.update((path, read_record(path)[0]) for path in {*newest, *same} - read.keys())
    return Memory(
        recent=tuple(
            record
            for record in (read[path] for path in newest)
            if record is not None and record.header.bay == wanted.bay
        ),
        same=tuple(
            record
            for record in (read[path] for path in same)
            if record is not None and record.header.plan.group == wanted.group
        ),
    )


def _written(path: Path) -> float:
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def informed(plan: Plan, memory: Memory, wanted: Wanted, now: datetime) -> Plan:
    """The plan of a new walk with what the other walks say to it."""
    return replace(
        plan,
        stood=standings(memory.recent),
        answered=tuple(_answered(plan, memory, wanted, now)),
        again=_again(plan, memory, wanted, now),
        remarks=_remarks(memory, wanted, now) if wanted.action == TIGHTEN else (),
    )


def standings(records: Iterable[Record]) -> tuple[Standing, ...]:
    """Where each wrench was left last, by these walks."""
    found: dict[str, Standing] = {}
    for record in records:
        set_at = dict(record.progress.set_at)
        for wrench, setting in record.progress.stood:
            told = (wrench, setting, set_at.get(wrench, ""))
            # a setting without a wrench of the rack says nothing about the next one
            if wrench and told[2] > found.get(wrench, ("", "", ""))[2]:
                found[wrench] = told
    return tuple(sorted(found.values()))


def moved_since(record: Record, memory: Memory) -> tuple[Standing, ...]:
    """Wrenches that other walks have set since this one did, and elsewhere than it left them."""
    own, set_at = dict(record.progress.stood), dict(record.progress.set_at)
    return tuple(
        told
        for told in standings(memory.recent)
        if told[2] > set_at.get(told[0], "") and told[1] != own.get(told[0])
    )


# --- questions that were answered -------------------------------------------------------------------


def _answered(plan: Plan, memory: Memory, wanted: Wanted, now: datetime) -> Iterator[str]:
    """Once a day for a wrench past its date, once a revision for a doubt, once a job for a caution."""
    today = f":{now.date().isoformat()}"
    for record in memory.recent:
        gates = record.progress.gates
        yield from (gate for gate in gates if gate.startswith("calibration:") and gate.endswith(today))
        if wanted.work_order and record.header.work_order == wanted.work_order:
            yield from _read(plan, record)
    for record in memory.same:
        if record.header.plan.fingerprint == plan.fingerprint and "doubt" in record.progress.gates:
            yield "doubt"


def _read(plan: Plan, record: Record) -> Iterator[str]:
    """Cautions of this plan that were read in another walk of the job."""
    theirs = record.header.plan.alone
    read = {text for place, text in enumerate(theirs) if f"caution:{place}" in record.progress.gates}
    yield from (f"caution:{place}" for place, text in enumerate(plan.alone) if text in read)


# --- places that are done ---------------------------------------------------------------------------


def _again(plan: Plan, memory: Memory, wanted: Wanted, now: datetime) -> str:
    """That the place asked for is done already and another one is not; empty where that is no slip."""
    if not plan.place:
        return ""
    records = [record for record in memory.same if _same_job(record, wanted, now, SAME_VISIT)]
    tightened = [record for record in records if record.header.plan.action == wanted.action]
    done = {record.header.plan.place: record for record in tightened if record.state == "finished"}
    others = [place for place in plan.places if place not in done and place != plan.place]
    if plan.place not in done or "" in done or not others:
        return ""
    when = datetime.fromisoformat(done[plan.place].finished_at).astimezone(now.tzinfo)
    other = others[0]
    return (
        f"{plan.place.capitalize()} is done ({when:%H:%M}). "
        f"{other.capitalize()} is open: {_count(tightened, other)} of {plan.bolts}."
    )


def _count(records: list[Record], place: str) -> int:
    """How many bolts of the current round are done in the open walk of a place."""
    open_ = [record for record in records if record.header.plan.place == place and record.is_open]
    return len(open_[0].progress.done) if open_ else 0


def _same_job(record: Record, wanted: Wanted, now: datetime, span: timedelta) -> bool:
    if record.header.work_order != wanted.work_order:
        return False
    last = record.progress.last_time
    return bool(wanted.work_order) or (bool(last) and abs(now - datetime.fromisoformat(last)) < span)


def open_places(memory: Memory, wanted: Wanted, now: datetime) -> tuple[str, ...]:
    """Walks of single places of the same job, told where all places are asked for at once."""
    if wanted.place:
        return ()
    return tuple(
        f"{plan.place} has a walk of its own ({record.state}): --place {plan.place} goes on with it."
        for record in memory.same
        if (plan := record.header.plan).place
        and plan.action == wanted.action
        and record.is_open
        and _same_job(record, wanted, now, SAME_VISIT)
    )


# --- remarks from taking it apart -------------------------------------------------------------------


def _taken_apart(record: Record, wanted: Wanted, now: datetime) -> bool:
    plan = record.header.plan
    fits = plan.action == LOOSEN and plan.place in ("", wanted.place) and not record.progress.abandoned
    return fits and _same_job(record, wanted, now, SAME_JOB)


def _remarks(memory: Memory, wanted: Wanted, now: datetime) -> tuple[Remark, ...]:
    """What was noted, went wrong or was left in when the same group was taken apart last."""
    taken_apart = next((record for record in memory.same if _taken_apart(record, wanted, now)), None)
    if taken_apart is None:
        return ()
    kept = ("note", "trouble", "skip")
    return tuple(
        Remark(text=event.text or "left in", bolts=event.bolts)
        for event in taken_apart.standing_events
        if event.kind in kept and not event.gate
    )
