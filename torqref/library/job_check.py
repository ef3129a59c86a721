"""Holds a job against the groups it names: what only the library can tell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from torqref.document.escape import shortened
from torqref.document.nearest import nearest
from torqref.document.problem import Problem, Severity
from torqref.library.group import Group
from torqref.library.job import Job, Step


def check_job(job: Job, groups: Mapping[str, Group]) -> tuple[Problem, ...]:
    """Every fault that shows only beside the library.

    Args:
        job: the job as read.
        groups: the groups of the library by id; those that are not there cannot be walked.
    """
    done: dict[tuple[str, str, bool], int] = {}
    problems: list[Problem] = []
    for step in job.steps:
        if step.kind == "do":
            problems.extend(_group_step(job, step, groups, done))
        elif step.drag_of and step.drag_of not in job.groups:
            problems.append(_told(job, step, f'the job never walks "{step.drag_of}"', "Name one it walks."))
    return (*problems, *_unfinished(job, groups, done))


def _told(job: Job, step: Step, message: str, mend: str, severity: Severity = "error") -> Problem:
    return Problem(
        file=job.file,
        line=step.line,
        key="step",
        message=shortened(message),
        mend=shortened(mend),
        severity=severity,
    )


def _group_step(
    job: Job, step: Step, groups: Mapping[str, Group], done: dict[tuple[str, str, bool], int]
) -> Iterator[Problem]:
    group = groups.get(step.text)
    if group is None:
        near = nearest(step.text, groups)
        mend = f'Did you mean "{near}"?' if near else "`torqref find` lists the groups."
        yield _told(job, step, f'no group "{step.text}" in the library', mend)
        return
    yield from _place(job, step, group)
    stages = last_stage(group)
    walk = (step.text, step.place, step.loosen)
    before, here = done.get(walk, 0), step.to_stage or stages
    if here > stages:
        yield _told(
            job, step, f"{group.id} has {stages} stages, not {here}", f"Write to_stage up to {stages}."
        )
    elif here <= before and not step.loosen:
        yield _told(
            job,
            step,
            f"{group.id} is already walked up to stage {before} by an earlier step",
            f"Write a later stage, up to {stages}, or leave the step out.",
        )
    done[walk] = max(before, here)


def _place(job: Job, step: Step, group: Group) -> Iterator[Problem]:
    if step.place and step.place not in group.places:
        known = f"Places: {', '.join(group.places)}." if group.places else "It has one place only."
        yield _told(job, step, f'"{step.place}" is not a place of {group.id}', known)
    if step.to_stage and len(group.places) > 1 and not step.place:
        yield _told(
            job,
            step,
            f"{group.id} has several places, and a stage to stop at needs one of them",
            f"Write one step for each place: {', '.join(group.places)}.",
        )


def last_stage(group: Group) -> int:
    """Number of the last stage of a group."""
    return max(stage.number for stage in group.stages)


def _unfinished(
    job: Job, groups: Mapping[str, Group], done: Mapping[tuple[str, str, bool], int]
) -> Iterator[Problem]:
    """A group that is begun and never brought to its last stage is the fault a job file is there to stop."""
    for (identity, place, loosen), reached in done.items():
        group = groups[identity]
        if loosen or reached >= last_stage(group):
            continue
        step = next(step for step in reversed(job.steps) if (step.text, step.place) == (identity, place))
        where = f", {place}" if place else ""
        yield _told(
            job,
            step,
            f"{identity}{where} stops at stage {reached} of {last_stage(group)} and is never finished",
            f'Add a later step: do = "{identity}".',
        )
