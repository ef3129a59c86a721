"""The recheck slip for the owner: what was done, what to have looked at again, and when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from torqref.library.source import PRACTICE
from torqref.sheets import paper
from torqref.walk.archive import Record
from torqref.walk.job_archive import JobRecord
from torqref.walk.job_due import recheck_day

_WARN = "Stop and call at once if anything knocks, leaks, smells of fuel or feels loose."
_NOTHING = "Nothing of this work has to be looked at again."


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """What the owner takes along.

    Args:
        work: what was done.
        assembly: to what.
        order: number of the work order.
        day: when it was finished.
        by: who did it.
        rechecks: what to have looked at again, and when, in words.
        invented: practice values.
    """

    work: str
    assembly: str
    order: str
    day: str
    by: str
    rechecks: tuple[tuple[str, str], ...]
    invented: bool


def job_slip(record: JobRecord) -> Slip:
    """The slip of a job: the rechecks that are for the owner and not yet done."""
    progress = record.progress
    rechecks = tuple(
        (recheck.text, _when(recheck.due, recheck_day(recheck, record.finished_at)))
        for place, recheck in enumerate(record.plan.rechecks, start=1)
        if recheck.owner and place not in progress.rechecked
    )
    return Slip(
        work=record.plan.name,
        assembly=record.plan.assembly,
        order=progress.work_order,
        day=record.finished_at[:10],
        by=", ".join(name for name, _ in progress.signed),
        rechecks=rechecks,
        invented=record.plan.invented,
    )


def walk_slip(record: Record) -> Slip:
    """The slip of one walk: the waits that stand before a recheck round still to come."""
    plan, progress = record.header.plan, record.progress
    waits = tuple(
        (
            f"{plan.name}{f', {round_.place}' if round_.place else ''}: tighten again",
            round_.due or round_.text,
        )
        for number, round_ in enumerate(plan.rounds)
        if round_.kind == "wait" and number >= progress.round and not progress.finished
    )
    return Slip(
        work=plan.name,
        assembly=plan.assembly,
        order=record.header.work_order,
        day=(record.finished_at or progress.last_time)[:10],
        by=progress.pulled_by,
        rechecks=waits,
        invented=plan.invented,
    )


def _when(due: str, day: str) -> str:
    return f"after {due}" + (f", by {day}" if day else "")


def slip_text(slip: Slip) -> Iterator[str]:
    """The slip as lines, narrow enough for a receipt printer of 42 signs where its words allow."""
    yield "RECHECK SLIP"
    yield from (line for line in (PRACTICE if slip.invented else "", slip.work, slip.assembly) if line)
    facts = (("Done", slip.day), ("Work order", slip.order), ("By", slip.by))
    yield from (f"{name}: {value}" for name, value in facts if value)
    yield ""
    yield from (f"[ ] {what}: {when}" for what, when in slip.rechecks)
    yield _NOTHING if not slip.rechecks else _WARN


def slip_page(slips: Sequence[Slip]) -> str:
    """The slips as a page, one below the other."""
    body = (part for slip in slips for part in _slip(slip))
    return paper.page("Recheck slip", body, practice=any(slip.invented for slip in slips))


def _slip(slip: Slip) -> Iterator[str]:
    yield paper.heading("Recheck slip", 1)
    yield paper.practice_box(slip.invented)
    yield paper.facts(
        (
            ("Work", slip.work),
            ("Vehicle or machine", slip.assembly),
            ("Work order", slip.order),
            ("Done", slip.day),
            ("By", slip.by),
        )
    )
    yield paper.table(
        ("Have looked at again", "When", "Done on", "Reading", "By"),
        ((what, when, "", "", "") for what, when in slip.rechecks),
        "fill",
    )
    yield paper.paragraph(_WARN if slip.rechecks else _NOTHING)
