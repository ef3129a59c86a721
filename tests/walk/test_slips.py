"""Slips that happen in shops, met where the hand is: before a stage, at the bolt, at the end, and days later.

Each slip is one test; the values are invented and plausible for their threads. Whether the walk can know
of a slip or can only say the right words at the right stop is told by what the test looks for.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Clock, Walk, group, rack
from torqref.library.file import read_library_file
from torqref.walk.fitted import Fitted, adapter_of
from torqref.walk.opening import Request, open_group
from torqref.walk.planner import Bench
from torqref.walk.reason import reasons

BIG = """format = 1
[[wrench]]
id = "big"
name = "long click wrench"
kind = "click"
length = "450 mm"
[[wrench.scale]]
range = "10–100 ft-lb"
graduation = "1 ft-lb"
[[wrench]]
id = "small"
name = "small click wrench"
kind = "click"
[[wrench.scale]]
range = "30–200 in-lb"
graduation = "1 in-lb"
"""
COVER = 'thread = "M6x1"\nclass = "8.8"\ncount = 6\n[[group.stage]]\ntorque = "96 in-lb"\n'
ONE = 'count = 4\n[[group.stage]]\ntorque = "{}"\n'


def said(walk: Walk) -> str:
    """Everything a stop says, as one text."""
    shown = walk.shown
    was = f"WAS {shown.was}" if shown.was else ""
    return " | ".join(
        (
            shown.title,
            f"{shown.verb} {shown.number} {shown.unit}",
            was,
            shown.spec,
            shown.direction,
            *shown.lines,
        )
    )


def at_bolt(walk: Walk) -> Walk:
    while walk.asks != "bolt":
        assert not walk.press()
    return walk


# --- before a stage ----------------------------------------------------------------------------------


def test_inch_pounds_on_a_wrench_that_begins_above_them_are_refused(tmp_path: Path) -> None:
    """96 in-lb, and a wrench of 10 to 100 ft-lb, which begins at 120 in-lb."""
    request = Request(folder=tmp_path / "r", bay="bay 1")
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path, BIG), wrench="big")
    opening = open_group(group(COVER), bench, request, Clock())
    assert opening.session is None
    assert opening.refusal is not None
    assert "120" in opening.refusal.message
    assert not (tmp_path / "r").exists(), "nothing was begun"


def test_the_wrench_that_reads_inch_pounds_is_taken_by_itself(tmp_path: Path) -> None:
    walk = Walk(group(COVER), tmp_path / "r", bench=Bench(today=MORNING.date(), rack=rack(tmp_path, BIG)))
    assert (walk.shown.wrench, walk.shown.number, walk.shown.unit) == ("small", "96", "in-lb")


def test_kilogram_metres_are_set_in_the_unit_of_the_wrench(tmp_path: Path) -> None:
    """8.0 kgf·m is 78.5 N·m by the exact kilogram-force of 9.80665 N."""
    text = BIG.replace(
        'range = "30–200 in-lb"\ngraduation = "1 in-lb"', 'range = "20–100 N·m"\ngraduation = "0.5 N·m"'
    )
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path, text), wrench="small")
    walk = Walk(group(ONE.format("8.0 kgf·m")), tmp_path / "r", bench=bench)
    assert "SET 78.5 N·m" in said(walk)
    assert "8.0 kgf·m" in said(walk)


def test_the_middle_of_a_range_is_set_and_never_its_end(tmp_path: Path) -> None:
    """20 to 25 N·m with a wrench of 4 %: 20/0.96 = 20.83 to 25/1.04 = 24.04 is safe, 22.5 is set."""
    walk = Walk(group(ONE.format("20–25 N·m")), tmp_path)
    assert "SET 22.5 N·m" in said(walk)
    assert "24.0" in said(walk)


def test_fifteen_heard_for_fifty_is_found_by_the_second_person(tmp_path: Path) -> None:
    """The second person types 15 where the walk says fifty."""
    walk = Walk(group('second_check = "typed"\n' + ONE.format("50 N·m")), tmp_path)
    walk.press(5)
    assert "you typed 15 N·m, the walk says fifty newton metres" in walk.say("verify 15 N·m")


@pytest.mark.parametrize(
    ("condition", "words"),
    [
        ("threads dry", "oil here adds half again to the clamp load"),
        ("threads and under the heads oiled", "dry loses a quarter of the clamp load"),
    ],
)
def test_the_condition_says_what_the_other_one_would_do(tmp_path: Path, condition: str, words: str) -> None:
    walk = Walk(group(f'condition = "{condition}"\n' + TWO_ROUNDS), tmp_path)
    assert condition in said(walk)
    assert words in said(walk)


# Makers of plated plugs: dry as delivered, lubricant shifts the torque by up to 20 %; a warning, no new value.
@pytest.mark.parametrize("condition", ["plated plugs, dry", "dry threads", "threads plated, as delivered"])
def test_grease_on_plated_plugs_is_warned_of_and_changes_no_value(tmp_path: Path, condition: str) -> None:
    head = f'condition = "{condition}"\nthread = "M14x1.25"\n'
    walk = Walk(group(f'purpose = "seal"\n{head}' + ONE.format("25 N·m")), tmp_path)
    assert "no grease or anti-seize here: it shifts the torque by up to a fifth" in said(walk)
    assert "SET 25 N·m" in said(walk)


@pytest.mark.parametrize("condition", ["threads oiled", "plated threads, anti-seize on the first turns"])
def test_a_plug_that_is_greased_by_its_page_is_not_spoken_to(tmp_path: Path, condition: str) -> None:
    text = f'purpose = "seal"\ncondition = "{condition}"\n' + ONE.format("25 N·m")
    assert "grease or" not in said(Walk(group(text), tmp_path))


def test_blind_holes_are_to_be_blown_dry(tmp_path: Path) -> None:
    """Trapped fluid cannot be measured, so the first stop says it."""
    walk = Walk(group("blind_holes = true\n" + TWO_ROUNDS), tmp_path)
    assert "blow the holes dry: trapped fluid cracks castings and fakes the click" in said(walk)


def test_the_drag_of_a_locking_nut_is_asked_for_and_added(tmp_path: Path) -> None:
    """160 to 190 in-lb and a drag of 25 are 185 to 215."""
    walk = Walk(group("locking = true\n" + ONE.format("160–190 in-lb")), tmp_path)
    assert "measure its drag" in said(walk)
    walk.press()
    walk.say("drag 25 in-lb")
    assert "SET 200 in-lb" in said(walk)
    walk.press()
    for inside in ("185 in-lb", "215 in-lb"):
        assert not walk.session.do("actual", inside).told
    assert "BELOW" in walk.session.do("actual", "184 in-lb").told


def test_sealant_that_has_skinned_over_is_asked_about(tmp_path: Path) -> None:
    """29 minutes gone of 10."""
    text = 'count = 4\n[[group.stage]]\nhand = "touch"\nwithin = "10 min"\n[[group.stage]]\ntorque = "9 N·m"\nwithin = "10 min"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(2)
    walk.clock.go(minutes=29)
    assert walk.asks == "question"
    assert "29 min since it was begun, the limit is 10 min" in walk.lines[0]
    assert walk.moment.options[0].text.startswith("cleaned off and fresh: start again")


def test_the_setting_of_the_stage_before_is_said_beside_the_new_one(tmp_path: Path) -> None:
    """12, then 24 N·m."""
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(13)
    assert "SET 24 N·m | WAS 12 N·m" in said(walk)


def test_a_left_hand_thread_says_its_direction_first_and_at_every_bolt(tmp_path: Path) -> None:
    walk = Walk(group('left_hand = true\ncautions = ["hot"]\n' + ONE.format("65 N·m")), tmp_path)
    assert walk.lines[0].startswith("LEFT-HAND THREAD: tightens anticlockwise")
    walk.press()
    assert walk.shown.direction == "anticlockwise"


def test_the_wrench_is_named_with_its_mark(tmp_path: Path) -> None:
    """A look-alike from the wrong drawer."""
    walk = Walk(
        group(ONE.format("12 N·m")), tmp_path / "r", bench=Bench(today=MORNING.date(), rack=rack(tmp_path))
    )
    assert "take W1, blue tape" in said(walk)


def crowfoot(folder: Path, text: str) -> Bench:
    """A wrench of 300 mm with a crowfoot on it."""
    tools = rack(
        folder,
        BIG.replace('length = "450 mm"', 'length = "300 mm"')
        .replace("10–100 ft-lb", "10–100 N·m")
        .replace("1 ft-lb", "0.5 N·m"),
    )
    fitted = adapter_of(text, tools)
    assert isinstance(fitted, Fitted)
    return Bench(today=MORNING.date(), rack=tools, wrench="big", parts=fitted.parts, adapter=fitted.words)


@pytest.mark.parametrize(("adapter", "set_to"), [("38 mm", "35.5"), ("38 mm@180", "46.0")])
def test_a_crowfoot_is_corrected_for_each_way_it_points(tmp_path: Path, adapter: str, set_to: str) -> None:
    """40·300/338 = 35.5 straight out; 40·300/262 = 45.8 pointing back, 46.0 on marks of 0.5."""
    walk = Walk(group(ONE.format("40 N·m")), tmp_path / "r", bench=crowfoot(tmp_path, adapter))
    assert f"SET {set_to} N·m" in said(walk)
    assert adapter in walk.shown.spec
    assert walk.session.progress.dials[0].notes


def test_a_value_that_already_holds_the_tool_is_not_corrected_again(tmp_path: Path) -> None:
    text = 'value_is = "setting with tool"\n' + ONE.format("35.5 N·m")
    walk = Walk(group(text), tmp_path / "r", bench=crowfoot(tmp_path, "38 mm"))
    assert "SET 35.5 N·m" in said(walk)
    assert "already includes the tool" in " ".join(walk.shown.card)


def test_the_last_round_is_for_the_hand_wrench(tmp_path: Path) -> None:
    """Ten ticks in twenty seconds cannot be told from a quick hand, so the stop says it."""
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(13)
    assert "hand wrench only from here; no gun" in walk.lines


def test_eight_done_says_of_which_stage(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, by="Ada")
    walk.press(11)
    walk.say("pause")
    walk.again(by="Ben")
    assert "stage TWO (12 N·m): 8 of 10" in said(walk)
    assert "stage three not begun" in said(walk)


def test_a_wrong_or_crossed_thread_is_felt_in_five_turns(tmp_path: Path) -> None:
    """An inch bolt in a metric hole looks the same."""
    walk = Walk(group('thread = "M10x1.5"\n' + TWO_ROUNDS), tmp_path)
    assert "five turns by fingers or stop: wrong or crossed thread" in said(walk)


def test_old_one_time_bolts_are_a_choice_of_their_own(tmp_path: Path) -> None:
    walk = Walk(group('one_time = "head bolts"\n' + TWO_ROUNDS), tmp_path)
    assert "NEW head bolts: used once only" in said(walk)
    assert not walk.say("old 3")
    assert walk.events[-1].text == "head bolts: used again though the page says new; the record says so"


def test_bolts_that_may_be_used_five_times_are_counted_by_their_records(tmp_path: Path) -> None:
    """Rod bolts at their third rebuild, five uses allowed; the sixth time is none: common practice, no source."""
    rods = group("uses = 5\n" + ONE.format("24 N·m"))
    walk = Walk(rods, tmp_path)
    assert walk.asks == "question"
    assert walk.lines[0] == "a set of these may be tightened 5 times in all: which time is this?"
    assert walk.press(), "the main key answers no question"
    walk.say("3")
    assert (walk.events[-1].gate, walk.events[-1].text) == ("uses", "time 3 of 5")
    assert walk.asks == "stop"
    assert "5 uses of a set at most: mark it each time" in said(walk)
    walk.again(minutes=1)
    assert walk.asks == "stop", "it is asked once a walk"


def test_a_set_that_is_used_up_or_unknown_puts_the_walk_down(tmp_path: Path) -> None:
    walk = Walk(group("uses = 5\n" + ONE.format("24 N·m")), tmp_path)
    walk.say("6")
    assert walk.kinds()[-1] == "pause"
    assert "a new set is needed" in walk.events[-1].text
    walk.again(minutes=30)
    assert walk.asks == "question"
    walk.say("1")
    assert walk.asks == "stop"


def test_nothing_is_counted_while_it_is_taken_apart(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), action="loosen")
    assert Walk(group("uses = 5\n" + ONE.format("24 N·m")), tmp_path, bench=bench).asks == "stop"


def test_a_battery_that_died_in_an_angle_round_asks_about_the_mark(tmp_path: Path) -> None:
    """Bolt 7 may be turned and not ticked."""
    text = (
        'one_time = "bolts"\ncount = 10\n[[group.stage]]\ntorque = "30 N·m"\n[[group.stage]]\nangle = "90°"\n'
    )
    walk = Walk(group(text), tmp_path)
    walk.press(18)
    walk.again(minutes=4)
    assert walk.asks == "question"
    assert walk.lines[0] == "look at the mark of bolt 7: still at the start, or already turned?"


def test_a_castle_nut_goes_forward_to_its_slot_and_never_back(tmp_path: Path) -> None:
    """120 to 150 N·m."""
    text = 'count = 4\n[[group.stage]]\ntorque = "120 N·m"\n[[group.stage]]\nalign = "to the next slot"\nup_to = "150 N·m"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(5)
    assert "UP TO 150 N·m" in said(walk)
    assert "Never back" in said(walk)
    assert walk.shown.direction == "clockwise"


def test_a_warm_recheck_says_how_much_of_the_wait_is_gone(tmp_path: Path) -> None:
    """1 h 10 of 4 h."""
    walk = Walk(
        group(ONE.format("24 N·m") + '[[group.stage]]\nwait = "cold"\ndue = { hours = 4 }\n'), tmp_path
    )
    walk.press(5)
    walk.clock.go(minutes=70)
    assert "1 h 10 min of 4 h 0 min. Wait, or give a reason 1–6." in walk.lines


def test_what_must_not_hang_in_the_air_says_so_first(tmp_path: Path) -> None:
    """Nothing can be measured; the stop of that stage says it."""
    text = 'count = 4\n[[group.stage]]\nhand = "snug, in the air"\n[[group.stage]]\ntorque = "90 N·m"\nstate = "weight on the wheels"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(2)
    assert "FIRST: weight on the wheels" in walk.lines


SISTERS = """format = 1
assembly = "Test bench"
[source]
kind = "shop"
title = "own sheet"
[[group]]
id = "pump-iron"
name = "Water pump"
count = 4
applies = { housing = ["iron"] }
cautions = ["Hot coolant burns: let the engine cool down, and open the cap slowly, a quarter turn first"]
[[group.stage]]
torque = "25 N·m"
[[group]]
id = "pump-aluminium"
name = "Water pump"
count = 4
applies = { housing = ["aluminium"] }
[[group.stage]]
torque = "18 N·m"
"""


def test_the_value_of_the_other_housing_is_named_where_the_walk_opens(tmp_path: Path) -> None:
    """25 N·m is for iron; the aluminium housing has an entry of its own, 18 N·m."""
    path = tmp_path / "sheet.toml"
    path.write_text(SISTERS, encoding="utf-8")
    walk = Walk(read_library_file(path).groups[0], tmp_path / "r")
    words = "this entry is for housing iron only; for aluminium see pump-aluminium: 18 N·m"
    assert walk.lines[0] == words
    assert f"{words.capitalize().replace('n·m', 'N·m')}." in reasons(walk.session.progress, walk.moment)
    walk.again(minutes=1)
    assert walk.session.progress.plan.provisos == (words,)


SOFT = 'thread = "M8"\nclass = "8.8"\ncondition = "dry"\nparent = {{ material = "aluminium", engagement = "{} mm" }}\n'


def test_a_value_that_nearly_strips_its_hole_is_told_where_the_walk_opens(tmp_path: Path) -> None:
    """24 N·m on M8 clamps 15 kN at K 0.20, and 9 mm of aluminium strip near 19 kN: about 78 %."""
    walk = Walk(group(SOFT.format(9) + ONE.format("24 N·m")), tmp_path)
    words = (
        "24 N·m loads 9 mm of cast aluminium to about 78 % of stripping: look for a value made for this hole"
    )
    assert walk.asks == "stop"
    assert f"estimate: {words}" in " ".join(walk.lines)
    assert f"Estimate: {words}." in reasons(walk.session.progress, walk.moment)


@pytest.mark.parametrize("text", [SOFT.format(20), 'purpose = "seal"\n' + SOFT.format(9)])
def test_a_hole_that_holds_is_not_spoken_of(tmp_path: Path, text: str) -> None:
    walk = Walk(group(text + ONE.format("24 N·m")), tmp_path)
    assert "stripping" not in " ".join(walk.shown.card)


# --- at the bolt -------------------------------------------------------------------------------------


def test_the_place_lost_over_a_call_is_found_by_the_last_two(tmp_path: Path) -> None:
    """26 minutes after bolt 6."""
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.clock.go(minutes=26)
    assert walk.lines[0] == "back after 26 min: click 5 and 6 again, then 7"


def test_a_bouncing_pedal_counts_no_bolt(tmp_path: Path) -> None:
    """Two presses 0.15 s apart."""
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(3)
    walk.clock.go(seconds=5)
    walk.session.press()
    walk.clock.go(seconds=0.15)
    assert walk.session.press().refused == "Double press ignored. Bolt 5 is next."


def test_small_bolts_in_the_pattern_are_a_stop_with_their_own_value(tmp_path: Path) -> None:
    """1 to 10 are M8 at 24 N·m, 11 and 12 are M6 at 10."""
    subset = '[[group.fastener]]\nat = "11 12"\nthread = "M6x1"\ntorque = "10 N·m"\n'
    walk = Walk(
        group(f'thread = "M8x1.25"\ncount = 12\n{subset}[[group.stage]]\ntorque = "24 N·m"\n'), tmp_path
    )
    walk.press(11)
    assert walk.asks == "stop"
    assert "SET 10 N·m | WAS 24 N·m" in said(walk)
    assert "M6x1" in said(walk)


def test_an_angle_overshot_is_not_turned_back(tmp_path: Path) -> None:
    """110 of 90 and 5."""
    text = 'one_time = "bolts"\ncount = 4\n[[group.stage]]\nangle = "90° ± 5°"\n'
    walk = at_bolt(Walk(group(text), tmp_path))
    told = walk.session.do("actual", "110").told
    assert "15° over the limit. Do not turn back. Trouble: see the source" in told


# --- at the end, and later ---------------------------------------------------------------------------


def test_the_bolt_under_the_bracket_keeps_the_round_open(tmp_path: Path) -> None:
    """Nine of ten."""
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(3)
    walk.say("later")
    walk.press(6)
    assert "9 of 10 done" in walk.shown.count
    assert walk.lines == ("bolt 4 is open: the round cannot close without it",)
    assert walk.session.progress.round == 1


def test_a_closing_round_of_clicks_is_offered_at_the_end(tmp_path: Path) -> None:
    """A press without a pull leaves no trace, a click without moving shows the pull."""
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(24)
    assert "then: click all once more in a circle: good is a click without moving" in walk.lines


def test_a_retorque_that_was_forgotten_says_since_when_it_is_open(tmp_path: Path) -> None:
    """Three days."""
    text = (
        ONE.format("24 N·m")
        + '[[group.stage]]\nwait = "cold"\ndue = { hours = 4 }\n[[group.stage]]\ntorque = "24 N·m"\nrecheck = true\n'
    )
    walk = Walk(group(text), tmp_path)
    walk.press(5)
    walk.say("pause")
    walk.again(minutes=3 * 24 * 60)
    assert walk.lines[0] == "cold: is it so now? Then go on here. Open since Monday 2026-03-02."


@pytest.mark.parametrize("said_by", ["threadlocker = true", 'condition = "threadlocker on the threads"'])
def test_a_recheck_on_cured_threadlocker_pulls_nothing(tmp_path: Path, said_by: str) -> None:
    text = f"{said_by}\n" + ONE.format("250 N·m") + '[[group.stage]]\ntorque = "250 N·m"\nrecheck = true\n'
    walk = Walk(group(text), tmp_path)
    walk.press(5)
    assert "Cured threadlocker: check the mark only. Do not pull." in walk.lines
    assert walk.shown.number == ""


# --- what must stay silent ---------------------------------------------------------------------------

QUIET = {
    "bearing nut at half a per cent of proof": 'thread = "M60x2"\npurpose = "adjust"\ncount = 1\n[[group.stage]]\ntorque = "55 N·m"\n',
    "spark plug": 'thread = "M14x1.25"\npurpose = "seal"\ncount = 4\n[[group.stage]]\ntorque = "25 N·m"\n',
    "gas sensor": 'thread = "M18x1.5"\npurpose = "sensor"\ncount = 1\n[[group.stage]]\ntorque = "45 N·m"\n',
    "hollow bolt": 'thread = "M10x1"\npurpose = "seal"\ncount = 1\n[[group.stage]]\ntorque = "18 N·m"\n',
    "flare nut": 'thread = "M14x1.5"\npurpose = "seal"\ncount = 1\n[[group.stage]]\ntorque = "28 N·m"\n',
    "fan hub": 'thread = "M24x1.5 LH"\npurpose = "drive"\nleft_hand = true\ncount = 1\n[[group.stage]]\ntorque = "65 N·m"\n',
    "plastic manifold": 'thread = "M6"\nclass = "8.8"\ncount = 6\n[[group.stage]]\ntorque = "8 N·m"\n',
    "head bolt beyond proof on purpose": 'thread = "M12x1.75"\nclass = "10.9"\none_time = "bolts"\ncount = 10\n[[group.stage]]\ntorque = "60 N·m"\n[[group.stage]]\nangle = "180°"\n',
    "rounded equivalents": 'count = 4\n[[group.stage]]\ntorque = "100 N·m (74 ft-lb)"\n[[group.stage]]\ntorque = "100 N·m (73 ft-lb)"\n',
    "rounded range": 'count = 4\n[[group.stage]]\ntorque = "20–25 N·m (15–18 ft-lb)"\n',
    "rail from its edge": 'layout = { rows = [5] }\norder = "1 2 3 4 5"\n[[group.stage]]\ntorque = "9 N·m"\n',
}  # fmt: skip


@pytest.mark.parametrize("name", QUIET)
def test_a_right_value_is_asked_nothing(tmp_path: Path, name: str) -> None:
    walk = Walk(group(QUIET[name]), tmp_path)
    while walk.asks not in ("finished", "marks"):
        assert walk.asks in ("stop", "bolt", "card")
        assert not walk.press()


def test_a_digital_wrench_low_on_its_scale_where_its_maker_certifies_it_is_left_in_peace(
    tmp_path: Path,
) -> None:
    text = 'format = 1\n[[wrench]]\nid = "D"\nname = "electronic wrench"\nkind = "electronic"\ncertified_from = "5 %"\n[[wrench.scale]]\nrange = "5–100 N·m"\ngraduation = "0.1 N·m"\n'
    walk = Walk(
        group(ONE.format("8 N·m")),
        tmp_path / "r",
        bench=Bench(today=MORNING.date(), rack=rack(tmp_path, text)),
    )
    assert walk.asks == "stop"
    assert "fifth of scale" not in said(walk)
    assert "certified" not in said(walk)


def test_a_wrench_in_date_on_its_last_day_is_left_in_peace(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path), wrench="W2")
    tools = replace(
        bench.rack, wrenches=tuple(replace(w, calibration_due=MORNING.date()) for w in bench.rack.wrenches)
    )
    walk = Walk(group(ONE.format("24 N·m")), tmp_path / "r", bench=replace(bench, rack=tools))
    assert walk.asks == "stop"
    walk.clock.now += timedelta(days=1)
    assert walk.asks == "question"
