"""Handing over: the next person sees stage, last bolt, wrench, setting and open notes on one screen."""

from __future__ import annotations

from pathlib import Path

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group, rack
from torqref.walk.planner import Bench


def test_a_hand_over_says_stage_last_bolt_wrench_setting_and_notes_in_three_lines(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path), wrench="W1")
    walk = Walk(group(TWO_ROUNDS), tmp_path / "records", bench=bench, by="Ada")
    walk.press(3)
    walk.say("later", *[""] * 7, "note the shield leg is in the way", "", "pause")
    walk.again(by="Ben")
    assert walk.kinds()[-2:] == ["opened", "hand-over"]
    assert (walk.asks, walk.shown.number, walk.shown.bolt) == ("stop", "12.0", "10")
    assert walk.shown.wrench == "W1, blue tape"
    said = " / ".join(walk.lines)
    assert len(walk.lines) <= 3
    assert all(len(line) <= 100 for line in walk.lines)
    for wanted in (
        "click 8 and 9 again, then 10",
        "from Ada to Ben",
        "stage TWO (12 N·m): 8 of 10",
        "last bolt 9",
    ):
        assert wanted in said


def test_eight_done_is_not_taken_for_the_last_stage(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, by="Ada")
    walk.press(11)
    walk.say("pause")
    walk.again(by="Ben")
    said = " ".join(walk.lines)
    assert "stage TWO (12 N·m): 8 of 10" in said
    assert "stage three not begun" in said


def test_the_next_person_is_stopped_at_the_beginning_of_a_round_too(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, by="Ada")
    walk.press(3)  # the stop of the first torque round is open, nothing pulled yet
    walk.say("pause")
    walk.again(by="Ben")
    assert walk.asks == "stop"
    assert "hand-over from Ada to Ben" in walk.lines[0]
    assert (walk.shown.number, walk.shown.unit) == ("12", "N·m")
    walk.press()
    assert (walk.asks, walk.bolt) == ("bolt", (1,))


def test_the_stop_of_a_new_setting_says_the_hand_over_too(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, by="Ada")
    walk.press(13)
    walk.say("pause")
    walk.again(by="Ben")
    assert walk.moment.why[0] == "hand-over"
    assert (walk.shown.number, walk.shown.was) == ("24", "12 N·m")
    walk.press()
    assert walk.asks == "bolt"


def test_a_hand_over_inside_an_angle_round_asks_about_the_mark(tmp_path: Path) -> None:
    text = (
        'one_time = "bolts"\ncount = 4\n[[group.stage]]\ntorque = "30 N·m"\n[[group.stage]]\nangle = "90°"\n'
    )
    walk = Walk(group(text), tmp_path, by="Ada")
    walk.press(8)
    walk.say("pause")
    walk.again(by="Ben")
    assert walk.asks == "question"
    assert "look at the mark of bolt 3" in walk.lines[0]
    assert "from Ada to Ben" in walk.lines[1]


def test_the_same_person_or_a_nameless_one_is_no_hand_over(tmp_path: Path) -> None:
    for before, after in (("Ada", "Ada"), ("", ""), ("Ada", "")):
        walk = Walk(group(TWO_ROUNDS), tmp_path / f"{before}-{after}", by=before)
        walk.press(9)
        walk.say("pause")
        walk.session.close()
        walk.by = after
        walk.open()
        assert "hand-over" not in walk.kinds()
        assert walk.asks == "bolt"


def test_a_hand_over_in_the_middle_of_a_session_is_a_stop(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, by="Ada")
    walk.press(9)
    assert not walk.say("sign Ben")
    assert walk.asks == "stop"
    walk.press(2)
    assert walk.events[-1].by == "Ben"


def test_the_next_person_takes_notice_before_a_hand_round_too(tmp_path: Path) -> None:
    text = 'places = ["left", "right"]\ncount = 4\n[[group.stage]]\nhand = "seated"\n[[group.stage]]\ntorque = "12 N·m"\n'
    walk = Walk(group(text), tmp_path, by="Ada")
    walk.press(7)
    assert walk.asks == "whole"
    walk.say("pause")
    walk.again(by="Ben")
    assert walk.asks == "stop"
    assert walk.lines[0].startswith("hand-over from Ada to Ben")
    walk.press()
    assert walk.asks == "whole"


def test_an_open_trouble_is_handed_over_with_it(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, by="Ada")
    walk.press(6)
    walk.say("trouble 1", "pause")
    walk.again(by="Ben")
    assert walk.lines[0] == "bolt 4: stripped"
    assert "from Ada to Ben" in walk.lines[1]
