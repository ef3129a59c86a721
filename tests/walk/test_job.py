"""The core of a job: whatever is said, what must be safe was made safe, and nothing is signed unfinished."""

from __future__ import annotations

import random
from datetime import timedelta
from pathlib import Path

import pytest

from tests.walk.workshop import Clock, group
from torqref.document.toml import Document, parse_document
from torqref.library.job import Job, job_of
from torqref.quantity.measure import read_measure
from torqref.quantity.term import Measure
from torqref.walk.attempt import No
from torqref.walk.job_archive import read_job_record
from torqref.walk.job_command import COMMANDS, band_verdict
from torqref.walk.job_moment import JobMoment
from torqref.walk.job_opening import open_job
from torqref.walk.job_planner import make_job_plan
from torqref.walk.job_progress import fold_job
from torqref.walk.job_session import Bay, JobSession
from torqref.walk.job_standing import STATES
from torqref.walk.job_view import job_view
from torqref.walk.opening import Request
from torqref.wrench.rack import Rack

GROUPS = {
    "flange": group(
        'count = 2\n[[group.stage]]\ntorque = "10 N·m"\n[[group.stage]]\nwait = "cold"\ndue = { hours = 1 }\n'
        '[[group.stage]]\ntorque = "20 N·m"\nrecheck = true\n',
        "flange",
    ),
    "cover": group('count = 3\n[[group.stage]]\ntorque = "9 N·m"\n', "cover"),
}
FILE = """
format = 1
job = "small"
name = "Small repair"
signatures = 2
[facts]
engine = ["Q", "R"]
[[step]]
safe = "key out"
[[step]]
text = "plugs in"
[[step]]
id = "tight"
do = "flange"
to_stage = 1
[[step]]
do = "cover"
needs = ["tight"]
applies = { engine = ["Q"] }
[[step]]
check = "gap"
band = "0.1–0.3 mm"
[[step]]
safe = "hands clear"
[[step]]
wait = "idle"
due = { minutes = 2 }
[[step]]
do = "flange"
[[step]]
text = "sweep up"
alone = true
within = "10 min"
[[recheck]]
text = "level"
due = { km = 500 }
"""


def small() -> Job:
    document = parse_document(FILE.encode(), "small.job.toml")
    assert isinstance(document, Document)
    job, problems = job_of(document)
    assert job is not None, problems
    return job


def opened(
    folder: Path, clock: Clock, *, bay: str = "bay 1", by: str = "Ada", new: bool = False
) -> JobSession:
    here = Bay(folder=folder, name=bay, groups=GROUPS, rack=Rack())
    opening = open_job(small(), here, Request(folder=folder, bay=bay, by=by, new=new), clock)
    assert opening.session is not None, opening.refusal
    return opening.session


def say(session: JobSession, clock: Clock, *lines: str) -> str:
    refused = ""
    for line in lines:
        clock.go(seconds=1)
        refused = session.say(line).refused
    return refused


# --- plan -------------------------------------------------------------------------------------------


def test_texts_that_stand_together_share_a_page_and_marked_ones_do_not() -> None:
    text = 'format = 1\njob = "p"\n' + "".join(
        f'[[step]]\ntext = "{word}"\n{more}\n'
        for word, more in (
            ("a", ""),
            ("b", ""),
            ("c", "alone = true"),
            ("d", ""),
            ("e", 'id = "x"'),
            ("f", ""),
        )
    )
    document = parse_document(text.encode(), "p.toml")
    assert isinstance(document, Document)
    job, _ = job_of(document)
    assert job is not None
    plan = make_job_plan(job, {})
    assert [(step.kind, step.lines) for step in plan.steps] == [
        ("page", ("a", "b")), ("alone", ("c",)), ("page", ("d",)), ("page", ("e",)), ("page", ("f",)),
    ]  # fmt: skip
    assert [step.number for step in plan.steps] == [1, 2, 3, 4, 5]


