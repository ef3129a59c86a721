"""How a value is shown: as precise as its source, inside its limits, in the unit beside it, and in words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.reading import read_term, read_torque
from torqref.quantity.showing import (
    converted,
    describe,
    in_words,
    second_unit,
    show_angle,
    show_torque,
)
from torqref.quantity.term import Angle, Torque
from torqref.quantity.turn import turn_in_words
from torqref.quantity.words import number_in_words, whole_in_words


def torque(text: str) -> Torque:
    """The torque of a text."""
    read = read_torque(text)
    assert isinstance(read, Torque), read
    return read


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("22-26 Nm", "22–26 N·m"),
        ("12 Nm", "12 N·m"),
        ("max. 12 Nm", "max 12 N·m"),
        ("at least 8 Nm", "min 8 N·m"),
        ("57 +/- 6 in. lbs.", "57 ± 6 in-lb"),
        ("24 +2/-1 Nm", "24 +2/−1 N·m"),
        ("80 Nm ±10%", "80 ± 8 N·m"),
        ("15 Nm ±5%", "15 ± 0.75 N·m"),
        ("1.0-1.4 kgf-m", "1.0–1.4 kgf·m"),
        ("12½ lb ft", "12.5 ft-lb"),
        ("1\u202f200 Nm", "1200 N·m"),
        ("24 Nm, max 26 Nm", "24 N·m, max 26 N·m"),
        ("10.50 Nm", "10.50 N·m"),
    ],
)
def test_a_value_is_shown_as_it_is_printed(text: str, shown: str) -> None:
    assert show_torque(torque(text)) == shown


@pytest.mark.parametrize(
    ("text", "unit", "shown"),
    # Converted by hand with 1 N·m = 0.73756215 lbf·ft = 8.85074579 lbf·in = 0.10197162 kgf·m.
    [
        # 16.2264 to 19.1766: 16.3–19.1 would lose 5.1 % of the window, so one digit more.
        ("22–26 N·m", "ft-lb", "16.23–19.17 ft-lb"),
        # 14.7512 to 18.4391: 15–18 would lose a fifth of it.
        ("20–25 N·m", "ft-lb", "14.8–18.4 ft-lb"),
        # 194.716 to 230.119
        ("22–26 N·m", "in-lb", "195–230 in-lb"),
        # 66.3806: whole foot-pounds are as precise as 90 is, and less than 1 % away.
        ("90 N·m", "ft-lb", "66 ft-lb"),
        # 17.7015: 18 would be 1.7 % away.
        ("24 N·m", "ft-lb", "17.7 ft-lb"),
        # 8.0 exactly; 96 is precise to half a percent.
        ("96 in-lb", "ft-lb", "8.0 ft-lb"),
        # 6.8333
        ("82 in-lb", "ft-lb", "6.8 ft-lb"),
        # 8.8507 down, never 9
        ("max 12 N·m", "ft-lb", "max 8.8 ft-lb"),
        # 5.9005 up, never 5.9
        ("min 8 N·m", "ft-lb", "min 5.91 ft-lb"),
        # 53.1045 within 47.204 to 59.005
        ("72 ± 8 N·m", "ft-lb", "53.1 (47.3–59.0) ft-lb"),
        ("12.0 N·m", "in-lb", "106 in-lb"),
        ("1100 N·m", "ft-lb", "811 ft-lb"),
        ("1100.0 N·m", "ft-lb", "811.3 ft-lb"),
        ("1.5 N·m", "in-lb", "13.3 in-lb"),
    ],
)
def test_a_value_in_another_unit_is_as_precise_as_its_source(text: str, unit: str, shown: str) -> None:
    assert show_torque(torque(text), unit) == shown


def test_the_exact_numbers_stay_beside_the_rounded_text() -> None:
    exact = converted(torque("22–26 N·m"), "in-lb")
    assert exact.low == 22 / Fraction("0.1129848290276167")
    assert exact.target == 24 / Fraction("0.1129848290276167")
    assert exact.high == 26 / Fraction("0.1129848290276167")


@pytest.mark.parametrize(
    ("unit", "aim", "second"),
    [
        ("in-lb", 82, "N·m"),
        ("ft-lb", 35, "N·m"),
        ("kgf·m", 2, "N·m"),
        ("N·m", 24, "ft-lb"),
        ("N·m", 14, "ft-lb"),
        ("N·m", 13, "in-lb"),
        ("N·m", 1, "in-lb"),
        ("cN·m", 120, "in-lb"),
        ("daN·m", 5, "ft-lb"),
        ("kN·m", 1, "ft-lb"),
    ],
)
def test_the_unit_beside_is_the_one_of_the_other_wrench(unit: str, aim: int, second: str) -> None:
    # 10 ft-lb are 13.56 N·m: below that an inch-pound wrench is the likely one. Common practice, no source.
    assert second_unit(unit, Fraction(aim)) == second


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        ("96", "in-lb", "ninety-six inch-pounds"),
        ("1", "N·m", "one newton metre"),
        ("24", "N·m", "twenty-four newton metres"),
        ("12.5", "ft-lb", "twelve point five foot-pounds"),
        ("0.05", "kgf·m", "zero point zero five kilogram metres"),
        ("120", "N·m", "one hundred and twenty newton metres"),
        ("1100", "N·m", "one thousand one hundred newton metres"),
        ("1", "ozf·in", "one ounce-inch"),
    ],
)
def test_a_value_can_be_said(value: str, unit: str, words: str) -> None:
    assert in_words(Fraction(value), unit) == words


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"),
        (19, "nineteen"),
        (40, "forty"),
        (101, "one hundred and one"),
        (999, "nine hundred and ninety-nine"),
        (1_005, "one thousand and five"),
        (12_345, "twelve thousand three hundred and forty-five"),
        (2_000_000, "two million"),
    ],
)
def test_whole_numbers_in_words(number: int, words: str) -> None:
    assert whole_in_words(number) == words


def test_a_negative_number_says_so() -> None:
    assert number_in_words(Fraction(-5, 2), 1) == "minus two point five"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("22–26 N·m", "twenty-two to twenty-six newton metres"),
        ("57 ± 6 in-lb", "fifty-seven inch-pounds (fifty-one to sixty-three inch-pounds)"),
        ("max 12 N·m", "at most twelve newton metres"),
        ("30 N·m + 90°", "thirty newton metres, then a further ninety degrees"),
        ("2 flats back", "back off one hundred and twenty degrees"),
        ("max 90°", "turn at most ninety degrees"),
        ("snug + 60°", "by hand until seated, then a further sixty degrees"),
        ("40 N·m, loosen, 20 N·m", "forty newton metres, then loosen fully, then twenty newton metres"),
    ],
)
def test_a_whole_text_is_described_in_words(text: str, words: str) -> None:
    term = read_term(text)
    assert not isinstance(term, Refusal)
    assert describe(term) == words


@pytest.mark.parametrize(
    ("degrees", "low", "high", "shown"),
    [
        (90, None, None, "90°"),
        (90, 85, 95, "90° (85–95°)"),
        (None, 85, 95, "85–95°"),
        (None, None, 90, "max 90°"),
        (None, 85, None, "min 85°"),
        (-120, None, None, "back off 120°"),
        (None, -180, -90, "back off 90–180°"),
        (Fraction(45, 2), None, None, "22.5°"),
    ],
)
def test_a_turn_is_shown_in_degrees_with_its_direction(
    degrees: int | None, low: int | None, high: int | None, shown: str
) -> None:
    value, below, above = (None if each is None else Fraction(each) for each in (degrees, low, high))
    angle = Angle(degrees=value, low=below, high=above, text="")
    assert show_angle(angle) == shown


@pytest.mark.parametrize(
    ("degrees", "words"),
    [
        # A hexagon has six flats, a twelve-point twelve points, by definition.
        (90, "a quarter turn, one and a half flats of a hexagon, three points of a twelve-point"),
        (-60, "a sixth of a turn, one flat of a hexagon, two points of a twelve-point"),
        (30, "half a flat of a hexagon, one point of a twelve-point"),
        (720, "two turns, twelve flats of a hexagon, twenty-four points of a twelve-point"),
        (100, ""),
    ],
)
def test_a_turn_is_counted_in_flats_and_points(degrees: int, words: str) -> None:
    assert turn_in_words(Fraction(degrees)) == words
