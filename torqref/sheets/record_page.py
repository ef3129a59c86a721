"""The record of walks as a page: printed, set and measured in columns of their own, each pattern drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from torqref.library.source import PRACTICE
from torqref.sheets import paper
from torqref.sheets.picture import walk_pictures
from torqref.sheets.record import order_line, time_text
from torqref.sheets.tally import Row, noteworthy, rows
from torqref.walk.archive import Record
from torqref.walk.audit import Present, outdated_line
from torqref.walk.job_view import DEFER
from torqref.walk.plan import Plan
from torqref.walk.summary import Summary, people, walk_summary

_MANY_BOLTS = 40
HONEST = (
    "“Set” is what the wrench was set to; a click says that it signalled there, and measures nothing. "
    "“Measured” is what an instrument showed."
)


# What was corrected in the library since a walk was finished.
Changes = Callable[[Record], Sequence[str]]
_UNKNOWN = Present(lambda _: None)


def record_page(records: Sequence[Record], present: Present = _UNKNOWN) -> str:
    """One page for these walks, each on a sheet of its own; several begin with a list.

    Args:
        records: the walks.
        present: what the library says today, for what was corrected since they were finished.
    """
    return "".join(record_page_parts(tuple(map(walk_summary, records)), records, present))


def record_page_parts(
    rows: Sequence[Summary], records: Iterable[Record], present: Present = _UNKNOWN
) -> Iterator[str]:
    """The same piece by piece, a walk at a time.

    Args:
        rows: the walks as a list has them.
        records: the same walks; each is looked at once.
        present: what the library says today.
    """
    practice = any(row.invented for row in rows)
    title = f"Record: {rows[0].name}" if len(rows) == 1 else f"Records of {len(rows)} walks"
    return paper.page_parts(title, _body(rows, records, present, practice), practice=practice)


def _body(
    rows: Sequence[Summary], records: Iterable[Record], present: Present, practice: bool
) -> Iterator[str]:
    if len(rows) != 1:
        yield "\n".join(paper.sheets([_index(rows, present, practice)]))
    yield from paper.sheets(_sheet(record, present.changes(record)) for record in records)


def _index(rows: Sequence[Summary], present: Present, practice: bool) -> Iterator[str]:
    yield paper.heading(f"Records of {len(rows)} walks", 1)
    yield paper.practice_box(practice)
    yield paper.table(
        ("Walk", "Group", "Place", "State", "Begun", "Ended", "By", "Work order"),
        (
            (
                row.id,
                row.name,
                row.place,
                f"{row.state}; VALUES SINCE CORRECTED" if present.changes_of(row) else row.state,
                time_text(row.started),
                time_text(row.ended),
                row.by,
                row.work_order,
            )
            for row in rows
        ),
    )
    yield paper.paragraph(DEFER)


def _sheet(record: Record, changes: Sequence[str]) -> Iterator[str]:
    plan = record.header.plan
    yield paper.heading(f"{action_text(plan)}{plan.name}", 1)
    yield paper.practice_box(plan.invented)
    yield from walk_section(record, changes)
    yield paper.paragraph(HONEST, "small")
    yield paper.paragraph(DEFER)


def action_text(plan: Plan) -> str:
    """What was done, where that was not tightening."""
    return "Loosened: " if plan.action == "loosen" else ""


def clock_text(time: str) -> str:
    """The same without the offset, for tables whose page says it once."""
    return f"{time[:10]} {time[11:19]}".strip()


def corrected_box(changes: Sequence[str], before: str = "") -> str:
    """The box that says by which values a walk was finished that were corrected since, or nothing."""
    told = f"{before}{outdated_line(changes)}" if changes else ""
    return paper.paragraph(f"{told[:1].upper()}{told[1:]}", "practice")


def walk_section(record: Record, changes: Sequence[str] = ()) -> Iterator[str]:
    """Everything the record knows of one walk, and what was corrected since it was finished."""
    plan, header = record.header.plan, record.header
    yield corrected_box(changes)
    yield paper.facts(
        (
            ("Vehicle or machine", plan.assembly),
            ("Place", plan.place),
            ("State", record.state),
            ("Walk", f"{header.id}, on {header.bay}" if header.bay else header.id),
            ("Work order", header.work_order),
            ("Begun", time_text(header.started)),
            ("Ended", time_text(record.finished_at)),
            ("By", ", ".join(people(record))),
            ("Thread and class", ", ".join(part for part in (plan.thread, plan.grade) if part)),
            ("Locking drag", f"{plan.drag.text} measured, added to every value" if plan.drag else ""),
            ("Direction", "LEFT-HAND: anticlockwise tightens" if plan.left_hand else ""),
        )
    )
    for caution in (*plan.alone, *plan.cautions):
        yield paper.paragraph(f"CAUTION: {caution}", "caution")
    yield paper.listed(plan.conditions)
    yield _pictures(record)
    yield _rounds(rows(record))
    yield _ticks(rows(record))
    yield from _notes(record)
    yield from _wrenches(record)
    yield from _sources(plan)


def _pictures(record: Record) -> str:
    # A mere count has no picture: the page of it shows no places.
    if record.header.plan.bolts < 2 or record.header.plan.layout.basis == "count":
        return ""
    # So many bolts need the whole width of the paper to be read.
    kind = "wide" if record.header.plan.bolts > _MANY_BOLTS else ""
    figures = "".join(paper.figure(picture, caption, kind) for picture, caption in walk_pictures(record))
    return f'<div class="pictures">{figures}</div>'


def _rounds(found: Sequence[Row]) -> str:
    return paper.table(
        ("Stage", "As printed", "As set", "As measured", "Ticked", "By", "State"),
        (
            (
                f"{row.stage}, {row.place}" if row.place else row.stage,
                "; ".join(row.printed) or row.instruction,
                "; ".join(row.set),
                "; ".join(row.measured),
                f"{len(row.ticks)} of {row.wanted}" if row.wanted and row.ticks else "",
                ", ".join(row.by),
                f"{row.state}, recheck" if row.instruction.endswith("recheck") else row.state,
            )
            for row in found
        ),
        tight=(0, 4, 6),
    )


def _ticks(found: Sequence[Row]) -> str:
    """Each tick with its time of day, small: the evidence bolt by bolt."""
    lines = [
        f"stage {row.stage}{f', {row.place}' if row.place else ''}: "
        + ", ".join(f"{label} {time}" for label, time in row.ticks)
        for row in found
        if row.ticks
    ]
    return paper.heading("Ticks, bolt and time", 3) + paper.listed(lines, "small") if lines else ""


def _notes(record: Record) -> Iterator[str]:
    said = noteworthy(record)
    if said:
        yield paper.heading("What happened", 3)
        yield paper.listed(said)
    if record.progress.due and record.state == "due":
        yield paper.paragraph(f"DUE: {time_text(record.progress.due)}", "practice")


def _wrenches(record: Record) -> Iterator[str]:
    facts = record.progress.wrenches
    yield paper.table(
        ("Wrench", "Name", "Serial", "Calibration due"),
        (
            (wrench.id, wrench.name, wrench.serial, calibration_text(wrench.calibration_due, record))
            for wrench in facts.values()
        ),
    )


def calibration_text(due: str, record: Record) -> str:
    """When a calibration runs out, and whether that was before the walk ended."""
    last = (record.told.events[-1].time if record.told.events else record.header.started)[:10]
    return f"{due}, RAN OUT BEFORE THIS WALK ENDED" if due and due < last else due


def _sources(plan: Plan) -> Iterator[str]:
    yield paper.paragraph(f"Source: {plan.source or 'none given'}", "small")
    yield paper.paragraph(order_line(plan), "small")
    if plan.unverified:
        yield paper.paragraph("The values were not yet typed a second time by another person.", "small")
    if plan.invented:
        yield paper.paragraph(PRACTICE, "small")
