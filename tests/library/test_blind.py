"""The second, blind entry: what is asked, what counts as the same value, and what is written into the file."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from torqref.document.problem import Problem
from torqref.document.toml import Document, parse_document, read_document
from torqref.library.amendment import amended_text
from torqref.library.blind import Blank, agrees, refusal_of, sheets_of, verified_text
from torqref.library.file import parse_library
from torqref.library.shelf import shipped_folder

HEAD = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\nentered_by = "A"\n'
COVER = (
    '[[group]]\nid = "cover"\nname = "Cover"\ncount = 2\n[[group.fastener]]\nat = "2"\ntorque = ["5 N·m", "9 N·m"]\n'
    '[[group.stage]]\nhand = "until it touches"\n[[group.stage]]\ntorque = "12 N·m"\n'
    '[[group.stage]]\ntorque = "24 N·m"\nwindow = "22–26 N·m"\n'
    '[[group.stage]]\nmeasure = "gap"\nband = "0.1–0.2 mm"\n'
)
DAY = date(2026, 2, 14)


def document(text: str) -> Document:
    found = parse_document((HEAD + text).encode(), "sheet.toml")
    assert isinstance(found, Document)
    return found


def test_every_value_of_a_group_is_asked_by_its_place_and_never_shown() -> None:
    (sheet,) = sheets_of(document(COVER))
    assert [(blank.asked, blank.text) for blank in sheet.blanks] == [
        ("stage 2, torque", "12 N·m"),
        ("stage 3, torque", "24 N·m"),
        ("stage 3, window", "22–26 N·m"),
        ("stage 4, band", "0.1–0.2 mm"),
        ("positions 2, torque 1 of 2", "5 N·m"),
        ("positions 2, torque 2 of 2", "9 N·m"),
    ]
    assert (sheet.entered_by, sheet.verified_by) == ("A", "")
    assert not any(blank.text in blank.asked for blank in sheet.blanks)


FACTS = """[[group]]
id = "pan"
thread = "M8x1.25"
class = "10.9"
diagram = '''
      FRONT
   7  3  1  5
   8  4  2  6
'''
order = "1+2 3+4 5+6 7+8"
[[group.fastener]]
at = "7 8"
thread = "M6"
[[group.stage]]
torque = "24 N·m"
"""


def test_thread_class_picture_and_order_are_asked_where_the_file_has_them_and_may_be_left_out() -> None:
    (sheet,) = sheets_of(document(FACTS))
    facts = [blank for blank in sheet.blanks if blank.optional]
    assert [(blank.asked, blank.text) for blank in facts] == [
        ("thread", "M8x1.25"),
        ("class", "10.9"),
        ("positions 7 8, thread", "M6"),
        ("numbers in the picture, row by row from the top left", "7 3 1 5 8 4 2 6"),
        ("order of the bolts, by their numbers", "1+2 3+4 5+6 7+8"),
    ]
    assert [blank.text for blank in sheet.blanks if not blank.optional] == ["24 N·m"]


def test_every_cell_with_a_value_of_a_reference_table_is_asked() -> None:
    found = read_document(shipped_folder() / "published" / "aircraft-nuts.toml")
    assert isinstance(found, Document)
    asked = {sheet.id: len(sheet.blanks) for sheet in sheets_of(found)}
    # 25 threads with a range and a largest value each, 18 least values (AC 43.13-1B, tables 7-1 and 7-2)
    assert asked == {"ac43-tension": 50, "ac43-shear": 50, "ac43-reuse": 18}


SAME = (
    ("thread", "M8x1.25", "m8"),
    ("thread", "M10", "M10 x 1,5"),
    ("class", "10.9", "class 10.9"),
    ("class", "SAE grade 8", "Grade 8"),
    ("order", "7 3 1 5", "7, 3, 1, 5"),
    ("order", "1+9 5+13", "1+9, 5+13"),
    ("torque", "22–26 N·m (16–19 ft-lb)", "22-26 Nm"),
    ("torque", "35 ft-lb (47 N·m)", "47 N·m"),
    ("torque", "82 in-lb", "82 inch pounds"),
    ("angle", "90°", "a quarter turn"),
    ("back_off", "half a turn", "180°"),
    ("chain", "30 N·m + 90° + 90°", "30 Nm then 90° then 90°"),
    ("window", "±5°", "± 5 °"),
    ("band", "0.03–0.13 mm", "0.03 - 0.13 mm"),
)
OTHER = (
    ("thread", "M10x1.5", "M10x1.25"),
    ("thread", "M10x1.5", "3/8-16"),
    ("class", "8.8", "10.9"),
    ("order", "7 3 1 5", "7 3 5 1"),
    ("order", "1+9 5+13", "1 9 5 13"),
    ("torque", "34 N·m", "43 N·m"),
    ("torque", "50 N·m", "15 N·m"),
    ("torque", "82 in-lb", "82 ft-lb"),
    ("torque", "22–26 N·m", "24 N·m"),
    ("torque", "10.5 N·m", "105 N·m"),
    ("angle", "90°", "60°"),
    ("window", "±5°", "±15°"),
    ("band", "0.03–0.13 mm", "0.03–0.12 mm"),
)


@pytest.mark.parametrize(("name", "file", "typed"), SAME)
def test_the_same_value_may_be_written_otherwise(name: str, file: str, typed: str) -> None:
    assert agrees(Blank(asked="", name=name, text=file), typed)


@pytest.mark.parametrize(("name", "file", "typed"), OTHER)
def test_another_value_never_agrees(name: str, file: str, typed: str) -> None:
    assert not agrees(Blank(asked="", name=name, text=file), typed)


def test_what_is_no_value_is_asked_again_without_telling_the_right_one() -> None:
    refusal = refusal_of(Blank(asked="", name="torque", text="34 N·m"), "34")
    assert refusal is not None
    assert "has no unit" in refusal.message
    assert refusal_of(Blank(asked="", name="torque", text="34 N·m"), "43 N·m") is None


@pytest.mark.parametrize(
    "source", ["", 'source = { reference = "page 3" }\n', "[group.source]\n"], ids=["none", "braces", "table"]
)
def test_verifying_a_group_changes_nothing_but_its_source(source: str) -> None:
    head, stages = 'id = "cover"\n', '[[group.stage]]\ntorque = "24 N·m"\n'
    before = document(f"# a remark\n[[group]]\n{head}{source}{stages}[[group]]\nid = 'other'\n{stages}")
    (sheet, _) = sheets_of(before)
    text = verified_text(before, sheet, 'B "the other"', DAY)
    assert text is not None
    file = parse_library(text.encode(), "sheet.toml")
    assert file.problems == ()
    assert [group.source.verified_by for group in file.groups] == ['B "the other"', ""]
    assert file.groups[0].source.verified_on == "2026-02-14"
    kept = [line for line in before.text.splitlines() if "source = {" not in line]
    assert [line for line in text.splitlines() if line in kept] == kept


def test_a_file_in_an_unusual_shape_is_not_written(tmp_path: Path) -> None:
    text = 'group = [{ id = "a", stage = [{ torque = "24 N·m" }] }]\n'
    before = parse_document(f"format = 1\n{text}".encode(), "sheet.toml")
    assert isinstance(before, Document)
    (sheet,) = sheets_of(before)
    assert verified_text(before, sheet, "B", DAY) is None


# --- corrections ----------------------------------------------------------------------------------


def test_a_correction_changes_one_value_and_takes_the_verification_back() -> None:
    group = COVER.replace('name = "Cover"\n', 'name = "Cover"\nsource = { verified_by = "B" }\n')
    before = document(group)
    text = amended_text(before, "cover", 2, "14 N·m")
    assert isinstance(text, str)
    changed = [
        (old, new) for old, new in zip(before.text.splitlines(), text.splitlines(), strict=True) if old != new
    ]
    assert changed == [
        ('source = { verified_by = "B" }', 'source = { verified_by = "" }'),
        ('torque = "12 N·m"', 'torque = "14 N·m"'),
    ]


@pytest.mark.parametrize(
    ("stages", "stage", "why"),
    [
        ('[[group.stage]]\nchain = "30 N·m + 90°"\n', 1, "is no plain value"),
        ('[[group.stage]]\ntorque = "24 N·m"\nwindow = "22–26 N·m"\n', 1, "lies outside its window"),
        ('[[group.stage]]\ntorque = "24 N·m"\n', 7, "is no plain value"),
    ],
    ids=["a chain", "a window beside it", "no such stage"],
)
def test_what_a_correction_cannot_do_safely_is_left_to_a_person(stages: str, stage: int, why: str) -> None:
    found = amended_text(document(f'[[group]]\nid = "a"\n{stages}'), "a", stage, "40 N·m")
    assert isinstance(found, Problem)
    assert why in found.message
    assert found.mend == "Change it by hand, then check the file."
