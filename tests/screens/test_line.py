"""Painted lines: exactly as wide as they must be, and nothing in them is ever obeyed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqref.screens.line import (
    Line,
    Piece,
    block,
    centred,
    fitted,
    line,
    shown,
    sides,
    text_of,
    width_of,
    wrapped,
)
from torqref.screens.painter import joined
from torqref.screens.theme import THEMES

TEXTS = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "Zs")), max_size=20)
LINES = st.lists(st.builds(Piece, TEXTS.map(shown), st.sampled_from(sorted(THEMES["dark"]))), max_size=6).map(
    tuple
)


@given(painted=LINES, width=st.integers(0, 60))
def test_a_line_fits_exactly(painted: Line, width: int) -> None:
    assert width_of(fitted(painted, width)) == width
    assert width_of(sides(painted, painted, width)) == width
    assert width_of(centred(painted, width)) == width


@given(lines=st.lists(LINES, max_size=5), width=st.integers(1, 30), height=st.integers(0, 8))
def test_a_block_fits_exactly(lines: list[Line], width: int, height: int) -> None:
    made = block(lines, width, height)
    assert len(made) == height
    assert all(width_of(painted) == width for painted in made)


@given(text=TEXTS.map(shown), width=st.integers(3, 30), indent=st.integers(0, 1))
def test_wrapping_loses_nothing_and_never_runs_over(text: str, width: int, indent: int) -> None:
    lines = list(wrapped(text, width, indent=indent))
    assert all(width_of(painted) <= width for painted in lines)
    assert "".join(text_of(painted) for painted in lines).replace(" ", "") == "".join(text.split())


@given(painted=LINES, theme=st.sampled_from(sorted(THEMES)))
def test_joining_pieces_keeps_text_and_ground(painted: Line, theme: str) -> None:
    def cells(pieces: Line) -> list[tuple[str, object]]:
        # of a blank only its ground is seen
        return [
            (char, THEMES[theme][tone][1:2] + THEMES[theme][tone][3:] if char == " " else THEMES[theme][tone])
            for text, tone in pieces
            for char in text
        ]

    assert cells(tuple(joined(painted, theme))) == cells(painted)


@pytest.mark.parametrize(
    ("text", "ascii_only", "what"),
    [
        ("24 N·m", False, "24 N·m"),
        ("22–26 N·m ±5° → 90°", True, "22-26 N.m +/-5 deg -> 90 deg"),
        ("\x1b[2Jgone", False, "<U+001B>[2Jgone"),
        ("12\u202e21", False, "12<U+202E>21"),
        ("[b]x[/]", False, "[b]x[/]"),
        ("\u524d", True, "?"),
    ],
)
def test_what_goes_to_the_terminal_is_only_text(text: str, ascii_only: bool, what: str) -> None:
    assert shown(text, ascii_only=ascii_only) == what


def test_the_right_part_of_a_line_stays_whole() -> None:
    painted = sides(line("a very long left part"), line("CLOCKWISE"), 16)
    assert text_of(painted) == "a very CLOCKWISE"
