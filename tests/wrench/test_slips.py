"""Slips that happen in shops with wrench and crowfoot: each is caught, and what is right stays in peace.

The stories are common practice, no source; the numbers are worked out beside each check.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from tests.wrench.bench import length, piece, refused, said, scale, setting, torque, wrench
from torqref.wrench.choice import best, choose, overdue_words
from torqref.wrench.doubt import doubts
from torqref.wrench.rack import Rack


def test_inch_pounds_on_a_foot_pound_wrench_name_the_end_of_its_scale_in_inch_pounds() -> None:
    # 96 in-lb is 8 ft-lb; the wrench starts at 10 ft-lb, which is 120 in-lb
    message = refused("96 in-lb", wrench("10", "100", "1", "ft-lb", id="W7"))
    assert "96 in-lb" in message
    assert "starts at 10 ft-lb (120 in-lb)" in message
    assert "smaller wrench" in message


def test_kilogram_metres_are_not_pulled_as_newton_metres() -> None:
    # 8.0 · 9.80665 = 78.5 N·m
    found = setting("8.0 kgf·m", wrench("20", "200", "0.5"))
    assert found.shown == "78.5"
    assert "8.0 kgf·m is 78.5 N·m." in said(found)


def test_the_upper_end_of_a_range_is_not_dialled() -> None:
    # ±4 %: 25 · 1.04 = 26.0; safe from 20 / 0.96 = 20.83 to 25 / 1.04 = 24.04
    found = setting("20–25 N·m")
    assert found.shown == "22.5"
    assert "stay within 20.9 to 24.0" in said(found)


def test_the_printed_upper_end_is_told_with_what_it_may_deliver() -> None:
    found = setting("25 +0/-5 N·m")
    assert found.shown == "25"
    assert found.verdict == "touches"
    assert "25 may deliver 26.0 N·m; the limit is 25." in said(found)
    assert "stay within 20.9 to 24.0" in said(found)


def test_the_drag_of_a_locking_nut_is_added() -> None:
    # 160 + 25 = 185, 190 + 25 = 215
    found = setting("160–190 in-lb", drag=torque("25 in-lb"))
    assert "185 to 215 in-lb at the nut" in said(found)
    assert found.shown == "200"


def test_a_wrench_past_its_date_is_told_together_with_one_that_is_not() -> None:
    rack = Rack(
        wrenches=(
            wrench(id="W4", calibration_due=date(2027, 3, 1)),
            wrench(id="W3", calibration_due=date(2027, 12, 1)),
        )
    )
    offers = choose(torque("40 N·m"), rack, today=date(2027, 4, 4))
    late = next(offer for offer in offers if offer.wrench.id == "W4")
    assert overdue_words(late, offers) == "W4 ran out 34 days ago. W3 covers this."
    assert [offer.wrench.id for offer in offers] == ["W3", "W4"]
    assert not late.blocked


def test_a_left_hand_nut_asks_for_a_wrench_that_measures_that_way() -> None:
    one_way = wrench(id="W3")
    assert "does not measure anticlockwise" in refused("40 N·m", one_way, direction="anticlockwise")
    both = wrench(id="W3", directions=("clockwise", "anticlockwise"))
    assert setting("40 N·m", both, direction="anticlockwise").shown == "40.0"


def test_look_alikes_are_told_apart_by_their_mark() -> None:
    rack = Rack(wrenches=(wrench(id="W3", mark="yellow tape"),))
    offer = best(choose(torque("40 N·m"), rack, today=date(2027, 1, 1)))
    assert offer is not None
    assert offer.words == "Take W3, yellow tape."


def test_a_crowfoot_straight_out_is_corrected_and_the_mistake_is_priced() -> None:
    # 40 · 300 / 338 = 35.5; uncorrected 40 · 338 / 300 = 45.1, +12.7 %
    found = setting("40 N·m", None, piece("38 mm"), length=length("300 mm"))
    assert found.shown == "35.5"
    assert "At 40 the fastener gets 45.1 N·m (+12.7 %)." in said(found)


def test_a_value_already_for_the_tool_is_never_corrected_again() -> None:
    found = setting("35.5 N·m", None, piece("38 mm"), length=length("300 mm"), value_is="setting with tool")
    assert (found.shown, found.value, found.factor) == ("35.5", Fraction("35.5"), Fraction(1))
    assert found.at_fastener is None
    assert "already the setting with the tool. Set 35.5 as printed." in said(found)


def test_a_crowfoot_that_points_back_is_seen_in_the_two_numbers() -> None:
    # 40 · 300 / 338 = 35.5 and 40 · 300 / 262 = 45.8
    found = setting("40 N·m", None, piece("38 mm"), length=length("300 mm"))
    assert "AWAY from your hand: 35.5. BACK towards it: 45.8." in said(found)


def test_the_size_of_the_jaw_is_not_taken_for_the_offset() -> None:
    found = setting("40 N·m", wrench(drive="3/8 in"), piece("17 mm"))
    assert "17 mm is short for a crowfoot: is it the jaw?" in said(found)
    assert "square centre to jaw centre" in said(found)


# --- must stay silent ------------------------------------------------------------------------------


def test_an_electronic_wrench_certified_from_five_percent_stays_silent_at_eight() -> None:
    tool = wrench("10", "200", "0.1", kind="electronic", certified_from=Fraction(5, 100))
    found = setting("16 N·m", tool)
    assert found.dial / 200 == Fraction(8, 100)
    assert not found.notes


def test_the_true_offset_of_a_17_mm_flare_stays_silent() -> None:
    assert doubts((piece("32 mm"),), "3/8 in", length("290 mm")) == ()


def test_a_plain_value_on_a_mark_in_the_middle_of_the_scale_says_nothing() -> None:
    assert not setting("40 N·m", wrench()).notes


def test_the_scale_in_the_printed_unit_is_used_without_a_word_about_units() -> None:
    tool = wrench(scales=(scale("10", "60", "0.5"), scale("8", "44", "0.5", "ft-lb")))
    found = setting("18 ft-lb", tool)
    assert (found.shown, found.unit, found.notes) == ("18.0", "ft-lb", ())
