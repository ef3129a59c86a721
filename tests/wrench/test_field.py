"""What people who tighten bolts ask about crowfeet and wrench ranges, with the right answer.

Each expected number is worked out by the formula beside it, or is a rule of common practice.
"""

from __future__ import annotations

import math
from datetime import date
from fractions import Fraction

import pytest

from tests.wrench.bench import length, piece, refused, said, scale, setting, torque, wrench
from torqref.wrench.adapter import Multiplier
from torqref.wrench.choice import choose, overdue_words, share_of_scale
from torqref.wrench.cost import angle_cost
from torqref.wrench.rack import PULLS, Rack
from torqref.wrench.setting import Setting, achieved_by
from torqref.wrench.weight import Weight, arm_for, moment, read_weight

TODAY = date(2027, 1, 1)

# target, length, pieces, setting: T · L / (L + ΣE·cos θ), two decimals
CROWFEET = [
    ("40 ft-lb", "14 in", [("2 in", 180)], 46.67),
    ("40 ft-lb", "14 in", [("2 in", 135)], 44.49),
    ("100 ft-lb", "12 in", [("9 in", 0)], 57.14),
    ("100 ft-lb", "18 in", [("9 in", 0)], 66.67),
    ("100 ft-lb", "24 in", [("9 in", 0)], 72.73),
    ("20 N·m", "250 mm", [("50 mm", 45)], 17.52),
    ("140 in-lb", "10 in", [("1 in", 0)], 127.27),
    ("140 in-lb", "10 in", [("1 in", 90)], 140.0),
    ("75 ft-lb", "18 in", [("6 in", 0), ("1.5 in", 90)], 56.25),
    ("100 N·m", "450 mm", [("2.25 in", 0)], 88.73),
]


@pytest.mark.parametrize(("target", "handle", "rig", "expected"), CROWFEET)
def test_settings_asked_for_in_the_field(
    target: str, handle: str, rig: list[tuple[str, int]], expected: float
) -> None:
    parts = [piece(offset, angle) for offset, angle in rig]
    found = setting(target, None, *parts, length=length(handle))
    assert float(found.value) == pytest.approx(expected, abs=0.005)


def test_an_adapter_at_the_distance_of_the_hand_is_not_at_a_right_angle() -> None:
    # Kept at the same distance hand to nut, cos a = −E/(2L): 93.58° for 16 and 2 in, and 0.8 % less arrives.
    assert setting("100 ft-lb", None, piece("2 in", 90), length=length("16 in")).factor == 1
    angle = Fraction(math.degrees(math.acos(-2 / 32)))
    assert float(angle) == pytest.approx(93.58, abs=0.005)
    low, _ = angle_cost(length("16 in"), (piece("2 in", 90),), angle - 90)
    assert float(1 + low) == pytest.approx(0.9922, abs=0.00005)


def test_the_shortcut_for_a_one_foot_lever_is_priced_on_a_longer_wrench() -> None:
    # 57.14 is right for 12 in; on 18 in it delivers 57.14 · 27 / 18 = 85.7
    found = achieved_by(torque("57.14 ft-lb"), None, (piece("9 in"),), length=length("18 in"))
    assert isinstance(found, Setting)
    assert float(found.value / found.factor) == pytest.approx(85.71, abs=0.005)


def test_drag_goes_in_before_the_adapter() -> None:
    # (160 + 12) · 10 / 11.5 = 149.57
    found = setting("160 in-lb", None, piece("1.5 in"), length=length("10 in"), drag=torque("12 in-lb"))
    assert float(found.value) == pytest.approx(149.57, abs=0.005)
    assert "172 in-lb at the nut" in said(found)


def test_a_multiplier_with_a_loss_allowed_for() -> None:
    # 400 · 1.10 = 440 nominal out of a 4:1 box is 110 in
    box = Multiplier(ratio=Fraction(4), efficiency=1 / Fraction("1.10"))
    found = setting("400 ft-lb", None, box)
    assert found.value == 110
    assert "best measured for this box" in said(found)


def test_a_multiplier_whose_loss_nobody_said_is_told_as_the_best_case() -> None:
    # 400 / 4 = 100 without loss; 400 / (4 · 0.9) = 111.1 at 90 % (common practice, no source)
    found = setting("400 ft-lb", None, Multiplier(ratio=Fraction(4)))
    assert found.value == 100
    assert "4:1 at 100 % is the best case" in found.notes[0]
    assert "At 90 % set 111 ft-lb (90 %: common practice, no source)" in found.notes[0]
    assert "4:1 90 %" in found.notes[0]
    known = setting("400 ft-lb", None, Multiplier(ratio=Fraction(4), efficiency=Fraction(9, 10)))
    assert float(known.value) == pytest.approx(111.1, abs=0.05)
    assert "best case" not in said(known)


