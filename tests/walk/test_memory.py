"""What the other walks of a folder say to a new one."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tests.walk.workshop import MORNING, TWO_ROUNDS, Clock, Walk, group, rack
from torqref.walk.planner import Bench

COVER = 'count = 4\n[[group.stage]]\ntorque = "16 N·m"\n'
BANKS = 'places = ["left", "right"]\n' + TWO_ROUNDS


def bench(folder: Path, **said: str) -> Bench:
    return replace(Bench(today=MORNING.date(), rack=rack(folder)), wrench="W1", **said)  # type: ignore[arg-type]  # only words are given


# --- where a wrench was left -------------------------------------------------------------------------


def test_the_first_stop_says_where_the_wrench_was_left_by_another_walk(tmp_path: Path) -> None:
    clock = Clock()
    first = Walk(group(COVER, "cover"), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    first.press(5)
    first.session.close()
    second = Walk(group(TWO_ROUNDS), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    second.press(2)
    assert (second.shown.number, second.shown.was) == ("12.0", "16.0 N·m")


def test_a_wrench_used_elsewhere_meanwhile_is_set_anew_by_a_stop(tmp_path: Path) -> None:
    clock = Clock()
    walk = Walk(group(TWO_ROUNDS), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    walk.press(5)
    walk.say("pause")
    walk.session.close()
    other = Walk(group(COVER, "cover"), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    other.press(3)
    other.session.close()
    clock.go(minutes=2)
    walk.open()
    assert walk.asks == "stop"
    assert (walk.shown.number, walk.shown.was) == ("12.0", "16.0 N·m")
    walk.press()
    assert (walk.asks, walk.bolt) == ("bolt", (3,))


def test_a_wrench_not_used_elsewhere_is_not_asked_about(tmp_path: Path) -> None:
    clock = Clock()
    walk = Walk(group(TWO_ROUNDS), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    walk.press(5)
    walk.say("pause")
    walk.session.close()
    other = Walk(group(COVER, "cover"), tmp_path / "r", clock=clock)  # without a rack
    other.press(3)
    other.session.close()
    walk.open()
    assert walk.asks == "bolt"


def test_the_newest_setting_counts_whichever_walk_it_was_in(tmp_path: Path) -> None:
    clock = Clock()
    cover = Walk(group(COVER, "cover"), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    cover.press(2)
    rounds = Walk(group(TWO_ROUNDS), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    rounds.press(3)  # sets the wrench to 12, after the cover had it at 16
    cover.press(1)  # a pull at the cover says nothing about the setting
    cover.session.close()
    rounds.session.close()
    third = Walk(group(COVER, "third"), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    assert third.shown.was == "12.0 N·m"


def test_another_bays_wrench_of_the_same_name_is_another_wrench(tmp_path: Path) -> None:
    clock = Clock()
    first = Walk(group(COVER, "cover"), tmp_path / "r", clock=clock, bench=bench(tmp_path), bay="bay 2")
    first.press(5)
    first.session.close()
    second = Walk(group(TWO_ROUNDS), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    second.press(2)
    assert second.shown.was == ""


# --- places ------------------------------------------------------------------------------------------


def test_the_bank_that_is_done_is_asked_about_while_the_other_is_open(tmp_path: Path) -> None:
    clock = Clock()
    right = Walk(group(BANKS), tmp_path / "r", clock=clock, bench=bench(tmp_path, place="right"))
    right.press(24)
    assert right.asks == "finished"
    right.session.close()
    clock.go(minutes=20)
    walk = Walk(group(BANKS), tmp_path / "r", clock=clock, bench=bench(tmp_path, place="right"))
    assert walk.asks == "question"
    assert walk.lines == ("Right is done (08:00). Left is open: 0 of 10.",)
    assert walk.say("2") == ""
    walk.session.close()
    left = Walk(group(BANKS), tmp_path / "r", clock=clock, bench=bench(tmp_path, place="left"))
    assert left.asks == "stop"


def test_the_same_group_twice_after_a_repair_asks_nothing(tmp_path: Path) -> None:
    clock = Clock()
    for text, place in ((TWO_ROUNDS, ""), (BANKS, "left"), (BANKS, "right"), (BANKS, "right")):
        again = Walk(group(text), tmp_path / "r", clock=clock, bench=bench(tmp_path, place=place))
        assert again.asks == "stop"
        again.press(24)
        assert again.asks == "finished"
        again.session.close()
        clock.go(minutes=5)


def test_another_vehicle_is_another_job(tmp_path: Path) -> None:
    clock = Clock()
    for order in ("17", "18"):
        walk = Walk(
            group(BANKS), tmp_path / "r", clock=clock, bench=bench(tmp_path, place="right"), work_order=order
        )
        assert walk.asks == "stop"
        walk.press(24)
        walk.session.close()


# --- taking apart and putting together ---------------------------------------------------------------


def test_notes_of_the_way_apart_show_at_assembly(tmp_path: Path) -> None:
    clock = Clock()
    apart = Walk(
        group(TWO_ROUNDS), tmp_path / "r", clock=clock, bench=Bench(today=MORNING.date(), action="loosen")
    )
    assert (apart.shown.title, apart.shown.direction) == ("LOOSEN: sample", "anticlockwise")
    apart.press()
    assert apart.bolt == (10,)
    apart.press(6)
    assert apart.bolt == (4,)
    apart.say("note longer than the others")
    apart.say("trouble 2 3")
    apart.session.close()
    clock.go(hours=5)
    walk = Walk(group(TWO_ROUNDS), tmp_path / "r", clock=clock)
    assert (
        walk.lines[0] == "when taken apart: bolt 4: longer than the others; when taken apart: bolt 3: snapped"
    )
    walk.press(6)
    assert (walk.bolt, walk.lines) == ((4,), ("longer than the others",))


def test_notes_of_another_job_do_not_show(tmp_path: Path) -> None:
    clock = Clock()
    apart = Walk(
        group(TWO_ROUNDS),
        tmp_path / "r",
        clock=clock,
        bench=Bench(today=MORNING.date(), action="loosen"),
        work_order="17",
    )
    apart.press(2)
    apart.say("note rusty")
    apart.session.close()
    assert not Walk(
        group(TWO_ROUNDS), tmp_path / "r", clock=clock, work_order="18"
    ).session.progress.plan.remarks
    clock.go(hours=24 * 30)
    assert Walk(group(TWO_ROUNDS), tmp_path / "r", clock=clock, work_order="17").session.progress.plan.remarks


def test_loosening_goes_in_reverse_in_rounds_and_stops_at_what_springs_back(tmp_path: Path) -> None:
    bench_ = Bench(today=MORNING.date(), action="loosen")
    walk = Walk(group(TWO_ROUNDS), tmp_path, bench=bench_)
    assert any("springs back is seized" in line for line in walk.lines)
    walk.press(21)
    assert walk.ticks() == [(label,) for label in range(10, 0, -1)] * 2
    assert walk.asks == "whole"
    walk.press()
    assert walk.asks == "finished"


def test_a_left_hand_thread_loosens_clockwise(tmp_path: Path) -> None:
    bench_ = Bench(today=MORNING.date(), action="loosen")
    text = 'left_hand = true\nlayout = { circle = 4 }\n[[group.stage]]\ntorque = "12 N·m"\n'
    walk = Walk(group(text), tmp_path, bench=bench_)
    assert walk.lines[0].startswith("LEFT-HAND THREAD: loosens clockwise")
    assert walk.shown.direction == "clockwise"


def test_one_to_three_bolts_are_loosened_at_once(tmp_path: Path) -> None:
    walk = Walk(
        group('count = 3\n[[group.stage]]\ntorque = "12 N·m"\n'),
        tmp_path,
        bench=Bench(today=MORNING.date(), action="loosen"),
    )
    walk.press(2)
    assert walk.asks == "finished"


def test_taking_apart_is_not_checked_twice_and_begins_nothing_again(tmp_path: Path) -> None:
    text = 'second_check = "typed"\nafter_trouble = "restart"\nafter = ["start the engine"]\n' + TWO_ROUNDS
    walk = Walk(group(text), tmp_path, bench=Bench(today=MORNING.date(), action="loosen"))
    walk.press(3)
    assert walk.say("actual 60 N·m") == "It is being taken apart: found VALUE keeps what it had."
    walk.say("trouble 2")
    assert walk.lines[1].startswith("the record keeps it for the way back together")
    walk.press(20)
    assert walk.asks == "finished"
    assert walk.ticks()[2:] == [(label,) for label in (*range(8, 0, -1), *range(10, 0, -1))]
    assert not walk.lines


def test_a_place_that_has_an_open_walk_of_its_own_is_told_where_all_are_asked_for(tmp_path: Path) -> None:
    clock = Clock()
    left = Walk(group(BANKS), tmp_path / "r", clock=clock, bench=bench(tmp_path, place="left"))
    left.press(6)
    left.session.close()
    both = Walk(group(BANKS), tmp_path / "r", clock=clock, bench=bench(tmp_path))
    assert both.opening.notes == ("left has a walk of its own (open): --place left goes on with it.",)
