"""The record of a job: as lines, and as values for JSON; its walks come with it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from typing import Any

from torqref.library.item import Item
from torqref.library.source import PRACTICE
from torqref.sheets.line import lines
from torqref.sheets.record import record_text
from torqref.walk.archive import Record
from torqref.walk.event import Event
from torqref.walk.job_archive import JobRecord
from torqref.walk.job_due import open_due
from torqref.walk.job_plan import JobStep
from torqref.walk.job_progress import undone_in_job
from torqref.walk.job_view import DEFER
from torqref.walk.summary import Summary


def job_values(record: JobRecord) -> dict[str, Any]:
    """A job for JSON, with every event of its own; its walks are told by their ids."""
    gone = undone_in_job(record.told.events)
    progress = record.progress
    return {
        "id": record.header.id,
        "job": record.plan.job,
        "name": record.plan.name,
        "assembly": record.plan.assembly,
        "state": record.state,
        "bay": record.header.bay,
        "work_order": progress.work_order,
        "started": record.header.started,
        "finished": record.finished_at or None,
        "facts": dict(progress.facts),
        "signed": [{"by": name, "time": time} for name, time in progress.signed],
        "walks": [*progress.walks.values(), *progress.earlier],
        "due": list(open_due(record)),
        "events": [_event_values(event, event.number in gone) for event in record.told.events],
    }


def _event_values(event: Event, undone: bool) -> dict[str, Any]:
    values: dict[str, Any] = {"kind": event.kind, "number": event.number, "time": event.time}
    for name in ("by", "gate", "text", "value", "reason", "undoes", "due"):
        if getattr(event, name):
            values[name] = getattr(event, name)
    if event.round:
        values["step"] = event.round
    return {**values, "undone": True} if undone else values


def step_result(record: JobRecord, step: JobStep) -> str:
    """What came of a step, in words: done, the reading, the reason, how its walk stands."""
    standing, progress = record.standing, record.progress
    if not standing.is_for(step):
        return "not for this one"
    if step.number in progress.left_out:
        return f"LEFT OUT: {progress.left_out[step.number]}"
    value, outside = progress.readings.get(step.number, ("", ""))
    measured = f"measured {value}" if value else ""
    done = "done" if standing.is_over(step) else "OPEN"
    return ", ".join(part for part in (done, measured, outside, _late(record, step)) if part)


def _late(record: JobRecord, step: JobStep) -> str:
    """That a step was done after its deadline."""
    deadline, ended = record.standing.deadline(step), record.standing.ended(step.number)
    if deadline is None or not ended or datetime.fromisoformat(ended) <= deadline:
        return ""
    return f"LATE: was due {deadline.isoformat(sep=' ', timespec='minutes')}"


def job_text(record: JobRecord, notes: Callable[[Record], Iterable[str]] = lambda _: ()) -> Iterator[str]:
    """A job as lines: its steps, its walks, what is due, who signed.

    Args:
        record: the job.
        notes: what is to be known of each walk besides, a sentence each.
    """
    plan, progress = record.plan, record.progress
    yield f"{plan.name}, {plan.assembly}" if plan.assembly else plan.name
    if plan.invented:
        yield PRACTICE
    order = f", order {progress.work_order}" if progress.work_order else ""
    yield f"Job {record.header.id}, {record.state}{order}"
    yield from (f"{name}: {word}" for name, word in progress.facts.items())
    yield from (f"CAUTION: {notice_text(caution.text, caution.source)}" for caution in plan.cautions)
    for step in plan.steps:
        ended = record.standing.ended(step.number)[:19].replace("T", " ")
        yield f"{step.number}  {step.title}: {step_result(record, step)}" + (f", {ended}" if ended else "")
    yield from (f"Note: {note}" for note in progress.notes)
    yield from (f"DUE: {item}" for item in open_due(record))
    yield from (f"Rechecked {place}: {seen}" for place, seen in progress.rechecked.items())
    yield from (f"Signed: {name}, {time[:19].replace('T', ' ')}" for name, time in progress.signed)
    for name, walk in record.walks.items():
        yield ""
        if name in progress.earlier:
            yield "Begun again; this walk does not count:"
        yield from record_text(walk, notes(walk))
    yield ""
    yield f"Source: {plan.source}"
    yield DEFER


def notice_text(text: str, source: str) -> str:
    """A caution with its source, where it has one."""
    return f"{text} ({source})" if source else text


def item_text(item: Item) -> str:
    """A part or fluid in words."""
    count = f"{item.count} x " if item.count else ""
    once = "new, used once only" if item.one_time else ""
    return ", ".join(part for part in (f"{count}{item.name}", item.amount, once, item.note) if part)


def corrections(record: JobRecord) -> Iterator[str]:
    """What a page said other than the library, over all walks: for whoever keeps the library."""
    for walk in record.walks.values():
        for line in lines(walk):
            if line.event.kind == "page" and not line.undone:
                yield f"{walk.header.plan.group}, stage {line.stage}: {line.event.text}"


def job_listing(rows: Iterable[Summary]) -> Iterator[str]:
    """One line a job, newest last, and under it what it waits for."""
    for row in rows:
        order = f", order {row.work_order}" if row.work_order else ""
        yield f"{row.id}  {row.state}  JOB {row.name}{order}"
        yield from (f"  due: {item}" for item in row.items)
