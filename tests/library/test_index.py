"""Searching with every key that is typed finds what a single search finds."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqref.library.search import Index, search
from torqref.library.shelf import read_shelf, shipped_folder

GROUPS = tuple(read_shelf((shipped_folder(),)).groups.values())
INDEX = Index.of(GROUPS)


@pytest.mark.parametrize(
    "text", ["", "manifold", "hub front", "M8", "m8 x 1.25", "24", "22–26", "zzz", "brindle 24 cover"]
)
def test_what_a_technician_types(text: str) -> None:
    assert INDEX.search(text.split()) == tuple(match.group for match in search(text.split(), GROUPS))


@given(st.lists(st.text(alphabet="abehmnost248x. ·-", max_size=4), max_size=3))
def test_any_words(words: list[str]) -> None:
    assert INDEX.search(words) == tuple(match.group for match in search(words, GROUPS))


def test_no_word_is_found_across_two_fields() -> None:
    one = GROUPS[0]
    joined = f"{one.id[-3:]}{one.name[:3]}"
    assert INDEX.search([joined]) == tuple(match.group for match in search([joined], GROUPS))
