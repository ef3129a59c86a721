"""The signed record of a job as one page: cover, steps, every walk with its picture, sign-off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from torqref.sheets import paper
from torqref.sheets.job_record import (
    corrections,
    item_text,
    notice_text,
    step_result,
)
from torqref.sheets.record import time_text
from torqref.sheets.record_page import (
    HONEST,
    Changes,
    action_text,
    clock_text,
    corrected_box,
    walk_section,
)
from torqref.walk.archive import Record
from torqref.walk.job_archive import JobRecord
from torqref.walk.job_due import open_due, recheck_day
from torqref.walk.job_view import DEFER
from torqref.walk.summary import people


def job_page(record: JobRecord, changes: Changes = lambda _: ()) -> str:
    """The page.

    Args:
        record: the job.
        changes: what was corrected since each of its walks was finished.
    """
    body = _body(record, changes)
    return paper.page(f"Job record: {record.plan.name}", body, practice=record.plan.invented)


def _body(record: JobRecord, changes: Changes) -> Iterator[str]:
    yield from paper.sheets([_cover(record, changes)])
    for name, walk in record.walks.items():
        yield paper.whole(_walk(record, name, walk, changes(walk)))
    yield from paper.sheets([_sign_off(record)])


def _cover(record: JobRecord, changes: Changes) -> Iterator[str]:
    plan, progress, header = record.plan, record.progress, record.header
    yield paper.heading(plan.name, 1)
    yield paper.practice_box(plan.invented)
    for name, walk in record.walks.items():
        if name not in record.progress.earlier:
            yield corrected_box(changes(walk), f"{walk.header.plan.name}: ")
    yield paper.facts(
        (
            ("Vehicle or machine", plan.assembly),
            *((name.capitalize(), word) for name, word in progress.facts.items()),
            ("State", record.state),
            ("Job", f"{header.id}, on {header.bay}" if header.bay else header.id),
            ("Work order", progress.work_order or "none given"),
            ("Begun", time_text(header.started)),
            ("Signed", time_text(record.finished_at)),
            ("By", ", ".join(job_people(record))),
        )
    )
    yield from (
        paper.paragraph(f"CAUTION: {notice_text(caution.text, caution.source)}", "caution")
        for caution in plan.cautions
    )
    yield paper.heading("Steps", 2)
    yield _steps(record)
    if plan.parts or plan.fluids:
        yield paper.heading("Parts and fluids of the job", 3)
        yield paper.listed(item_text(item) for item in (*plan.parts, *plan.fluids))


def job_people(record: JobRecord) -> tuple[str, ...]:
    """Everybody whose name the job or its walks have, each once."""
    names = [record.header.by, *(event.by for event in record.told.events)]
    walked = [name for walk in record.walks.values() for name in people(walk)]
    return tuple(dict.fromkeys(name for name in (*names, *walked) if name))


def _steps(record: JobRecord) -> str:
    return paper.table(
        ("No.", "Step", "Wanted", "Result", "When"),
        (
            (
                step.number,
                f"MADE SAFE: {step.title}" if step.kind == "safe" else step.title,
                step.band.text if step.band else "",
                step_result(record, step),
                clock_text(record.standing.ended(step.number)),
            )
            for step in record.plan.steps
        ),
        tight=(0, 2, 4),
    )


def _walk(record: JobRecord, name: str, walk: Record, changes: Sequence[str]) -> Iterator[str]:
    plan = walk.header.plan
    yield paper.heading(f"{action_text(plan)}{plan.name}")
    yield paper.practice_box(plan.invented)
    if name in record.progress.earlier:
        yield paper.paragraph("Begun again: this walk does not count.", "practice")
    yield from walk_section(walk, changes)


def _sign_off(record: JobRecord) -> Iterator[str]:
    """What the signature stands under: left out, corrections, rechecks, cautions' sources."""
    plan, progress = record.plan, record.progress
    yield paper.heading("Sign-off")
    yield paper.practice_box(plan.invented)
    left = [step for step in plan.steps if step.number in progress.left_out]
    yield from _block("Left out", [f"{step.title}: {progress.left_out[step.number]}" for step in left])
    yield from _block("Pages that say other than the library", list(corrections(record)))
    yield from _block("Notes", list(progress.notes))
    yield from _block("Waiting", [] if progress.is_signed else list(open_due(record)))
    yield _rechecks(record)
    yield paper.signatures([(name, time_text(time)) for name, time in progress.signed], plan.signatures)
    yield from _block("Sources", list(dict.fromkeys((plan.source, *plan.sources))))
    yield paper.paragraph(HONEST, "small")
    yield paper.paragraph(DEFER)


def _block(title: str, texts: list[str]) -> Iterator[str]:
    if texts:
        yield paper.heading(title, 3)
        yield paper.listed(texts)


def _rechecks(record: JobRecord) -> str:
    plan, progress = record.plan, record.progress
    found = paper.table(
        ("Recheck", "Due after", "On", "Wanted", "Seen"),
        (
            (
                recheck.text,
                recheck.due,
                recheck_day(recheck, record.finished_at),
                recheck.band.text if recheck.band else "",
                progress.rechecked.get(place, "open"),
            )
            for place, recheck in enumerate(plan.rechecks, start=1)
        ),
        tight=(2, 3),
    )
    return paper.heading("Rechecks due", 3) + found if found else ""
