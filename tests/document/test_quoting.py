"""Text written into a TOML file comes back as it was typed."""

from __future__ import annotations

import tomli
from hypothesis import given
from hypothesis import strategies as st

from torqref.document.escape import is_hidden
from torqref.document.quoting import quoted

TYPED = st.text(st.characters(codec="utf-8"), max_size=60)


@given(TYPED)
def test_any_text_comes_back_from_the_file(text: str) -> None:
    assert tomli.loads(f"key = {quoted(text)}")["key"] == text


@given(st.text(max_size=60))
def test_nothing_that_a_terminal_obeys_stands_in_the_file_itself(text: str) -> None:
    assert not any(is_hidden(char) for char in quoted(text))


def test_a_lone_surrogate_is_spelled_out_because_toml_has_none() -> None:
    assert quoted("a\ud800b") == '"a<U+D800>b"'


def test_quotes_and_line_ends_cannot_end_the_string() -> None:
    hostile = 'x"\nverified_by = "me'
    assert "\n" not in quoted(hostile)
    assert tomli.loads(f"a = {quoted(hostile)}") == {"a": hostile}
