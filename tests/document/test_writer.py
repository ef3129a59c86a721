"""Single keys set in a file that a person wrote; every other letter of it stays."""

from __future__ import annotations

from pathlib import Path

import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from torqref.document.quoting import quoted
from torqref.document.writer import replace_file, with_keys

VALUES = {"verified_by": '"B"', "verified_on": "2026-02-14"}
# A file before, and the same with the two keys set.
CASES = (
    (
        '[[group]]\nid = "a" # the cover\n',
        '[[group]]\nsource = { verified_by = "B", verified_on = 2026-02-14 }\nid = "a" # the cover\n',
    ),
    (
        '[[group]]\nid = "a"\nsource = { title = "own, {sheet}" } # mine\n',
        '[[group]]\nid = "a"\nsource = { title = "own, {sheet}", verified_by = "B", verified_on = 2026-02-14 } # mine\n',
    ),
    (
        '[[group]]\nid = "a"\nsource = {}\n',
        '[[group]]\nid = "a"\nsource = { verified_by = "B", verified_on = 2026-02-14 }\n',
    ),
    (
        '[[group]]\nid = "a"\nsource = { verified_by = "", title = "x" }\n',
        '[[group]]\nid = "a"\nsource = { verified_by = "B", title = "x", verified_on = 2026-02-14 }\n',
    ),
    (
        '[[group]]\nid = "a"\n[group.source]\nverified_by = ""   # nobody yet\ntitle = "x"\n',
        '[[group]]\nid = "a"\n[group.source]\nverified_on = 2026-02-14\nverified_by = "B"   # nobody yet\ntitle = "x"\n',
    ),
)


@pytest.mark.parametrize(("before", "after"), CASES)
def test_keys_are_set_where_they_stand_or_where_they_belong(before: str, after: str) -> None:
    assert with_keys(before, "group[1].source", VALUES) == after


@pytest.mark.parametrize(
    "text",
    [
        'group = [{ id = "a" }]\n',
        '[[group]]\nid = "a"\nsource = {\n  title = "x" }\n',
        '[[group]]\nid = "a"\n[group.source]\nverified_by = """B"""\n',
        'format = 1\n',
    ],
    ids=["groups in brackets", "a table over two lines", "a text of several lines", "no such group"],
)  # fmt: skip
def test_what_is_written_in_an_unusual_way_is_left_alone(text: str) -> None:
    assert with_keys(text, "group[1].source", VALUES) is None


@given(st.text(max_size=30), st.text(max_size=30))
def test_any_text_comes_back_as_it_was_written(before: str, after: str) -> None:
    if any("\ud800" <= char <= "\udfff" for char in before + after):
        return
    file = f'[[group]]\nid = "a"\nname = {quoted(before)} # a name\n[[group]]\nid = "b"\n'
    changed = with_keys(file, "group[1]", {"name": quoted(after)})
    assert changed is not None
    assert tomli.loads(changed) == {"group": [{"id": "a", "name": after}, {"id": "b"}]}


@pytest.mark.parametrize(
    ("before", "after"),
    [(b"a = 1\r\nb = 2\r\n", b"a = 2\r\nb = 2\r\n"), (b"\xef\xbb\xbfa = 1\n", b"\xef\xbb\xbfa = 2\n")],
    ids=["Windows line ends", "a byte-order mark"],
)
def test_line_ends_and_mark_stay_as_they_were(before: bytes, after: bytes, tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(before)
    text = before.removeprefix(b"\xef\xbb\xbf").decode().replace("\r\n", "\n").replace("a = 1", "a = 2")
    assert replace_file(path, text, before) is None
    assert path.read_bytes() == after
    assert [other.name for other in tmp_path.iterdir()] == ["x.toml"]


def test_a_file_that_somebody_else_has_changed_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(b"a = 3\n")
    problem = replace_file(path, "a = 2\n", b"a = 1\n")
    assert problem is not None
    assert problem.message == "the file has changed meanwhile"
    assert path.read_bytes() == b"a = 3\n"
