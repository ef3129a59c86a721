"""A value that no wrench of the rack reaches, or that cannot be right: no main key ticks it unasked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, Walk, group, rack
from torqref.walk.planner import Bench

# The larger wrench of the rack ends at 60 N·m.
LARGE = 'count = 4\n[[group.stage]]\ntorque = "300 N·m"\n'
SMALL = 'count = 4\nthread = "M6"\nclass = "8.8"\n[[group.stage]]\ntorque = "10 N·m"\n'
EACH = 'count = 2\n[[group.stage]]\nchain = "20 N·m + 90°"\neach_bolt = true\n'


def walk_of(text: str, folder: Path, wrench: str = "") -> Walk:
    tools = Bench(today=MORNING.date(), rack=rack(folder), wrench=wrench)
    return Walk(group(text), folder / "records", bench=tools)


def test_a_value_beyond_every_wrench_of_the_rack_needs_a_digit_once(tmp_path: Path) -> None:
    walk = walk_of(LARGE, tmp_path)
    assert (walk.asks, walk.moment.why) == ("question", ("beyond",))
    assert "W1 ends at 25.0 N·m; W2 ends at 60.0 N·m" in " ".join(walk.lines)
    assert walk.press(5).startswith("This needs a digit")
    assert walk.ticks() == []
    assert not walk.say("1")
    assert walk.asks == "stop"
    assert any("a wrench that is not in the rack" in line for line in walk.lines)
    walk.press(5)
    assert walk.session.progress.finished
    assert len(walk.ticks()) == 4, "it was asked once"


def test_the_record_says_with_what_a_value_beyond_the_rack_was_pulled(tmp_path: Path) -> None:
    walk = walk_of(LARGE, tmp_path)
    walk.say("1", "note long bar wrench of the shop", "", "")
    gate = next(event for event in walk.events if event.gate.startswith("beyond:"))
    assert gate.text.startswith("a wrench that is not in the rack")
    tick = walk.events[-1]
    assert (tick.kind, tick.wrench, tick.text) == ("check-off", "", "with a wrench that is not in the rack")


def test_the_other_digit_puts_the_walk_down_and_it_is_asked_again(tmp_path: Path) -> None:
    walk = walk_of(LARGE, tmp_path)
    walk.say("2")
    assert walk.session.progress.paused
    walk.again(minutes=30)
    assert walk.moment.why == ("beyond",)


def test_without_a_rack_nothing_is_asked(tmp_path: Path) -> None:
    walk = Walk(group(LARGE), tmp_path)
    assert walk.asks == "stop"
    walk.press(5)
    assert walk.session.progress.finished


def test_another_value_or_another_wrench_answers_it_as_well(tmp_path: Path) -> None:
    walk = walk_of(LARGE, tmp_path)
    assert {"wrench ID", "page VALUE", "undo"} <= {word for word, _ in walk.shown.words}
    assert "above W2" in walk.say("wrench W2")
    assert not walk.say("page 20 N·m")
    assert (walk.asks, walk.session.progress.dials[0].wrench) == ("stop", "W1")


@pytest.mark.parametrize("line", ["unit ft-lb", "wrench none", "wrench unit ft-lb"])
def test_another_unit_is_no_other_wrench(tmp_path: Path, line: str) -> None:
    walk = walk_of(LARGE, tmp_path)
    walk.say(line)
    assert (walk.asks, walk.moment.why) == ("question", ("beyond",))
    walk.press(3)
    assert walk.ticks() == []


def test_a_page_beyond_the_rack_is_asked_about_before_it_is_pulled(tmp_path: Path) -> None:
    walk = walk_of(SMALL.replace('thread = "M6"\nclass = "8.8"\n', ""), tmp_path)
    walk.press()
    assert walk.asks == "bolt"
    walk.say("page 90 N·m on sheet 4")
    assert (walk.asks, walk.moment.why) == ("question", ("beyond",))
    assert walk.press(3).startswith("This needs a digit")
    walk.say("undo")
    assert (walk.asks, walk.session.progress.dials[0].shown) == ("bolt", "10.0")


def test_a_drag_that_lifts_the_value_beyond_the_wrench_takes_the_next_one(tmp_path: Path) -> None:
    walk = walk_of('count = 2\nlocking = true\n[[group.stage]]\ntorque = "24 N·m"\n', tmp_path, wrench="W1")
    walk.press()
    assert not walk.say("drag 3 N·m")
    dial = walk.session.progress.dials[0]
    assert (dial.wrench, dial.shown) == ("W2", "27.0"), "24 + 3 is beyond 25"


def test_a_page_that_would_break_the_bolt_needs_a_digit_though_it_is_named(tmp_path: Path) -> None:
    # M6 8.8 holds 20.1 mm² · 580 N/mm² = 11.7 kN; 50 N·m at K = 0.20 is 41.7 kN
    walk = walk_of(SMALL, tmp_path)
    walk.press()
    assert "name it" in walk.say("page 50 N·m")
    assert not walk.say("page 50 N·m on sheet 4")
    assert (walk.asks, walk.moment.why) == ("question", ("doubt",))
    assert "would break M6" in " ".join(walk.lines)
    assert walk.press(3).startswith("This needs a digit")
    assert walk.ticks() == []
    walk.say("1", "1")  # the second is for W2, which is past its date
    assert walk.asks == "stop"
    walk.press(2)
    assert walk.ticks() == [(1,)]


@pytest.mark.parametrize("line", ["unit ft-lb", "wrench none", "drag 1 N·m"])
def test_no_other_tool_does_away_with_the_question_about_the_value(tmp_path: Path, line: str) -> None:
    walk = Walk(group(SMALL), tmp_path)
    walk.press()
    walk.say("page 50 N·m on sheet 4")
    walk.say(line)
    assert (walk.asks, walk.moment.why) == ("question", ("doubt",))
    walk.say("page 10 N·m on sheet 4")
    assert walk.session.progress.dials[0].doubt == ""
    assert walk.asks in ("stop", "bolt")


def test_another_wrench_where_one_bolt_goes_through_all_of_it_is_a_stop(tmp_path: Path) -> None:
    walk = walk_of(EACH, tmp_path, wrench="W1")
    walk.press()
    assert walk.asks == "bolt"
    assert not walk.say("page 40 N·m on sheet 4", "1")
    assert (walk.asks, walk.moment.why) == ("stop", ("setting",))
