"""A walk without a library entry, through the real command line: typed, walked, recorded, kept."""

from __future__ import annotations

import io
import json
from dataclasses import dataclass
from pathlib import Path

import pytest

from torqref.cli import main
from torqref.library.check import check_file
from torqref.library.file import read_library_file

JOB = ("walk", "--quick", "M8 10.9 24 N·m", "--rows", "2x5", "--plain")


@dataclass(slots=True)
class Bay:
    """A bay with a library folder of its own that is not there yet."""

    home: Path
    monkeypatch: pytest.MonkeyPatch
    capsys: pytest.CaptureFixture[str]
    err: str = ""

    @property
    def specs(self) -> Path:
        return self.home / "config" / "torqref" / "specs"

    def run(self, *words: str, lines: str = "") -> tuple[int, list[str]]:
        self.monkeypatch.setattr("sys.stdin", io.StringIO(lines))
        code = main([*words, "--records", str(self.home / "records")])
        said = self.capsys.readouterr()
        self.err = said.err
        return code, said.out.splitlines()


@pytest.fixture
def bay(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Bay:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return Bay(home=tmp_path, monkeypatch=monkeypatch, capsys=capsys)


def test_two_lines_lead_from_the_command_to_the_first_bolt(bay: Bay) -> None:
    code, said = bay.run(*JOB, lines="\n")
    assert code == 0
    assert said[0] == "24 N·m on M8x1.25 10.9, 2 rows of 5"
    assert "SET 24 N·m" in said
    assert any("not the manufacturer's" in line for line in said)
    assert said[-2].startswith("bolt ")
    assert said[-1] == "paused"


def test_the_same_job_goes_on_at_the_same_bolt_however_it_is_typed(bay: Bay) -> None:
    _, before = bay.run(*JOB, lines="\n\n\n")
    _, after = bay.run("walk", "--quick", "24nm 10.9 M8", "--rows", "2x5", "--plain", lines="")
    assert before[-2].startswith("bolt 2,")
    assert any(line.startswith("bolt 2,") for line in after)
    assert "changed" not in bay.err


def test_another_layout_or_new_begins_another_walk(bay: Bay) -> None:
    bay.run(*JOB, lines="\n\n\n")
    _, other = bay.run("walk", "--quick", "M8 10.9 24 N·m", "--circle", "8", "--plain", lines="\n")
    _, new = bay.run(*JOB, "--new", lines="\n")
    assert "(0 of 8 done)" in other[-2]
    assert "(0 of 10 done)" in new[-2]


def test_it_is_recorded_like_any_other_walk(bay: Bay) -> None:
    bay.run(*JOB, "--by", "Ann", lines="\n" * 11)
    _, said = bay.run("record", "--json")
    walk = json.loads(said[0])["walks"][0]
    assert walk["state"] == "finished"
    assert walk["by"] == "Ann"
    assert sum(event["kind"] == "check-off" for event in walk["events"]) == 10


@pytest.mark.parametrize(
    "words",
    [
        ("--quick", "24 N·m"),
        ("--quick", "24 N·m", "--rows", "2x5", "--count", "3"),
        ("exhaust-manifold", "--quick", "24 N·m", "--count", "3"),
        ("exhaust-manifold", "--count", "3"),
        (),
    ],
)
def test_a_command_that_is_not_complete_is_wrong_usage(bay: Bay, words: tuple[str, ...]) -> None:
    code, said = bay.run("walk", *words, "--plain")
    assert code == 2
    assert said == []
    assert bay.err.startswith("torqref walk: ")


@pytest.mark.parametrize(("text", "offered"), [("M8 24", "M8 24 N·m"), ("15 lbs", "15 in-lb"), ("", "")])
def test_a_value_that_is_not_clear_is_refused(bay: Bay, text: str, offered: str) -> None:
    code, _ = bay.run("walk", "--quick", text, "--count", "3", "--plain")
    assert code == 1
    assert offered in bay.err
    assert not (bay.home / "records").exists()


def test_a_refusal_is_one_object_for_a_script(bay: Bay) -> None:
    code, said = bay.run("walk", "--quick", "M8 24", "--count", "3", "--json")
    assert code == 1
    assert "M8 24 ft-lb" in json.loads(said[0])["readings"]


def test_a_value_that_would_break_the_bolt_is_asked_about_before_the_first_pull(bay: Bay) -> None:
    _, said = bay.run("walk", "--quick", "M6 8.8 96 ft-lb", "--count", "4", "--plain", lines="\n1\n\n")
    assert said[2] == "QUESTION"
    assert "96 in-lb" in said[3]
    assert any("This needs a digit" in line for line in said)
    assert said[-2].startswith("bolt 1, SET 96 ft-lb")


def test_a_library_value_that_would_break_the_bolt_is_asked_about_too(bay: Bay, tmp_path: Path) -> None:
    (tmp_path / "x.toml").write_text(
        'format = 1\n[[group]]\nid = "cover"\nthread = "M6"\nclass = "8.8"\ncount = 4\n'
        '[[group.stage]]\ntorque = "96 ft-lb"\n',
        encoding="utf-8",
    )
    _, said = bay.run("walk", "cover", "--plain", "--specs", str(tmp_path), lines="")
    assert "QUESTION" in said


# --- keep -----------------------------------------------------------------------------------------


def test_keep_at_the_end_writes_a_draft_that_the_library_reads(bay: Bay) -> None:
    _, said = bay.run(*JOB, "--by", 'Ann "A"', lines="\n" * 11 + "keep\n")
    assert said[-1] == "finished"
    path = bay.specs / "draft-m8x1-25-24-nm-2x5.toml"
    assert str(path) in said[-2]
    file = read_library_file(path)
    assert file.problems == ()
    group = file.groups[0]
    assert (group.thread, group.grade, len(group.layout.positions)) == ("M8x1.25", "10.9", 10)
    assert group.stages[0].text == "24 N·m"
    assert group.source.entered_by == 'Ann "A"'
    assert not group.source.verified_by
    assert [told.severity for told in check_file(path) if told.severity == "error"] == []


def test_the_draft_is_walked_like_any_group_and_its_record_says_where_it_went(bay: Bay) -> None:
    bay.run(*JOB, lines="\n" * 11 + "keep\n")
    code, said = bay.run("walk", "draft-m8x1-25-24-nm-2x5", "--plain", lines="\n")
    assert code == 0
    assert "(0 of 10 done)" in said[-2]
    _, listed = bay.run("record", "--json")
    walk = next(each for each in json.loads(listed[0])["walks"] if each["state"] == "finished")
    assert any("kept as draft" in str(event) for event in walk["events"])


def test_nothing_in_the_folder_is_written_over(bay: Bay) -> None:
    bay.run(*JOB, lines="\n" * 11 + "keep\n")
    first = (bay.specs / "draft-m8x1-25-24-nm-2x5.toml").read_text(encoding="utf-8")
    bay.run(*JOB, lines="\n" * 11 + "keep\n")
    assert (bay.specs / "draft-m8x1-25-24-nm-2x5.toml").read_text(encoding="utf-8") == first
    assert read_library_file(bay.specs / "draft-m8x1-25-24-nm-2x5-2.toml").groups[0].id.endswith("-2")


def test_what_the_page_said_other_is_what_is_kept(bay: Bay) -> None:
    lines = "\n\npage 26 N·m (19 ft-lb)\n" + "\n" * 10 + "keep\n"
    _, said = bay.run("walk", "--quick", "M8 24 N·m (18 ft-lb)", "--rows", "2x5", "--plain", lines=lines)
    assert said[-1] == "finished", said
    path = next(bay.specs.iterdir())
    assert read_library_file(path).groups[0].stages[0].text.startswith("26 N·m")
    assert "the page said 26 N·m" in path.read_text(encoding="utf-8")


def test_a_note_with_line_ends_and_codes_stays_a_comment(bay: Bay) -> None:
    lines = '\nnote stud 3 is "soft"\x1b[2J # [[group]]\n' + "\n" * 10 + "keep\n"
    _, said = bay.run(*JOB, lines=lines)
    assert said[-1] == "finished"
    path = next(bay.specs.iterdir())
    text = path.read_text(encoding="utf-8")
    assert "\x1b" not in text
    assert "soft" in text
    assert len(read_library_file(path).groups) == 1


@pytest.mark.parametrize("answer", ["\n", "", "no\n", "\x1b[2J\n"])
def test_any_other_answer_keeps_nothing(bay: Bay, answer: str) -> None:
    _, said = bay.run(*JOB, lines="\n" * 11 + answer)
    assert said[-1] == "finished"
    assert not bay.specs.exists()


def test_a_folder_that_cannot_be_written_is_told_and_the_walk_is_still_finished(bay: Bay) -> None:
    bay.specs.parent.mkdir(parents=True)
    bay.specs.write_text("", encoding="utf-8")
    _, said = bay.run(*JOB, lines="\n" * 11 + "keep\n")
    assert said[-2].startswith("Not kept: ")
    assert said[-1] == "finished"


def test_a_group_of_the_library_is_not_offered_for_keeping(bay: Bay) -> None:
    _, said = bay.run("walk", "valve-cover", "--plain", lines="\n" * 80)
    assert not any("keep" in line for line in said)
