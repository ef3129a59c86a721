"""From the printed target to the number on the wrench: marks, bands, windows, refusals, laws."""

from __future__ import annotations

import math
import random
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.wrench.bench import length, piece, refused, said, scale, setting, torque, wrench
from torqref.document.refusal import Refusal
from torqref.quantity.term import Torque
from torqref.wrench.adapter import Extension, Joint
from torqref.wrench.setting import Setting, achieved_by, setting_for

VALUES = st.fractions(12, 55, max_denominator=20)
HALVES = st.fractions(Fraction(1, 2), 8, max_denominator=20)


def window(middle: Fraction, half: Fraction) -> Torque:
    return Torque(
        low=middle - half, target=middle, high=middle + half, unit="N·m", decimals=2, text="a window"
    )


# --- without a wrench ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("40 N·m", "40"),
        ("96 in-lb", "96"),
        ("20–25 N·m", "22.5"),
        ("10.50 N·m", "10.50"),
        ("1.25 N·m", "1.25"),
    ],
)
def test_without_wrench_and_adapter_the_page_is_the_setting(text: str, shown: str) -> None:
    found = setting(text)
    assert (found.shown, found.unit, found.wrench_id) == (shown, torque(text).unit, "")
    assert found.value == torque(text).aim
    assert found.at_fastener is None


def test_a_plain_value_without_a_wrench_says_nothing() -> None:
    assert not setting("40 N·m").notes


@pytest.mark.parametrize(
    ("text", "shown"), [("max 25 N·m", "24.0"), ("max 3 N·m", "2.88"), ("min 20 N·m", "20.9")]
)
def test_a_limit_alone_is_kept_off_by_four_percent_and_said(text: str, shown: str) -> None:
    # 25 / 1.04 = 24.04 down, 3 / 1.04 = 2.885 down, 20 / 0.96 = 20.83 up
    found = setting(text)
    assert found.shown == shown
    assert found.verdict == "inside"
    assert "±4 % of the wrench" in said(found)


def test_another_unit_without_a_wrench_is_shown_converted() -> None:
    found = setting("96 in-lb", unit="ft-lb")
    assert (found.value, found.unit) == (Fraction(8), "ft-lb")
    assert "96 in-lb is 8.00 ft-lb." in said(found)


# --- on the marks of a wrench ----------------------------------------------------------------------


def test_a_crowfoot_straight_out_falls_on_the_nearest_mark() -> None:
    # 28 · 290 / 322 = 25.217; 25.0 delivers 27.76
    found = setting("26–30 N·m", wrench(), piece("32 mm"))
    assert float(found.value) == pytest.approx(28 * 290 / 322)
    assert (found.shown, found.verdict) == ("25.0", "inside")
    assert found.at_fastener is not None
    assert float(found.at_fastener.target) == pytest.approx(25 * 322 / 290)


def test_the_same_crowfoot_across_needs_no_sum_and_is_offered_first() -> None:
    assert setting("26–30 N·m", wrench(), piece("32 mm")).notes[0] == (
        "If there is room, turn it across the handle (90°): set 28.0, no sum."
    )
    across = setting("26–30 N·m", wrench(), piece("32 mm", 90))
    assert across.shown == "28.0"
    assert "no sum" not in said(across)


@pytest.mark.parametrize(
    ("step", "shown"), [("0.5", "25.0"), ("1", "25"), ("0.25", "25.00"), ("0.2", "25.0")]
)
def test_the_number_has_the_digits_of_the_scale(step: str, shown: str) -> None:
    assert setting("25 N·m", wrench("10", "60", step)).shown == shown


def test_the_scale_is_that_of_the_unit_asked_for_and_else_that_of_the_page() -> None:
    both = wrench(scales=(scale("10", "60", "0.5"), scale("8", "44", "0.5", "ft-lb")))
    assert setting("20 ft-lb", both).unit == "ft-lb"
    asked = setting("20 ft-lb", both, unit="N·m")
    assert (asked.shown, asked.unit) == ("27.0", "N·m"), "20 ft-lb = 27.12 N·m"
    metric = setting("20 ft-lb", wrench(), unit="in-lb")
    assert metric.unit == "N·m"
    assert metric.notes[0] == "No scale in in-lb on W2; it has N·m."
    assert setting("20 ft-lb", unit="N·m").unit == "N·m"


