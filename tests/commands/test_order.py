"""`torqref order` as somebody types it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.pattern.published import HEAD, ORDERS, PUMP
from torqref.cli import main

Output = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def _eighty_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")


def answer(words: list[str], capsys: Output) -> tuple[int, dict[str, Any]]:
    code = main(["order", *words, "--json"])
    out = capsys.readouterr()
    assert out.err == ""
    return code, json.loads(out.out)


def diagram(folder: Path, text: str) -> str:
    path = folder / "sheet.txt"
    path.write_text(text, encoding="utf-8")
    return str(path)


@pytest.mark.parametrize("bolts", [3, 5, 8, 12, 48, 199, 200])
def test_a_circle_answers_with_a_generic_order_that_starts_at_one(bolts: int, capsys: Output) -> None:
    code, found = answer(["circle", str(bolts)], capsys)
    assert code == 0
    assert set(found) == {"order", "basis", "generic", "problems"}
    assert found["order"][0] == 1
    assert sorted(found["order"]) == list(range(1, bolts + 1))
    assert found["generic"] is True
    assert "generic, not the manufacturer's" in found["basis"]
    assert found["problems"] == []


def test_five_wheel_nuts_go_as_a_star(capsys: Output) -> None:
    # Common practice, no source; agrees with US Army TM 10-4320-344-24, para. 2.23.1.
    assert answer(["circle", "5"], capsys)[1]["order"] == [1, 3, 5, 2, 4]


def test_a_line_of_nine_goes_as_the_army_prints_it(capsys: Output) -> None:
    published = next(entry for entry in ORDERS if entry["id"] == "army-straight-9")
    assert answer(["rows", "1x9"], capsys)[1]["order"] == published["order"]


@pytest.mark.parametrize("typed", ["2x5", "2X5", "2×5", "5,5"])
def test_rows_are_typed_in_several_ways(typed: str, capsys: Output) -> None:
    found = answer(["rows", typed], capsys)[1]
    assert set(found["order"][:2]) == {3, 8}
    assert sorted(found["order"]) == list(range(1, 11))


def test_pairs_and_groups_are_for_circles(capsys: Output) -> None:
    assert answer(["circle", "8", "--pairs"], capsys)[1]["order"] == [1, 5, 3, 7, 2, 6, 4, 8]
    assert answer(["circle", "48", "--groups", "4"], capsys)[1]["order"][:5] == [1, 2, 3, 4, 25]
    for words in (["rows", "2x5", "--pairs"], ["circle", "8", "--pairs", "--groups", "2"]):
        code, found = answer(words, capsys)
        assert code == 2
        assert "one of them at a time" in found["refused"]
    assert answer(["circle", "7", "--pairs"], capsys)[0] == 2
    assert answer(["circle", "8", "--groups", "99"], capsys)[0] == 2


@pytest.mark.parametrize(
    ("words", "code", "message"),
    [
        (["circle", "0"], 1, "circle of 0 bolts"),
        (["circle", "-3"], 1, "circle of -3 bolts"),
        (["circle", "2"], 1, "at least 3"),
        (["circle", "999"], 1, "999 positions are too many"),
        (["circle", "eight"], 2, '"eight" is no number'),
        (["circle", "8.5"], 2, '"8.5" is no number'),
        (["circle", "1" * 5000], 2, "is no number"),
        (["circle"], 2, "torqref order circle 8"),
        (["rows", "2"], 2, '"2" does not say rows by columns'),
        (["rows", "0x5"], 1, "no row at all"),
        (["rows", "5x0"], 1, "rows of 0, 0, 0, 0, 0"),
        (["rows", "3,0"], 1, "rows of 3, 0"),
        (["rows", "15x15"], 1, "225 positions"),
        (["rows", "999999999x9"], 1, "too many"),
        (["rows"], 2, "torqref order rows 2x5"),
        (["nowhere.txt"], 1, "nowhere.txt: the file cannot be read"),
        (["squares", "5"], 2, '"squares" is neither circle nor rows'),
        (["nowhere.toml"], 1, "nowhere.toml: the file cannot be read"),
        (["nowhere.toml", "--pairs"], 2, "stands alone"),
    ],
)
def test_wrong_input_has_its_own_message(words: list[str], code: int, message: str, capsys: Output) -> None:
    assert main(["order", *words]) == code
    out = capsys.readouterr()
    assert message in out.err
    assert out.out == ""
    found = answer(words, capsys)
    assert found[0] == code
    assert message in found[1]["refused"]
    assert found[1]["readings"] == []


def test_nothing_said_is_wrong_usage(capsys: Output) -> None:
    assert main(["order"]) == 2
    assert "circle|rows|FILE" in capsys.readouterr().err


def test_a_folder_and_a_binary_file_are_told(tmp_path: Path, capsys: Output) -> None:
    assert main(["order", str(tmp_path)]) == 1
    binary = tmp_path / "picture.png"
    binary.write_bytes(b"\x89PNG\xff\xfe")
    assert main(["order", str(binary)]) == 1
    assert "not UTF-8" in capsys.readouterr().err


def test_the_page_for_a_circle_shows_picture_order_limit_and_plot(capsys: Output) -> None:
    assert main(["order", "circle", "8"]) == 0
    out = capsys.readouterr().out
    assert "[1]" in out
    assert "order  1 5 3 7 2 6 4 8" in out
    assert out.count("manufacturer's") == 2
    assert "1.0 |#" in out


@pytest.mark.parametrize("columns", [30, 44, 80, 100])
@pytest.mark.parametrize("words", [["circle", "24"], ["circle", "200"], ["rows", "2x5"], ["rows", "4x10"]])
def test_the_page_keeps_within_the_terminal(
    columns: int, words: list[str], capsys: Output, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    assert main(["order", *words]) == 0
    assert max(map(len, capsys.readouterr().out.splitlines())) <= columns


def test_a_drawn_order_without_fault_is_shown_beside_the_usual_one(tmp_path: Path, capsys: Output) -> None:
    assert main(["order", diagram(tmp_path, PUMP)]) == 0
    out = capsys.readouterr()
    assert out.err == ""
    assert "order  1 2 3 4 5 6 7 8 9" in out.out
    assert "usual  1 2 4 3" in out.out
    assert "(shaft)" in out.out
    assert "o the usual one" in out.out


def test_the_numbers_of_a_file_are_the_order_and_are_not_generic(tmp_path: Path, capsys: Output) -> None:
    code, found = answer([diagram(tmp_path, HEAD)], capsys)
    assert code == 0
    assert found == {
        "order": list(range(1, 11)),
        "basis": "as the page numbers the positions",
        "generic": False,
        "problems": [],
    }


def test_an_order_drawn_round_a_ring_is_told_and_passes(tmp_path: Path, capsys: Output) -> None:
    ring = diagram(tmp_path, "    1\n 8     2\n7       3\n 6     4\n    5\n")
    code, found = answer([ring], capsys)
    assert code == 0
    problem = found["problems"][0]
    assert set(problem) == {"file", "line", "key", "message", "mend", "severity"}
    assert problem["severity"] == "warning"
    assert problem["file"].endswith("sheet.txt")
    assert "1 5 3 7 2 6 4 8" in problem["mend"]
    assert main(["order", ring]) == 0
    assert "warning: " in capsys.readouterr().err


def test_a_rail_of_five_clamps_is_left_in_peace(tmp_path: Path, capsys: Output) -> None:
    assert answer([diagram(tmp_path, "1  2  3  4  5\n")], capsys) == (
        0,
        {
            "order": [1, 2, 3, 4, 5],
            "basis": "as the page numbers the positions",
            "generic": False,
            "problems": [],
        },
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("1  2  4\n", "without 3"),
        ("1  2  2\n", "2 stands 2 times"),
        ("1\t2\n", "holds a tab"),
        ("FRONT\n", "no positions"),
        ("", "no positions"),
    ],
)
def test_a_faulty_diagram_exits_with_one_and_its_mend(
    text: str, message: str, tmp_path: Path, capsys: Output
) -> None:
    code, found = answer([diagram(tmp_path, text)], capsys)
    assert code == 1
    assert any(message in problem["message"] and problem["mend"] for problem in found["problems"])
    assert found["generic"] is False
    assert main(["order", diagram(tmp_path, text)]) == 1
    assert "error: " in capsys.readouterr().err


def test_a_library_file_of_one_group_needs_no_name_and_takes_no_other(tmp_path: Path, capsys: Output) -> None:
    path = tmp_path / "own.toml"
    path.write_text(
        'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n'
        '[[group]]\nid = "cover"\nlayout = { circle = 8 }\norder = "1 2 3 4 5 6 7 8"\n'
        '[[group.stage]]\ntorque = "24 N·m"\n',
        encoding="utf-8",
    )
    code, found = answer([str(path)], capsys)
    assert code == 0
    assert found["order"] == [1, 2, 3, 4, 5, 6, 7, 8]
    assert "1 5 3 7 2 6 4 8" in found["problems"][0]["mend"]
    code, found = answer([str(path), "pump"], capsys)
    assert code == 1
    assert 'no group "pump"' in found["refused"]


def test_windows_line_endings_and_a_byte_order_mark_are_read(tmp_path: Path, capsys: Output) -> None:
    path = tmp_path / "sheet.txt"
    path.write_bytes(b"\xef\xbb\xbf3  1  2\r\n")
    assert answer([str(path)], capsys)[1]["order"] == [1, 2, 3]


def test_a_file_cannot_steer_the_terminal(tmp_path: Path, capsys: Output) -> None:
    assert main(["order", diagram(tmp_path, "1  2\n\x1b[2J  3\n")]) == 0
    out = capsys.readouterr()
    assert "\x1b" not in out.out + out.err


@pytest.mark.parametrize("size", ["2x5", "2X5", "2*5", "2×5", "5,5", "5/5"])
def test_rows_are_written_as_in_a_quick_walk(size: str, capsys: Output) -> None:
    code, found = answer(["rows", size], capsys)
    assert (code, found["order"]) == (0, [3, 8, 2, 9, 7, 4, 6, 5, 1, 10])


@pytest.mark.parametrize("text", ["(1) (2)\n(3) (4)\n", "① ②\n③ ④\n", "１ ２\n３ ４\n"])
def test_bolts_that_are_no_plain_digits_are_answered_with_the_digits(
    text: str, tmp_path: Path, capsys: Output
) -> None:
    code, found = answer([diagram(tmp_path, text)], capsys)
    assert code == 1
    assert found["problems"][0]["mend"].startswith("Write 1 and not ")
