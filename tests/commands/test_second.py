"""`torqref check --second` and `--corrections` as a shop lead uses them."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from torqref.cli import main

Capture = pytest.CaptureFixture[str]
FILE = (
    'format = 1\nassembly = "Brindle"\n[source]\nkind = "shop"\ntitle = "own sheet"\nreference = "page 1"\n'
    'entered_by = "Ann"\n[[group]]\nid = "cover"\nname = "Cover"\nthread = "M10"\nclass = "8.8"\ncondition = "dry"\n'
    '[[group.stage]]\ntorque = "20 N·m"\n[[group.stage]]\ntorque = "34 N·m"\n'
)


@pytest.fixture
def sheet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    folder = tmp_path / "specs"
    folder.mkdir()
    path = folder / "sheet.toml"
    path.write_text(FILE, encoding="utf-8")
    return path


def typed(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(text))


def test_what_agrees_is_marked_in_the_file(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed("Bea\n20 Nm\n34 N·m\n", monkeypatch)
    assert main(["check", "--second", str(sheet)]) == 0
    told = capsys.readouterr()
    assert told.out == "cover: 2 values agree, verified.\n"
    assert "20" not in told.err
    assert "34" not in told.err
    assert 'source = { verified_by = "Bea", verified_on = ' in sheet.read_text(encoding="utf-8")
    assert main(["check", str(sheet)]) == 0
    assert capsys.readouterr().out == ""
    assert main(["check", "--second", str(sheet)]) == 0
    assert "Every group is verified" in capsys.readouterr().err


def test_digits_swapped_by_the_first_person_come_to_light(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed("20 N·m\n43 N·m\n", monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "Bea"]) == 1
    assert capsys.readouterr().out == (
        "cover, stage 2, torque: first entry 34 N·m, second 43 N·m. Look at the page.\n"
    )
    assert sheet.read_text(encoding="utf-8") == FILE


def test_a_value_that_is_none_is_asked_again(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed("20\n20 N·m\n34 N·m\n", monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "Bea"]) == 0
    assert '"20" has no unit' in capsys.readouterr().err


def test_nobody_verifies_what_they_entered(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed("20 N·m\n34 N·m\n", monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "ann"]) == 1
    assert "another person has to type them again" in capsys.readouterr().out
    assert sheet.read_text(encoding="utf-8") == FILE


@pytest.mark.parametrize("answers", ["", "20 N·m\n", "20 N·m\n\n"], ids=["none", "half", "one left out"])
def test_an_entry_that_is_not_whole_verifies_nothing(
    answers: str, sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed(answers, monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "Bea"]) == 1
    assert sheet.read_text(encoding="utf-8") == FILE


def test_a_script_gets_the_differences_as_one_object(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed("20 N·m\n43 N·m\n", monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "Bea", "--json"]) == 1
    (group,) = json.loads(capsys.readouterr().out)["groups"]
    assert (group["id"], group["verified_by"], group["left_out"]) == ("cover", "", 0)
    assert len(group["differences"]) == 1


# --- corrections from walks -----------------------------------------------------------------------


def walk(sheet: Path, records: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    typed("\npage 22 N·m on p. 7\nq\n", monkeypatch)
    words = [
        "walk",
        "cover",
        "--plain",
        "--by",
        "Cy",
        "--specs",
        str(sheet.parent),
        "--records",
        str(records),
    ]
    assert main(words) == 0
    capsys.readouterr()


def check(sheet: Path, records: Path, *words: str) -> int:
    return main(["check", *words, "--specs", str(sheet.parent), "--records", str(records)])


def test_a_correction_from_a_walk_waits_and_is_accepted(
    sheet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    walk(sheet, tmp_path / "records", monkeypatch, capsys)
    assert check(sheet, tmp_path / "records", "--corrections") == 0
    line = capsys.readouterr().out
    assert line.startswith("1  cover, stage 1: 20 N·m in the library, 22 N·m on the page (p. 7)")
    assert check(sheet, tmp_path / "records", "--accept", "1", "--by", "Ann") == 0
    assert "stage 1 is now 22 N·m" in capsys.readouterr().out
    changed = sheet.read_text(encoding="utf-8")
    assert changed == FILE.replace("20 N·m", "22 N·m")
    assert check(sheet, tmp_path / "records", "--corrections") == 0
    assert capsys.readouterr().out == ""


def test_a_correction_is_declined_and_the_file_stays(
    sheet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    walk(sheet, tmp_path / "records", monkeypatch, capsys)
    assert check(sheet, tmp_path / "records", "--decline", "1", "--by", "Ann") == 0
    assert capsys.readouterr().out.startswith("declined: cover, stage 1")
    assert sheet.read_text(encoding="utf-8") == FILE
    assert check(sheet, tmp_path / "records", "--corrections", "--json") == 0
    assert json.loads(capsys.readouterr().out) == {"corrections": []}


def test_a_number_that_no_correction_has_is_refused(sheet: Path, tmp_path: Path, capsys: Capture) -> None:
    assert check(sheet, tmp_path / "records", "--accept", "3") == 1
    assert "no correction 3 waits" in capsys.readouterr().err


def test_a_thread_that_the_page_prints_otherwise_keeps_a_group_from_being_verified(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    # M10 is coarse, 1.5 mm: ISO 261. A fine bolt in its place takes another clamp load.
    typed("20 N·m\n34 N·m\nM10x1.25\n8.8\n", monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "Bea"]) == 1
    told = capsys.readouterr()
    assert told.out == "cover, thread: first entry M10, second M10x1.25. Look at the page.\n"
    assert "3 of 4: thread, if the page prints it: " in told.err
    assert sheet.read_text(encoding="utf-8") == FILE


def test_thread_and_class_that_agree_are_counted_and_left_out_they_keep_nothing_back(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed("20 N·m\n34 N·m\n\n8.8\n", monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "Bea"]) == 0
    assert capsys.readouterr().out == "cover: 3 values agree, verified.\n"


def test_what_is_no_thread_is_asked_again(
    sheet: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    typed("20 N·m\n34 N·m\nM1O\nM10\n\n", monkeypatch)
    assert main(["check", "--second", str(sheet), "--by", "Bea"]) == 0
    assert "M1O" in capsys.readouterr().err
