"""When the walk asks, and how loudly: silent, a line, a stop, a question, a refusal."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group, rack
from torqref.walk.planner import Bench

ANGLE = """
one_time = "bolts"
diagram = '''
 FRONT
 1 2 3 4
'''
[[group.stage]]
torque = "30 N·m"
[[group.stage]]
angle = "90°"
[[group.stage]]
angle = "90°"
"""
SEAT = """
purpose = "adjust"
count = 1
[[group.stage]]
torque = "55 N·m"
while = "turning the hub"
[[group.stage]]
back_off = "half a turn"
[[group.stage]]
torque = "20 N·m"
while = "turning the hub"
[[group.stage]]
align = "back to the next lock hole"
back_at_most = "45°"
[[group.stage]]
measure = "end play"
band = "0.03–0.13 mm"
else = "stage 1"
"""


def presses_to(walk: Walk, kind: str, most: int = 60) -> int:
    for presses in range(most):
        if walk.asks == kind:
            return presses
        assert not walk.press()
    raise AssertionError(f"no {kind} in {most} presses")


# --- a stop, and only where the hand must do something different -------------------------------------


def test_another_setting_is_a_stop_that_says_was_and_set(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(13)  # opening, hand, stop, ten bolts
    assert walk.asks == "stop"
    shown = walk.shown
    assert (shown.verb, shown.number, shown.unit, shown.was) == ("SET", "24", "N·m", "12 N·m")
    assert len(shown.lines) <= 3


def test_torque_to_angle_is_a_stop_and_the_second_angle_round_is_none(tmp_path: Path) -> None:
    walk = Walk(group(ANGLE), tmp_path)
    walk.press(5)
    assert walk.asks == "stop"
    assert "paint every mark the same way, towards FRONT" in walk.lines[0]
    walk.press(5)
    assert walk.asks == "marks"
    walk.press()
    assert (walk.asks, walk.bolt) == ("bolt", (1,))


def test_a_hand_round_is_one_press_and_two_bolts_are_one_card(tmp_path: Path) -> None:
    walk = Walk(
        group('count = 2\n[[group.stage]]\nhand = "seated"\n[[group.stage]]\ntorque = "10 N·m"\n'), tmp_path
    )
    walk.press(2)
    assert walk.asks == "stop"
    walk.press()
    assert walk.asks == "card"
    walk.press()
    assert walk.asks == "finished"
    assert walk.ticks() == [(1,), (2,)]


def test_the_next_round_at_the_same_setting_is_no_stop(tmp_path: Path) -> None:
    again = '[[group.stage]]\ntorque = "24 N·m"\n'
    walk = Walk(group(f"count = 4\n{again}{again}"), tmp_path)
    walk.press(5)
    assert (walk.asks, walk.bolt, walk.session.progress.round) == ("bolt", (1,), 1)


def test_another_size_inside_a_round_is_a_stop(tmp_path: Path) -> None:
    walk = Walk(
        group(
            'count = 4\n[[group.fastener]]\nat = "4"\nthread = "M6"\ntorque = "10 N·m"\n[[group.stage]]\ntorque = "24 N·m"\n'
        ),
        tmp_path,
    )
    walk.press(4)
    assert walk.asks == "stop"
    shown = walk.shown
    assert (shown.bolt, shown.number, shown.was) == ("4", "10", "24 N·m")
    assert any("M6" in line for line in shown.lines)


def test_what_must_be_held_or_turned_is_a_stop_of_its_own(tmp_path: Path) -> None:
    walk = Walk(
        group(
            'count = 4\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\ntorque = "24 N·m"\nhold = "the nut"\n'
        ),
        tmp_path,
    )
    walk.press(5)
    assert walk.asks == "stop"
    assert "hold the nut" in walk.lines


def test_stops_never_follow_each_other_without_a_pull_between(tmp_path: Path) -> None:
    for text in (TWO_ROUNDS, ANGLE, SEAT):
        walk = Walk(group(text), tmp_path, work_order=str(len(text)))
        before = ""
        for _ in range(60):
            if walk.asks in ("finished", "measure"):
                break
            assert not (before == "stop" and walk.asks == "stop")
            before = walk.asks
            assert not walk.press()


# --- coming back -------------------------------------------------------------------------------------


def test_coffee_of_twelve_minutes_in_a_torque_round_is_a_line(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.clock.go(minutes=12)
    assert (walk.asks, walk.bolt) == ("bolt", (7,))
    assert walk.lines == ("last 6, now 7",)


def test_twenty_six_minutes_are_one_stop_look_at_the_last_two(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.clock.go(minutes=26)
    assert walk.asks == "stop"
    assert walk.lines[0] == "back after 26 min: click 5 and 6 again, then 7"
    walk.press()
    assert (walk.asks, walk.bolt) == ("bolt", (7,))


def test_the_bolts_to_click_again_are_those_of_this_round(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(15)  # one bolt of the second round, at another value than bolt 10 before it
    walk.clock.go(minutes=26)
    assert walk.lines[0] == "back after 26 min: click 1 again, then 2"


def test_a_program_that_broke_off_is_one_stop_even_at_once(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.again()
    assert walk.asks == "stop"
    assert walk.lines[0] == "back: click 5 and 6 again, then 7"


def test_a_walk_put_down_and_taken_up_again_soon_is_a_line(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.say("pause")
    walk.again(minutes=10)
    assert (walk.asks, walk.bolt) == ("bolt", (7,))
    assert walk.lines == ("last 6, now 7",)


def test_a_walk_put_down_for_long_is_a_stop(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.say("pause")
    walk.again(minutes=20)
    assert walk.asks == "stop"


@pytest.mark.parametrize("how", ["broke off", "put down", "stood"])
def test_any_pause_inside_an_angle_round_asks_about_the_mark(tmp_path: Path, how: str) -> None:
    walk = Walk(group(ANGLE), tmp_path)
    walk.press(7)  # one bolt of the first angle round is ticked
    if how == "put down":
        walk.say("pause")
    if how == "stood":
        walk.clock.go(minutes=16)
    else:
        walk.again()
    assert (walk.asks, walk.bolt) == ("question", (2,))
    assert walk.lines[0] == "look at the mark of bolt 2: still at the start, or already turned?"
    assert walk.press().startswith("This needs a digit")
    assert [option.digit for option in walk.moment.options] == [1, 2, 3]


def test_the_first_bolt_of_an_angle_round_is_asked_about_too(tmp_path: Path) -> None:
    walk = Walk(group(ANGLE), tmp_path)
    walk.press(6)  # the stop of the angle round is open, no bolt ticked
    walk.again()
    assert (walk.asks, walk.bolt) == ("question", (1,))


def test_a_short_pause_inside_an_angle_round_that_goes_on_asks_nothing(tmp_path: Path) -> None:
    walk = Walk(group(ANGLE), tmp_path)
    walk.press(7)
    walk.clock.go(minutes=14)
    assert (walk.asks, walk.bolt) == ("bolt", (2,))


def test_a_mark_still_at_the_start_turns_the_same_bolt(tmp_path: Path) -> None:
    walk = Walk(group(ANGLE), tmp_path)
    walk.press(7)
    walk.again()
    assert not walk.say("1")
    assert (walk.asks, walk.bolt) == ("bolt", (2,))


def test_a_mark_already_turned_ticks_the_bolt_and_says_how_it_is_known(tmp_path: Path) -> None:
    walk = Walk(group(ANGLE), tmp_path)
    walk.press(7)
    walk.again()
    assert not walk.say("2")
    assert (walk.asks, walk.bolt) == ("bolt", (3,))
    assert walk.events[-1].text == "turned before the pause, seen by its mark"


def test_a_mark_that_tells_nothing_is_trouble(tmp_path: Path) -> None:
    walk = Walk(group(ANGLE), tmp_path)
    walk.press(7)
    walk.again()
    assert not walk.say("3")
    assert walk.asks == "stop"
    assert walk.lines[0] == "bolt 2: cannot tell if turned"
    walk.press()
    assert (walk.session.progress.round, walk.asks, walk.bolt) == (0, "bolt", (1,))


@pytest.mark.parametrize("presses", [2, 3, 4, 5, 6, 7])
def test_a_pause_inside_seat_and_back_off_starts_again_from_the_seat(tmp_path: Path, presses: int) -> None:
    walk = Walk(group(SEAT), tmp_path)
    walk.press(presses)
    walk.say("pause")
    walk.again()
    assert walk.asks == "stop"
    assert "start again from stage 1" in walk.lines[0]
    shown = walk.shown
    assert (shown.verb, shown.number) == ("SET", "55")
    walk.press()
    assert (walk.session.progress.round, walk.asks) == (0, "bolt")


def test_a_pause_before_the_measurement_spoils_nothing(tmp_path: Path) -> None:
    walk = Walk(group(SEAT), tmp_path)
    presses_to(walk, "measure")
    walk.again(minutes=60)
    assert walk.asks == "measure"


def test_a_pause_before_the_first_pull_asks_nothing(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(1)
    walk.again(minutes=60)
    assert walk.asks == "whole"


def test_a_clock_that_was_set_back_is_taken_for_a_long_pause(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.say("pause")
    walk.again(minutes=-90)
    assert walk.asks == "stop"
    walk.press()
    assert (walk.asks, walk.bolt) == ("bolt", (7,))


# --- questions that come before the work ------------------------------------------------------------


def test_a_wrench_past_its_date_is_asked_about_once_a_day(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path), wrench="W2")
    walk = Walk(group(TWO_ROUNDS), tmp_path / "records", bench=bench)
    walk.press(2)
    assert walk.asks == "question"
    assert walk.lines == ("W2 ran out 34 days ago. W1 covers this.",)
    assert not walk.say("1")
    walk.press(13)
    assert walk.asks == "bolt"
    walk.again(minutes=60 * 24)
    assert walk.asks == "question"
    assert not walk.say("1")
    assert walk.asks == "stop"  # the answer about the wrench has not settled where the hand is


def test_the_next_walk_of_the_day_does_not_ask_about_the_wrench_again(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path), wrench="W2")
    for first, expected in (("a", "question"), ("b", "stop")):
        walk = Walk(group(TWO_ROUNDS, first), tmp_path / "records", bench=bench)
        walk.press(2)
        assert walk.asks == expected
        walk.say("1")
        walk.session.close()


def test_a_wrench_not_past_its_date_is_not_asked_about(tmp_path: Path) -> None:
    bench = Bench(today=date(2026, 1, 27), rack=rack(tmp_path), wrench="W2")
    walk = Walk(group(TWO_ROUNDS), tmp_path / "records", bench=bench)
    walk.clock.now = MORNING - timedelta(days=34)
    walk.press(2)
    assert walk.asks == "stop"


def test_a_value_that_cannot_be_right_is_asked_about_once_a_revision(tmp_path: Path) -> None:
    wrong = group('thread = "M6"\nclass = "8.8"\ncount = 4\n[[group.stage]]\ntorque = "105 N·m"\n')
    walk = Walk(wrong, tmp_path)
    assert walk.asks == "question"
    assert "105 N·m" in walk.lines[0]
    assert "10.5" in walk.lines[0]
    assert not walk.say("1")
    assert walk.asks == "stop"
    walk.session.close()
    walk.open(new=True)
    assert walk.asks == "stop"


def test_a_doubtful_value_can_be_put_down_and_is_asked_about_again(tmp_path: Path) -> None:
    wrong = group('thread = "M6"\nclass = "8.8"\ncount = 4\n[[group.stage]]\ntorque = "105 N·m"\n')
    walk = Walk(wrong, tmp_path)
    assert not walk.say("2")
    assert walk.session.progress.paused
    walk.again()
    assert walk.asks == "question"


def test_a_library_corrected_under_an_open_walk_is_asked_about_and_the_answer_kept(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(5)
    walk.say("pause")
    walk.group = group(TWO_ROUNDS.replace("22–26 N·m", "20–24 N·m"))
    walk.again()
    assert walk.asks == "question"
    assert walk.lines == (
        "the library has changed since this walk began",
        "stage 3: 22–26 N·m is now 20–24 N·m",
    )
    assert not walk.say("1")
    assert (walk.asks, walk.bolt) == ("bolt", (3,))
    assert walk.events[-1].gate.startswith("changed")
    assert walk.events[-1].text == "go on by the plan of this walk"
    walk.say("pause")
    walk.again()
    assert walk.asks == "bolt"


def test_a_library_changed_in_words_only_asks_nothing(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(5)
    walk.say("pause")
    walk.group = group('aliases = ["other"]\nname = "Other"\n' + TWO_ROUNDS)
    walk.again()
    assert walk.asks == "bolt"


def test_each_caution_that_stands_alone_has_its_press(tmp_path: Path) -> None:
    text = (
        'cautions = [{ text = "hot", alone = true }, { text = "live", alone = true }, "sharp"]\n' + TWO_ROUNDS
    )
    walk = Walk(group(text), tmp_path)
    assert (walk.asks, walk.lines) == ("caution", ("hot",))
    walk.press()
    assert (walk.asks, walk.lines) == ("caution", ("live",))
    walk.press()
    assert walk.asks == "stop"
    assert walk.lines[0].startswith("sharp")


def test_cautions_are_read_once_in_a_job(tmp_path: Path) -> None:
    text = 'cautions = [{ text = "hot", alone = true }]\n' + TWO_ROUNDS
    for identity, order, expected in (("a", "17", "caution"), ("b", "17", "stop"), ("c", "18", "caution")):
        walk = Walk(group(text, identity), tmp_path, work_order=order)
        assert walk.asks == expected
        walk.press(2)
        walk.session.close()


# --- rounds that wait, that hurry, that do not come to rest ------------------------------------------

WAITS = """
count = 4
[[group.stage]]
torque = "24 N·m"
[[group.stage]]
wait = "cold again"
due = { hours = 4 }
[[group.stage]]
torque = "24 N·m"
recheck = true
"""


def test_a_wait_is_not_passed_by_the_main_key_before_it_is_due(tmp_path: Path) -> None:
    walk = Walk(group(WAITS), tmp_path)
    walk.press(5)
    walk.clock.go(minutes=70)
    assert walk.asks == "wait"
    assert any("1 h 10 min of 4 h 0 min. Wait, or give a reason 1–6." in line for line in walk.lines)
    assert walk.press().startswith("Not before")
    assert walk.asks == "wait"


def test_a_wait_is_passed_early_by_a_reason(tmp_path: Path) -> None:
    walk = Walk(group(WAITS), tmp_path)
    walk.press(5)
    walk.clock.go(minutes=70)
    assert not walk.say("2")
    assert (walk.asks, walk.bolt, walk.session.progress.round) == ("bolt", (1,), 2)
    assert walk.events[-1].text == "the page allows it"
    assert walk.events[-1].reason == 2


def test_a_wait_that_is_over_is_one_stop_for_the_recheck_too(tmp_path: Path) -> None:
    walk = Walk(group(WAITS), tmp_path)
    walk.press(5)
    walk.again(minutes=60 * 24 * 3)
    assert walk.asks == "stop"
    assert walk.lines[0] == "cold again: is it so now? Then go on here. Open since Monday 2026-03-02."
    assert any("never loosen first" in line for line in walk.lines)
    shown = walk.shown
    assert (shown.number, shown.unit) == ("24", "N·m")
    walk.press()
    assert (walk.asks, walk.bolt) == ("bolt", (1,))


def test_a_wait_that_no_clock_can_count_needs_a_digit(tmp_path: Path) -> None:
    walk = Walk(group(WAITS.replace("hours = 4", "km = 80")), tmp_path)
    walk.press(5)
    walk.again(minutes=60 * 24 * 3)
    assert walk.asks == "wait"
    assert walk.press().startswith("Not before it is so")
    assert not walk.say("1")
    assert (walk.asks, walk.session.progress.round) == ("bolt", 2)


def test_a_stage_that_hurries_asks_when_its_time_is_over(tmp_path: Path) -> None:
    text = 'count = 4\n[[group.stage]]\nhand = "touch"\nwithin = "10 min"\n[[group.stage]]\ntorque = "9 N·m"\nwithin = "10 min"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(4)
    assert walk.lines == ("9 min left of 10 min",)
    walk.clock.go(minutes=29)
    assert walk.asks == "question"
    assert walk.lines[0].startswith("29 min since it was begun, the limit is 10 min")
    assert not walk.say("1")
    assert (walk.session.progress.round, walk.asks) == (0, "whole")
    walk.press()
    assert walk.asks == "stop"  # fresh sealant, fresh time: no question now
    walk.press()
    walk.clock.go(minutes=11)
    assert walk.asks == "question"
    assert not walk.say("2")
    assert walk.asks == "bolt"
    assert walk.events[-1].text == "go on all the same; the record says so"


def test_going_on_late_does_not_swallow_the_look_at_the_last_two(tmp_path: Path) -> None:
    text = 'count = 6\n[[group.stage]]\ntorque = "9 N·m"\nwithin = "10 min"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(4)
    walk.clock.go(minutes=29)
    assert not walk.say("2")
    assert walk.asks == "stop"
    assert walk.lines[0] == "back after 29 min: click 2 and 3 again, then 4"


STILL = """
count = 4
[[group.stage]]
torque = "24 N·m"
[[group.stage]]
torque = "24 N·m"
until = "still"
"""


def test_a_round_until_still_ends_with_the_trip_in_which_nothing_moved(tmp_path: Path) -> None:
    walk = Walk(group(STILL), tmp_path)
    walk.press(5)
    walk.say("moved", "", "moved", "")
    assert (walk.session.progress.trip, walk.bolt) == (2, (1,))
    walk.say("", "", "moved", "")
    assert walk.session.progress.trip == 3
    walk.press(4)
    assert walk.asks == "finished"
    assert walk.kinds().count("moved") == 3


def test_a_round_that_does_not_come_to_rest_asks_after_five_trips(tmp_path: Path) -> None:
    walk = Walk(group(STILL), tmp_path)
    walk.press(5)
    for _ in range(5):
        walk.say("", "moved", "", "")
    assert walk.asks == "question"
    assert "bolt 2 moved" in walk.lines[0]
    assert not walk.say("1")
    assert (walk.session.progress.trip, walk.bolt) == (6, (1,))
    walk.say("", "moved", "", "")
    assert not walk.say("2")
    assert walk.asks == "finished"


# --- the foot switch ---------------------------------------------------------------------------------


def test_a_bounce_of_the_pedal_is_ignored_and_told(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(6)
    walk.clock.go(seconds=1)
    assert not walk.session.press().refused
    walk.clock.go(seconds=0.15)
    assert walk.session.press().refused == "Double press ignored. Bolt 5 is next."
    assert walk.ticks()[-1] == (4,)
    walk.clock.go(seconds=0.3)
    assert not walk.session.press().refused
    assert walk.ticks()[-1] == (5,)


def test_a_key_that_is_held_down_ticks_one_bolt(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(3)
    for _ in range(30):
        walk.clock.go(seconds=0.03)
        walk.session.press()
    assert walk.ticks() == [(1,)]


def test_a_digit_ticks_nothing(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(3)
    assert walk.say("1") == "No question is open; a digit does nothing."
    assert walk.ticks() == []


def test_a_bolt_that_the_page_visits_twice_comes_twice(tmp_path: Path) -> None:
    text = 'count = 3\n[[group.stage]]\ntorque = "24 N·m"\nat = "1 2 1"\nrevisit = true\n'
    walk = Walk(group(text), tmp_path)
    walk.press(4)
    assert walk.ticks() == [(1,), (2,), (1,)]
    assert walk.asks == "finished"
