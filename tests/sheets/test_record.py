"""Exports for other programs: one row an event, nothing lost, nothing a spreadsheet would run."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from pathlib import Path

import pytest

from tests.sheets.folder import CSV_FORMULA, HOSTILE, rack, walked
from tests.walk.workshop import MORNING
from torqref.document.escape import escape
from torqref.sheets.record import COLUMNS, csv_text, json_lines, record_text
from torqref.walk.archive import Record
from torqref.walk.planner import Bench

ANGLES = """
count = 4
one_time = "bolts"
[[group.stage]]
torque = "24 N·m"
window = "22–26 N·m"
[[group.stage]]
angle = "90°"
"""


def table(records: list[Record]) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(csv_text(records))))


def test_printed_set_turned_and_measured_are_columns_of_their_own(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack())
    rows = table([walked(tmp_path, "", "", "actual 23.5 N·m", "", "", "", "", text=ANGLES, bench=bench)])
    ticks = [row for row in rows if row["kind"] == "check-off"]
    values = [(row["printed"], row["set"], row["turned"], row["measured"], row["wrench"]) for row in ticks]
    assert values == [
        ("24 N·m (window 22–26 N·m)", "24.0 N·m", "", "", "W2"),
        ("24 N·m (window 22–26 N·m)", "24.0 N·m", "", "", "W2"),
        ("24 N·m (window 22–26 N·m)", "24.0 N·m", "", "", "W2"),
        ("24 N·m (window 22–26 N·m)", "24.0 N·m", "", "", "W2"),
        ("90°", "", "90°", "", ""),
    ]
    (reading,) = [row for row in rows if row["kind"] == "actual"]
    assert (reading["measured"], reading["set"], reading["bolts"]) == ("23.5 N·m", "", "2")
    assert {row["serial"] for row in ticks[:4]} == {"S-17"}
    assert {row["calibration_due"] for row in ticks[:4]} == {"2027-01-01"}


def test_a_correction_of_the_page_holds_from_there_on(tmp_path: Path) -> None:
    rows = table([walked(tmp_path, "", "", "page 28 N·m", "", "", text=ANGLES)])
    ticks = [row["printed"] for row in rows if row["kind"] == "check-off"]
    assert ticks[0] == "24 N·m (window 22–26 N·m)"
    assert set(ticks[1:]) == {"28 N·m"}


def test_a_correction_taken_back_never_held(tmp_path: Path) -> None:
    rows = table([walked(tmp_path, "", "", "page 28 N·m", "undo", "", "", text=ANGLES)])
    ticks = {row["printed"] for row in rows if row["kind"] == "check-off"}
    assert ticks == {"24 N·m (window 22–26 N·m)"}


def test_what_was_taken_back_says_so(tmp_path: Path) -> None:
    rows = table([walked(tmp_path, "", "", "", "", "undo")])
    assert [row["undone"] for row in rows if row["kind"] == "check-off"] == ["yes"]


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_no_cell_is_a_formula_and_every_row_has_its_columns(tmp_path: Path, text: str) -> None:
    record = walked(tmp_path, "", f"note {text}", "")
    odd = replace(record, header=replace(record.header, work_order=text, bay=text, by=text))
    rows = list(csv.reader(io.StringIO(csv_text([odd, odd]))))
    assert {len(row) for row in rows} == {len(COLUMNS)}
    assert len(rows) == 1 + 2 * len(record.told.events)
    cells = [cell for row in rows[1:] for cell in row]
    assert not [cell for cell in cells if cell.startswith(CSV_FORMULA)]
    assert not [char for cell in cells for char in cell if char in "\x00\x07\x1b\r\n\u202e\u200b"]
    assert any(escape(text.strip()) in cell for cell in cells)


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_json_lines_give_every_character_back(tmp_path: Path, text: str) -> None:
    record = walked(tmp_path, "", "")
    odd = replace(record, header=replace(record.header, work_order=text))
    lines = list(json_lines([odd]))
    assert all(line.endswith("\n") and line.count("\n") == 1 and line.isascii() for line in lines)
    rows = [json.loads(line) for line in lines]
    assert {row["work_order"] for row in rows} == {text}
    assert [set(row) for row in rows] == [set(COLUMNS)] * len(rows)


def test_the_text_names_wrench_serial_calibration_and_source(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack())
    text = list(record_text(walked(tmp_path, "", "", "", text=ANGLES, bench=bench)))
    assert "Wrench W2: middle, serial S-17, calibration due 2027-01-01" in text
    assert "Source: own sheet" in text
    assert text[-1] == "A setting that clicked is not a measured value; measured values are called so."
