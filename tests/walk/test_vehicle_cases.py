"""More slips and turns of a day at the vehicle, invented beside the known ones: at the bolt, at a stop, in the record.

What is expected is said beside each: a trade fact, a source, or common practice without one. The values are
invented and plausible for their threads.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, RACK, TWO_ROUNDS, Walk, group, rack
from torqref.walk.opening import Request, open_group
from torqref.walk.planner import LOOSEN, Bench

FIVE = 'count = 5\n[[group.stage]]\ntorque = "{}"\n'
WINDOW, BARE = FIVE.format("22–26 N·m"), FIVE.format("24 N·m")
CARD = 'count = 3\n[[group.stage]]\ntorque = "10 N·m"\n'
ANGLES = 'count = 5\none_time = "bolts"\n[[group.stage]]\ntorque = "30 N·m"\n' + (
    '[[group.stage]]\nangle = "90°"\nwindow = "±5°"\n[[group.stage]]\nangle = "90°"\n'
)
ONE_BY_ONE = 'count = 3\n[[group.stage]]\nchain = "30 N·m + 90° + 90°"\neach_bolt = true\n'
LOCKING = "locking = true\n" + WINDOW
CHECKED = 'count = 4\nsecond_check = "typed"\n[[group.stage]]\ntorque = "50 N·m"\n'
COLD = (
    'count = 5\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nwait = "cold again"\ndue = { hours = 4 }\n'
    '[[group.stage]]\ntorque = "24 N·m"\nrecheck = true\n'
)
PAIRS = 'layout = { circle = 8 }\norder = "1+5 3+7 2+6 4+8"\n[[group.stage]]\ntorque = "90 N·m"\n'


def at(text: str, folder: Path, presses: int = 1, **given: object) -> Walk:
    """A walk of this group after some presses of the main key."""
    walk = Walk(group(text), folder / "records", **given)  # type: ignore[arg-type]  # fields of Walk
    walk.press(presses)
    return walk


def told(walk: Walk, line: str) -> str:
    """What is answered at once: a refusal, or the news."""
    walk.clock.go(seconds=5)
    reply = walk.session.say(line)
    return reply.refused or reply.told


# --- the half-done angle: what is left is the number in large digits -------------------------------------


def half_way(folder: Path) -> Walk:
    walk = at(ANGLES, folder, 9)
    assert (walk.bolt, walk.shown.number) == ((3,), "90")
    assert not walk.say("actual 50")
    return walk


def test_after_fifty_of_ninety_degrees_the_large_number_is_the_forty_that_are_left(tmp_path: Path) -> None:
    """Turning 90° once more would be 140°, far beyond yield."""
    walk = half_way(tmp_path)
    assert (walk.shown.verb, walk.shown.number, walk.shown.unit) == ("TURN", "40", "°")
    # 40° are a ninth of a turn, and two thirds of a flat of 60°
    assert walk.shown.turn.startswith("1/9 turn, 2/3 flat of a hex")
    assert walk.lines == (), "how far it got stands in the headline and nowhere else"


def test_the_rest_of_a_turn_typed_alone_is_refused_as_no_bolt_turns_back(tmp_path: Path) -> None:
    walk = half_way(tmp_path)
    assert told(walk, "actual 40") == (
        "About 50° were reached already: write all of the turn, 90° when it is done."
    )
    assert not walk.say("actual 90")
    assert walk.bolt == (4,)


@pytest.mark.parametrize(("digit", "bolt", "number"), [("1", (3,), "40"), ("2", (4,), "90")])
def test_a_half_turn_left_over_night_is_asked_by_where_it_was_left(
    tmp_path: Path, digit: str, bolt: tuple[int, ...], number: str
) -> None:
    walk = half_way(tmp_path)
    walk.again(minutes=900)
    assert walk.asks == "question"
    assert [text for _, text in walk.shown.options] == [
        "the mark is where it was left", "the mark has turned all the way", "cannot tell",
    ]  # fmt: skip
    assert "about 50° were reached" in walk.lines[0]
    walk.say(digit)
    assert (walk.bolt, walk.shown.number) == (bolt, number)


def test_a_half_turn_is_taken_back_whole(tmp_path: Path) -> None:
    walk = half_way(tmp_path)
    assert not walk.say("undo")
    assert (walk.bolt, walk.shown.number) == ((3,), "90")


def test_ninety_three_of_ninety_plus_minus_five_are_right(tmp_path: Path) -> None:
    walk = at(ANGLES, tmp_path, 9)
    assert not walk.say("actual 93")
    assert (walk.bolt, walk.events[-1].text) == ((4,), "turned 93°")


def test_two_turns_of_ninety_at_one_bolt_say_which_of_them_it_is(tmp_path: Path) -> None:
    """Both look alike; a person who is called away must see that the first is done."""
    walk = at(ONE_BY_ONE, tmp_path)
    seen = []
    for _ in range(4):
        seen.append(walk.shown.headline)
        walk.press()
    assert seen == ["bolt 1, 1 of 3", "bolt 1, 2 of 3", "bolt 1, 3 of 3", "bolt 2, 1 of 3"]


def test_bolt_by_bolt_the_stop_says_that_each_goes_through_all_of_it(tmp_path: Path) -> None:
    (line,) = [line for line in at(ONE_BY_ONE, tmp_path, 0).lines if "each bolt" in line]
    assert line == "each bolt through all of it, 30 N·m + 90° + 90°; mark it before it turns"


def test_a_bolt_put_off_between_torque_and_angle_keeps_its_two_turns_for_later(tmp_path: Path) -> None:
    walk = at(ONE_BY_ONE, tmp_path, 5)
    assert walk.shown.headline == "bolt 2, 2 of 3"
    walk.say("later")
    walk.press(3)
    assert walk.shown.headline == "bolt 2, 2 of 3"
    walk.press(2)
    assert walk.asks == "finished"


# --- the page says other ---------------------------------------------------------------------------------


def test_an_angle_that_the_page_corrects_is_shown_as_the_page_prints_it(tmp_path: Path) -> None:
    walk = at(ANGLES, tmp_path, 7)
    assert not walk.say("page 60 on p. 3")
    assert (walk.shown.number, walk.shown.spec) == ("60", "60°")
    assert "60°" in [entry.text for entry in walk.shown.strip]


@pytest.mark.parametrize(
    ("page", "mend"),
    [
        # a turn that is short is turned on; one that is too far is never turned back
        ("120°", "undo N, then actual 90°, and turn the rest"),
        ("60°", "do not turn back, trouble"),
    ],
)
def test_bolts_already_turned_by_the_old_angle_are_named_with_what_to_do(
    tmp_path: Path, page: str, mend: str
) -> None:
    walk = at(ANGLES, tmp_path, 9)
    assert told(walk, f"page {page}").endswith(f"; bolt 1, 2 already turned 90°: {mend}")


def test_a_page_that_would_break_the_bolt_has_to_be_named(tmp_path: Path) -> None:
    """M6 8.8 bears about 10 N·m (proof load 11.6 kN of ISO 898-1, T = 0.2·F·d gives 14 N·m at all of it)."""
    walk = at('thread = "M6"\nclass = "8.8"\n' + FIVE.format("10 N·m"), tmp_path, 2)
    refused = told(walk, "page 100 N·m")
    assert "would break M6x1 8.8" in refused
    assert refused.endswith("If the page says so, name it: page 100 N·m on PAGE.")
    assert walk.shown.number == "10"
    assert not told(walk, "page 11 N·m").startswith("11 N·m would")


def test_a_large_value_for_the_large_bolts_of_a_mixed_pattern_breaks_nothing(tmp_path: Path) -> None:
    text = (
        'count = 6\nthread = "M6"\nclass = "8.8"\n[[group.fastener]]\nat = "5 6"\nthread = "M10"\ntorque = "45 N·m"\n'
        '[[group.stage]]\ntorque = "10 N·m"\n'
    )
    walk = at(text, tmp_path, 6)
    assert walk.bolt == (5,)
    assert "48 N·m on the page" in told(walk, "page 48 N·m")


def test_a_position_is_judged_by_its_own_class_where_that_differs(tmp_path: Path) -> None:
    """Proof loads of ISO 898-1 for M6: 8.8 11.6 kN, 12.9 19.5 kN; with K = 0.30 that is 21 and 35 N·m."""
    text = (
        'count = 5\nthread = "M6"\nclass = "12.9"\n[[group.fastener]]\nat = "1"\nclass = "8.8"\n'
        '[[group.stage]]\ntorque = "10 N·m"\n'
    )
    walk = at(text, tmp_path, 1)
    assert walk.bolt == (1,)
    assert "M6x1 8.8" in told(walk, "page 28 N·m")
    walk.press()
    assert walk.bolt == (2,)
    assert "28 N·m on the page" in told(walk, "page 28 N·m")


def test_a_small_bolt_of_a_mixed_pattern_is_judged_by_its_own_thread_whatever_its_words(
    tmp_path: Path,
) -> None:
    text = (
        'count = 5\nthread = "M10"\nclass = "8.8"\n[[group.fastener]]\nat = "1"\nthread = "M6"\n'
        'note = "M12 washer under it"\ntorque = "10 N·m"\n[[group.stage]]\ntorque = "45 N·m"\n'
    )
    walk = at(text, tmp_path, 1)
    assert walk.bolt == (1,)
    assert "would break M6x1 8.8" in told(walk, "page 48 N·m")


# --- readings --------------------------------------------------------------------------------------------


def test_a_reading_far_from_a_value_without_limits_is_told_and_refuses_nothing(tmp_path: Path) -> None:
    """A bare value has no invented tolerance; 30 is a quarter more than 24."""
    walk = at(BARE, tmp_path)
    assert told(walk, "actual 30 N·m") == (
        "actual 30 N·m: 25 % more than the printed 24 N·m, which has no limits"
    )
    assert walk.bolt == (2,)
    assert told(walk, "actual 24.5 N·m") == ""


def test_a_reading_in_old_units_is_held_against_the_window(tmp_path: Path) -> None:
    # 1 kgf·m = 9.80665 N·m: 2.4 are 23.5 N·m, inside 22 to 26; 3 are 29.4
    walk = at(WINDOW, tmp_path)
    assert told(walk, "actual 2.4 kgf·m") == ""
    assert "ABOVE the window 22–26 N·m" in told(walk, "actual 3 kgf·m")


def test_a_drag_of_more_than_the_value_itself_is_a_slip_of_the_unit(tmp_path: Path) -> None:
    walk = at(LOCKING, tmp_path, 3)
    refused = told(walk, "drag 300 N·m")
    assert refused.startswith("A drag of 300 N·m is more than the printed 22–26 N·m itself.")
    assert walk.shown.number == "24"


def test_the_same_on_the_command_line_is_refused_before_anything_is_begun(tmp_path: Path) -> None:
    from torqref.quantity.reading import read_torque
    from torqref.quantity.term import Torque

    drag = read_torque("300 N·m")
    assert isinstance(drag, Torque)
    bench = Bench(today=MORNING.date(), drag=drag)
    opening = open_group(group(LOCKING), bench, Request(folder=tmp_path / "r", bay="b"), lambda: MORNING)
    assert opening.session is None
    assert not (tmp_path / "r").exists()


def test_a_drag_measured_late_names_the_nuts_that_went_without_it(tmp_path: Path) -> None:
    """FAA AC 43.13-1B, para. 7-40: the drag is added to the value, at every nut."""
    walk = at(LOCKING, tmp_path, 3)
    assert told(walk, "drag 3 N·m").endswith(
        "; bolt 1, 2 already pulled with another setting: undo N and pull again"
    )


def test_taken_apart_there_is_no_setting_for_a_drag(tmp_path: Path) -> None:
    walk = at(LOCKING, tmp_path, bench=Bench(today=MORNING.date(), action=LOOSEN))
    assert "taken apart" in told(walk, "drag 3 N·m")


# --- trouble ---------------------------------------------------------------------------------------------


def test_trouble_on_a_card_of_three_asks_which_bolt(tmp_path: Path) -> None:
    walk = at(CARD, tmp_path)
    assert told(walk, "trouble 1") == "Which bolt? Write trouble 1 and one of: 1, 2, 3."
    assert not walk.say("trouble 1 2")
    assert walk.lines[0] == "bolt 2: stripped"


def test_the_last_open_bolt_of_a_card_needs_no_name(tmp_path: Path) -> None:
    walk = at(CARD, tmp_path)
    walk.say("skip 1", "skip 3", "trouble 2")
    assert walk.lines[0] == "bolt 2: snapped"


@pytest.mark.parametrize(
    ("rule", "next_", "done"),
    [
        # its neighbours keep their load; the mended one is pulled and ticked again
        ("this place", (2,), 1),
        ("round again", (1,), 0),
        ("restart", (1,), 0),
    ],
)
def test_a_bolt_that_was_ticked_and_then_gave_way_is_pulled_again(
    tmp_path: Path, rule: str, next_: tuple[int, ...], done: int
) -> None:
    walk = at(f'after_trouble = "{rule}"\n' + BARE, tmp_path, 3)
    assert (walk.bolt, len(walk.session.progress.done)) == ((3,), 2)
    walk.say("trouble 1 2")
    walk.press()
    assert (walk.bolt, len(walk.session.progress.done)) == (next_, done)


def test_trouble_at_the_right_wheel_leaves_the_left_one_done(tmp_path: Path) -> None:
    text = 'places = ["left", "right"]\ncount = 4\n[[group.stage]]\ntorque = "20 N·m"\n'
    walk = at(text, tmp_path, 7)
    assert walk.shown.title == "sample, right"
    walk.say("trouble 1")
    walk.press()
    assert (walk.shown.title, walk.bolt) == ("sample, right", (1,))
    assert sum(event.kind == "check-off" for event in walk.events) == 6


@pytest.mark.parametrize(("line", "word"), [("skip 2 9", "skip 2"), ("abandon 9", "abandon")])
def test_a_digit_that_is_no_reason_is_not_kept_as_one(tmp_path: Path, line: str, word: str) -> None:
    walk = at(BARE, tmp_path)
    refused = told(walk, line)
    assert refused.startswith("9 is no reason.")
    assert f"Write {word} and: 1 = " in refused
    assert walk.asks == "bolt"


# --- the order -------------------------------------------------------------------------------------------


def test_two_bolts_put_off_come_back_in_the_order_they_were_put_off(tmp_path: Path) -> None:
    walk = at(BARE, tmp_path)
    walk.say("later", "", "later", "", "")
    assert walk.bolt == (1,)
    assert "bolts 1, 3 are open: the round cannot close without them" in walk.lines
    assert told(walk, "later") == "Bolts 1, 3 are open. The round cannot close without them."
    walk.press()
    assert "bolt 3 is open: the round cannot close without it" in walk.lines


def test_ticking_the_rest_names_the_bolts_that_nobody_ticked_one_by_one(tmp_path: Path) -> None:
    walk = at(BARE, tmp_path)
    walk.say("", "later", "")
    assert told(walk, "round") == "bolt 2, 4, 5 ticked as a whole; the record says so"
    ticks = [event for event in walk.events if event.kind == "check-off" and event.afterwards]
    assert [event.bolts for event in ticks] == [(2,), (4,), (5,)]


@pytest.mark.parametrize("line", ["undo 7", "undo 3"])
def test_of_a_pair_either_stud_takes_both_back(tmp_path: Path, line: str) -> None:
    """Two people pull opposite studs together: common practice, no source."""
    walk = at(PAIRS, tmp_path, 4)
    assert walk.bolt == (4, 8)
    assert told(walk, line) == "taken back: check-off of bolt 3+7"
    assert walk.bolt == (3, 7)


def test_a_pair_is_left_out_by_either_number(tmp_path: Path) -> None:
    walk = at(PAIRS, tmp_path, 2)
    assert told(walk, "skip 8") == "bolt 4+8 left out of this round"
    walk.press(2)
    assert walk.asks == "finished"


def test_a_bolt_that_the_page_visits_twice_is_ticked_twice(tmp_path: Path) -> None:
    text = 'count = 4\n[[group.stage]]\ntorque = "30 N·m"\norder = "1 2 3 4 1 2"\nrevisit = true\n'
    walk = at(text, tmp_path)
    walk.press(5)
    assert told(walk, "undo 1") == "taken back: check-off of bolt 1"
    walk.press(2)
    assert walk.asks == "finished"
    standing = len(walk.ticks()) - walk.kinds().count("undo")
    assert standing == 6


def test_with_the_large_bolt_put_off_the_small_ones_have_their_own_setting_and_it_comes_back_with_its_own(
    tmp_path: Path,
) -> None:
    text = (
        'count = 6\nthread = "M8"\n[[group.fastener]]\nat = "5 6"\nthread = "M6"\ntorque = "10 N·m"\n'
        '[[group.stage]]\ntorque = "24 N·m"\n'
    )
    walk = at(text, tmp_path, 3)
    walk.say("later", "")
    assert (walk.asks, walk.shown.number, walk.shown.was) == ("stop", "10", "24 N·m")
    walk.press(3)
    assert (walk.asks, walk.shown.number, walk.shown.was) == ("stop", "24", "10 N·m")
    walk.press()
    assert walk.bolt == (3,)


# --- waits -----------------------------------------------------------------------------------------------


def test_while_it_waits_no_number_is_there_to_be_set(tmp_path: Path) -> None:
    walk = at(COLD, tmp_path, 6)
    assert (walk.asks, walk.shown.number, walk.shown.wrench) == ("wait", "", "")


def test_a_wrench_used_elsewhere_during_a_wait_is_set_again_before_the_early_recheck(tmp_path: Path) -> None:
    """The digit that passes a wait says nothing of a setting, so the stop with WAS and SET still comes."""
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path, RACK))
    walk = at(COLD, tmp_path, 6, bench=bench)
    other = Walk(group(FIVE.format("12 N·m"), "other"), tmp_path / "records", clock=walk.clock, bench=bench)
    walk.session.close()
    other.press(2)
    assert other.shown.wrench == "W1, blue tape"
    walk.again(minutes=30)
    walk.say("1")
    assert (walk.asks, walk.shown.number, walk.shown.was) == ("stop", "24.0", "12.0 N·m")
    walk.press()
    assert (walk.asks, walk.bolt) == ("bolt", (1,))


def test_a_wait_passed_by_a_reason_with_the_wrench_as_it_was_goes_straight_on(tmp_path: Path) -> None:
    walk = at(COLD, tmp_path, 6)
    walk.say("6", "note the block was cold")
    assert (walk.asks, walk.bolt) == ("bolt", (1,))
    assert walk.session.progress.notes == ("the block was cold",)


def test_a_leave_out_while_it_waits_is_answered_without_an_empty_list(tmp_path: Path) -> None:
    assert told(at(COLD, tmp_path, 6), "skip 1") == "No bolt is being pulled now."


# --- two people ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["Ann", "ann", " ANN "])
def test_whoever_pulled_does_not_check_however_the_name_is_typed(tmp_path: Path, name: str) -> None:
    walk = at(CHECKED, tmp_path, 5, by="Ann")
    assert "another person checks" in told(walk, f"verify 50 N·m by {name}")


def test_a_check_without_a_name_is_not_put_down_to_the_one_who_pulled(tmp_path: Path) -> None:
    walk = at(CHECKED, tmp_path, 5, by="Ann")
    assert told(walk, "verify 50 N·m") == "Ann has pulled them. Who checks? Add by and the name."
    # 36.9 ft-lb are 50.03 N·m, as near as the last digit can say
    assert not walk.say("verify 36.9 ft-lb by Bo")
    assert [event.by for event in walk.events if event.kind == "verify"] == ["Bo"]


def test_where_nobody_gave_a_name_the_check_needs_none(tmp_path: Path) -> None:
    walk = at(CHECKED, tmp_path, 5)
    assert not walk.say("verify 50 N·m")
    assert walk.asks == "finished"


def test_a_hand_over_says_stage_last_bolt_wrench_setting_and_what_is_open(tmp_path: Path) -> None:
    walk = at(TWO_ROUNDS, tmp_path, 5, by="Ann", bench=Bench(today=MORNING.date(), rack=rack(tmp_path, RACK)))
    walk.say("later", "note stud 4 is stiff", "", "sign Bea")
    said = " ".join(walk.lines)
    for words in (
        "W1, blue tape",
        "from Ann to Bea",
        "stage TWO (12 N·m): 3 of 10",
        "last bolt 4",
        "put off: 3",
    ):
        assert words in said
    assert (walk.shown.number, walk.shown.unit) == ("12.0", "N·m")
    assert "stud 4 is stiff" in said


def test_a_name_signed_twice_hands_over_once(tmp_path: Path) -> None:
    walk = at(BARE, tmp_path, 2, by="Ann")
    walk.say("sign Bo", "", "sign Bo")
    assert walk.kinds().count("hand-over") == 1
    assert walk.asks == "bolt"


# --- what is left in peace -------------------------------------------------------------------------------


def test_a_coffee_within_a_quarter_of_an_hour_is_no_stop(tmp_path: Path) -> None:
    walk = at(BARE, tmp_path, 3)
    walk.say("pause")
    walk.again(minutes=14)
    assert (walk.asks, walk.lines) == ("bolt", ("last 2, now 3",))


@pytest.mark.parametrize("minutes", [-120, 16])
def test_a_clock_that_was_set_back_or_ran_on_asks_for_the_last_two(tmp_path: Path, minutes: int) -> None:
    walk = at(BARE, tmp_path, 3)
    walk.say("pause")
    walk.again(minutes=minutes)
    assert walk.asks == "stop"
    assert walk.lines[0].endswith("click 1 and 2 again, then 3")


def test_entries_from_paper_are_marked_until_it_is_said_otherwise(tmp_path: Path) -> None:
    walk = at(BARE, tmp_path, 2)
    walk.say("afterwards", "", "", "afterwards", "")
    marked = [event.afterwards for event in walk.events if event.kind == "check-off"]
    assert marked == [False, True, True, False]


def test_a_wheel_goes_low_in_the_air_at_both_sides_before_any_is_pulled_with_weight_on_it(
    tmp_path: Path,
) -> None:
    """Final torque with the weight on the wheel: common practice, no source."""
    text = (
        'places = ["left", "right"]\ncount = 5\n[[group.stage]]\ntorque = "50 N·m"\nstate = "wheel off the ground"\n'
        '[[group.stage]]\ntorque = "110 N·m"\nstate = "weight on the wheels"\n'
    )
    walk = at(text, tmp_path, 0)
    seen = []
    while walk.asks != "finished":
        if walk.asks == "stop":
            seen.append((walk.shown.title, walk.shown.number, walk.lines[0]))
        walk.press()
    assert seen == [
        ("sample, left", "50", "FIRST: wheel off the ground"),
        ("sample, left", "110", "FIRST: weight on the wheels"),
    ]


def test_a_left_hand_thread_is_loosened_clockwise_and_what_it_had_is_kept(tmp_path: Path) -> None:
    text = "left_hand = true\n" + FIVE.format("65 N·m")
    walk = at(text, tmp_path, bench=Bench(today=MORNING.date(), action=LOOSEN))
    assert walk.shown.direction == "clockwise"
    # about twice the value and more: the stud may be stretched, judgement, no source
    assert "it may be stretched" in told(walk, "found 140 N·m")
    assert told(walk, "found 60 N·m at 2") == ""
