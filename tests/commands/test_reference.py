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
