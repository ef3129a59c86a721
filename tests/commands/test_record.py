"""`torqref record`: what a shop lead asks of the records of several bays."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from tests.commands.repair import Garage, group
from tests.sheets.folder import Page

LIBRARY = (
    group("bracket", 'torque = "30 N·m"')
    + group("flange", 'torque = "20 N·m"', 'wait = "cold"\ndue = { hours = 4 }', 'torque = "20 N·m"', more="count = 4")
    + group("wheel", 'torque = "90 N·m"', more='count = 1\nplaces = ["left", "right"]')
)  # fmt: skip
JOB = '[[step]]\ndo = "bracket"\n[[recheck]]\ntext = "bracket"\ndue = { km = 500 }\nowner = true\n'


@pytest.fixture
def garage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Garage:
    """Three walks of two people on two days, and a signed job with a recheck due."""
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    garage.write(JOB, LIBRARY)
    walk(garage, "bracket", "--by", "Ada", "--work-order", "17", lines="\n\n")
    walk(garage, "flange", "--by", "Bo", "--work-order", "17", lines="\n" * 6)
    garage.clock.pass_(days=1)
    walk(garage, "wheel", "--by", "Bo", "--work-order", "18", lines="\n\n")
    garage.small("--by", "Cy", "--work-order", "19", lines="\n\n\nsign Cy\n")
    return garage


def walk(garage: Garage, *words: str, lines: str) -> None:
    call = ("walk", *words, "--plain", "--specs", str(garage.folder / "specs"))
    garage.run(*call, "--records", str(garage.records), lines=lines)


def record(garage: Garage, *words: str) -> list[str]:
    return garage.run("record", *words, "--records", str(garage.records))


def groups(garage: Garage, *words: str) -> list[str]:
    return [walk["group"] for walk in garage.record(*words)["walks"]]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ((), ["bracket", "flange", "wheel", "bracket"]),
        (("--group", "bracket"), ["bracket", "bracket"]),
        (("--by", "bo"), ["flange", "wheel"]),
        (("--work-order", "17"), ["bracket", "flange"]),
        (("--since", "2027-03-02"), ["wheel", "bracket"]),
        (("--until", "2027-03-01"), ["bracket", "flange"]),
        (("--since", "2027-03-01", "--until", "2027-03-01", "--by", "Ada"), ["bracket"]),
        (("--due",), ["flange"]),
        (("--by", "nobody"), []),
    ],
)
def test_the_list_is_narrowed_by_group_person_order_day_and_what_is_due(
    garage: Garage, words: tuple[str, ...], expected: list[str]
) -> None:
    assert groups(garage, *words) == expected


def test_open_due_items_are_listed_with_their_time(garage: Garage) -> None:
    said = record(garage, "--due")
    assert any(line.endswith("flange  due  The flange, order 17") for line in said)
    assert any(line.startswith("  due: The flange: cold, due 2027-03-01 12:0") for line in said)
    assert "  due: recheck 1, bracket: after 500 km" in said


def test_the_list_names_jobs_and_walks(garage: Garage) -> None:
    said = record(garage)
    assert sum(" JOB Small repair, order 19" in line for line in said) == 1
    assert sum("The wheel" in line for line in said) == 1


def test_a_walk_is_found_by_a_part_of_its_name_and_told_whole(garage: Garage) -> None:
    said = record(garage, "flange")
    assert said[0] == "The flange"
    assert any("set 20 N·m" in line for line in said)


def test_csv_and_json_lines_hold_the_same_rows(garage: Garage) -> None:
    rows = list(csv.DictReader(io.StringIO("\n".join(record(garage, "--csv")) + "\n")))
    lines = [json.loads(line) for line in record(garage, "--jsonl")]
    events = sum(len(each["events"]) for each in garage.record()["walks"])
    assert len(rows) == len(lines) == events
    assert [row["walk"] for row in rows] == [line["walk"] for line in lines]
    assert [row["number"] for row in rows] == [str(line["number"]) for line in lines]


def test_the_walks_of_a_job_are_exported_with_it(garage: Garage) -> None:
    rows = list(csv.DictReader(io.StringIO("\n".join(record(garage, "small", "--csv")) + "\n")))
    assert {row["group"] for row in rows} == {"bracket"}
    assert {row["work_order"] for row in rows} == {"19"}


def test_one_page_for_all_that_fits(garage: Garage) -> None:
    page = garage.folder / "march.html"
    record(garage, "--html", str(page), "--since", "2027-03-01")
    shown = Page(page.read_text(encoding="utf-8"))
    assert "Records of 4 walks" in shown.text
    assert shown.tags.count("section") == 5


def test_the_picture_of_one_walk(garage: Garage) -> None:
    picture = garage.folder / "flange.svg"
    record(garage, "flange", "--svg", str(picture))
    assert "<svg" in picture.read_text(encoding="utf-8")
    for words, answer in ((("bracket",), "2 fit"), (("wheel",), "has 2 places")):
        code, _ = garage.call("record", *words, "--svg", str(picture), "--records", str(garage.records))
        assert code == 1
        assert answer in garage.errors


def test_the_slip_of_a_job_and_of_a_walk(garage: Garage) -> None:
    said = record(garage, "small", "--slip")
    assert "[ ] bracket: after 500 km" in said
    assert "Work order: 19" in said
    assert "[ ] The flange: tighten again: 4 hours" in record(garage, "flange", "--slip")
    page = garage.folder / "slip.html"
    record(garage, "small", "--slip", "--html", str(page))
    assert Page(page.read_text(encoding="utf-8")).row("bracket")[1] == "after 500 km"


@pytest.mark.parametrize(
    ("words", "code", "answer"),
    [
        (("--since", "yesterday"), 2, "is not a date; write it as 2027-03-01"),
        (("--until", "2027-13-01"), 2, "is not a date"),
        (("--csv", "--jsonl"), 2, "one kind of sheet at a time"),
        (("--csv", "--html", "x.html"), 2, "one kind of sheet at a time"),
        (("no-such-walk",), 1, "no walk or job named no-such-walk"),
        (("--by", "nobody", "--html", "x.html"), 1, "no walk fits"),
        (("--by", "nobody", "--slip"), 1, "no slip to write"),
    ],
)
def test_what_cannot_be_shown_says_why(
    garage: Garage, words: tuple[str, ...], code: int, answer: str
) -> None:
    found, _ = garage.call("record", *words, "--records", str(garage.records))
    assert found == code
    assert answer in garage.errors


def test_a_damaged_journal_is_told_with_its_line_and_the_rest_is_shown(garage: Garage) -> None:
    path = next(garage.records.glob("*-flange.walk"))
    lines = path.read_bytes().split(b"\n")
    lines[3] = lines[3].replace(b"kind", b"kInd")
    path.write_bytes(b"\n".join(lines))
    code, said = garage.call("record", "--csv", "--records", str(garage.records))
    assert code == 1
    assert "line 4 of the record is damaged" in garage.errors
    assert any(",wheel," in line for line in said)


def test_a_damaged_job_is_told_and_its_walks_stay(garage: Garage) -> None:
    path = next(garage.records.glob("*.job"))
    data = path.read_bytes()
    path.write_bytes(data[:200] + b"#" + data[201:])
    code, said = garage.call("record", "--records", str(garage.records))
    assert code == 1
    assert sum("The bracket" in line for line in said) == 2


def test_an_empty_folder_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    garage.records.mkdir()
    assert record(garage) == []
    assert garage.errors == "No walks yet.\n"


def test_a_folder_that_was_named_and_is_not_there_is_told_and_a_new_users_own_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    for words in (("record",), ("check", "--corrections")):
        # where even the folder around it is missing, it is a slip and no first day
        for place, wanted in (("nowhere", 0), ("nowhere/at all", 1)):
            code, said = garage.call(*words, "--records", str(tmp_path / place))
            assert (code, said) == (wanted, [])
            assert f"{place}: the folder of records does not exist" in garage.errors
            assert "No walks yet" not in garage.errors
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    code, said = garage.call("record")
    assert (code, said, garage.errors) == (0, [], "No walks yet.\n")


def corrected(garage: Garage) -> None:
    """The value of the bracket is another one today."""
    path = garage.folder / "specs" / "small.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("30 N·m", "33 N·m"), encoding="utf-8")


SAID = "finished by values since corrected: stage 1: 30 N·m is now 33 N·m"


def test_walks_by_values_since_corrected_are_named_in_the_list_and_in_the_record(garage: Garage) -> None:
    specs = ("--specs", str(garage.folder / "specs"))
    assert not any("corrected" in line for line in record(garage, *specs))
    corrected(garage)
    said = record(garage, *specs)
    assert said.count(f"  {SAID}") == 2
    assert "finished  The bracket" in said[said.index(f"  {SAID}") - 1]
    shown = record(garage, "bracket", "--work-order", "17", *specs)
    assert f"F{SAID[1:]}" in shown


def test_json_has_what_was_corrected_and_what_is_due_as_lists(garage: Garage) -> None:
    corrected(garage)
    walks = garage.record("--specs", str(garage.folder / "specs"))["walks"]
    assert [walk["outdated"] for walk in walks] == [
        ["stage 1: 30 N·m is now 33 N·m"],
        [],
        [],
        ["stage 1: 30 N·m is now 33 N·m"],
    ]
    due = [line for walk in walks for line in walk["due"]]
    assert len(due) == 1
    assert due[0].startswith("The flange: cold, due 2027-03-01 12:0")


def test_without_its_library_nothing_is_called_corrected(garage: Garage) -> None:
    corrected(garage)
    assert not any("corrected" in line for line in record(garage))


def test_a_walk_of_a_job_says_in_the_record_of_the_job_what_was_corrected(garage: Garage) -> None:
    corrected(garage)
    said = record(garage, "small", "--specs", str(garage.folder / "specs"))
    assert f"F{SAID[1:]}" in said


@pytest.mark.parametrize("name", ["", "small"])
def test_the_page_says_it_too(garage: Garage, name: str) -> None:
    corrected(garage)
    page = garage.folder / "record.html"
    wanted = (name,) if name else ()
    record(garage, *wanted, "--specs", str(garage.folder / "specs"), "--html", str(page))
    assert f"F{SAID[1:]}" in page.read_text(encoding="utf-8")
