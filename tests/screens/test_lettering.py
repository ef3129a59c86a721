"""Words in block letters: what cannot be drawn is not drawn by halves, and units keep their case."""

from __future__ import annotations

import pytest

from torqref.screens.lettering import GLYPHS, HEIGHT, capitals, lettered


@pytest.mark.parametrize("sign", sorted(GLYPHS))
def test_each_sign_has_six_half_lines_of_one_width(sign: str) -> None:
    rows = GLYPHS[sign]
    assert len(rows) == 2 * HEIGHT
    assert len({len(row) for row in rows}) == 1
    assert set("".join(rows)) <= {"#", "."}


def test_no_two_signs_look_alike() -> None:
    # O and 0 may: they stand in words and in numbers
    drawn = {sign: rows for sign, rows in GLYPHS.items() if sign not in ("O", " ")}
    assert len(set(drawn.values())) == len(drawn)


def test_words_are_broken_between_words_with_a_blank_line_between() -> None:
    assert len(lettered("OIL", 40)) == HEIGHT
    assert len(lettered("OIL AND COOLANT", 50)) == 2 * HEIGHT + 1
    assert all(len(row) <= 50 for row in lettered("OIL AND COOLANT", 50))


@pytest.mark.parametrize("text", ["ÖL", "OIL \x1b[31m", "ЙОД", "日本"])
def test_what_has_no_letter_is_not_drawn(text: str) -> None:
    assert lettered(text, 80) == ()


def test_a_word_that_is_wider_than_the_room_is_not_drawn() -> None:
    assert lettered("COUNTERCLOCKWISE", 40) == ()


@pytest.mark.parametrize(
    ("text", "drawn"),
    [
        ("oil 6.2 L filled", "OIL 6.2 L FILLED"),
        ("gap 0.05 mm", "GAP 0.05 mm"),
        ("80 in-lb", "80 in-lb"),
        ("2 turns by hand", "2 TURNS BY HAND"),
        ("under 40 °C", "UNDER 40 °C"),
    ],
)
def test_units_keep_their_case(text: str, drawn: str) -> None:
    assert capitals(text) == drawn
