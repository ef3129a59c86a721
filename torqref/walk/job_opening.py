"""Opening a job: the open one of this bay goes on, or a new one begins."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from torqref.document.refusal import Refusal
from torqref.library.job import Job
from torqref.walk.job_archive import JobRecord, open_job_record
from torqref.walk.job_plan import JobPlan
from torqref.walk.job_planner import make_job_plan
from torqref.walk.job_session import Bay, JobSession
from torqref.walk.journal import FORMAT, JOB_ENDING, Header, JournalError, create_journal, open_journal
from torqref.walk.opening import Request


@dataclass(frozen=True, slots=True, kw_only=True)
class JobOpening:
    """What came of opening a job: the session, or why there is none; and what deserves to be known."""

    session: JobSession | None = None
    refusal: Refusal | None = None
    notes: tuple[str, ...] = ()


def open_job(
    job: Job,
    bay: Bay,
    request: Request,
    clock: Callable[[], datetime],
    facts: Mapping[str, str] | None = None,
) -> JobOpening:
    """The open job of this file and work order in this bay, or a new one.

    Args:
        job: the job as read, without faults.
        bay: where it is worked on, with the groups it names.
        request: folder, work order, name, and whether a new one is begun.
        clock: gives the time with its offset to UTC.
        facts: facts of the vehicle that are known already.
    """
    plan = make_job_plan(job, bay.groups)
    own = None if request.new else open_job_record(request.folder, job.id, request.bay, request.work_order)
    try:
        if own is not None:
            return _go_on(own, plan, bay, request, clock)
        known = tuple((name, (facts or {}).get(name, "")) for name, _ in plan.facts)
        return _begin(plan, bay, request, clock, tuple(pair for pair in known if pair[1]))
    except JournalError as error:
        return JobOpening(refusal=Refusal(text=job.id, message=str(error).rstrip(".")))


def strange_facts(plan: JobPlan | Job, facts: Mapping[str, str]) -> Refusal | None:
    """Why facts given for a job do not fit it, or None."""
    known = dict(plan.facts)
    for name, word in facts.items():
        if word not in known.get(name, ()):
            readings = tuple(f"{key}={each}" for key, words in plan.facts for each in words)
            return Refusal(text=f"{name}={word}", message="the job knows no such fact", readings=readings)
    return None


def _go_on(
    own: JobRecord, plan: JobPlan, bay: Bay, request: Request, clock: Callable[[], datetime]
) -> JobOpening:
    """The journal's own plan goes on; walks of other bays that stand open are left alone."""
    opening = _resume(own, bay, request, clock)
    notes = list(opening.notes)
    if replace(plan, facts=own.plan.facts) != own.plan:
        notes.append(
            "The job file or its groups have changed since this job began: it goes on by its own plan. "
            "--new begins one with the new file."
        )
    return replace(opening, notes=tuple(notes))


def resume_job(own: JobRecord, bay: Bay, request: Request, clock: Callable[[], datetime]) -> JobOpening:
    """Go on with one job by its record alone, without its file.

    Args:
        own: the job as the folder has it.
        bay: where it is worked on, with the groups it names as far as the library has them.
        request: folder, bay and name.
        clock: gives the time.
    """
    try:
        return _resume(own, bay, request, clock)
    except JournalError as error:
        return JobOpening(refusal=Refusal(text=own.header.id, message=str(error).rstrip(".")))


def _resume(own: JobRecord, bay: Bay, request: Request, clock: Callable[[], datetime]) -> JobOpening:
    journal, told = open_journal(own.told.path, own.told)
    walks = {name: record.progress for name, record in own.walks.items()}
    session = JobSession.start(own.header, journal, bay, clock, request.by, told.events, walks)
    return JobOpening(session=session, notes=tuple(problem.sentence() for problem in told.problems))


def _begin(
    plan: JobPlan,
    bay: Bay,
    request: Request,
    clock: Callable[[], datetime],
    known: tuple[tuple[str, str], ...],
) -> JobOpening:
    now = clock()
    given = dict(known)
    fixed = tuple((name, (given[name],) if name in given else words) for name, words in plan.facts)
    header = Header(
        format=FORMAT,
        id=job_id(plan.job, now, request),
        job=replace(plan, facts=fixed),
        bay=request.bay,
        work_order=request.work_order,
        by=request.by,
        started=now.isoformat(timespec="seconds"),
    )
    journal = create_journal(request.folder, header, JOB_ENDING)
    return JobOpening(session=JobSession.start(header, journal, bay, clock, request.by))


def job_id(job: str, now: datetime, request: Request) -> str:
    """A name for a new job that no file of the folder has: the time, and the job."""
    stamp = now.strftime("%Y%m%d-%H%M%S")
    names = [f"{stamp}-{job}", *(f"{stamp}-{number}-{job}" for number in range(2, 1000))]
    return next(name for name in names if not os.path.exists(request.folder / f"{name}{JOB_ENDING}"))