def test_steps_of_one_group_go_on_with_one_walk() -> None:
    plan = make_job_plan(small(), GROUPS)
    flange = [step for step in plan.steps if step.group == "flange"]
    assert len({step.walk for step in flange}) == 1
    assert [step.to_stage for step in flange] == [1, 0]


# --- moments ----------------------------------------------------------------------------------------


def test_the_moments_come_in_order(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    kinds = []
    for line in ("", "1", "1", ""):
        kinds.append(session.moment().kind)
        say(session, clock, line)
    assert kinds == ["opening", "fact", "safe", "page"]
    assert session.moment().kind == "group"
    session.close()


def test_a_double_press_of_the_foot_switch_is_ignored_and_told(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    assert not session.press().refused
    clock.now += timedelta(milliseconds=100)
    assert session.press().refused == "Double press ignored."
    session.close()


def test_another_bay_never_goes_on_with_it_unasked(tmp_path: Path) -> None:
    clock = Clock()
    first = opened(tmp_path, clock)
    say(first, clock, "", "1")
    clock.go(minutes=1)
    second = opened(tmp_path, clock, bay="bay 2")
    assert second.header.id != first.header.id
    assert second.moment().kind == "opening"
    first.close()
    second.close()


def test_the_same_job_is_not_open_twice_at_a_time(tmp_path: Path) -> None:
    clock = Clock()
    first = opened(tmp_path, clock)
    here = Bay(folder=tmp_path, name="bay 1", groups=GROUPS, rack=Rack())
    opening = open_job(small(), here, Request(folder=tmp_path, bay="bay 1"), clock)
    assert opening.session is None
    assert opening.refusal is not None
    assert "open in another window" in opening.refusal.message
    first.close()


def test_a_hand_over_is_kept(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1")
    session.close()
    session = opened(tmp_path, clock, by="Bo")
    assert [event.text for event in session.events if event.kind == "hand-over"] == ["from Ada to Bo"]
    session.close()


# --- laws -------------------------------------------------------------------------------------------

LINES = (
    "", "", "", "", "1", "1", "2", "3", "0.2 mm", "0.9 mm", "measure 0.2 mm", "measure x", "later", "go 4",
    "go 9", "skip no time", "skip", "again 2", "again 3", "again 99", "adapter none", "note rust", "order 17",
    "undo", "undo", "pause", "sign Bo", "sign Cy", "sign", "recheck 1 fine", "recheck 9 x", "due", "nonsense",
    "\x1b[2J", "x" * 300,
)  # fmt: skip


def work(session: JobSession, clock: Clock, dice: random.Random, presses: int) -> None:
    """Say anything at all, and walk whatever group comes, not always to its end."""
    for _ in range(presses):
        if dice.random() < 0.1:
            clock.go(hours=dice.choice((0.1, 2)))
        moment = session.moment()
        check_laws(session, moment)
        if moment.kind == "group" and dice.random() < 0.8:
            walk_some(session, clock, dice)
        else:
            say(session, clock, dice.choice(LINES))


def walk_some(session: JobSession, clock: Clock, dice: random.Random) -> None:
    opening = session.enter()
    assert opening.session is not None, opening.refusal
    walk = opening.session
    for _ in range(dice.randrange(12)):
        if session.is_over(walk):
            break
        clock.go(seconds=1)
        walk.say(dice.choice(("", "", "", "1", "undo", "moved", "later", "trouble 1", "skip 1")))
    session.leave(walk)


def check_laws(session: JobSession, moment: JobMoment) -> None:
    standing, progress = session.standing, session.progress
    for step in progress.plan.steps:
        if step.kind == "safe" and not standing.is_over(step):
            # nothing behind what must be safe is ever asked for while it is open
            assert moment.step is None or moment.step.number <= step.number
    if progress.signed:
        assert not standing.open_steps
    shown = job_view(standing, moment, session.clock())
    assert {entry.state for entry in shown.strip} <= set(STATES)
    assert len(shown.strip) == len(progress.plan.steps)


@pytest.mark.parametrize("seed", range(12))
def test_whatever_is_said_the_laws_hold_and_the_journal_tells_the_same(tmp_path: Path, seed: int) -> None:
    clock, dice = Clock(), random.Random(seed)
    session = opened(tmp_path, clock)
    for _ in range(4):
        work(session, clock, dice, 40)
        session.close()
        record, problems = read_job_record(session.journal.path)
        assert record is not None
        assert not problems
        assert record.progress == session.progress
        assert record.standing.progress == fold_job(record.plan, record.told.events, record.header.work_order)
        assert {name: walk.progress for name, walk in record.walks.items()} == session.walks
        clock.go(minutes=20)
        session = opened(tmp_path, clock)
    session.close()


def test_safe_steps_are_done_by_their_digit_alone(tmp_path: Path) -> None:
    clock, dice = Clock(), random.Random(1)
    for seed in range(10):
        session = opened(tmp_path / str(seed), clock)
        work(session, clock, dice, 60)
        safe = {step.number for step in session.plan.steps if step.kind == "safe"}
        for event in session.events:
            if event.kind in ("step", "skip", "later", "measure") and event.round in safe:
                assert event.kind == "step"
                assert event.reason == 1
        session.close()


def test_undo_gives_back_what_was_before(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1", "1")
    for line in ("", "later", "note rust", "order 17"):
        before = session.progress
        say(session, clock, line)
        assert session.progress != before
        say(session, clock, "undo")
        after = session.progress
        assert (after.done, after.later, after.notes, after.work_order) == (
            before.done, before.later, before.notes, before.work_order,
        )  # fmt: skip
    session.close()


def test_a_job_journal_cut_at_any_byte_is_a_prefix_and_goes_on(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    say(session, clock, "", "1", "1", "")
    session.close()
    (path,) = tmp_path.glob("*.job")
    data, events = path.read_bytes(), session.events
    header = data.index(b"\n") + 1
    for cut in range(header, len(data), 17):
        folder = tmp_path / f"cut{cut}"
        folder.mkdir()
        (folder / path.name).write_bytes(data[:cut])
        record, problems = read_job_record(folder / path.name)
        assert record is not None
        assert record.told.events == events[: len(record.told.events)]
        assert all(problem.severity == "warning" for problem in problems)
        again = opened(folder, clock)
        assert again.progress.done.items() <= session.progress.done.items()
        again.close()


# --- bands ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("band", "reading", "inside"),
    [
        ("0.03–0.13 mm", "0.03 mm", True),
        ("0.03–0.13 mm", "0.131 mm", False),
        ("<= 0.05 mm", "0.05 mm", True),
        ("<= 0.05 mm", "0.06 mm", False),
        (">= 15 km", "14.9 km", False),
        (">= 15 km", "200 km", True),
        ("-0.3–0.0 L", "-0.31 L", False),
        ("-0.3–0.0 L", "0 L", True),
        ("13.8 V", "13.8 V", True),
        ("13.8 V", "13.7 V", False),
    ],
)
def test_a_reading_is_held_against_its_band(band: str, reading: str, inside: bool) -> None:
    wanted = read_measure(band)
    assert isinstance(wanted, Measure)
    verdict = band_verdict(reading, wanted)
    assert not isinstance(verdict, No)
    assert (verdict == "") is inside


def test_every_word_of_the_help_is_a_word_that_is_known(tmp_path: Path) -> None:
    clock = Clock()
    session = opened(tmp_path, clock)
    for line in ("", "1", "1", ""):
        shown = job_view(session.standing, session.moment(), clock())
        words = {word.split(" ")[0] for word, _ in shown.words}
        assert words <= set(COMMANDS) | {"due", "steps"}
        say(session, clock, line)
    session.close()
