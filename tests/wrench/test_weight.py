"""Checking a wrench with a weight at a measured arm."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.wrench.bench import exact_length, length, scale, wrench
from torqref.document.refusal import Refusal
from torqref.wrench.rack import Wrench
from torqref.wrench.weight import Weight, WeightCheck, arm_for, check_with, moment, read_weight


def weight(text: str) -> Weight:
    found = read_weight(text)
    assert isinstance(found, Weight), found
    return found


def check(tool: Wrench, hung: str, arm: str, unit: str | None = None) -> WeightCheck:
    found = check_with(tool, weight(hung), length(arm), unit=unit)
    assert isinstance(found, WeightCheck), found
    return found


def refusal(tool: Wrench, hung: str, arm: str, direction: str = "clockwise") -> str:
    found = check_with(tool, weight(hung), length(arm), direction=direction)
    assert isinstance(found, Refusal)
    return found.message


@pytest.mark.parametrize(
    ("text", "newtons"),
    [
        # 1 kg hangs with 9.80665 N (3rd CGPM, 1901); 1 lb = 0.45359237 kg (1959 agreement)
        ("10 kg", "98.0665"),
        ("500 g", "4.903325"),
        ("25 lb", str(Fraction("0.45359237") * Fraction("9.80665") * 25)),
        ("98.1 N", "98.1"),
        ("10 1/2 lbs", str(Fraction("0.45359237") * Fraction("9.80665") * Fraction("10.5"))),
    ],
)
def test_weights_hang_with_their_force(text: str, newtons: str) -> None:
    metre = exact_length(Fraction(1), "m")
    assert moment(weight(text), metre, "N·m") == Fraction(newtons)


def test_ten_kilograms_at_the_grip_of_a_290_wrench() -> None:
    # 10 · 9.80665 · 0.29 = 28.439 N·m; ±4 % and half a mark of 0.5
    found = check(wrench(), "10 kg", "290 mm")
    assert float(found.expected) == pytest.approx(28.439285)
    assert float(found.low) == pytest.approx(28.439285 * 0.96 - 0.25)
    assert float(found.high) == pytest.approx(28.439285 * 1.04 + 0.25)
    assert found.sentence() == "W2: should read 28.4 N·m; 27.1 to 29.8 is allowed."


def test_a_reading_is_judged_at_both_ends() -> None:
    found = check(wrench(), "10 kg", "290 mm")
    assert [found.judge(Fraction(text)) for text in ("27.0", "27.1", "28.4", "29.8", "29.9")] == [
        "outside", "inside", "inside", "inside", "outside",
    ]  # fmt: skip
    assert found.result(Fraction(28)) == "Read 28.0: inside."
    assert "OUTSIDE (+9 %)" in found.result(Fraction(31))


def test_the_scale_that_was_read_is_the_one_checked() -> None:
    tool = wrench(scales=(scale("10", "60", "0.5"), scale("8", "44", "0.5", "ft-lb")))
    assert check(tool, "25 lb", "1 ft", "ft-lb").expected == 25
    assert check(tool, "25 lb", "1 ft").unit == "N·m"


def test_it_says_that_it_is_no_calibration_and_what_it_is_worth() -> None:
    notes = "\n".join(check(wrench(), "10 kg", "290 mm").notes)
    assert "A check, not a calibration" in notes
    # (0.04 · 28.44 + 0.25) / 28.44 / 4 = 1.2 %
    assert "known to ±1.2 %" in notes
    assert "0.5 to 4 s" in notes
    assert "47 % of scale" in notes


def test_at_a_test_point_nothing_is_said_about_test_points() -> None:
    # 36 N·m is 60 % of 60
    hung = arm_for(Fraction(36), "N·m", weight("10 kg"), "mm")
    found = check_with(wrench(length=None), weight("10 kg"), exact_length(hung))
    assert isinstance(found, WeightCheck)
    assert "ISO 6789 tests" not in "\n".join(found.notes)


def test_a_weight_away_from_the_grip_mark_is_told() -> None:
    assert "The mark on the grip is at 290 mm, the weight at 250 mm" in "\n".join(
        check(wrench(), "10 kg", "250 mm").notes
    )
    assert "the weight at" not in "\n".join(check(wrench(), "10 kg", "285 mm").notes)


def test_each_wrong_input_has_its_own_message() -> None:
    assert "ends at 60.0 N·m; take less weight or a shorter arm" in refusal(wrench(), "50 kg", "290 mm")
    assert "past 125 % of its end it must be calibrated again" in refusal(wrench(), "50 kg", "290 mm")
    assert "starts at 10.0 N·m; take more weight or a longer arm" in refusal(wrench(), "1 kg", "290 mm")
    assert "does not measure anticlockwise" in refusal(wrench(), "10 kg", "290 mm", "anticlockwise")
    for text, says in (
        ("10", "no unit"),
        ("10 mm", "is no weight"),
        ("10 N·m", "is no weight"),
        ("5–10 kg", "not one weight"),
        ("0 kg", "not one weight"),
        ("heavy", "expected"),
    ):
        found = read_weight(text)
        assert isinstance(found, Refusal), text
        assert says in found.message


@given(st.fractions(1, 50, max_denominator=10), st.fractions(100, 900, max_denominator=10))
def test_the_arm_for_a_torque_is_the_inverse_of_the_moment(force: Fraction, arm: Fraction) -> None:
    hung = Weight(value=force, unit="kgf", text="a weight")
    torque = moment(hung, exact_length(arm), "in-lb")
    assert arm_for(torque, "in-lb", hung, "mm") == arm
