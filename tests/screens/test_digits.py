"""Block figures: our own shapes, told apart by form, in every size."""

from __future__ import annotations

import itertools

import pytest

from torqref.quantity.units import UNITS
from torqref.screens.digits import LETTERS_LARGE, LETTERS_SMALL, SIZES, Size, figures, letters

DIGITS = "0123456789"


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.height} lines")
def test_every_digit_has_its_form_and_height(size: Size) -> None:
    drawn = {digit: figures(digit, size) for digit in DIGITS}
    assert all(len(rows) == size.height for rows in drawn.values())
    assert len(set(drawn.values())) == 10


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.height} lines")
def test_no_two_digits_differ_by_one_stroke_of_a_cell_only(size: Size) -> None:
    for one, two in itertools.combinations(DIGITS, 2):
        pairs = zip(figures(one, size), figures(two, size), strict=True)
        apart = sum(
            a != b for first, second in pairs for a, b in itertools.zip_longest(first, second, fillvalue=" ")
        )
        assert apart >= 2, (one, two)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.height} lines")
def test_a_digit_is_as_wide_as_the_others_so_that_nothing_jumps(size: Size) -> None:
    widths = {digit: max(map(len, figures(digit, size))) for digit in DIGITS}
    assert max(widths.values()) - min(widths.values()) <= 1 + size.columns[0]


def test_the_figures_of_five_lines() -> None:
    assert "\n".join(figures("1024.5", SIZES[-2])) == (
        " ███     ████   █████   ██  ██      ██████\n"
        "████    ██  ██      ██  ██  ██      ██\n"
        "  ██    ██  ██   ████   ██████      █████\n"
        "  ██    ██  ██  ██          ██          ██\n"
        "██████   ████   ██████      ██  ██  █████"
    )


def test_in_ascii_the_same_form_is_drawn_with_another_sign() -> None:
    blocks, signs = figures("7", SIZES[-2]), figures("7", SIZES[-2], ascii_only=True)
    assert [row.replace("█", "#") for row in blocks] == list(signs)
    assert figures("7", SIZES[-1], ascii_only=True) == (), "half blocks have no sign on a keyboard"


def test_every_unit_of_torque_can_be_drawn_in_block_letters() -> None:
    for unit in UNITS:
        if unit.kind == "torque":
            assert letters(unit.symbol, LETTERS_LARGE), unit.symbol
            assert letters(unit.symbol, LETTERS_SMALL), unit.symbol


def test_inch_pounds_and_foot_pounds_look_unlike_from_their_first_letter() -> None:
    inch, foot = letters("in-lb", LETTERS_LARGE), letters("ft-lb", LETTERS_LARGE)
    assert [row[:4] for row in inch] != [row[:4] for row in foot]


def test_a_sign_without_a_figure_gives_no_figures_at_all() -> None:
    assert figures("1/2", SIZES[0]) == ()
