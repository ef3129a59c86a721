"""Journals whose checksums fit and whose content is garbage: read, shown, exported, gone on with; no traceback."""

from __future__ import annotations

import contextlib
import io
import json
import random
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.fuzz.conftest import COUNT
from tests.fuzz.resealed import Line, lines_of, sealed, spoiled
from tests.fuzz.test_files import LONGEST, told_well
from tests.walk.test_job import GROUPS, small
from torqref.commands.console import Console
from torqref.commands.plain import walk_plain
from torqref.sheets.job_page import job_page
from torqref.sheets.job_record import job_listing, job_text, job_values
from torqref.sheets.record import csv_text, json_lines, listing, record_notes, record_text, record_values
from torqref.sheets.record_page import record_page
from torqref.sheets.slip import job_slip, slip_text, walk_slip
from torqref.walk.archive import Record, read_record
from torqref.walk.audit import Present
from torqref.walk.job_archive import JobRecord, read_job_record
from torqref.walk.job_opening import open_job
from torqref.walk.job_session import Bay, JobSession
from torqref.walk.opening import Request, resume
from torqref.walk.standing import standing
from torqref.walk.summary import job_summary, walk_summary
from torqref.wrench.rack import Rack

JOURNALS = Path(__file__).parents[1] / "walk" / "journals"
NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
ROUNDS = {"walk": 20_000, "job": 20_000}
# Every so many of the readable ones are gone on with: that writes and syncs, and so takes longest.
GO_ON = 10


def show_walk(record: Record) -> None:
    text = [
        *record_text(record),
        *listing((walk_summary(record),), Present(lambda _: None), NOW),
        *record_notes(record, NOW),
        *slip_text(walk_slip(record)),
    ]
    assert text
    assert csv_text((record,)).startswith("walk,")
    assert len("".join(json_lines((record,))).splitlines()) == len(record.told.events)
    assert json.dumps(record_values(record, NOW), default=str)
    assert record_page((record,)).startswith("<!doctype html>")
    assert standing(record, NOW, "bay 1")


def go_on_with_walk(record: Record) -> None:
    opening = resume(record, Request(folder=record.told.path.parent, bay="bay 1"), lambda: NOW)
    if opening.session is None:
        assert opening.refusal is not None
        return
    console = Console(io.StringIO(), io.StringIO())
    with contextlib.closing(opening.session):
        assert walk_plain(opening.session, io.StringIO("\n\nundo\ntrouble 1\n1\n\n"), console) == 0


def show_job(record: JobRecord) -> None:
    assert [*job_text(record), *job_listing((job_summary(record),)), *slip_text(job_slip(record))]
    assert json.dumps(job_values(record), default=str)
    assert job_page(record).startswith("<!doctype html>")


def walk_seeds(folder: Path) -> list[list[Line]]:
    names = (
        "bearing-measured",
        "cover-corrected-finished",
        "flange-due",
        "head-trouble-open",
        "manifold-finished",
    )
    return [lines_of(JOURNALS / f"{name}.walk") for name in names]


def job_seeds(folder: Path) -> list[list[Line]]:
    """A job worked through with its own core, as far as it goes by pressing on."""
    bay = Bay(folder=folder, name="bay 1", groups=GROUPS, rack=Rack())
    opening = open_job(small(), bay, Request(folder=folder, bay="bay 1"), lambda: NOW, {})
    session = opening.session
    assert isinstance(session, JobSession)
    for word in (
        "1",
        "done",
        "done",
        "note seen",
        "1",
        "done",
        "done",
        "done",
        "later",
        "done",
        "undo",
        "done",
    ):
        session.say(word)
    session.close()
    return [lines_of(path) for path in folder.glob("*.job")]


def one_walk(path: Path, turn: int) -> bool:
    record, problems = read_record(path)
    told_well(problems, str(path))
    if record is None:
        return False
    show_walk(record)
    if not problems and turn % GO_ON == 0:
        go_on_with_walk(record)
    return not problems


def one_job(path: Path, turn: int) -> bool:
    record, problems = read_job_record(path)
    if record is None:
        told_well(problems, str(path))
        return False
    show_job(record)
    return not problems


KINDS: dict[str, tuple[str, Callable[[Path], list[list[Line]]], Callable[[Path, int], bool]]] = {
    "walk": ("a.walk", walk_seeds, one_walk),
    "job": ("a.job", job_seeds, one_job),
}


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_a_journal_of_garbage_with_fitting_seals_is_damage_or_can_be_shown(
    kind: str, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    name, seeds_in, one = KINDS[kind]
    seeds = seeds_in(tmp_path)
    assert seeds
    path, dice, wanted = tmp_path / name, random.Random(f"torqref {kind}"), ROUNDS[kind]
    end, done, sound = time.monotonic() + LONGEST, 0, 0
    while done < wanted and time.monotonic() < end:
        path.write_bytes(sealed(spoiled(dice.choice(seeds), dice)))
        sound += one(path, done)
        done += 1
    record_property(
        COUNT,
        f"{kind}: {done} journals sealed anew, {done - sound} with damage told, {sound} shown, no traceback",
    )
    assert done == wanted
    assert wanted // 20 < sound < wanted * 19 // 20  # both ends must be reached
