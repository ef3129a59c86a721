"""Reading tables: what is wrong is told once, at its line, with what to write instead."""

from __future__ import annotations

import pytest

from torqref.document.problem import Problem
from torqref.document.refusal import Refusal
from torqref.document.table import Table
from torqref.document.toml import Document, parse_document


def table_of(text: str) -> Table:
    document = parse_document(text.encode(), "sheet.toml")
    assert isinstance(document, Document)
    return Table.of(document)


def test_a_text_a_flag_and_a_number_are_read() -> None:
    table = table_of('name = "cover"\nblind = true\nbolts = 12\n')
    assert (table.text("name"), table.flag("blind"), table.whole("bolts")) == ("cover", True, 12)
    table.close()
    assert table.problems == ()


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("torque = 24", "found the bare number 24, expected text in quotes"),
        ("torque = 2.5", "found the bare number 2.5, expected text in quotes"),
        ("torque = true", "found true, expected text in quotes"),
        ('torque = ["24 N·m"]', "found a list, expected text in quotes"),
        ("torque = 2026-01-02", "found a date or time, expected text in quotes"),
    ],
)
def test_a_value_that_is_no_text_is_refused_with_what_was_found(text: str, found: str) -> None:
    table = table_of(text)
    assert table.text("torque") == ""
    (problem,) = table.problems
    assert (problem.message, problem.line, problem.key) == (found, 1, "torque")


def test_a_truth_value_is_no_number() -> None:
    table = table_of("bolts = true")
    assert table.whole("bolts") is None
    assert table.problems[0].message == "found true, expected a whole number"


def test_an_unknown_key_is_refused_with_the_nearest_known_one() -> None:
    table = table_of('tourque = "24 N·m"')
    table.text("torque")
    table.close()
    assert table.problems[0].sentence() == (
        'sheet.toml:1: tourque: unknown key "tourque". Did you mean "torque"?'
    )


def test_a_key_that_belongs_elsewhere_is_sent_there() -> None:
    table = table_of('torque = "24 N·m"')
    table.text("id")
    table.close({"torque": "[[group.stage]]"})
    assert table.problems[0].mend == '"torque" belongs under [[group.stage]].'


def test_reading_a_wrong_key_twice_tells_it_once() -> None:
    table = table_of("torque = 24")
    table.text("torque")
    table.text("torque")
    assert len(table.problems) == 1


def test_problems_come_in_the_order_of_their_lines() -> None:
    table = table_of("a = 1\nb = 2\nc = 3\n")
    for name in ("c", "a", "b"):
        table.text(name)
    assert [problem.line for problem in table.problems] == [1, 2, 3]


def test_tables_of_an_array_are_counted_from_one() -> None:
    table = table_of('[[group]]\nid = "a"\n[[group]]\nid = 7\n[[group.stage]]\nhand = 1\n')
    for group in table.tables("group"):
        group.text("id")
        for stage in group.tables("stage"):
            stage.text("hand")
    assert [(problem.line, problem.key) for problem in table.problems] == [
        (4, "group[2].id"),
        (6, "group[2].stage[1].hand"),
    ]


def test_lines_inside_a_diagram_are_not_taken_for_keys() -> None:
    table = table_of("diagram = '''\n id = 1\n'''\nid = 2\n")
    table.text("id")
    assert table.problems[0].line == 4


def test_hidden_characters_of_a_file_are_made_visible() -> None:
    table = table_of('name = "cover\\u001b[2J\\u202e21"')
    assert table.text("name") == "cover<U+001B>[2J<U+202E>21"


def test_a_word_of_a_closed_list_is_refused_with_the_nearest() -> None:
    table = table_of('purpose = "clmp"')
    assert table.word("purpose", ("clamp", "seal"), "clamp") == "clamp"
    assert table.problems[0].mend == 'Did you mean "clamp"?'


def test_a_problem_reads_as_place_found_expected_and_mend() -> None:
    problem = Problem(file="a.toml", line=3, key="group[1].id", message="id is missing", mend="Write an id.")
    assert problem.sentence() == "a.toml:3: group[1].id: id is missing. Write an id."


def test_a_hidden_character_is_told_once_and_not_where_the_text_was_refused_anyhow() -> None:
    table = table_of(
        'name = "cover\\u001b[2J"\nnotes = ["a", "b\\u202e"]\ntorque = "24\\u200b"\nok = "a\\tb"\n'
    )
    table.text("name")
    table.texts("notes")
    table.text("ok")
    table.read("torque", lambda text: Refusal(text=text, message="no unit"), "24 N·m")
    table.close()
    assert [(problem.key, problem.severity) for problem in table.problems] == [
        ("name", "warning"), ("notes", "warning"), ("torque", "error"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("readings", "mend"),
    [
        ((), 'Write it like this: within = "10 min".'),
        (("10 min",), 'Write within = "10 min".'),
        (("10 min", "10 h"), "Write one of: 10 min; 10 h."),
        (('1 1/2"',), 'Write within = "1 1/2\\"".'),
    ],
)
def test_the_mend_of_a_refused_text_can_be_typed_as_it_is(readings: tuple[str, ...], mend: str) -> None:
    table = table_of('within = "10"')
    table.read("within", lambda text: Refusal(text=text, message="no", readings=readings), "10 min")
    assert table.problems[0].mend == mend


@pytest.mark.parametrize(
    ("text", "message", "mend"),
    [
        (
            'bolts = "three"',
            'found the text "three", expected a whole number',
            "Write it like this: bolts = 4.",
        ),
        (
            'bolts = "3"',
            'found the text "3", expected a whole number',
            "Take it out of its quotes: bolts = 3.",
        ),
        ("bolts = [3]", "found a list, expected a whole number", "Write it like this: bolts = 4."),
    ],
)
def test_a_value_that_is_no_number_says_what_was_found_and_how_one_is_written(
    text: str, message: str, mend: str
) -> None:
    table = table_of(text)
    assert table.whole("bolts") is None
    assert (table.problems[0].message, table.problems[0].mend) == (message, mend)


def test_a_text_where_tables_belong_is_told_with_their_header() -> None:
    table = table_of('[[group]]\nstage = "24 N·m"\n')
    table.tables("group")[0].tables("stage")
    assert table.problems[0].mend == "Write [[group.stage]] on a line above its keys."
