"""Files as they come from desktop editors and broken disks: read, or told with file, line and mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from torqref.document.problem import Problem
from torqref.document.toml import LARGEST_FILE, Document, parse_document, read_document


def problem_of(data: bytes) -> Problem:
    found = parse_document(data, "sheet.toml")
    assert isinstance(found, Problem)
    return found


def test_a_byte_order_mark_and_windows_lines_are_read() -> None:
    found = parse_document(b'\xef\xbb\xbfid = "a"\r\nname = "b"\r\n', "sheet.toml")
    assert isinstance(found, Document)
    assert found.values == {"id": "a", "name": "b"}
    assert found.lines() == {"id": 1, "name": 2}


@pytest.mark.parametrize("data", ['id = "é"'.encode("utf-16"), 'id = "é"'.encode("latin-1")])
def test_other_encodings_are_told_with_the_mend(data: bytes) -> None:
    problem = problem_of(data)
    assert problem.sentence() == "sheet.toml:1: the file is not UTF-8 text. Save it as UTF-8."


def test_a_syntax_error_has_line_and_column() -> None:
    problem = problem_of(b'id = "a"\ntorque = 24 N\n')
    assert problem.line == 2
    assert "column 13" in problem.message
    assert problem.mend == 'Put the value in quotes, as printed: torque = "24 N·m".'


def test_a_key_written_twice_is_told() -> None:
    assert problem_of(b'id = "a"\nid = "b"\n').line is not None


@pytest.mark.parametrize(
    "data",
    [b"a = " + b"[" * 5000 + b"]" * 5000, b"a = " + b"9" * 5000],
    ids=["nested deep", "a number of 5000 digits"],
)
def test_files_made_to_break_a_parser_are_problems(data: bytes) -> None:
    assert problem_of(data).file == "sheet.toml"


def test_a_missing_file_and_a_folder_are_problems(tmp_path: Path) -> None:
    for path in (tmp_path / "nothing.toml", tmp_path):
        found = read_document(path)
        assert isinstance(found, Problem)
        assert found.file == str(path)


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    path.write_bytes(b"#" * (LARGEST_FILE + 1))
    found = read_document(path)
    assert isinstance(found, Problem)
    assert found.mend == "Split it into one file an assembly."
