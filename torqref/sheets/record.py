"""The record of walks: text, JSON values, CSV rows, JSON lines; nothing here knows more than the journal."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime
from typing import Any

from torqref.document.escape import escape
from torqref.library.source import PRACTICE
from torqref.pattern.layout import labels_text
from torqref.pattern.order import GENERIC
from torqref.sheets.line import Line, lines
from torqref.walk.archive import Record
from torqref.walk.audit import Present, outdated_line
from torqref.walk.event import Event
from torqref.walk.plan import Plan
from torqref.walk.progress import undone_numbers
from torqref.walk.standing import due_line
from torqref.walk.summary import Summary

COLUMNS = (
    "walk", "group", "name", "assembly", "place", "action", "work_order", "bay", "started", "finished",
    "state", "number", "time", "by", "kind", "round", "stage", "at_place", "bolts", "printed", "set",
    "turned", "measured", "wrench", "adapter", "serial", "calibration_due", "value", "text", "due", "recheck",
    "afterwards", "undone",
)  # fmt: skip


def record_values(record: Record, now: datetime, changes: Sequence[str] = ()) -> dict[str, object]:
    """A walk for JSON, with every event.

    Args:
        record: the walk.
        now: the present time, for what is due.
        changes: what was corrected in the library since it was finished.
    """
    plan = record.header.plan
    return {
        "id": record.header.id,
        "group": plan.group,
        "place": plan.place,
        "action": plan.action,
        "started": record.header.started,
        "finished": record.finished_at or None,
        "by": record.header.by,
        "work_order": record.header.work_order,
        "state": record.state,
        "bay": record.header.bay,
        "due": [due_line(record, now)] if record.state == "due" else [],
        "outdated": list(changes),
        "events": event_values(record.told.events),
    }


def event_values(events: Sequence[Event]) -> list[dict[str, Any]]:
    """Events for JSON; what was taken back says so."""
    undone = undone_numbers(events)
    return [_event_values(event, event.number in undone) for event in events]


def _event_values(event: Event, undone: bool) -> dict[str, Any]:
    values: dict[str, Any] = {"kind": event.kind, "number": event.number, "time": event.time}
    for name in ("by", "round", "gate", "text", "value", "reason", "undoes", "due", "degrees"):
        if getattr(event, name):
            values[name] = getattr(event, name)
    if event.bolts:
        values["bolts"] = list(event.bolts)
    if event.afterwards:
        values["afterwards"] = True
    if undone:
        values["undone"] = True
    return values


# --- rows for other programs ------------------------------------------------------------------------


def csv_text(records: Iterable[Record]) -> str:
    """Every event of these walks as a row; bolts are joined with a plus sign."""
    return "".join(csv_parts(records))


def csv_parts(records: Iterable[Record]) -> Iterator[str]:
    """The same piece by piece, a walk at a time, for folders that hold many."""
    yield _csv([COLUMNS])
    for record in records:
        yield _csv([cell(row[name]) for name in COLUMNS] for row in rows(record))


def _csv(rows_: Iterable[Sequence[str | int]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows_)
    return out.getvalue()


def json_lines(records: Iterable[Record]) -> Iterator[str]:
    """The same rows as JSON, one object a line: every character comes back as it was typed."""
    for record in records:
        for row in rows(record):
            yield json.dumps(row, ensure_ascii=True) + "\n"


def rows(record: Record) -> Iterator[dict[str, str | int]]:
    """Every event of a walk by the names of `COLUMNS`."""
    plan, header = record.header.plan, record.header
    walk: dict[str, str | int] = {
        "walk": header.id,
        "group": plan.group,
        "name": plan.name,
        "assembly": plan.assembly,
        "place": plan.place,
        "action": plan.action,
        "work_order": header.work_order,
        "bay": header.bay,
        "started": header.started,
        "finished": record.finished_at,
        "state": record.state,
    }
    for line in lines(record):
        yield {**walk, **_row(line)}


def _row(line: Line) -> dict[str, str | int]:
    event = line.event
    return {
        "number": event.number,
        "time": event.time,
        "by": event.by,
        "kind": event.kind,
        "round": event.round or "",
        "stage": line.stage or "",
        "at_place": line.place,
        "bolts": labels_text(event.bolts),
        "printed": line.printed,
        "set": line.set,
        "turned": line.turned,
        "measured": line.measured,
        "wrench": line.wrench,
        "adapter": line.adapter,
        "serial": line.serial,
        "calibration_due": line.calibration_due,
        "value": event.value,
        "text": event.text,
        "due": event.due,
        "recheck": "yes" if line.recheck else "",
        "afterwards": "yes" if event.afterwards else "",
        "undone": "yes" if line.undone else "",
    }


def cell(value: str | int) -> str | int:
    """A cell that a spreadsheet would take for a formula stays text; hidden characters are shown.

    >>> cell("=1+1"), cell("24 N·m"), cell(7)
    ("'=1+1", '24 N·m', 7)
    """
    if isinstance(value, int):
        return value
    shown = escape(value)
    # Blanks in front do not keep every spreadsheet from looking at what follows them.
    return f"'{shown}" if shown.lstrip()[:1] in ("=", "+", "-", "@", "\N{FULLWIDTH EQUALS SIGN}") else shown


# --- text -------------------------------------------------------------------------------------------


def record_notes(record: Record, now: datetime, changes: Sequence[str] = ()) -> Iterator[str]:
    """What is to be known of a walk besides its events: what it waits for, what was corrected since.

    Args:
        record: the walk.
        now: the present time.
        changes: what was corrected in the library since it was finished.
    """
    return _notes(record if record.state == "due" else None, now, changes)


def _notes(waiting: Record | None, now: datetime, changes: Sequence[str]) -> Iterator[str]:
    if waiting is not None:
        yield f"due: {due_line(waiting, now)}"
    if changes:
        yield outdated_line(changes)


def notes_by(present: Present, now: datetime) -> Callable[[Record], tuple[str, ...]]:
    """The same for any walk, with what the library says today."""
    return lambda record: tuple(record_notes(record, now, present.changes(record)))


def listing(rows: Iterable[Summary], present: Present, now: datetime) -> Iterator[str]:
    """One line a walk, newest last, and under it what is to be known of it."""
    for row in rows:
        place = f", {row.place}" if row.place else ""
        order = f", order {row.work_order}" if row.work_order else ""
        yield f"{row.id}  {row.state}  {row.name}{place}{order}"
        yield from (f"  {note}" for note in _notes(row.record, now, present.changes_of(row)))


def record_text(record: Record, notes: Iterable[str] = ()) -> Iterator[str]:
    """One walk as lines: what was printed, set, clicked, measured and left out, and by whom.

    Args:
        record: the walk.
        notes: what is to be known besides, a sentence each.
    """
    plan, header = record.header.plan, record.header
    yield f"{plan.name}, {plan.assembly}" if plan.assembly else plan.name
    if plan.invented:
        yield PRACTICE
    if plan.generic:
        yield order_line(plan)
    yield f"Walk {header.id}, {record.state}" + (f", order {header.work_order}" if header.work_order else "")
    ended = f", ended {time_text(record.finished_at)}" if record.finished_at else ""
    yield f"Begun {time_text(header.started)}{ended}"
    yield from (f"{note[0].upper()}{note[1:]}" for note in notes)
    yield from _wrench_lines(record)
    yield from (f"CAUTION: {caution}" for caution in (*plan.alone, *plan.cautions))
    yield from (f"- {condition}" for condition in plan.conditions)
    for line in lines(record):
        yield f"{line.event.time[:19].replace('T', ' ')}  {line_text(line)}" + (
            " (taken back)" if line.undone else ""
        )
    yield f"Source: {plan.source}"
    yield "A setting that clicked is not a measured value; measured values are called so."


def time_text(time: str) -> str:
    """A time of the record for a reader: date and time of day, with the offset to UTC.

    >>> time_text("2027-03-01T08:00:05.120+00:00")
    '2027-03-01 08:00:05 +00:00'
    """
    return f"{time[:10]} {time[11:19]} {time[-6:]}" if len(time) > 19 else time.replace("T", " ")


def order_line(plan: Plan) -> str:
    """Where the order comes from; a made-up one says once that it is."""
    told = plan.generic and GENERIC not in plan.order_basis
    return f"Order: {plan.order_basis}; {GENERIC}" if told else f"Order: {plan.order_basis}"


def _wrench_lines(record: Record) -> Iterator[str]:
    for wrench in record.progress.wrenches.values():
        serial = f", serial {wrench.serial}" if wrench.serial else ""
        due = f", calibration due {wrench.calibration_due}" if wrench.calibration_due else ""
        yield f"Wrench {wrench.id}: {wrench.name}{serial}{due}"


# What an event is called for a reader; a kind that is not here is a word that everybody knows.
_SAID = {
    "gate": "stop passed",
    "check-off": "ticked",
    "round": "whole",
    "moved": "moved in a recheck",
    "verify": "second check",
    "undo": "took back",
    "later": "put off",
    "skip": "left out",
    "found": "as found",
    "actual": "reading",
    "measure": "reading",
    "page": "the page says other",
    "wrench": "another tool",
    "pause": "put down",
    "due": "waits",
}


def line_text(line: Line) -> str:
    """One event in words; the value as printed stands beside what was set, and a reading is called one."""
    event = line.event
    bolts = f" bolt {labels_text(event.bolts)}" if event.bolts else ""
    stage = f" round {event.round}" if event.round and event.kind in ("check-off", "round") else ""
    printed = f"printed {line.printed}" if line.printed else ""
    value = f"measured {event.value}" if line.measured else event.value
    parts = (printed, value, event.text, f"due {event.due}" if event.due else "")
    rest = ", ".join(part for part in parts if part)
    by = f" by {event.by}" if event.by else ""
    shown = bolts if event.kind != "round" or len(event.bolts) < 3 else " all"
    return f"{_SAID.get(event.kind, event.kind)}{stage}{shown}{by}" + (f": {rest}" if rest else "")
