"""Published tables at the command line: shown as a page, converted and walked row by row."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from torqref.cli import main

Capture = pytest.CaptureFixture[str]


def test_a_table_is_shown_as_a_page_with_the_id_of_each_row(capsys: Capture) -> None:
    assert main(["show", "ac43-tension"]) == 0
    out = capsys.readouterr().out
    assert "REFERENCE VALUE: THE MANUFACTURER'S OWN FIGURE COMES FIRST" in out
    (row,) = [line for line in out.splitlines() if "ac43-tension-1-4-28 " in line]
    # AC 43.13-1B, table 7-1, p. 7-9
    assert row.split()[1:3] == ["50–70", "in-lb"]
    assert "chapter 7, table 7-1, p. 7-9" in out


def test_a_table_for_a_script_has_its_rows(capsys: Capture) -> None:
    assert main(["show", "flare-steel", "--json"]) == 0
    payload = json.loads(capsys.readouterr().out)
    assert payload["id"] == "flare-steel"
    assert len(payload["rows"]) == 7
    assert all(row["source"]["seen"] for row in payload["rows"])


def test_the_values_of_a_group_are_converted_by_its_id(capsys: Capture) -> None:
    assert main(["convert", "ac43-tension-1-4-28", "N·m", "--json"]) == 0
    (stage,) = json.loads(capsys.readouterr().out)["stages"]
    assert (stage["low"], stage["high"], stage["unit"]) == (50, 70, "in-lb")
    # 1 lbf·in = 0.1129848290276167 N·m, exact pound and inch
    assert stage["converted"]["N·m"]["high"] == pytest.approx(70 * 0.1129848290276167)


def test_what_is_neither_a_value_nor_a_group_is_refused_as_a_value(capsys: Capture) -> None:
    assert main(["convert", "no-such-group"]) == 1
    assert "is no value" in capsys.readouterr().err


def test_a_row_is_walked_with_its_first_round_and_its_source_in_the_record(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("\n" * 20))
    words = ["walk", "capscrew-8-1-2-13", "--plain", "--by", "T", "--records", str(tmp_path)]
    assert main(words) == 0
    out = capsys.readouterr().out
    # TM 10-6640-238-13, table G-1: 105 ft-lb; the first round at 70 % of it
    assert "SET 73.5 ft-lb" in out
    assert "SET 105 ft-lb, WAS 73.5 ft-lb" in out
    assert any(
        "TM 10-6640-238-13" in path.read_text(encoding="utf-8")
        for path in tmp_path.rglob("*")
        if path.is_file()
    )


def walk(*words: str, lines: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setattr("sys.stdin", io.StringIO(lines))
    return main(["walk", *words, "--plain", "--records", str(folder)])


def test_a_row_is_walked_on_as_many_bolts_as_there_are_and_gone_on_with(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    words = ("ac43-tension-3-8-24", "--circle", "6", "--drag", "25 in-lb")
    assert walk(*words, lines="\n\n\n", folder=tmp_path, monkeypatch=monkeypatch) == 0
    out = capsys.readouterr().out
    assert "reference value: the manufacturer's own figure comes first" in out
    # AC 43.13-1B, table 7-1: 160 to 190 in-lb, and para. 7-40: the drag is added, here 185 to 215
    assert "185 to 215 in-lb at the nut" in out
    assert "bolt 2, SET 200 in-lb, clockwise (2 of 6 done)" in out
    assert walk(*words, lines="\n", folder=tmp_path, monkeypatch=monkeypatch) == 0
    assert "bolt 5, SET 200 in-lb, clockwise (3 of 6 done)" in capsys.readouterr().out
    assert main(["record", "--json", "--records", str(tmp_path)]) == 0
    (walked,) = json.loads(capsys.readouterr().out)["walks"]
    assert walked["group"] == "ac43-tension-3-8-24@c6"


def test_the_same_row_elsewhere_is_another_walk(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    for how in (("--circle", "6"), ("--rows", "2x3"), ()):
        assert walk("ac43-tension-3-8-24", *how, lines="\n\n", folder=tmp_path, monkeypatch=monkeypatch) == 0
    assert "One bolt; for more: --rows 2x5, --circle 8 or --count 3." in capsys.readouterr().err
    assert len(list(tmp_path.glob("*.walk"))) == 3


def test_how_the_bolts_stand_is_not_said_of_a_group_that_has_a_picture(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert walk("exhaust-manifold", "--rows", "2x5", lines="", folder=tmp_path, monkeypatch=monkeypatch) == 2
    assert "has its own picture" in capsys.readouterr().err
    assert (
        walk(
            "exhaust-manifold",
            "--rows",
            "2",
            "--count",
            "3",
            lines="",
            folder=tmp_path,
            monkeypatch=monkeypatch,
        )
        == 2
    )
