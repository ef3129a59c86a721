"""The drawing of wrench and adapter: what points where, and from where to where L and E are measured."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqref.wrench.adapter import Part
from torqref.wrench.fitting import read_pieces
from torqref.wrench.sketch import FASTENER, GRIP, SQUARE, sketch


def drawn(text: str, *, length: str = "300 mm", width: int = 60, height: int = 9) -> tuple[str, ...]:
    parts = read_pieces(text)
    assert isinstance(parts, tuple)
    return sketch(parts, length=length, width=width, height=height)


def place(lines: tuple[str, ...], text: str) -> tuple[int, int]:
    """Row and centre column of a sign that stands once in the drawing."""
    found = [(row, line.index(text)) for row, line in enumerate(lines) if text in line]
    assert len(found) == 1, lines
    return found[0][0], found[0][1] + len(text) // 2


def test_straight_out_is_one_line_with_l_and_e_below_it() -> None:
    assert drawn("38 mm") == (
        "(===|===========================[+]-----------(O)",
        "    |<-------- L 300 mm -------->|<- E 38 mm ->|",
    )


def test_across_the_handle_stands_square_on_it() -> None:
    assert drawn("38 mm@90", height=6) == (
        "                                   (O)",
        "                                    |  E 38 mm, 90°",
        "                                    |",
        "(===|==============================[+] . . . 0°",
        "    |<--------- L 300 mm ---------->|",
    )


def test_folded_back_lies_over_the_handle() -> None:
    lines = drawn("38 mm@180")
    (row, column), (handle, square) = place(lines, FASTENER), place(lines, SQUARE)
    assert row < handle
    assert column < square


@given(st.integers(0, 180))
def test_the_fastener_is_on_the_side_its_angle_says(angle: int) -> None:
    lines = drawn(f"38 mm@{angle}")
    (row, column), (handle, square) = place(lines, FASTENER), place(lines, SQUARE)
    if angle < 80:
        assert column > square
    if angle > 100:
        assert column < square
    assert (row < handle) == (angle > 10)


@given(st.integers(0, 180))
def test_l_is_measured_from_the_mark_on_the_grip_to_the_centre_of_the_square(angle: int) -> None:
    lines = drawn(f"38 mm@{angle}")
    _, square = place(lines, SQUARE)
    first = lines[-1].index("|")
    assert lines[-1].index(">|") + 1 == square
    assert first == len(GRIP) - 1


def test_several_pieces_are_joined_and_each_has_its_own_name() -> None:
    text = "\n".join(drawn("6 in + 1.5 in@90", length="16 in"))
    assert "E1" in text
    assert "E2 1.5 in, 90°" in text
    assert "L 16 in" in text
    assert text.count("o") == 1


def test_an_unknown_length_is_only_called_l() -> None:
    assert " L -" in drawn("38 mm", length="")[1]


@pytest.mark.parametrize("text", ["extension", "joint@20", "4:1"])
def test_what_has_no_offset_is_not_drawn(text: str) -> None:
    assert drawn(text) == ()


@given(
    st.lists(st.tuples(st.integers(1, 500), st.integers(0, 180)), min_size=1, max_size=6),
    st.integers(1, 100),
    st.integers(0, 20),
)
def test_it_fits_its_room_or_is_left_out(pieces: list[tuple[int, int]], width: int, height: int) -> None:
    parts: list[Part] = []
    for offset, angle in pieces:
        found = read_pieces(f"{offset} mm@{angle}")
        assert isinstance(found, tuple)
        parts.extend(found)
    lines = sketch(tuple(parts), length="300 mm", width=width, height=height)
    assert len(lines) <= height
    assert all(len(line) <= width for line in lines)
    if lines:
        assert "\n".join(lines).count(FASTENER) <= 1


@pytest.mark.parametrize("angle", range(0, 181, 15))
def test_a_usual_crowfoot_is_drawn_whole_in_forty_columns(angle: int) -> None:
    text = "\n".join(drawn(f"38 mm@{angle}", width=40, height=6))
    for sign in (GRIP, SQUARE, FASTENER, "L", "E"):
        assert sign in text
