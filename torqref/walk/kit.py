"""The kit of a job: every tool, part and fluid to lay out before the first bolt, and what is missing.

Wrenches are settled as the walk will settle them, so that the kit and the walk name the same ones.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.library.item import Item
from torqref.library.job import Job
from torqref.walk.fitted import adapter_of
from torqref.walk.job_plan import LOOSEN, TIGHTEN, JobPlan, JobStep, fits
from torqref.walk.job_planner import make_job_plan
from torqref.walk.plan import Dial, Plan
from torqref.walk.planner import Bench, make_plan
from torqref.wrench.rack import Rack, Wrench

_AND = " and "
KINDS = ("wrench", "adapter", "socket", "angle", "marking", "holding", "measuring", "other")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A tool to lay out.

    Args:
        kind: one of `KINDS`.
        name: what to take out of the drawer.
        note: settings, sizes, or what to mind.
        uses: names of the groups and steps that need it.
    """

    kind: str
    name: str
    note: str = ""
    uses: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """A part to lay out: how many, whether it is used once only, and what needs it."""

    name: str
    count: int
    one_time: bool = False
    note: str = ""
    uses: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """Everything to lay out.

    Args:
        job, assembly: for what.
        tools: in the order of `KINDS`.
        parts: with counts, those used once first.
        fluids: as the job lists them.
        missing: what the rack or the papers do not cover, a sentence each.
        invented: practice values.
        source: where the job comes from.
    """

    job: str
    assembly: str
    tools: tuple[Tool, ...]
    parts: tuple[Supply, ...]
    fluids: tuple[Item, ...]
    missing: tuple[str, ...]
    invented: bool = False
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Work:
    """One group of the job with the plan it would be walked by, or why it cannot be planned."""

    step: JobStep
    group: Group
    plan: Plan | Refusal


def make_kit(
    job: Job, groups: Mapping[str, Group], rack: Rack, today: date, facts: Mapping[str, str] | None = None
) -> Kit:
    """The kit of a job with the tools of a rack.

    Args:
        job: the job, without faults.
        groups: the groups it names.
        rack: the wrenches and adapters at hand; empty where no rack was named.
        today: for calibration dates.
        facts: what is known of the vehicle; where nothing is known, everything is laid out.
    """
    plan = make_job_plan(job, groups)
    known = {**{name: words[0] for name, words in job.facts if len(words) == 1}, **(facts or {})}
    steps = [step for step in plan.steps if fits(step, known)]
    works = tuple(_works(steps, groups, rack, today))
    tools = sorted(_tools(works, steps, rack, job), key=lambda tool: KINDS.index(tool.kind))
    return Kit(
        job=job.name,
        assembly=job.assembly,
        tools=tuple(_merged(tools)),
        parts=supplies(plan, groups, known),
        fluids=job.fluids,
        missing=tuple(dict.fromkeys((*_unknown(job, facts or {}), *_missing(works, rack, today)))),
        invented=plan.invented,
        source=plan.source,
    )


def _works(steps: Iterable[JobStep], groups: Mapping[str, Group], rack: Rack, today: date) -> Iterator[_Work]:
    """Each walk of the job once, though several steps go on with it."""
    seen: set[str] = set()
    for step in steps:
        if step.kind != "group" or step.walk in seen or step.action == LOOSEN:
            continue
        seen.add(step.walk)
        group = groups[step.group]
        yield _Work(step=step, group=group, plan=_plan(step, group, rack, today))


def _plan(step: JobStep, group: Group, rack: Rack, today: date) -> Plan | Refusal:
    fitted = adapter_of(step.adapter, rack)
    if isinstance(fitted, Refusal):
        return fitted
    bench = Bench(
        today=today,
        rack=rack,
        wrench=step.wrench,
        parts=fitted.parts,
        adapter=fitted.words,
        place=step.place,
        action=TIGHTEN,
    )
    return make_plan(group, bench)


# --- tools ------------------------------------------------------------------------------------------


def _tools(works: tuple[_Work, ...], steps: list[JobStep], rack: Rack, job: Job) -> Iterator[Tool]:
    yield from _wrenches(works, rack)
    for work in works:
        yield from _adapters(work, rack)
        yield from _sockets(work, rack)
        yield from _by_stage(work)
    yield from _readings(steps)
    yield from (Tool(kind="other", name=item.name, note=item.note) for item in job.tools)


def _wrenches(works: tuple[_Work, ...], rack: Rack) -> Iterator[Tool]:
    """Each wrench with all it is set to, in the order of the work."""
    for wrench in rack.wrenches:
        used = [(dial, work) for work in works for dial in _dials(work) if dial.wrench == wrench.id]
        if used:
            uses = tuple(dict.fromkeys(work.group.name for _, work in used))
            yield Tool(kind="wrench", name=_drawer(wrench), note="; ".join(_settings(used)), uses=uses)
    if not rack.wrenches:
        for work in works:
            for dial in _dials(work):
                name = f"torque wrench that reads {dial.shown} {dial.unit}"
                yield Tool(kind="wrench", name=name, uses=(work.group.name,))


def _settings(used: list[tuple[Dial, _Work]]) -> Iterator[str]:
    """What a wrench is set to, one after the other; the drag of locking nuts is measured at the vehicle."""
    for text, run in groupby(used, key=lambda pair: _setting(*pair)):
        yield f"{text} ({', '.join(dict.fromkeys(work.group.id for _, work in run))})"


def _setting(dial: Dial, work: _Work) -> str:
    drag = " and the measured drag" if work.group.locking else ""
    return f"{dial.shown} {dial.unit}{drag}"


