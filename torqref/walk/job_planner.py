"""Makes the plan of a job: its file and the groups it names become numbered steps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby

from torqref.library.group import Group
from torqref.library.job import Job, Step
from torqref.walk.job_plan import LOOSEN, TIGHTEN, JobPlan, JobRecheck, JobStep


def make_job_plan(job: Job, groups: Mapping[str, Group]) -> JobPlan:
    """The plan of a job; its groups must be in the library, as `check_job` holds."""
    used = [groups[identity] for identity in job.groups]
    return JobPlan(
        job=job.id,
        name=job.name,
        assembly=job.assembly,
        steps=tuple(_steps(job, groups)),
        facts=job.facts,
        parts=job.parts,
        fluids=job.fluids,
        rechecks=tuple(
            JobRecheck(
                text=each.text,
                due=each.due.text,
                due_minutes=each.due.minutes,
                band=each.band,
                owner=each.owner,
                source=each.source,
            )
            for each in job.rechecks
        ),
        cautions=job.cautions,
        source=job.source.sentence(),
        sources=tuple(dict.fromkeys(group.source.sentence() for group in used)),
        invented=job.source.invented or any(group.source.invented for group in used),
        signatures=job.signatures,
    )


def _steps(job: Job, groups: Mapping[str, Group]) -> Iterator[JobStep]:
    numbers: dict[str, int] = {}
    for number, bundle in enumerate(_bundles(job.steps), start=1):
        numbers.update({step.id: number for step in bundle if step.id})
        yield _planned(number, bundle, groups, numbers)


def _bundles(steps: tuple[Step, ...]) -> Iterator[tuple[Step, ...]]:
    """Plain texts that stand together share a press; everything else is on its own."""
    for key, run in groupby(enumerate(steps), lambda pair: -1 if _shares(pair[1]) else pair[0]):
        bundle = tuple(step for _, step in run)
        yield bundle if key == -1 else bundle[:1]


def _shares(step: Step) -> bool:
    own = step.alone or step.id or step.needs or step.applies or step.within
    return step.kind == "text" and not own


def _planned(
    number: int, bundle: tuple[Step, ...], groups: Mapping[str, Group], numbers: Mapping[str, int]
) -> JobStep:
    step = bundle[0]
    group = groups[step.text] if step.kind == "do" else None
    since = numbers[step.since] if step.since else number - 1
    return JobStep(
        number=number,
        kind=_kind(step),
        lines=tuple(each.text for each in bundle) if group is None else (group.name,),
        group=group.id if group else "",
        name=group.name if group else "",
        place=step.place,
        action=LOOSEN if step.loosen else TIGHTEN,
        to_stage=step.to_stage,
        wrench=step.wrench,
        adapter=step.adapter,
        band=step.band,
        drag_of=step.drag_of,
        due_minutes=step.due.minutes if step.due else None,
        due=step.due.text if step.due else "",
        within=step.within,
        since=since if step.within is not None else 0,
        needs=tuple(numbers[word] for word in step.needs),
        applies=(*step.applies, *(group.applies if group else ())),
        note=step.note,
        sources=tuple(each.source for each in bundle if each.source),
    )


def _kind(step: Step) -> str:
    if step.kind == "text":
        return "alone" if step.alone else "page"
    return "group" if step.kind == "do" else step.kind
