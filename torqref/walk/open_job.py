"""Where an open job stands, in one line for a list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from torqref.walk.job_archive import JobRecord, job_journals, read_job_record
from torqref.walk.job_view import done_text, due_lines
from torqref.walk.standing import left_text


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenJob:
    """An open job in a list.

    Args:
        record: the job.
        title: the repair, and of what.
        words: how far it is, the present step and when it was left, most important first.
        is_due: whether something that was waited for is due now.
        elsewhere: the other bay that has it, empty for this one.
    """

    record: JobRecord
    title: str
    words: tuple[str, ...]
    is_due: bool = False
    elsewhere: str = ""


def open_jobs(folder: Path, now: datetime, bay: str) -> tuple[OpenJob, ...]:
    """The jobs that are not signed: what is due first, then this bay's own, newest first among equals."""
    read = (read_job_record(path, state_only=True)[0] for path in reversed(tuple(job_journals(folder))))
    found = [record for record in read if record is not None and record.state in ("open", "due")]
    jobs = (_open_job(record, now, bay) for record in found if not record.told.damaged)
    return tuple(sorted(jobs, key=lambda each: (bool(each.elsewhere), not each.is_due)))


def _open_job(record: JobRecord, now: datetime, bay: str) -> OpenJob:
    plan, standing = record.plan, record.standing
    waits = [standing.due_at(step) for step in standing.open_steps]
    return OpenJob(
        record=record,
        title=f"{plan.name}, {plan.assembly}" if plan.assembly else plan.name,
        words=tuple(_words(record, now)),
        is_due=any(due and datetime.fromisoformat(due) <= now for due in waits),
        elsewhere=record.header.bay if record.header.bay != bay else "",
    )


def _words(record: JobRecord, now: datetime) -> Iterator[str]:
    standing, step = record.standing, record.standing.current
    yield done_text(standing)
    yield f"step {step.number}: {step.title}" if step else "waits for sign-off"
    if due := due_lines(standing, now):
        yield f"{len(due)} due"
    if record.progress.work_order:
        yield f"order {record.progress.work_order}"
    yield f"left {left_text(record.progress.last_time, now)}"
