"""Opening a walk: the open one of this bay goes on, or a new one begins."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.walk.archive import Record, Wanted, open_walk, walk_id
from torqref.walk.attempt import NO_RACK
from torqref.walk.event import Event
from torqref.walk.journal import FORMAT, Header, JournalError, create_journal, open_journal
from torqref.walk.memory import informed, moved_since, open_places, recall
from torqref.walk.planner import TIGHTEN, Bench, fingerprint, make_plan
from torqref.walk.practice import PRACTICE_WALK, Practice
from torqref.walk.session import Session
from torqref.wrench.rack import Rack


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """What is to be opened.

    Args:
        folder: the folder of records.
        bay: the name of this machine.
        work_order: number of the work order, empty for none.
        by: who works, empty if unknown.
        new: begin a new walk though one is open.
        practice: walk for practice, and keep no record.
        job: id of the job that the walk is a part of, empty for a walk of its own.
    """

    folder: Path
    bay: str
    work_order: str = ""
    by: str = ""
    new: bool = False
    practice: bool = False
    job: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What came of it.

    Args:
        session: the open walk, or None.
        refusal: why there is none, and what would do.
        notes: what deserves to be known, a sentence each.
    """

    session: Session | None = None
    refusal: Refusal | None = None
    notes: tuple[str, ...] = ()


def open_group(group: Group, bench: Bench, request: Request, clock: Callable[[], datetime]) -> Opening:
    """The open walk of this group, place, action and work order, or a new one."""
    wanted = _wanted(group, bench, request)
    if request.practice:
        return _begin(group, bench, request, wanted, clock, ())
    own, others = (None, ()) if request.new else open_walk(request.folder, wanted)
    notes = tuple(_left_alone(record, request) for record in others)
    try:
        if own is not None:
            opened = go_on(own, group, bench.rack, request, clock)
        else:
            opened = _begin(group, bench, request, wanted, clock, others)
    except JournalError as error:
        return Opening(refusal=Refusal(text=group.id, message=str(error).rstrip(".")), notes=notes)
    return replace(opened, notes=(*notes, *opened.notes))


def _left_alone(record: Record, request: Request) -> str:
    """An open walk that would fit, and why it is not gone on with here."""
    header = record.header
    if header.bay != request.bay:
        return f"Bay {header.bay} has this walk open ({header.id}); it stays theirs."
    return (
        f"The job {header.of_job} has this walk open ({header.id}); it goes on there, "
        "with `torqref job FILE`. This is another one."
    )


def _wanted(group: Group, bench: Bench, request: Request) -> Wanted:
    return Wanted(
        group=group.id,
        place=bench.place,
        action=bench.action,
        work_order=request.work_order,
        bay=request.bay,
        job=request.job,
    )


def resume(
    record: Record,
    request: Request,
    clock: Callable[[], datetime],
    rack: Rack = NO_RACK,
    news: Event | None = None,
) -> Opening:
    """Go on with one walk by its record alone, without the library; the rack is for a change of tool.

    Args:
        record: the walk as the folder has it.
        request: what is to be opened.
        clock: gives the time.
        rack: the wrenches and adapters at hand.
        news: what has changed outside, as its opening keeps it.
    """
    if held := _held_by_job(record, request):
        return Opening(refusal=held)
    wanted = Wanted(
        group=record.header.plan.group,
        place=record.header.plan.place,
        action=record.header.plan.action,
        work_order=record.header.work_order,
        bay=request.bay,
    )
    journal = None
    try:
        journal, told = open_journal(record.told.path, record.told)
        moved = moved_since(record, recall(request.folder, wanted, but=record.told.path))
        opened = replace(news or Event(kind="opened"), stood=moved)
        progress = record.progress if told is record.told else None
        session = Session.start(
            record.header, journal, clock, request.by, told.events, rack, opened, progress
        )
    except JournalError as error:
        if journal is not None:
            journal.close()
        return Opening(refusal=Refusal(text=record.header.id, message=str(error).rstrip(".")))
    return Opening(session=session, notes=tuple(problem.sentence() for problem in told.problems))


def _held_by_job(record: Record, request: Request) -> Refusal | None:
    """Why a walk goes on nowhere but in its job; None where that job is over or not there any more."""
    job = record.header.of_job
    if not job or job == request.job:
        return None
    from torqref.walk.job_archive import read_job_record
    from torqref.walk.journal import JOB_ENDING

    path = record.told.path.with_name(f"{job}{JOB_ENDING}")
    found = read_job_record(path, state_only=True)[0] if path.is_file() else None
    if found is None or found.state not in ("open", "due"):
        return None
    message = f"this walk is a part of the job {job}, which stops it where another group has its turn"
    return Refusal(text=record.header.id, message=message, readings=("the job, with `torqref job FILE`",))


def go_on(
    record: Record, group: Group, rack: Rack, request: Request, clock: Callable[[], datetime]
) -> Opening:
    """The journal's own plan goes on; what the library says other since is asked about once."""
    from torqref.walk.audit import changes_since

    # A quick walk has no library behind it: the same job may be typed in other words.
    changes = () if group.typed else changes_since(record.header.plan, group)
    opened = Event(kind="opened", gate="changed", value=fingerprint(group), text="; ".join(changes))
    return resume(record, request, clock, rack, opened if changes else None)


def _judged(group: Group, bench: Bench) -> Bench:
    """What is known of the entry before anything is pulled.

    A value that would stretch or break its fastener is asked about; its variant, and a hole that it may
    strip, are told.
    """
    if bench.action != TIGHTEN:
        return bench
    from torqref.library.doubt import doubt_of

    return replace(bench, doubt=bench.doubt or doubt_of(group), provisos=tuple(_provisos(group)))


def _provisos(group: Group) -> Iterator[str]:
    """What deserves to be known of the entry; most groups hold for every variant, and say no hole."""
    if group.applies:
        from torqref.library.sister import variant_of

        yield variant_of(group)
    if group.parent.material:
        from torqref.library.hole import stripping_of

        if told := stripping_of(group):
            yield told


def _begin(
    group: Group,
    bench: Bench,
    request: Request,
    wanted: Wanted,
    clock: Callable[[], datetime],
    others: tuple[Record, ...],
) -> Opening:
    plan = make_plan(group, _judged(group, bench))
    if isinstance(plan, Refusal):
        return Opening(refusal=plan)
    now = clock()
    memory = recall(request.folder, wanted, known=others)
    plan = replace(informed(plan, memory, wanted, now), practice=request.practice)
    header = Header(
        format=FORMAT,
        id=walk_id(group.id, now, request.folder),
        plan=plan,
        of_job=request.job,
        bay=request.bay,
        work_order=request.work_order,
        by=request.by,
        started=now.isoformat(timespec="seconds"),
    )
    journal = Practice() if request.practice else create_journal(request.folder, header)
    try:
        session = Session.start(header, journal, clock, request.by, rack=bench.rack)
    except JournalError:
        journal.close()
        raise
    practice = (f"{PRACTICE_WALK}.",) if request.practice else ()
    return Opening(session=session, notes=(*practice, *open_places(memory, wanted, now)))