def test_a_scale_in_the_unit_asked_for_that_does_not_reach_gives_way_and_says_so() -> None:
    # 25 N·m = 221.3 in-lb, beyond the end of the second scale
    both = wrench(scales=(scale("2", "25", "0.2"), scale("20", "220", "2", "in-lb")))
    found = setting("25 N·m", both, unit="in-lb")
    assert (found.shown, found.unit) == ("25.0", "N·m")
    assert found.notes[0] == "The in-lb scale of W2, 20 to 220, will not do."
    assert "ends at 220 in-lb" in refused("30 N·m", both, unit="in-lb")


def test_a_maximum_alone_takes_the_mark_below() -> None:
    # (30 − 0.25) / 1.04 = 28.6; 28.5 may deliver 29.9, 29.0 may deliver 30.4
    found = setting("max 30 N·m", wrench())
    assert (found.shown, found.verdict) == ("28.5", "inside")


def test_just_off_the_scale_the_last_mark_is_taken_where_all_of_it_fits() -> None:
    found = setting("22–30 N·m", wrench("2", "25", "0.2"))
    assert (found.shown, found.verdict) == ("25.0", "inside")
    assert "26.0 N·m is off this scale; 25.0 still stays inside the window." in said(found)
    assert "ends at 25.0" in refused("25–30 N·m", wrench("2", "25", "0.2"))


def test_a_lone_limit_is_no_window_for_the_last_mark() -> None:
    assert "ends at 60.0 N·m" in refused("max 100 N·m", wrench())
    assert "starts at 10.0 N·m" in refused("min 2 N·m", wrench())


def test_a_preset_wrench_does_its_own_value_and_no_other() -> None:
    fixed = wrench("24", "24", "0", kind="preset", id="P1")
    assert setting("24 N·m", fixed).shown == "24"
    assert setting("20–30 N·m", fixed).shown == "24"
    assert "P1 is fixed at 24 N·m" in refused("40 N·m", fixed)


# --- windows ---------------------------------------------------------------------------------------


def test_a_band_that_may_leave_the_window_touches_and_says_by_how_much() -> None:
    # 25 · 1.04 + 0.25 = 26.25, 25 · 0.96 − 0.25 = 23.75
    found = setting("24–26 N·m", wrench())
    assert found.verdict == "touches"
    assert found.span is None
    assert "25.0 may deliver 26.2 N·m; the limit is 26." in said(found)
    assert "25.0 may deliver only 23.8 N·m; the limit is 24." in said(found)
    assert "No setting of this wrench" in said(found)


def test_no_window_given_is_its_own_verdict() -> None:
    assert setting("25 N·m", wrench()).verdict == "no window"


def test_no_mark_inside_the_window_is_refused_with_both_neighbours() -> None:
    message = refused("22–23 N·m", wrench("10", "60", "5"))
    assert "20 gives 20.0 and 25 gives 25.0" in message
    assert "finer marks" in message


def test_a_universal_joint_is_warned_about_and_widens_the_band() -> None:
    plain, bent = setting("40 N·m", wrench()), setting("40 N·m", wrench(), Joint(bend=Fraction(15)))
    assert bent.value == plain.value
    assert bent.at_fastener is not None
    assert plain.at_fastener is not None
    # single cardan joint: 1 / cos 15° = 1.0353
    assert float(bent.at_fastener.high / plain.at_fastener.high) == pytest.approx(1.0353, abs=0.0001)
    assert "swings by +3.5 %/−3.4 %" in said(bent)
    assert "No setting corrects that" in said(bent)


def test_a_straight_extension_is_told_to_change_nothing() -> None:
    found = setting("40 N·m", wrench(), Extension())
    assert found.shown == "40.0"
    assert "changes nothing" in said(found)


def test_the_cost_of_angle_and_hand_is_shown_at_every_angle() -> None:
    for angle in (0, 45, 90, 135, 180):
        assert "±10° of angle" in said(setting("40 N·m", wrench(), piece("32 mm", angle)))
    # 32 · sin 10° / 290 = 1.9 %
    assert "±10° of angle: −1.9 % to +1.9 %" in said(setting("40 N·m", wrench(), piece("32 mm", 90)))
    # (1 + 32 / 260) / (1 + 32 / 290) = 1.0115, (1 + 32 / 320) / (1 + 32 / 290) = 0.9907
    assert "Hand 30 mm off the mark: +1.1 % towards the drive, −0.9 % towards the end." in said(
        setting("40 N·m", wrench(), piece("32 mm"))
    )


