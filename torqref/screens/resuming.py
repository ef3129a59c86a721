"""Going on with a walk from a list: what its library file says other since is asked about in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.screens.context import Context

if TYPE_CHECKING:
    from torqref.document.problem import Problem
    from torqref.library.group import Group
    from torqref.walk.archive import Record
    from torqref.walk.job_archive import JobRecord
    from torqref.walk.job_opening import JobOpening
    from torqref.walk.job_session import Bay
    from torqref.walk.opening import Opening, Request
    from torqref.walk.summary import Summary

TAKE_OVER = ("take it over", "leave it to them")
GO_ON = ("go on with the open one", "begin another one")


def request_of(context: Context) -> Request:
    """What the screens ask for when they open a walk."""
    from torqref.walk.opening import Request

    return Request(folder=context.records, bay=context.bay, work_order=context.work_order, by=context.by)


def resumed(record: Record, group: Group | None, context: Context) -> Opening:
    """Go on with an open walk.

    Args:
        record: the walk.
        group: its group as the library has it today, None where there is none.
        context: what comes from outside.
    """
    from torqref.walk.opening import go_on, resume

    if group is None or record.header.plan.typed:
        return resume(record, request_of(context), context.clock, context.rack)
    return go_on(record, group, context.rack, request_of(context), context.clock)


def resumed_job(record: JobRecord, folders: Sequence[Path], context: Context) -> JobOpening:
    """Go on with an open job by its record; its groups as the library has them today.

    Args:
        record: the job.
        folders: the library folders.
        context: what comes from outside.
    """
    from torqref.library.shelf import find_groups
    from torqref.walk.job_opening import resume_job

    names = tuple(dict.fromkeys(step.group for step in record.plan.steps if step.group))
    groups, _ = find_groups(names, folders)
    return resume_job(record, _bay(groups, context), request_of(context), context.clock)


def _bay(groups: Mapping[str, Group], context: Context) -> Bay:
    """Where a job is worked on, with the groups that it names."""
    from torqref.walk.job_session import Bay

    return Bay(folder=context.records, name=context.bay, groups=groups, rack=context.rack)


def begun_job(file: str, folders: Sequence[Path], context: Context) -> JobOpening | tuple[Problem, ...]:
    """A new job by its file as it stands today; the faults of the file where it has any.

    Args:
        file: the job file.
        folders: the library folders.
        context: what comes from outside.
    """
    from torqref.library.job_shelf import job_with_groups
    from torqref.walk.job_opening import open_job

    job, groups, problems = job_with_groups(Path(file), folders)
    if job is None or any(problem.severity == "error" for problem in problems):
        return problems
    return open_job(job, _bay(groups, context), replace(request_of(context), new=True), context.clock)


def group_today(record: Record, context: Context) -> Group | None:
    """The group of a walk as the library has it today; None where there is none, as for a quick walk."""
    from torqref.library.shelf import find_group

    plan = record.header.plan
    return None if plan.typed else find_group(plan.group, context.libraries)[0]


def resumed_listed(row: Summary, context: Context) -> Opening | JobOpening | Problem:
    """Go on with the walk or job of a line in a list, as its file is now; or what is wrong with the file."""
    from torqref.walk.archive import read_record
    from torqref.walk.job_archive import read_job_record

    if row.is_job:
        job, problems = read_job_record(row.path)
        return problems[0] if job is None else resumed_job(job, context.libraries, context)
    walk, problems = read_record(row.path)
    return problems[0] if walk is None else resumed(walk, group_today(walk, context), context)
