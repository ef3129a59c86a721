"""`torqref new` and `torqref import` as a shop lead types them."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest

from torqref.cli import main

Capture = pytest.CaptureFixture[str]


def test_a_file_from_options_is_shown_and_walked(tmp_path: Path, capsys: Capture) -> None:
    path = tmp_path / "cover.toml"
    words = [
        "--name",
        "Front cover",
        "--thread",
        "M8",
        "--class",
        "8.8",
        "--bolts",
        "2x5",
        "--value",
        "24 N·m",
    ]
    assert main(["new", str(path), *words]) == 0
    told = capsys.readouterr()
    assert str(path) in told.out
    assert "dry or oiled is not said" in told.err
    assert main(["show", "front-cover", "--specs", str(tmp_path)]) == 0
    assert "24 N·m" in capsys.readouterr().out
    assert main(["new", str(path), *words]) == 1
    assert "already" in capsys.readouterr().err


def test_a_file_from_answers_goes_into_the_users_own_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    answers = "Brindle\nSump\nM8\n8.8\ncircle 6\n12 N·m; 24 N·m\ndry\nown sheet\npage 1\nAnn\n"
    monkeypatch.setattr("sys.stdin", io.StringIO(answers))
    assert main(["new"]) == 0
    told = capsys.readouterr()
    path = tmp_path / "torqref" / "specs" / "sump.toml"
    assert str(path) in told.out
    assert main(["show", "sump"]) == 0
    card = capsys.readouterr().out
    assert "6 bolts" in card
    assert "own sheet, page 1" in card


def test_an_answer_that_cannot_be_read_writes_nothing(tmp_path: Path, capsys: Capture) -> None:
    path = tmp_path / "cover.toml"
    assert main(["new", str(path), "--name", "Cover", "--value", "15 lbs"]) == 1
    assert "write: 15 ft-lb" in capsys.readouterr().err
    assert not path.exists()


def test_no_name_is_wrong_usage(monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    assert main(["new"]) == 2


def test_a_table_is_imported_with_a_line_for_each_bad_row(tmp_path: Path, capsys: Capture) -> None:
    table, path = tmp_path / "values.csv", tmp_path / "new.toml"
    table.write_text("name,thread,class,value\nCover,M8,8.8,24 N·m\nSump,M8,8.8,24\n", encoding="utf-8-sig")
    assert main(["import", str(table), str(path), "--assembly", "Brindle", "--by", "Ann"]) == 1
    told = capsys.readouterr()
    assert told.out == f"{path}: 1 group, 1 row set aside as comments. Next: torqref check {path}\n"
    assert told.err.count("\n") == 1
    assert f"{table}:3: Sump: " in told.err
    assert main(["show", "cover", "--specs", str(tmp_path)]) == 0


def test_an_import_for_a_script_is_one_object(tmp_path: Path, capsys: Capture) -> None:
    table = tmp_path / "values.csv"
    table.write_text("name,value\nCover,24 N·m\n", encoding="utf-8")
    assert main(["import", str(table), str(tmp_path / "new.toml"), "--json"]) == 0
    payload = json.loads(capsys.readouterr().out)
    assert (payload["groups"], payload["problems"]) == (1, [])


def test_a_table_that_is_not_there_or_no_text_is_told(tmp_path: Path, capsys: Capture) -> None:
    assert main(["import", str(tmp_path / "no.csv"), str(tmp_path / "new.toml")]) == 1
    assert "cannot be read" in capsys.readouterr().err
    (tmp_path / "bad.csv").write_bytes(b"name,value\nCover,24 N\xb7m\n")
    assert main(["import", str(tmp_path / "bad.csv"), str(tmp_path / "new.toml")]) == 1
    assert "bad.csv:2: the table is not UTF-8 text" in capsys.readouterr().err
