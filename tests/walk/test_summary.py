"""A record as a line of a list, and which records typed words mean."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Clock, Walk, group
from torqref.sheets.selection import read_selection
from torqref.walk.archive import read_record
from torqref.walk.listing import read_summary, record_paths
from torqref.walk.summary import Summary, all_due, due_lines, walk_summary

WAITS = """
count = 1
[[group.stage]]
torque = "20 N·m"
[[group.stage]]
wait = "cold again"
due = { hours = HOURS }
[[group.stage]]
torque = "20 N·m"
"""


def walked(folder: Path, text: str, presses: int, identity: str = "sample", by: str = "") -> Path:
    walk = Walk(group(text, identity), folder, Clock(), by=by)
    walk.press(presses)
    walk.session.close()
    return walk.session.journal.path


def test_an_ended_walk_read_at_a_glance_is_the_same_line_as_read_in_full(tmp_path: Path) -> None:
    path = walked(tmp_path, TWO_ROUNDS, 30, by="Ada")
    seen, problems = read_summary(path)
    record, _ = read_record(path)
    assert record is not None
    assert not problems
    assert seen == walk_summary(record)
    assert seen.state == "finished"


def test_only_a_walk_that_waits_keeps_its_record(tmp_path: Path) -> None:
    seen, _ = read_summary(walked(tmp_path, TWO_ROUNDS, 3))
    waits, _ = read_summary(walked(tmp_path, WAITS.replace("HOURS", "9"), 4, "late"))
    assert seen is not None
    assert waits is not None
    assert (seen.state, seen.record) == ("open", None)
    assert waits.state == "due"
    assert waits.record is not None


def test_a_file_that_is_no_journal_is_told_and_makes_no_line(tmp_path: Path) -> None:
    for name in ("rubbish.walk", "rubbish.job"):
        path = tmp_path / name
        path.write_text("rubbish\n", encoding="utf-8")
        seen, problems = read_summary(path)
        assert seen is None
        assert problems[0].line == 1


def test_the_newest_stands_first(tmp_path: Path) -> None:
    for name in ("20260302-080000-a.walk", "20260301-080000-b.job", "20260303-080000-c.walk", "notes.txt"):
        (tmp_path / name).touch()
    assert [path.stem[-1] for path in record_paths(tmp_path)] == ["c", "a", "b"]
    assert record_paths(tmp_path / "nowhere") == ()


def test_what_is_due_first_stands_first(tmp_path: Path) -> None:
    late = read_summary(walked(tmp_path, WAITS.replace("HOURS", "9"), 4, "late"))[0]
    soon = read_summary(walked(tmp_path, WAITS.replace("HOURS", "4"), 4, "soon"))[0]
    assert late is not None
    assert soon is not None
    told = list(all_due((late, soon), MORNING + timedelta(hours=5)))
    assert [line.partition(":")[0] for line in told] == ["soon", "late"]
    assert told[0].endswith("due now, open since Monday")
    assert due_lines(late, MORNING)[0].startswith("late: cold again, due today 17:00, in ")


LINE = Summary(
    id="20270301-080000-bracket",
    path=Path("x"),
    groups=("bracket",),
    name="Bracket",
    work_order="W-17",
    started="2027-03-01T08:00:00+00:00",
    people=("Ada Lovell",),
    state="finished",
    said="bracket\n20270301-080000-bracket\nada lovell\nw-17\n2027-03-01\nfinished",
)


@pytest.mark.parametrize(
    ("text", "fits"),
    [
        ("", True),
        ("BRACK lovell", True),
        ("brack nobody", False),
        ("by ADA", True),
        ("by Bo", False),
        ("order w-17", True),
        ("order w-1", False),
        ("group Bracket", True),
        ("group brack", False),
        ("since 2027-03-01", True),
        ("since 2027-03-02", False),
        ("until 2027-03-01", True),
        ("until 2027-03", True),
        ("until 2027-02", False),
        ("until 2027", True),
        ("due", False),
        ("finished", True),
        ("by", False),
    ],
)
def test_typed_words_mean_what_the_options_of_the_command_mean(text: str, fits: bool) -> None:
    assert read_selection(text).fits(LINE) == fits