def test_a_pivoted_grip_always_pulls_at_the_same_place() -> None:
    assert "Hand 30 mm" not in said(setting("40 N·m", wrench(length_to="pivot"), piece("32 mm")))


# --- refusals --------------------------------------------------------------------------------------


def test_above_and_below_the_scale_are_refused_with_what_would_do() -> None:
    assert "ends at 60.0 N·m; take a larger wrench" in refused("61 N·m", wrench())
    assert "starts at 10.0 N·m; take a smaller wrench" in refused("9 N·m", wrench())


def test_a_crowfoot_that_lifts_the_setting_off_the_scale_would_do_across() -> None:
    # 58 · 290 / 258 = 65.2
    message = refused("58 N·m", wrench(), piece("32 mm", 180))
    assert "a setting of 65.2 N·m (for 58 N·m) is above" in message
    assert "turn the crowfoot to 90° and set 58.0" in message


def test_a_wrench_never_measured_cannot_take_a_crowfoot_except_across() -> None:
    bare = wrench(length=None)
    assert "effective length of the wrench is not known" in refused("40 N·m", bare, piece("32 mm"))
    assert setting("40 N·m", bare, piece("32 mm", 90)).shown == "40.0"
    assert setting("40 N·m", bare, piece("32 mm"), length=length("290 mm")).shown == "36.0"


# --- afterwards ------------------------------------------------------------------------------------


def test_what_arrived_is_the_inverse_of_what_to_set() -> None:
    # TM 9-254 (US Army), figure 4-5: 60 in-lb on 12 in with 2 in delivers 70
    found = achieved_by(torque("60 in-lb"), None, (piece("2 in"),), length=length("12 in"))
    assert isinstance(found, Setting)
    assert found.value / found.factor == 70
    assert found.notes[0] == "Set to 60, the fastener gets 70.0 in-lb (+16.7 %)."


def test_a_range_or_a_value_off_the_scale_is_not_what_a_wrench_was_set_to() -> None:
    ranged = achieved_by(torque("20–25 N·m"), wrench(), (piece("32 mm"),))
    assert isinstance(ranged, Refusal)
    assert ranged.readings == ("20 N·m", "25 N·m")
    off = achieved_by(torque("65 N·m"), wrench(), (piece("32 mm"),))
    assert isinstance(off, Refusal)
    assert "10.0 to 60.0 N·m" in off.message


# --- laws ------------------------------------------------------------------------------------------


@given(VALUES, HALVES, st.sampled_from(["0.1", "0.5", "1", "2", "5"]))
def test_a_setting_lies_on_a_mark_of_the_scale_and_delivers_inside_the_window(
    middle: Fraction, half: Fraction, step: str
) -> None:
    tool = wrench("10", "60", step)
    found = setting_for(window(middle, half), tool, (piece("32 mm"),))
    if isinstance(found, Refusal):
        return
    steps = (found.dial - 10) / Fraction(step)
    assert steps.denominator == 1
    assert 10 <= found.dial <= 60
    assert found.at_fastener is not None
    assert middle - half <= found.at_fastener.target <= middle + half


@given(VALUES, HALVES, st.sampled_from([0, 30, 90, 150]))
def test_every_setting_of_the_safe_span_is_inside_and_none_beside_it(
    middle: Fraction, half: Fraction, angle: int
) -> None:
    tool = wrench("1", "200", "0.01")
    found = setting_for(window(middle, half), tool, (piece("32 mm", angle),))
    assert isinstance(found, Setting)
    if found.span is None:
        assert found.verdict == "touches"
        return
    low, high = found.span
    for inside in (low, (low + high) / 2, high):
        assert fits(inside, tool.tolerance, angle, middle - half, middle + half)
    for outside in (low * Fraction(999, 1000), high * Fraction(1001, 1000)):
        assert not fits(outside, tool.tolerance, angle, middle - half, middle + half)