def test_what_arrived_through_a_multiplier_whose_loss_nobody_said_is_the_most_there_can_be() -> None:
    # 100 · 4 = 400 at most; 360 at 90 %
    found = achieved_by(torque("100 ft-lb"), None, (Multiplier(ratio=Fraction(4)),))
    assert isinstance(found, Setting)
    assert "best case" in said(found)
    assert "At 90 % 360 ft-lb arrived" in said(found)


def test_no_torque_reaches_a_fastener_under_the_hand() -> None:
    assert "no lever" in refused("20 ft-lb", None, piece("6 in", 180), length=length("6 in"))


def test_a_wrench_low_on_its_scale_is_told_with_its_own_limit() -> None:
    # accuracy is claimed from 20 % of scale up: 6 N·m is 10 % of 60
    low = setting("6 N·m", wrench("5", "60", "0.5"))
    assert "Below a fifth of scale (12.0 N·m)" in said(low)
    own = setting("6 N·m", wrench("5", "60", "0.5", certified_from=Fraction(30, 100)))
    assert "Below 30 % of scale (18.0 N·m)" in said(own)


def test_below_the_certified_share_the_band_grows_with_the_distance() -> None:
    # what the wrench may be off at a fifth of scale does not shrink below it: 0.04 · 12 = 0.48, and 0.25
    found = setting("6 N·m", wrench("5", "60", "0.5"))
    assert found.at_fastener is not None
    assert float(found.at_fastener.low) == pytest.approx(6 - 0.48 - 0.25)
    assert float(found.at_fastener.high) == pytest.approx(6 + 0.48 + 0.25)


def test_standing_on_a_bar_gives_the_arm_for_a_torque() -> None:
    weight = read_weight("150 lb")
    assert isinstance(weight, Weight)
    assert arm_for(Fraction(300), "ft-lb", weight, "ft") == 2


def test_pushing_an_ordinary_spanner_gives_its_moment() -> None:
    weight = read_weight("18 pounds")
    assert isinstance(weight, Weight)
    assert moment(weight, length("6 in"), "ft-lb") == 9


def test_a_click_wrench_says_to_stop_at_the_first_click() -> None:
    assert "Stop at the first click and do not pull again" in PULLS["click"]
    assert wrench().pull == PULLS["click"]


def test_a_wrench_past_its_date_is_a_question_and_never_taken_silently() -> None:
    rack = Rack(wrenches=(wrench(calibration_due=date(2026, 11, 1)),))
    offers = choose(torque("40 N·m"), rack, today=TODAY)
    assert offers[0].overdue
    assert offers[0].days_overdue == 61
    assert overdue_words(offers[0], offers) == "W2 ran out 61 days ago. No wrench in date covers this."


def test_two_wrenches_are_better_than_one_wide_one() -> None:
    # 5 of 2–16 N·m is 31 % of scale; 10–60 N·m cannot show it
    rack = Rack(wrenches=(wrench("10", "60", "0.5", id="large"), wrench("2", "16", "0.2", id="small")))
    small, large = choose(torque("5 N·m"), rack, today=TODAY)
    assert small.wrench.id == "small"
    assert small.setting is not None
    assert float(share_of_scale(small.wrench, small.setting)) == pytest.approx(0.312, abs=0.001)
    assert small.reason == "31 % of scale"
    assert large.blocked
    assert large.reason == "starts at 10.0 N·m"


def test_the_safest_setting_in_a_window() -> None:
    # 20 / 0.96 = 20.83 to 25 / 1.04 = 24.04; the middle delivers 21.6 to 23.4
    found = setting("20–25 N·m", wrench("5", "50", "0", scales=(scale("5", "50", "0.0001"),)))
    assert found.span is not None
    assert float(found.span[0]) == pytest.approx(20.83, abs=0.005)
    assert float(found.span[1]) == pytest.approx(24.04, abs=0.005)
    assert found.dial == Fraction("22.5")
    assert found.at_fastener is not None
    assert float(found.at_fastener.low) == pytest.approx(21.6, abs=0.001)
    assert float(found.at_fastener.high) == pytest.approx(23.4, abs=0.001)


def test_between_marks_both_neighbours_are_offered_with_what_they_deliver() -> None:
    # 100 · 18 / 22 = 81.82; 80 · 22 / 18 = 97.78, 82 · 22 / 18 = 100.22
    tool = wrench("20", "150", "2", "ft-lb", length=length("18 in"))
    found = setting("100 ft-lb", tool, piece("4 in"))
    assert float(found.value) == pytest.approx(81.82, abs=0.005)
    assert "80 gives 97.8, 82 gives 100" in said(found)
    assert found.dial == 82


def test_of_two_marks_the_one_inside_the_window_is_taken() -> None:
    # 82 delivers 100.2, beyond a maximum of 100: 80, though further away, stays inside
    tool = wrench("20", "150", "2", "ft-lb", length=length("18 in"), tolerance=Fraction(1, 1000))
    found = setting("100 +0/-8 ft-lb", tool, piece("4 in"))
    assert found.dial == 80
    assert "80 is the one inside the window" in said(found)
