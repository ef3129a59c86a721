"""Another wrench, crowfoot or unit in the middle of a walk: what is set changes, the printed value never."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group
from torqref.document.problem import Problem
from torqref.walk.archive import read_record
from torqref.walk.planner import Bench
from torqref.wrench.rack import Rack, read_rack

RACK = Path(__file__).parents[2] / "demo" / "wrenches.toml"
ONE_ROUND = TWO_ROUNDS[: TWO_ROUNDS.rindex("[[group.stage]]")]


@pytest.fixture(scope="module")
def rack() -> Rack:
    found, problems = read_rack(RACK)
    assert not [
        problem for problem in problems if isinstance(problem, Problem) and problem.severity == "error"
    ]
    return found


OPEN: list[Walk] = []


@pytest.fixture(autouse=True)
def closed() -> Iterator[None]:
    yield
    while OPEN:
        OPEN.pop().session.close()


def walk(folder: Path, rack: Rack, text: str = TWO_ROUNDS, wrench: str = "") -> Walk:
    OPEN.append(Walk(group(text), folder, bench=Bench(today=MORNING.date(), rack=rack, wrench=wrench)))
    return OPEN[-1]


def set_now(walk_: Walk) -> tuple[str, str, str]:
    step = walk_.session.progress.current
    assert step is not None
    dial = walk_.session.progress.dial(step.steps[walk_.moment.step])
    assert dial is not None
    return dial.wrench, dial.shown, dial.unit


def at_the_first_bolt(walk_: Walk) -> None:
    walk_.press(3)
    assert walk_.asks == "bolt"


def test_another_wrench_in_the_middle_of_a_round_is_a_stop_with_its_setting(
    tmp_path: Path, rack: Rack
) -> None:
    walk_ = walk(tmp_path, rack, wrench="W1")
    at_the_first_bolt(walk_)
    assert set_now(walk_)[0] == "W1"
    assert walk_.say("wrench W2") == ""
    assert walk_.asks == "stop"
    assert set_now(walk_)[0] == "W2"
    walk_.press()
    assert (walk_.asks, walk_.bolt) == ("bolt", (1,))


def test_the_other_unit_keeps_the_printed_value_and_says_where_the_wrench_stood(tmp_path: Path) -> None:
    from torqref.walk.view import view

    walk_ = walk(tmp_path, Rack())
    at_the_first_bolt(walk_)
    assert walk_.say("unit ft-lb") == ""
    shown = view(walk_.session.progress, walk_.moment, walk_.clock())
    # 12 N·m / 1.3558179483 N·m per ft-lb = 8.8507 (NIST SP 811, 2008, appendix B.8)
    assert (shown.kind, shown.unit, shown.was, shown.spec) == ("stop", "ft-lb", "12 N·m", "12 N·m")
    assert abs(Fraction(shown.number) - Fraction("8.8507")) < Fraction(1, 10)


def test_the_unit_key_goes_round_and_comes_back_to_the_printed_unit(tmp_path: Path) -> None:
    walk_ = walk(tmp_path, Rack())
    at_the_first_bolt(walk_)
    seen = []
    for _ in range(3):
        assert walk_.say("unit") == ""
        seen.append(set_now(walk_)[2])
    assert seen == ["ft-lb", "in-lb", "N·m"]
    assert set_now(walk_)[1] == "12"


def test_a_crowfoot_changes_the_setting_by_its_lever_and_can_be_taken_off(tmp_path: Path, rack: Rack) -> None:
    walk_ = walk(tmp_path, rack, ONE_ROUND, wrench="W2")
    at_the_first_bolt(walk_)
    before = set_now(walk_)
    assert walk_.say("wrench crowfoot 38 mm") == ""
    # TM 1-1500-204-23-9 (US Army, 1992): setting = T · L / (L + E); here 12 · 290 / (290 + 38) = 10.61,
    # on marks of 0.5 N·m that is 10.5.
    assert set_now(walk_) == ("W2", "10.5", "N·m")
    assert walk_.say("wrench W2") == "", "the crowfoot stays on when only the wrench is named"
    assert set_now(walk_)[1] == "10.5"
    assert walk_.say("wrench crowfoot none") == ""
    assert set_now(walk_) == before


def test_the_second_scale_of_a_wrench_is_used_when_its_unit_is_asked_for(tmp_path: Path, rack: Rack) -> None:
    walk_ = walk(tmp_path, rack, ONE_ROUND, wrench="W1")
    at_the_first_bolt(walk_)
    assert walk_.say("unit") == ""
    wrench, shown, unit = set_now(walk_)
    # 12 N·m = 106.2 in-lb (NIST SP 811), on marks of 2 in-lb that is 106
    assert (wrench, shown, unit) == ("W1", "106", "in-lb")


def test_a_wrench_that_does_not_reach_now_is_refused_and_nothing_changes(tmp_path: Path, rack: Rack) -> None:
    walk_ = walk(tmp_path, rack)
    at_the_first_bolt(walk_)
    before, count = set_now(walk_), len(walk_.events)
    assert "W3" in walk_.say("wrench W3")
    assert (set_now(walk_), len(walk_.events)) == (before, count)


def test_later_values_stay_with_their_wrench_where_the_new_one_does_not_reach(
    tmp_path: Path, rack: Rack
) -> None:
    text = ONE_ROUND + '[[group.stage]]\ntorque = "20 N·m"\n[[group.stage]]\ntorque = "50 N·m"\n'
    walk_ = walk(tmp_path, rack, text, wrench="W2")
    at_the_first_bolt(walk_)
    assert walk_.say("wrench W1") == ""
    assert [dial.wrench for dial in walk_.session.progress.dials] == ["W1", "W1", "W2"]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("wrench", "W1"),
        ("wrench W9", "W1"),
        ("wrench unit kg", "kgf·m"),
        ("wrench W3 unit ft-lb", "scale"),
        ("wrench crowfoot 38", "unit"),
        ("unit furlong", "furlong"),
    ],
)
def test_a_tool_that_is_not_known_is_refused_with_what_would_do(
    tmp_path: Path, rack: Rack, line: str, told: str
) -> None:
    walk_ = walk(tmp_path, rack)
    at_the_first_bolt(walk_)
    assert told in walk_.say(line)


def test_undo_takes_the_other_wrench_back(tmp_path: Path, rack: Rack) -> None:
    walk_ = walk(tmp_path, rack, wrench="W1")
    at_the_first_bolt(walk_)
    before = set_now(walk_)
    walk_.say("wrench W2", "undo")
    assert set_now(walk_) == before
    assert walk_.asks == "bolt"


def test_the_change_is_in_the_record_and_holds_after_a_restart(tmp_path: Path, rack: Rack) -> None:
    walk_ = walk(tmp_path, rack, wrench="W1")
    at_the_first_bolt(walk_)
    walk_.say("wrench W2", "")
    walk_.again()
    assert set_now(walk_)[0] == "W2"
    record, problems = read_record(walk_.session.journal.path)
    assert record is not None
    assert not problems
    told = next(event for event in record.told.events if event.kind == "wrench")
    assert "W2, yellow tape" in told.text
    assert told.wrenches[0].serial == "PRACTICE-0102"


def test_a_wrench_past_its_calibration_is_asked_about_when_it_is_taken(tmp_path: Path, rack: Rack) -> None:
    old = replace(rack.wrenches[1], calibration_due=date(2026, 1, 1))
    walk_ = walk(tmp_path, replace(rack, wrenches=(rack.wrenches[0], old)), wrench="W1")
    at_the_first_bolt(walk_)
    walk_.say("wrench W2")
    assert (walk_.asks, walk_.moment.why) == ("question", ("calibration",))
    walk_.say("1", "")
    assert (walk_.asks, set_now(walk_)[0]) == ("bolt", "W2")


def test_a_name_given_at_the_end_stands_in_the_record(tmp_path: Path) -> None:
    walk_ = walk(tmp_path, Rack(), ONE_ROUND)
    walk_.press(13)
    assert walk_.asks == "finished"
    assert walk_.say("sign") != ""
    assert walk_.say("sign Ada") == ""
    assert (walk_.events[-1].by, walk_.events[-1].text) == ("Ada", "signed off by Ada")
