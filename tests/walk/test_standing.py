"""Where an open walk stands, as one line of a list, and which walks are open at all."""

from __future__ import annotations

from pathlib import Path

from tests.walk.workshop import TWO_ROUNDS, Walk, group
from torqref.walk.archive import Record, open_records, records
from torqref.walk.standing import Standing, in_order, standing

SHORT = 'name = "Lid"\ncount = 2\n[[group.stage]]\ntorque = "10 N·m"\n'
WAITING = (
    SHORT
    + '[[group.stage]]\nwait = "cold"\ndue = { hours = 4 }\n[[group.stage]]\ntorque = "10 N·m"\nrecheck = true\n'
)


def put_down(walk: Walk, presses: int) -> Record:
    for _ in range(presses):
        walk.clock.go(seconds=1)
        walk.session.press()
    walk.session.do("pause")
    walk.session.close()
    found, _ = records(walk.folder)
    return next(record for record in found if record.header.id == walk.session.header.id)


def stands(walk: Walk, record: Record) -> Standing:
    return standing(record, walk.clock(), "bay 1")


def test_it_says_how_far_it_got_and_when_it_was_left(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    found = stands(walk, put_down(walk, 6))
    assert found.count == "3 of 10"
    assert found.words == ("3 of 10 done", "stage 2 of 3: 12 N·m", "left today 08:00")
    assert not found.is_due
    assert not found.elsewhere


def test_a_wait_says_when_it_is_due_and_is_due_then(tmp_path: Path) -> None:
    walk = Walk(group(WAITING), tmp_path)
    record = put_down(walk, 2)
    assert stands(walk, record).words[0].startswith("due today 12:00, in 4 h")
    walk.clock.go(hours=4)
    assert stands(walk, record).is_due


def test_yesterday_and_the_day_are_said(tmp_path: Path) -> None:
    walk = Walk(group(SHORT), tmp_path)
    record = put_down(walk, 1)
    walk.clock.go(hours=20)
    assert stands(walk, record).words[-1] == "left yesterday 08:00"
    walk.clock.go(hours=60)
    assert stands(walk, record).words[-1] == "left 2026-03-02"


def test_what_is_due_comes_first_then_the_own_walks_then_those_of_other_bays(tmp_path: Path) -> None:
    due = Walk(group(WAITING, "due"), tmp_path)
    put_down(due, 2)
    due.clock.go(hours=5)
    other = Walk(group(SHORT, "other"), tmp_path, clock=due.clock, bay="bay 2")
    put_down(other, 1)
    own = Walk(group(SHORT, "own"), tmp_path, clock=due.clock)
    put_down(own, 1)
    found, _ = open_records(tmp_path)
    order = in_order(tuple(standing(record, due.clock(), "bay 1") for record in found))
    assert [each.record.header.plan.group for each in order] == ["due", "own", "other"]
    assert [each.elsewhere for each in order] == ["", "", "bay 2"]


def test_only_walks_that_are_not_finished_are_open_newest_first(tmp_path: Path) -> None:
    finished = Walk(group(SHORT, "finished"), tmp_path)
    put_down(finished, 3)
    finished.clock.go(minutes=1)
    older = Walk(group(SHORT, "older"), tmp_path, clock=finished.clock)
    put_down(older, 1)
    finished.clock.go(minutes=1)
    newer = Walk(group(SHORT, "newer"), tmp_path, clock=finished.clock)
    put_down(newer, 1)
    found, problems = open_records(tmp_path)
    assert [record.header.plan.group for record in found] == ["newer", "older"]
    assert problems == ()


def test_a_finish_that_was_taken_back_is_open_again(tmp_path: Path) -> None:
    walk = Walk(group(SHORT), tmp_path)
    for _ in range(3):
        walk.clock.go(seconds=1)
        walk.session.press()
    assert open_records(tmp_path)[0] == ()
    walk.session.do("undo")
    walk.session.close()
    assert len(open_records(tmp_path)[0]) == 1


def test_a_torn_or_damaged_end_is_read_whole_and_told(tmp_path: Path) -> None:
    walk = Walk(group(SHORT), tmp_path)
    put_down(walk, 3)
    path = next(tmp_path.iterdir())
    whole = path.read_bytes()
    path.write_bytes(whole[:-5])
    _, problems = open_records(tmp_path)
    assert [problem.severity for problem in problems] == ["warning"]
