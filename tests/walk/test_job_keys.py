"""A job by keys: what a bounce, a held key or the clock may not pass; reasons by digit; whose walk is whose."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from fractions import Fraction
from pathlib import Path

import pytest

from tests.walk.test_job import GROUPS, opened, say
from tests.walk.workshop import Clock
from torqref.walk.choice import ABANDON_REASONS, STEP_SKIP_REASONS
from torqref.walk.job_archive import read_job_record
from torqref.walk.job_session import JobSession
from torqref.walk.job_view import JobView, came_of, deadline_line, job_view
from torqref.walk.opening import Opening, Request, open_group
from torqref.walk.planner import Bench


def shown(session: JobSession) -> JobView:
    return job_view(session.standing, session.moment(), session.clock())


def at_group(folder: Path, clock: Clock) -> JobSession:
    """A job whose next step is the walk of the flange."""
    session = opened(folder, clock)
    say(session, clock, "", "1", "1", "")
    assert session.moment().kind == "group"
    clock.go(seconds=5)
    return session


# --- keys that bounce, and time -----------------------------------------------------------------------


def test_a_digit_that_is_held_down_answers_one_question_only(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "")
    clock.go(seconds=1)
    assert not session.press("1").refused  # engine Q
    for _ in range(20):
        clock.now += timedelta(milliseconds=33)
        assert session.press("1").refused == "Double press ignored. Step 1 is still asked for."
    clock.now += timedelta(milliseconds=201)
    assert not session.press("1").refused
    assert session.moment().kind == "page"
    session.close()


def test_a_clock_that_is_put_back_stops_no_key(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    assert not session.press().refused
    clock.now -= timedelta(hours=1)
    assert not session.press("1").refused
    session.close()


def test_the_press_that_opens_a_walk_cannot_bounce_through_its_first_stop(tmp_path: Path) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    walk = session.enter().session
    assert walk is not None
    clock.now += timedelta(milliseconds=100)
    assert walk.press().refused.startswith("Double press ignored.")
    clock.now += timedelta(milliseconds=300)
    assert not walk.press().refused
    session.leave(walk)
    session.close()


def test_the_press_that_ends_a_walk_cannot_bounce_through_the_page_behind_it(tmp_path: Path) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    walk = session.enter().session
    assert walk is not None
    while not session.is_over(walk):
        clock.go(seconds=1)
        assert not walk.press().refused
    assert session.leave(walk) == ""
    clock.now += timedelta(milliseconds=100)
    assert session.press().refused.startswith("Double press ignored.")
    session.close()


def test_a_key_does_nothing_where_time_has_changed_what_was_shown(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1", "1", "")
    seen = session.moment()
    say(session, clock, "later")
    clock.go(seconds=1)
    assert session.press(seen=seen).refused == "Time has passed: look again, then press."
    session.close()


# --- reasons by digit ---------------------------------------------------------------------------------


def test_a_step_is_left_out_with_a_reason_by_its_digit(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1", "1", "skip 3")
    assert session.progress.left_out == {2: STEP_SKIP_REASONS[2]}
    assert dict(shown(session).choices)["skip"] == STEP_SKIP_REASONS
    assert shown(session).done == "1 of 9 done, 1 left out"
    session.close()


def test_a_reason_in_words_stays_as_it_was_written(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1", "1", "skip 3 plugs are missing")
    assert session.progress.left_out == {2: "3 plugs are missing"}
    session.close()


def test_a_job_is_ended_unfinished_with_a_reason_by_its_digit(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1", "1", "abandon 2")
    assert session.progress.abandoned
    assert session.events[-1].text == ABANDON_REASONS[1]
    assert shown(session).call == "ABANDONED"
    session.close()


# --- what is shown ------------------------------------------------------------------------------------


def test_the_words_of_a_page_are_all_there_and_the_kind_stands_apart(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1")
    view = shown(session)
    assert (view.call, view.texts, view.headline) == ("MUST BE SAFE", ("key out",), "MUST BE SAFE: key out")
    say(session, clock, "1")
    view = shown(session)
    assert (view.call, view.texts, view.main) == ("DO ALL OF THIS", ("plugs in",), "all of it done")
    session.close()


def test_what_a_reading_must_lie_in_and_one_outside_stand_apart(tmp_path: Path) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    assert not say(session, clock, "go 5")
    assert say(session, clock, "0.5 mm") == ""
    view = shown(session)
    assert (view.wanted, view.urgent) == ("0.1–0.3 mm", ("last reading 0.5 mm: outside 0.1–0.3 mm",))
    session.close()


def test_a_deadline_counts_down_to_less_than_a_minute_and_is_late_then(tmp_path: Path) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    step = replace(session.plan.steps[4], within=Fraction(10), since=2)
    assert step.within is not None
    done = datetime.fromisoformat(session.progress.done[2])
    for minutes, said in ((0.5, "9 min left"), (9.5, "less than 1 min left"), (11, "LATE: was due")):
        (line,) = deadline_line(session.standing, step, done + timedelta(minutes=minutes))
        assert said in line
    session.close()


def test_a_reading_outside_its_band_is_told_at_once(tmp_path: Path) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    say(session, clock, "go 5")
    assert session.say("0.5 mm").told == "0.5 mm: outside 0.1–0.3 mm; it stays open"
    assert session.say("0.2 mm").told == ""
    session.close()


def test_what_came_of_a_walk_is_said_in_one_line(tmp_path: Path) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    step = session.moment().step
    walk = session.enter().session
    assert walk is not None
    assert step is not None
    session.leave(walk)
    assert came_of(session.standing, step, clock()) == ("flange, up to stage 1: put down at stage 1",)
    again = session.enter().session
    assert again is not None
    while not session.is_over(again):
        clock.go(seconds=1)
        again.press()
    session.leave(again)
    assert came_of(session.standing, step, clock()) == ("done: flange, up to stage 1",)
    session.close()


# --- whose walk ---------------------------------------------------------------------------------------


def alone(folder: Path, clock: Clock, *, work_order: str = "", job: str = "") -> Opening:
    """The flange walked outside of the job, or in another one."""
    request = Request(folder=folder, bay="bay 1", work_order=work_order, job=job)
    return open_group(GROUPS["flange"], Bench(today=clock().date()), request, clock)


@pytest.mark.parametrize("work_order", ["", "4711"])
def test_a_walk_of_a_job_is_not_gone_on_with_outside_of_it(tmp_path: Path, work_order: str) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    if work_order:
        say(session, clock, f"order {work_order}")
    walk = session.enter().session
    assert walk is not None
    session.leave(walk)
    clock.go(minutes=1)
    opening = alone(tmp_path, clock, work_order=work_order)
    assert opening.session is not None
    assert opening.session.header.id != walk.header.id
    (note,) = opening.notes
    assert note.startswith(f"The job {session.header.id} has this walk open ({walk.header.id})")
    opening.session.close()
    again = session.enter().session
    assert again is not None
    assert again.header.id == walk.header.id
    session.leave(again)
    session.close()


def test_the_walk_of_a_work_order_is_taken_up_by_the_job_of_that_order(tmp_path: Path) -> None:
    clock = Clock()
    before = alone(tmp_path, clock, work_order="4711").session
    assert before is not None
    before.close()
    session = at_group(tmp_path, clock)
    say(session, clock, "order 4711")
    walk = session.enter().session
    assert walk is not None
    assert walk.header.id == before.header.id
    session.leave(walk)
    session.close()


def test_the_walk_of_another_job_is_left_alone_even_with_the_same_work_order(tmp_path: Path) -> None:
    clock = Clock()
    other = alone(tmp_path, clock, work_order="4711", job="20260101-080000-other").session
    assert other is not None
    other.close()
    session = at_group(tmp_path, clock)
    say(session, clock, "order 4711")
    walk = session.enter().session
    assert walk is not None
    assert walk.header.id != other.header.id
    session.leave(walk)
    session.close()


def test_the_record_of_a_walk_names_its_job(tmp_path: Path) -> None:
    clock = Clock()
    session = at_group(tmp_path, clock)
    walk = session.enter().session
    assert walk is not None
    session.leave(walk)
    session.close()
    record, _ = read_job_record(session.journal.path)
    assert record is not None
    (kept,) = record.walks.values()
    assert kept.header.of_job == session.header.id
