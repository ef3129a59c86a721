"""`torqref record` over a folder with everything in it: a look at each file says what reading it whole says."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.commands.repair import Garage, group
from tests.commands.test_record import JOB, LIBRARY, corrected, walk
from tests.fuzz.resealed import lines_of, sealed
from torqref.walk import listing
from torqref.walk.archive import Record, read_record, records
from torqref.walk.glance import glance
from torqref.walk.job_archive import job_records, read_job_record
from torqref.walk.listing import list_folder
from torqref.walk.summary import job_summary, walk_summary

JOURNALS = Path(__file__).parents[1] / "walk" / "journals"
NOW = datetime(2027, 3, 3, 9, tzinfo=UTC)
WAYS: tuple[tuple[str, ...], ...] = (
    (),
    ("--json",),
    ("--csv",),
    ("--jsonl",),
    ("--slip",),
    ("--due",),
    ("--due", "--json"),
    ("--group", "bracket"),
    ("--by", "bo"),
    ("--work-order", "17"),
    ("--since", "2027-03-02"),
    ("--until", "2027-03-01", "--csv"),
    ("--by", "nobody"),
    ("small",),
    ("small", "--json"),
    ("small", "--csv"),
    ("small", "--slip"),
    ("bracket",),
    ("bracket", "--json"),
    ("bracket", "--due"),
    ("2027", "--slip"),
    ("cover",),
    ("manifold", "--csv"),
    ("nowhere",),
    ("nowhere", "--json"),
)


@pytest.fixture
def garage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Garage:
    """Every kind of walk and job, and every kind of file that is not one."""
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    monkeypatch.setattr("torqref.commands.record.clock", lambda: NOW)
    garage.write(JOB, LIBRARY + group("lid", 'torque = "10 N·m"'))
    of_walks(garage)
    of_jobs(garage)
    for path in JOURNALS.glob("*.walk"):
        shutil.copy(path, garage.records)
    of_files(garage)
    corrected(garage)
    return garage


def of_walks(garage: Garage) -> None:
    walk(garage, "bracket", "--by", "Ada", "--work-order", "17", lines="\n\n")
    walk(garage, "bracket", "--by", "Ada\x1b[2J \u202e", lines="\n\nundo\n")
    walk(garage, "bracket", "--work-order", "20", lines="abandon 3\nundo\n")
    walk(garage, "flange", "--by", "Bo", "--work-order", "17", lines="\n" * 6)
    walk(garage, "flange", "--by", "Bo", "--work-order", "18", lines="\n" * 6 + "pause\n")
    garage.clock.pass_(hours=9)
    walk(garage, "flange", "--by", "Cy", "--work-order", "18", lines="\n" * 12)
    garage.clock.pass_(days=1)
    walk(garage, "wheel", "--by", "Bo", "--work-order", "18", lines="\n\n")
    walk(garage, "wheel", "--place", "left", "--work-order", "21", lines="\nnote =1+1\n\n\n\n")
    walk(garage, "lid", lines="")


def of_jobs(garage: Garage) -> None:
    garage.small("--by", "Cy", "--work-order", "19", lines="\n\n\nsign Cy\n")
    signed = {path.name for path in garage.records.glob("*-bracket.walk")}
    garage.small("--by", "Cy", "--work-order", "22", lines="\n\n\nsign Cy\n")
    lost = {path.name for path in garage.records.glob("*-bracket.walk")} - signed
    garage.small("--by", "Cy", "--work-order", "23", lines="\n")
    garage.small("--by", "Cy", "--work-order", "24", lines="abandon 1\n")
    for name in lost:
        (garage.records / name).unlink()


def of_files(garage: Garage) -> None:
    whole = garage.records / "manifold-finished.walk"
    header, *events = lines_of(whole)
    spoiled: dict[str, bytes] = {
        "empty.walk": b"",
        "rubbish.walk": b"rubbish\n",
        "rubbish.job": b"rubbish\n",
        "header.walk": sealed([{**header, "id": "header"}]),
        "newer.walk": sealed([{**header, "format": 2}, *events]),
        "older.walk": sealed([{**header, "format": 0}, *events]),
        "later-fields.walk": sealed([{**header, "id": "later-fields", "colour": "red"}, *events]),
        "unsound.walk": sealed([header, {**events[0], "round": 99}, *events[1:]]),
        "unsound-plan.walk": sealed([{**header, "plan": {**header["plan"], "rounds": []}}, *events]),
        "middle.walk": whole.read_bytes().replace(b'"bolts":[2]', b'"bolts":[3]', 1),
        "torn.walk": whole.read_bytes()[:-9],
        "crlf.walk": whole.read_bytes().replace(b"\n", b"\r\n"),
    }
    for name, data in spoiled.items():
        (garage.records / name).write_bytes(data)
    (garage.records / "folder.walk").mkdir()


@pytest.fixture
def in_full(monkeypatch: pytest.MonkeyPatch) -> Callable[[], None]:
    """From here on every file is read whole."""

    def switch() -> None:
        monkeypatch.setattr(listing, "glance", lambda path: None)
        monkeypatch.setattr(listing, "read_job_record", lambda path, state_only: read_job_record(path))

    return switch


def test_the_folder_holds_what_it_should(garage: Garage) -> None:
    listed = list_folder(garage.records)
    states = {walk.state for walk in listed.walks}
    assert states == {"open", "due", "finished", "abandoned"}
    assert {job.state for job in listed.jobs} == {"open", "recheck due", "abandoned"}
    assert any(walk.invented for walk in listed.walks)
    looked_at = [path for path in garage.records.glob("*.walk") if glance(path) is not None]
    assert 12 <= len(looked_at) < len(listed.walks)
    said = "\n".join(problem.sentence() for problem in listed.problems)
    for words in ("is damaged", "were cut off", "has format 2", "has format 0", "No such file"):
        assert words in said


def test_the_lines_of_a_list_are_those_of_the_records_read_whole(garage: Garage) -> None:
    listed = list_folder(garage.records)
    walks, told = records(garage.records)
    jobs, told_of_jobs = job_records(garage.records)
    assert listed.walks == tuple(map(walk_summary, walks))
    assert listed.jobs == tuple(map(job_summary, jobs))
    assert listed.problems == tuple(dict.fromkeys((*told, *told_of_jobs)))


def test_all_that_the_command_says_is_the_same_as_by_reading_everything_whole(
    garage: Garage, in_full: Callable[[], None]
) -> None:
    where = ("--records", str(garage.records), "--specs", str(garage.folder / "specs"))

    def said() -> list[tuple[int, list[str], str]]:
        return [(*garage.call("record", *words, *where), garage.errors) for words in WAYS]

    by_glance = said()
    in_full()
    for words, seen, whole in zip(WAYS, by_glance, said(), strict=True):
        assert seen == whole, words
    assert any("  finished by values since corrected: " in line for line in by_glance[0][1])
    assert sum(bool(lines) for _, lines, _ in by_glance) > 20


def test_a_page_of_all_that_fits_is_the_same_too(garage: Garage, in_full: Callable[[], None]) -> None:
    pages = []
    for name in ("glance", "full"):
        page = garage.folder / f"{name}.html"
        garage.call("record", "--html", str(page), "--records", str(garage.records))
        pages.append(page.read_text(encoding="utf-8"))
        in_full()
    assert pages[0] == pages[1]
    assert pages[0].count('<section class="sheet">') > 15


def test_json_is_one_object_as_the_standard_library_writes_it(garage: Garage) -> None:
    _, (line,) = garage.call("record", "--json", "--records", str(garage.records))
    assert list(json.loads(line)) == ["walks", "jobs", "problems"]
    written = json.dumps(json.loads(line), ensure_ascii=False)
    assert line == written.replace("\u202e", "\\u202e")  # what could steer a terminal is written as its code


@pytest.mark.parametrize("way", [("--csv",), ("--jsonl",), ("--json",), ("--html", "page.html")])
def test_an_export_holds_one_walk_at_a_time(
    garage: Garage, way: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    words = [str(garage.folder / word) if word.endswith(".html") else word for word in way]
    alive: list[int] = []
    most = 0

    class Counted(Record):
        def __del__(self) -> None:
            alive.pop()

    def counted(path: Path) -> tuple[Record | None, tuple[object, ...]]:
        nonlocal most
        record, problems = read_record(path)
        if record is None:
            return None, problems
        alive.append(1)
        most = max(most, len(alive))
        return Counted(told=record.told, header=record.header, progress=record.progress), problems

    monkeypatch.setattr("torqref.commands.record.read_record", counted)
    garage.call("record", *words, "--records", str(garage.records))
    assert 0 < most <= 3
