"""The records of jobs in a folder: each job with the walks of its groups."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from torqref.document.problem import Problem
from torqref.walk.archive import Record, read_record
from torqref.walk.job_plan import JobPlan
from torqref.walk.job_progress import JobProgress, fold_job
from torqref.walk.job_standing import Standing
from torqref.walk.journal import ENDING, JOB_ENDING, Header, Told, read_journal


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRecord:
    """One job as its journal tells it.

    Args:
        told: what the file says.
        header: its first line.
        plan: what is done.
        progress: the fold of its events.
        walks: records of its walks by id, those begun again among them.
    """

    told: Told
    header: Header
    plan: JobPlan
    progress: JobProgress
    walks: Mapping[str, Record]

    @property
    def standing(self) -> Standing:
        """Where its steps stand."""
        return Standing(
            progress=self.progress,
            walks={name: record.progress for name, record in self.walks.items()},
        )

    @property
    def state(self) -> str:
        """`signed`, `recheck due`, `abandoned`, `due` or `open`."""
        if self.progress.abandoned:
            return "abandoned"
        if self.progress.is_signed:
            return "recheck due" if self.progress.open_rechecks else "signed"
        current = self.standing.current
        return "due" if current is not None and self.standing.due_at(current) else "open"

    @property
    def is_over(self) -> bool:
        """Whether nothing of it is left to do but its rechecks."""
        return self.progress.abandoned or self.progress.is_signed

    @property
    def finished_at(self) -> str:
        """When the last person signed, empty before."""
        return self.progress.signed[-1][1] if self.progress.is_signed else ""


def job_journals(folder: Path) -> Iterator[Path]:
    """The job journals of a folder, oldest first by their names."""
    if os.path.isdir(folder):
        yield from sorted(path for path in folder.iterdir() if path.suffix == JOB_ENDING)


def read_job_record(path: Path, *, state_only: bool = False) -> tuple[JobRecord | None, tuple[Problem, ...]]:
    """A job journal with its walks, and what is wrong with the files.

    Args:
        path: the journal.
        state_only: leave out the walks of a job that is over; its state does not need them.
    """
    told = read_journal(path)
    header = told.header
    if header is None or header.job is None:
        return None, told.problems
    progress = fold_job(header.job, told.events, header.work_order)
    record = JobRecord(told=told, header=header, plan=header.job, progress=progress, walks={})
    if state_only and record.is_over:
        return record, told.problems
    walks, problems = _walks(path.parent, progress)
    return replace(record, walks=walks), (*told.problems, *problems)


def _walks(folder: Path, progress: JobProgress) -> tuple[dict[str, Record], tuple[Problem, ...]]:
    """A walk that is named and not there leaves its steps open, and is told."""
    walks: dict[str, Record] = {}
    problems: list[Problem] = []
    for name in (*progress.walks.values(), *progress.earlier):
        record, told = read_record(folder / f"{name}{ENDING}")
        problems.extend(told)
        if record is not None:
            walks[name] = record
    return walks, tuple(problems)


def job_records(folder: Path) -> tuple[tuple[JobRecord, ...], tuple[Problem, ...]]:
    """Every job of a folder, and every problem with its files."""
    read = [read_job_record(path) for path in job_journals(folder)]
    found = tuple(record for record, _ in read if record is not None)
    return found, tuple(problem for _, problems in read for problem in problems)


def open_job_record(folder: Path, job: str, bay: str, work_order: str) -> JobRecord | None:
    """The newest job of this bay that goes on: an open one, or with a work order one with rechecks due."""
    fitting = []
    for path in job_journals(folder):
        record = read_job_record(path)[0] if path.stem.endswith(f"-{job}") else None
        if record is None or record.plan.job != job or record.header.bay != bay:
            continue
        wanted = ("open", "due", "recheck due") if work_order else ("open", "due")
        same = not work_order or record.progress.work_order == work_order
        if same and record.state in wanted and not record.told.damaged:
            fitting.append(record)
    return fitting[-1] if fitting else None
