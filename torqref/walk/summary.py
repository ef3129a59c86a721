"""One walk or job as a line of a list: what it is filtered by, and what the list shows of it.

`glance` puts a walk together from its journal without a fold wherever that is enough.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from torqref.walk.archive import Record
from torqref.walk.job_archive import JobRecord
from torqref.walk.job_due import open_due
from torqref.walk.journal import Header
from torqref.walk.standing import due_line


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """What a list shows of a walk or a job.

    Args:
        id: its name.
        path: its journal.
        groups: the group of a walk, all groups of a job.
        name, place, action, assembly: what was walked.
        bay, work_order, started, ended: of the record; ended is empty while it is open.
        by: who began it.
        people: everybody whose name it has.
        state: as the record has it, such as `open`, `due`, `finished`, `signed`.
        invented: whether its values are practice values.
        is_job: whether it is a job.
        typed: whether it was a quick walk, with no library group behind it.
        waits: whether something is due.
        damaged: whether a line of its journal is damaged.
        due: when it is due, ISO 8601, as far as that is a time.
        fingerprint: of the library group that a walk was made from.
        record: the record of a walk that waits for something.
        items: what a job waits for, a line each.
        walks: ids of the walks of a job, those begun again among them.
        said: everything that typed words are looked for in, in small letters.
    """

    id: str
    path: Path
    groups: tuple[str, ...]
    name: str
    place: str = ""
    action: str = "tighten"
    assembly: str = ""
    bay: str = ""
    work_order: str = ""
    by: str = ""
    started: str = ""
    ended: str = ""
    people: tuple[str, ...] = ()
    state: str = "open"
    invented: bool = False
    is_job: bool = False
    typed: bool = False
    waits: bool = False
    damaged: bool = False
    due: str = ""
    fingerprint: str = ""
    record: Record | None = None
    items: tuple[str, ...] = ()
    walks: tuple[str, ...] = ()
    said: str = ""

    @property
    def title(self) -> str:
        """What was walked, in few words: a job and a loosening say so."""
        verb = "JOB " if self.is_job else "LOOSEN: " if self.action == "loosen" else ""
        return f"{verb}{self.name}" + (f", {self.place}" if self.place else "")

    @property
    def is_open(self) -> bool:
        """Whether it can be gone on with."""
        return self.state in ("open", "due")


def _worded(summary: Summary) -> Summary:
    """The same with everything that typed words are looked for in, put together once."""
    open_, job = "open" if summary.is_open else "", "job" if summary.is_job else ""
    facts = (summary.title, summary.id, summary.assembly, summary.bay, summary.work_order, summary.state)
    said = (*facts, *summary.groups, *summary.people, summary.started[:10], open_, job)
    return replace(summary, said="\n".join(said).casefold())


def people(record: Record | JobRecord) -> tuple[str, ...]:
    """Everybody whose name the record has, each once."""
    return _once((record.header.by, *(event.by for event in record.told.events)))


def _once(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in names if name))


def walk_line(path: Path, header: Header, names: Iterable[str], state: str, ended: str) -> Summary:
    """A walk that waits for nothing in a list.

    Args:
        path: its journal.
        header: its first line.
        names: who worked on it after it was begun, as often as they did.
        state: how it stands.
        ended: since when it is over.
    """
    plan = header.plan
    summary = Summary(
        id=header.id,
        path=path,
        groups=(plan.group,),
        name=plan.name,
        place=plan.place,
        action=plan.action,
        assembly=plan.assembly,
        bay=header.bay,
        work_order=header.work_order,
        by=header.by,
        started=header.started,
        ended=ended,
        people=_once((header.by, *names)),
        state=state,
        invented=plan.invented,
        typed=bool(plan.typed),
        fingerprint=plan.fingerprint,
    )
    return _worded(summary)


def walk_summary(record: Record) -> Summary:
    """A walk in a list, from all that its journal tells."""
    told, state = record.told, record.state
    names = (event.by for event in told.events)
    line = walk_line(told.path, record.header, names, state, record.finished_at)
    if state != "due":
        return replace(line, damaged=told.damaged)
    return replace(line, damaged=told.damaged, waits=True, due=record.progress.due, record=record)


def job_summary(record: JobRecord) -> Summary:
    """A job in a list."""
    header, plan, progress = record.header, record.plan, record.progress
    items = tuple(open_due(record))
    summary = Summary(
        id=header.id,
        path=record.told.path,
        groups=tuple(dict.fromkeys(step.group for step in plan.steps if step.group)),
        name=plan.name,
        assembly=plan.assembly,
        bay=header.bay,
        work_order=progress.work_order,
        by=header.by,
        started=header.started,
        ended=record.finished_at,
        people=people(record),
        state=record.state,
        invented=plan.invented,
        is_job=True,
        waits=bool(items),
        damaged=record.told.damaged,
        items=items,
        walks=(*progress.walks.values(), *progress.earlier),
    )
    return _worded(summary)


def due_lines(summary: Summary, now: datetime) -> tuple[str, ...]:
    """What a walk or a job waits for, a line each; nothing where it waits for nothing."""
    if summary.record is not None:
        return (due_line(summary.record, now),)
    return tuple(f"{summary.name}: {item}" for item in summary.items)


def all_due(summaries: Iterable[Summary], now: datetime) -> Iterator[str]:
    """Every line of what waits, what is due first on top."""
    waiting = (summary for summary in summaries if summary.waits)
    for summary in sorted(waiting, key=lambda summary: summary.due or "9999"):
        yield from due_lines(summary, now)
