"""How the bolts stand, in the few letters that a thumb types."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqref.document.refusal import Refusal
from torqref.library.arrangement import Arrangement, read_arrangement
from torqref.library.file import parse_library


@pytest.mark.parametrize(
    ("text", "words", "bolts"),
    [
        ("", "1 bolt", 1),
        ("3", "3 bolts", 3),
        ("3 bolts", "3 bolts", 3),
        ("2x5", "2 rows of 5", 10),
        ("2 × 5", "2 rows of 5", 10),
        ("2 rows of 5", "2 rows of 5", 10),
        ("rows 2x5", "2 rows of 5", 10),
        ("5/4", "rows of 5, 4", 9),
        ("rows 5 4 5", "rows of 5, 4, 5", 14),
        ("rows 6", "1 row of 6", 6),
        ("circle 8", "circle of 8", 8),
        ("c8", "circle of 8", 8),
        ("8 c", "circle of 8", 8),
        ("CIRCLE 8", "circle of 8", 8),
        ("FRONT\n 3 1 2", "3 bolts as drawn", 3),
    ],
)
def test_each_way_to_say_it(text: str, words: str, bolts: int) -> None:
    found = read_arrangement(text)
    assert isinstance(found, Arrangement)
    assert found.words == words
    assert len(found.layout.positions) == bolts


@pytest.mark.parametrize(
    "text",
    ["0", "2x0", "circle 2", "999", "99x99", "x", "-3", "2x", "1 2", "[b]3", "3\x1b[2J", "1\n1", "x" * 3000],
)
def test_what_is_no_layout_is_refused_with_what_can_be_written(text: str) -> None:
    found = read_arrangement(text)
    assert isinstance(found, Refusal)
    assert found.message
    assert all(isinstance(read_arrangement(reading), Arrangement) for reading in found.readings)


@given(st.sampled_from(["3", "2x5", "5/4/1", "circle 12", "rows 7", "A\n1 2\n  3"]))
def test_the_line_of_the_file_says_the_same_layout(text: str) -> None:
    found = read_arrangement(text)
    assert isinstance(found, Arrangement)
    file = parse_library(
        f'format = 1\n[[group]]\nid = "a"\n{found.toml}\n[[group.stage]]\ntorque = "24 N·m"\n'.encode(), "x"
    )
    assert file.groups[0].layout == found.layout


@given(st.text(max_size=30))
def test_no_text_breaks_it(text: str) -> None:
    assert isinstance(read_arrangement(text), Arrangement | Refusal)
