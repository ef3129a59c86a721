"""Rows of a table become groups; each bad row is told once, and nothing of the table is lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqref.library.file import parse_library
from torqref.library.table_import import import_table

TABLE = """\
Name;Thread;Class;Value;Unit;Qty;Condition;Source;Colour
Front cover;M8;8.8;22–26;N·m;10;dry;own sheet;red
Front cover;M6;8.8;10;N·m;2;dry;own sheet;
Sump;M8;8.8;24;;12;dry;own sheet;blue
;M8;8.8;24;N·m;1;;;
Head bolt;M12x1.75;10.9;30 N·m + 90°;;10;oiled;own sheet;

Plug;M14x1.5;;25;lbs;1;;;
Cap;M10;8.8;45;N·m;two;dry;;
"Long; name
on two lines";M10;8.8;45;N·m;2;dry;;;extra
"""


def test_good_rows_become_groups_with_what_stands_beside_them() -> None:
    found = import_table(TABLE, "values.csv", "Brindle", "A. Clerk")
    file = parse_library(found.text.encode(), "new.toml")
    assert file.problems == ()
    assert file.assembly == "Brindle"
    said = [(g.id, g.name, g.thread, g.grade, len(g.layout.positions), g.condition) for g in file.groups]
    assert said == [
        ("front-cover", "Front cover", "M8", "8.8", 10, "dry"),
        ("front-cover-2", "Front cover", "M6", "8.8", 2, "dry"),
        ("head-bolt", "Head bolt", "M12x1.75", "10.9", 10, "oiled"),
        ("long-name-on-two-lines", "Long; name on two lines", "M10", "8.8", 2, "dry"),
    ]
    assert [stage.text for stage in file.groups[0].stages] == ["22–26 N·m"]
    assert [stage.kind for stage in file.groups[2].stages] == ["torque", "angle"]
    assert file.groups[0].source.title == "own sheet"
    assert file.groups[3].source.entered_by == "A. Clerk"


def test_each_bad_row_has_one_message_with_its_line() -> None:
    told = import_table(TABLE, "values.csv").problems
    assert [(problem.line, problem.severity) for problem in told] == [
        (1, "warning"), (4, "error"), (5, "error"), (8, "error"), (9, "error"),
    ]  # fmt: skip
    assert [problem.message.partition(";")[0] for problem in told] == [
        'column 9, "Colour", is not known',
        '"24": "24" has no unit',
        "the row has no name",
        '"25 lbs": "lbs" is a force, not a torque',
        'found the text "two", expected a whole number',
    ]


def test_nothing_of_the_table_is_lost() -> None:
    text = import_table(TABLE, "values.csv").text
    for cell in (
        "# Colour: red",
        "#   Sump;M8;8.8;24;;12;dry;own sheet;blue",
        "#   ;M8;8.8;24;N·m;1;;;",
        "extra",
    ):
        assert cell in text
    assert "#   Plug;M14x1.5;;25;lbs;1;;;" in text


@pytest.mark.parametrize("sign", [",", ";", "\t", "|"], ids=["comma", "semicolon", "tab", "stroke"])
def test_the_sign_between_the_cells_is_seen(sign: str) -> None:
    table = "name,torque,grade\nCover,24 N·m,8.8\n".replace(",", sign)
    found = import_table(table, "values.csv")
    assert (found.groups, found.problems) == (1, ())
    assert parse_library(found.text.encode(), "x").groups[0].grade == "8.8"


@pytest.mark.parametrize(
    ("table", "told"),
    [
        ("", "the table is empty"),
        ("thread,class\nM8,8.8\n", "no column is named name or value"),
        ('name,value\n"Cover,24 N·m\n', "the row has no value"),
        ("name,value\n\n", "the table has no row below its first"),
    ],
)
def test_a_table_that_holds_no_good_row_gives_no_file(table: str, told: str) -> None:
    found = import_table(table, "values.csv")
    assert (found.text, found.groups) == ("", 0)
    assert [problem.message for problem in found.problems] == [told]


CELL = st.text(st.characters(codec="utf-8"), max_size=12)


@given(st.lists(st.tuples(CELL, CELL, CELL), max_size=6))
def test_whatever_stands_in_the_cells_the_file_can_be_read_and_every_row_is_accounted_for(
    rows: list[tuple[str, str, str]],
) -> None:
    import csv
    import io

    out = io.StringIO()
    csv.writer(out).writerows([("name", "value", "colour"), ("Cover", "24 N·m", "red"), *rows])
    found = import_table(out.getvalue(), "values.csv")
    file = parse_library(found.text.encode(), "x")
    assert file.problems == ()
    assert len(file.groups) == found.groups
    bad = sum(problem.severity == "error" for problem in found.problems)
    blank = sum(not "".join(row).strip() for row in rows)
    assert found.groups + bad == 1 + len(rows) - blank


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("nam,value\nCover,24 Nm\n", 'Did you mean "name" and not "nam"?'),
        ("name,value\n", "the table has no row below its first"),
        ("name,value\nLid,1,200 ft-lb\n", "Put a value that holds a comma in quotes."),
        ("name,value\nLid,24,5 Nm\n", "Put a value that holds a comma in quotes."),
    ],
)
def test_a_slip_in_the_table_is_told_with_its_mend(text: str, told: str) -> None:
    found = import_table(text, "values.csv")
    assert found.text == ""
    assert told in " ".join(problem.sentence() for problem in found.problems)


def test_an_empty_cell_more_at_the_end_of_a_row_does_no_harm() -> None:
    assert import_table("name,value\nLid,24 Nm,\n", "values.csv").groups == 1
