"""The record of walks: as text, as JSON values and as CSV rows; nothing here knows more than the journal."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from typing import Any

from torqref.document.escape import escape
from torqref.library.source import PRACTICE
from torqref.walk.archive import Record
from torqref.walk.event import Event
from torqref.walk.progress import undone_numbers

COLUMNS = (
    "walk", "group", "place", "action", "work_order", "number", "time", "by", "kind", "round",
    "bolts", "value", "text", "undone",
)  # fmt: skip


def record_values(record: Record) -> dict[str, object]:
    """A walk for JSON, with every event."""
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


def csv_text(records: Sequence[Record]) -> str:
    """Every event of these walks as a row; bolts are joined with a plus sign."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for record in records:
        writer.writerows(_rows(record))
    return out.getvalue()


def _rows(record: Record) -> Iterator[tuple[object, ...]]:
    plan, header = record.header.plan, record.header
    undone = undone_numbers(record.told.events)
    start = (header.id, plan.group, plan.place, plan.action, header.work_order)
    for event in record.told.events:
        bolts = "+".join(str(label) for label in event.bolts)
        rest = (event.number, event.time, event.by, event.kind, event.round or "", bolts)
        texts = (_cell(event.value), _cell(event.text), "yes" if event.number in undone else "")
        yield (*(_cell(str(value)) for value in start), *rest, *texts)


def _cell(text: str) -> str:
    """A cell that a spreadsheet would take for a formula stays text."""
    shown = escape(text)
    return f"'{shown}" if shown[:1] in ("=", "+", "-", "@") else shown


def listing(records: Sequence[Record]) -> Iterator[str]:
    """One line a walk, newest last."""
    for record in records:
        plan = record.header.plan
        place = f", {plan.place}" if plan.place else ""
        order = f", order {record.header.work_order}" if record.header.work_order else ""
        yield f"{record.header.id}  {record.state}  {plan.name}{place}{order}"


def record_text(record: Record) -> Iterator[str]:
    """One walk as lines: what was set, clicked, measured and left out, and by whom."""
    plan, header = record.header.plan, record.header
    yield f"{plan.name}, {plan.assembly}" if plan.assembly else plan.name
    if plan.invented:
        yield PRACTICE
    if plan.generic:
        yield f"Order: {plan.order_basis}; generic, not the manufacturer's"
    yield f"Walk {header.id}, {record.state}" + (f", order {header.work_order}" if header.work_order else "")
    yield f"Begun {header.started}" + (f", ended {record.finished_at}" if record.finished_at else "")
    yield from _wrench_lines(record)
    undone = undone_numbers(record.told.events)
    for event in record.told.events:
        yield f"{event.time}  {event_text(event)}" + (" (taken back)" if event.number in undone else "")
    yield f"Source: {plan.source}"
    yield "A setting that clicked is not a measured value; measured values are called so."


def _wrench_lines(record: Record) -> Iterator[str]:
    for wrench in record.header.plan.wrenches:
        serial = f", serial {wrench.serial}" if wrench.serial else ""
        due = f", calibration due {wrench.calibration_due}" if wrench.calibration_due else ""
        yield f"Wrench {wrench.id}: {wrench.name}{serial}{due}"


def event_text(event: Event) -> str:
    """One event in words."""
    bolts = f" bolt {'+'.join(str(label) for label in event.bolts)}" if event.bolts else ""
    stage = f" round {event.round}" if event.round and event.kind in ("check-off", "round") else ""
    parts = (event.value, event.text, f"due {event.due}" if event.due else "")
    rest = ", ".join(part for part in parts if part)
    by = f" by {event.by}" if event.by else ""
    shown = bolts if event.kind != "round" or len(event.bolts) < 3 else " all"
    return f"{event.kind}{stage}{shown}{by}" + (f": {rest}" if rest else "")