def _drawer(wrench: Wrench) -> str:
    drive = f", {wrench.drive} drive" if wrench.drive else ""
    return f"{wrench.called}: {wrench.name}{drive}"


def _dials(work: _Work) -> tuple[Dial, ...]:
    return () if isinstance(work.plan, Refusal) else work.plan.dials


def _adapters(work: _Work, rack: Rack) -> Iterator[Tool]:
    if work.step.adapter:
        known = rack.adapter(work.step.adapter.partition("@")[0].strip())
        name = f"{known.id}: {known.name}" if known else f"adapter {work.step.adapter}"
        yield Tool(kind="adapter", name=name, note=work.step.note, uses=(work.group.name,))


def _sockets(work: _Work, rack: Rack) -> Iterator[Tool]:
    """Sockets with the drives they must fit."""
    group = work.group
    sizes = dict.fromkeys(group.fastener(label).socket for label in group.layout.labels)
    drives = [wrench.drive for dial in _dials(work) if (wrench := rack.wrench(dial.wrench))]
    for size in sizes:
        if size:
            note = _AND.join(f"{drive} drive" for drive in dict.fromkeys(drives) if drive)
            yield Tool(kind="socket", name=size, note=note, uses=(group.name,))


def _by_stage(work: _Work) -> Iterator[Tool]:
    uses = (work.group.name,)
    kinds = {stage.kind for stage in work.group.stages}
    if kinds & {"angle", "back_off"}:
        yield Tool(kind="angle", name="angle gauge", uses=uses)
    if "angle" in kinds or work.group.second_check == "marks":
        yield Tool(kind="marking", name="paint pen", uses=uses)
    for stage in work.group.stages:
        if stage.hold:
            yield Tool(kind="holding", name=f"to hold {stage.hold}", uses=uses)
        if stage.kind == "measure":
            yield Tool(
                kind="measuring", name=stage.text, note=stage.band.text if stage.band else "", uses=uses
            )


def _readings(steps: Iterable[JobStep]) -> Iterator[Tool]:
    for step in steps:
        if step.kind == "check" and step.band is not None:
            note = f"wanted {step.band.text}"
            yield Tool(kind="measuring", name=step.title, note=note, uses=(f"step {step.number}",))


def _merged(tools: Iterable[Tool]) -> Iterator[Tool]:
    """The same tool once, with everything it is for."""
    known: dict[tuple[str, str], Tool] = {}
    for tool in tools:
        key = (tool.kind, tool.name)
        before = known.get(key)
        if before is None:
            known[key] = tool
            continue
        notes = dict.fromkeys(part for each in (before, tool) for part in each.note.split(_AND) if part)
        uses = tuple(dict.fromkeys((*before.uses, *tool.uses)))
        known[key] = replace(before, note=_AND.join(notes), uses=uses)
    yield from known.values()


# --- parts ------------------------------------------------------------------------------------------


def supplies(plan: JobPlan, groups: Mapping[str, Group], facts: Mapping[str, str]) -> tuple[Supply, ...]:
    """The parts of a job and of its groups, counted together by name, those used once first.

    Args:
        plan: the job.
        groups: its groups, as far as the library has them.
        facts: what is known of the vehicle.
    """
    known: dict[str, Supply] = {}
    for supply in _listed(plan, groups, facts):
        before = known.get(supply.name)
        known[supply.name] = (
            supply
            if before is None
            else replace(
                before,
                count=before.count + supply.count,
                one_time=before.one_time or supply.one_time,
                uses=tuple(dict.fromkeys((*before.uses, *supply.uses))),
            )
        )
    return tuple(sorted(known.values(), key=lambda part: not part.one_time))


def _listed(plan: JobPlan, groups: Mapping[str, Group], facts: Mapping[str, str]) -> Iterator[Supply]:
    put_on = (step for step in plan.steps if step.kind == "group" and step.action != LOOSEN)
    used = dict.fromkeys(step.group for step in put_on if fits(step, facts))
    for group in (groups[name] for name in used if name in groups):
        for part in group.parts:
            uses = (group.name,)
            yield Supply(name=part.name, count=part.count, one_time=part.one_time, uses=uses)
    for item in plan.parts:
        yield Supply(name=item.name, count=item.count or 1, one_time=item.one_time, note=item.note)


# --- missing ----------------------------------------------------------------------------------------


def _unknown(job: Job, facts: Mapping[str, str]) -> Iterator[str]:
    for name, words in job.facts:
        if len(words) > 1 and name not in facts:
            every = " and ".join(words)
            yield f"{name} is not said, so the kit covers {every}; say it with --fact {name}={words[0]}"


def _missing(works: tuple[_Work, ...], rack: Rack, today: date) -> Iterator[str]:
    if not rack.wrenches:
        yield "no rack is named, so no wrench is settled; name one with --rack FILE"
    for work in works:
        if isinstance(work.plan, Refusal):
            yield f"{work.group.name}: {work.plan.sentence()}"
            continue
        for dial in work.plan.dials if rack.wrenches else ():
            if not dial.wrench:
                yield f"{work.group.name}, {dial.target.text}: {dial.notes[0]}"
        listed = any(part.one_time for part in work.group.parts)
        if work.group.one_time and not listed:
            wanted = f"new {work.group.one_time}"
            yield f"{work.group.name}: {wanted} are needed, and the library does not say how many"
    yield from _overdue(works, rack, today)


def _overdue(works: tuple[_Work, ...], rack: Rack, today: date) -> Iterator[str]:
    used = {dial.wrench for work in works for dial in _dials(work)}
    for wrench in rack.wrenches:
        days = wrench.days_overdue(today)
        if wrench.id in used and days:
            yield f"{wrench.called}: its calibration ran out {days} day{'s' if days > 1 else ''} ago"
