"""What of a job is still to come: a wait that it stands at, and after sign-off its rechecks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from torqref.walk.job_archive import JobRecord
from torqref.walk.job_plan import JobRecheck
from torqref.walk.job_view import recheck_text


def open_due(record: JobRecord) -> Iterator[str]:
    """What of a job is still to come, a line each."""
    standing = record.standing
    for step in standing.open_steps if not record.progress.is_signed else ():
        if due := standing.due_at(step):
            yield f"step {step.number}, {step.title}: {due[:16].replace('T', ' ')}"
    for place in record.progress.open_rechecks if record.progress.is_signed else ():
        yield f"recheck {place}, {recheck_text(record.progress, place)}{_by_date(record, place)}"


def _by_date(record: JobRecord, place: int) -> str:
    """The day on which a recheck counted in time falls, counted from sign-off."""
    day = recheck_day(record.plan.rechecks[place - 1], record.finished_at)
    return f", on {day}" if day else ""


def recheck_day(recheck: JobRecheck, signed: str) -> str:
    """The day as ISO date, empty where the recheck is not counted in time or nobody has signed."""
    if recheck.due_minutes is None or not signed:
        return ""
    return (datetime.fromisoformat(signed) + timedelta(minutes=float(recheck.due_minutes))).date().isoformat()