def fits(set_to: Fraction, share: Fraction, angle: int, low: Fraction, high: Fraction) -> bool:
    """The worst case by hand: E 32 ± 0.5 mm, L 290 ± 0.5 mm, angle ± 10°, half a mark of 0.01."""
    error = float(share) * max(float(set_to), 0.2 * 200) + 0.005
    cosines = [math.cos(math.radians(turn)) for turn in (max(angle - 10, 0), min(angle + 10, 180))]
    ratios = [
        1 + offset * cos / handle for offset in (31.5, 32.5) for cos in cosines for handle in (289.5, 290.5)
    ]
    least, most = (float(set_to) - error) * min(ratios), (float(set_to) + error) * max(ratios)
    return least >= float(low) - 1e-9 and most <= float(high) + 1e-9


@given(VALUES, st.fractions(Fraction(1, 1000), Fraction(1, 10)), st.fractions(0, Fraction(1, 10)))
def test_a_worse_wrench_never_has_a_narrower_band(target: Fraction, share: Fraction, more: Fraction) -> None:
    value = Torque(low=None, target=target, high=None, unit="N·m", decimals=2, text="a value")
    better = setting_for(value, wrench(tolerance=share))
    worse = setting_for(value, wrench(tolerance=share + more))
    assert isinstance(better, Setting)
    assert isinstance(worse, Setting)
    assert better.at_fastener is not None
    assert worse.at_fastener is not None
    assert worse.at_fastener.low <= better.at_fastener.low
    assert worse.at_fastener.high >= better.at_fastener.high


@given(VALUES, VALUES)
def test_more_torque_is_never_a_lower_setting(one: Fraction, other: Fraction) -> None:
    small, large = (
        setting_for(
            Torque(low=None, target=value, high=None, unit="N·m", decimals=2, text="a value"),
            wrench(),
            (piece("32 mm", 20),),
        )
        for value in sorted((one, other))
    )
    if isinstance(small, Setting) and isinstance(large, Setting):
        assert small.value <= large.value
        assert small.dial <= large.dial


@given(VALUES, st.integers(0, 180))
def test_setting_and_achieved_undo_each_other(target: Fraction, angle: int) -> None:
    value = Torque(low=None, target=target, high=None, unit="N·m", decimals=2, text="a value")
    parts = (piece("32 mm", angle),)
    there = setting_for(value, None, parts, length=length("290 mm"))
    assert isinstance(there, Setting)
    set_to = Torque(low=None, target=there.value, high=None, unit="N·m", decimals=2, text="a setting")
    back = achieved_by(set_to, None, parts, length=length("290 mm"))
    assert isinstance(back, Setting)
    assert back.value / back.factor == target


@given(VALUES, st.integers(0, 180), st.randoms(use_true_random=False))
def test_whatever_is_off_within_its_limits_what_arrives_lies_in_the_band(
    target: Fraction, angle: int, chance: random.Random
) -> None:
    value = Torque(low=None, target=target, high=None, unit="N·m", decimals=2, text="a value")
    found = setting_for(value, wrench(), (piece("32 mm", angle),))
    if isinstance(found, Refusal):
        return
    assert found.at_fastener is not None
    clicked = float(found.dial) * (1 + chance.uniform(-0.04, 0.04)) + chance.uniform(-0.25, 0.25)
    turn = math.radians(angle + chance.uniform(-10, 10))
    offset, handle = chance.uniform(31.5, 32.5), chance.uniform(289.5, 290.5)
    arrived = clicked * (handle + offset * math.cos(turn)) / handle
    assert float(found.at_fastener.low) - 1e-9 <= arrived <= float(found.at_fastener.high) + 1e-9


# --- values for the tool, and odd ends -------------------------------------------------------------


def test_drag_on_a_value_for_the_tool_is_added_as_the_wrench_read_it() -> None:
    found = setting("35.5 N·m", wrench(), piece("38 mm"), drag=torque("2 N·m"), value_is="setting with tool")
    assert found.shown == "37.5"
    assert found.factor == 1
    assert "37.5 N·m on the wrench" in said(found)


def test_a_value_for_the_tool_is_judged_as_a_reading() -> None:
    found = setting("30–40 N·m", wrench(), piece("38 mm"), value_is="setting with tool")
    assert (found.shown, found.verdict, found.at_fastener) == ("35.0", "inside", None)


@pytest.mark.parametrize("text", ["0.001 N·m", "max 0.001 N·m", "max 0.4 N·m", "999999 N·m", "min 0.5 in-lb"])
def test_very_small_and_very_large_values_have_an_answer(text: str) -> None:
    assert setting(text).dial > 0
    assert isinstance(setting_for(torque(text), wrench(), (piece("32 mm"),)), Refusal)
