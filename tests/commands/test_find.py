"""`torqref find` as a technician types it: what is listed, why it was found, and whether to trust it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from torqref.cli import main

Capture = pytest.CaptureFixture[str]


def lines(capsys: Capture, *words: str) -> list[str]:
    assert main(["find", *words]) == 0
    return capsys.readouterr().out.splitlines()


def test_each_line_says_what_was_found_where_it_is_not_seen_anyway(capsys: Capture) -> None:
    (line, *_) = lines(capsys, "header", "24 Nm")
    assert line.startswith("exhaust-manifold  Exhaust manifold to cylinder head")
    assert line.endswith("[alias: header; value: 22–26 N·m (16–19 ft-lb)]")


def test_a_bare_list_has_one_line_for_a_reference_table(capsys: Capture) -> None:
    listed = lines(capsys)
    (table,) = [line for line in listed if line.startswith("ac43-tension")]
    # 25 threads in AC 43.13-1B, table 7-1
    assert "25 rows (reference table; torqref show ac43-tension)" in table
    assert len(listed) < 60


def test_a_script_gets_every_group_with_what_was_found(capsys: Capture) -> None:
    assert main(["find", "1/4-28", "tension", "--json"]) == 0
    (group, *_) = json.loads(capsys.readouterr().out)["groups"]
    assert set(group) == {"id", "name", "assembly", "file", "matched"}
    assert group["id"] == "ac43-tension-1-4-28"
    assert group["matched"]


def test_what_keeps_a_value_from_being_trusted_stands_behind_it(tmp_path: Path, capsys: Capture) -> None:
    head = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n'
    group = '[[group]]\nid = "{0}"\nname = "Zebu lid"\n{1}[[group.stage]]\ntorque = "9 N·m"\n'
    verified = 'source = { verified_by = "B", verified_on = 2026-02-14 }\n'
    text = head + group.format("one", "") + group.format("two", verified)
    (tmp_path / "sheet.toml").write_text(text, encoding="utf-8")
    assert lines(capsys, "zebu", "--specs", str(tmp_path)) == [
        "one  Zebu lid  (unverified)",
        "two  Zebu lid",
    ]


def test_a_slip_and_a_word_cut_short_are_forgiven(capsys: Capture) -> None:
    assert lines(capsys, "exaust", "manif")[0].startswith("exhaust-manifold")


def test_a_word_that_was_taken_for_another_is_told(capsys: Capture) -> None:
    assert lines(capsys, "brindle", "hedd")[0].endswith('; id: "head" for "hedd"]')


def test_the_second_search_of_a_large_library_finds_what_the_first_one_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    group = '[[group]]\nid = "zebu-{0}"\nname = "Zebu lid {0}"\n[[group.stage]]\ntorque = "{0} N·m"\n'
    text = "format = 1\n" + "".join(group.format(number) for number in range(1, 40)) + "#" * 300_000
    (tmp_path / "specs").mkdir()
    (tmp_path / "specs" / "sheet.toml").write_text(text, encoding="utf-8")
    (tmp_path / "specs" / "bad.toml").write_text("torque = 24 N·m\n", encoding="utf-8")
    words = ("find", "zebu", "9", "Nm", "--specs", str(tmp_path / "specs"))
    told = []
    for _ in range(2):
        assert main([*words]) == 0
        told.append(capsys.readouterr())
    assert told[0] == told[1]
    assert told[0].out.startswith("zebu-9  Zebu lid 9  (unverified)")
    assert "bad.toml:1: not TOML" in told[0].err
    assert (tmp_path / "cache" / "torqref" / "find.index").is_file()


def test_a_file_that_is_no_toml_is_told_and_the_rest_is_found(tmp_path: Path, capsys: Capture) -> None:
    (tmp_path / "bad.toml").write_text("torque = 24 N·m\n", encoding="utf-8")
    assert main(["find", "manifold", "--specs", str(tmp_path)]) == 0
    told = capsys.readouterr()
    assert "exhaust-manifold" in told.out
    assert "bad.toml:1: not TOML" in told.err
