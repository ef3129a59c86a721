"""The folder of records: which walks there are, what is due, what the shop lead looks for, and how fast."""

from __future__ import annotations

import shutil
import time
from dataclasses import replace
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Clock, Walk, group
from torqref.document.problem import Problem
from torqref.walk.archive import Record, Wanted, journals, open_records, open_walk, read_record, records
from torqref.walk.audit import corrections, due_items, outdated
from torqref.walk.event import Event
from torqref.walk.journal import FORMAT, Header, create_journal, read_journal
from torqref.walk.opening import Request, open_group, resume
from torqref.walk.plan import Plan
from torqref.walk.planner import Bench, make_plan
from torqref.walk.practice import Practice
from torqref.walk.progress import fold

WAITS = 'count = 4\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nwait = "cold again"\ndue = { hours = 4 }\n'
FAR = WAITS.replace("cold again", "80 km driven").replace("hours = 4", "km = 80")


def finished(
    folder: Path, identity: str = "sample", text: str = TWO_ROUNDS, clock: Clock | None = None
) -> Walk:
    walk = Walk(group(text, identity), folder, clock=clock or Clock())
    walk.press(24)
    assert walk.session.progress.finished
    walk.session.close()
    return walk


# --- which walk goes on ------------------------------------------------------------------------------


def test_the_open_walk_of_the_same_group_place_action_and_order_goes_on(tmp_path: Path) -> None:
    text = 'places = ["left", "right"]\n' + TWO_ROUNDS
    clock = Clock()
    walks: dict[tuple[str, str, str], str] = {}
    for place in ("", "left", "right"):
        for action in ("tighten", "loosen"):
            for order in ("", "17"):
                bench = Bench(today=MORNING.date(), place=place, action=action)
                walk = Walk(group(text), tmp_path, clock=clock, bench=bench, work_order=order)
                walk.press(4)
                walks[place, action, order] = walk.session.header.id
                walk.session.close()
    assert len(set(walks.values())) == len(walks)
    for (place, action, order), identity in walks.items():
        bench = Bench(today=MORNING.date(), place=place, action=action)
        walk = Walk(group(text), tmp_path, clock=clock, bench=bench, work_order=order)
        assert walk.session.header.id == identity
        walk.session.close()


def test_a_finished_walk_is_not_gone_on_with(tmp_path: Path) -> None:
    first = finished(tmp_path)
    again = Walk(group(TWO_ROUNDS), tmp_path)
    assert again.session.header.id != first.session.header.id
    assert again.asks == "stop"


def test_a_new_walk_can_be_begun_though_one_is_open(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(6)
    walk.session.close()
    walk.open(new=True)
    assert walk.ticks() == []
    assert len(list(journals(tmp_path))) == 2


def test_a_group_whose_id_ends_another_id_is_not_taken_for_it(tmp_path: Path) -> None:
    long = Walk(group(TWO_ROUNDS, "exhaust-manifold"), tmp_path)
    long.press(6)
    long.session.close()
    assert Walk(group(TWO_ROUNDS, "manifold"), tmp_path).ticks() == []


def test_a_walk_is_gone_on_with_by_its_record_alone(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(6)
    walk.session.close()
    record, _ = read_record(walk.session.journal.path)
    assert record is not None
    opened = resume(record, Request(folder=tmp_path, bay="bay 1"), walk.clock)
    assert opened.session is not None
    assert opened.session.progress.step == 3
    opened.session.close()


def test_a_practice_walk_writes_nothing_and_says_so(tmp_path: Path) -> None:
    request = Request(folder=tmp_path / "records", bay="bay 1", practice=True)
    opening = open_group(group(TWO_ROUNDS), Bench(today=MORNING.date()), request, Clock())
    assert opening.session is not None
    assert opening.notes == ("PRACTICE WALK: no record is kept.",)
    walk = Walk(group(TWO_ROUNDS), tmp_path / "other")
    walk.session.close()
    walk.session = opening.session
    assert walk.shown.practice.startswith("PRACTICE WALK: no record is kept")
    walk.press(24)
    assert walk.session.progress.finished
    assert isinstance(walk.session.journal, Practice)
    assert not (tmp_path / "records").exists()


def test_a_practice_walk_leaves_the_open_walk_alone(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(6)
    walk.session.close()
    before = walk.session.journal.path.read_bytes()
    request = Request(folder=tmp_path, bay="bay 1", practice=True)
    opening = open_group(walk.group, walk.bench, request, walk.clock)
    assert opening.session is not None
    assert opening.session.progress.round == 0
    opening.session.do("done")
    assert walk.session.journal.path.read_bytes() == before


# --- what is due, and what the shop lead looks for ---------------------------------------------------


def test_what_is_due_is_listed_with_since_when(tmp_path: Path) -> None:
    clock = Clock()
    for identity, text in (("far", FAR), ("near", WAITS), ("open", TWO_ROUNDS)):
        walk = Walk(group(text, identity), tmp_path, clock=clock)
        walk.press(5)
        walk.session.close()
    clock.go(hours=50)
    found, _ = records(tmp_path)
    assert [record.state for record in found] == ["due", "due", "open"]
    assert [line for _, line in due_items(found, clock())] == [
        "near: cold again, due 2026-03-02 12:00, due now, open since Monday",
        "far: 80 km driven (80 km), open since Monday",
    ]


def test_a_correction_of_the_page_waits_for_the_shop_lead(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, by="Ada")
    walk.press(3)
    walk.say("page 14 N·m on sheet 7", "", "page 99 N·m", "undo")
    walk.session.close()
    (told,) = corrections(records(tmp_path)[0])
    assert (told.group, told.stage, told.by) == ("sample", 2, "Ada")
    assert told.sentence() == (
        "sample, stage 2: 12 N·m in the library, 14 N·m on the page (sheet 7) "
        f"(2026-03-02, Ada, walk {walk.session.header.id})"
    )


def test_finished_walks_by_values_since_corrected_are_listed(tmp_path: Path) -> None:
    finished(tmp_path, "same")
    finished(tmp_path, "other")
    open_one = Walk(group(TWO_ROUNDS, "open"), tmp_path)
    open_one.session.close()
    corrected = TWO_ROUNDS.replace("22–26 N·m", "20–24 N·m")
    library = {
        name: group(text, name)
        for name, text in (
            ("same", 'name = "Same"\n' + TWO_ROUNDS),
            ("other", corrected),
            ("open", corrected),
        )
    }
    (told,) = outdated(records(tmp_path)[0], library.get)
    assert told.record.header.plan.group == "other"
    said = "finished by values since corrected: stage 3: 22–26 N·m is now 20–24 N·m"
    assert told.sentence() == f"{told.record.header.id}, other, {said}"
    assert list(outdated(records(tmp_path)[0], lambda _: None)) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("12 N·m", "14 N·m", "stage 2: 12 N·m is now 14 N·m"),
        ('hand = "run down until seated"', 'hand = "until it touches"', "stage 1: run down until seated is now until it touches"),
        ('torque = "12 N·m"', 'angle = "90°"', "stage 2: 12 N·m is now 90°"),
        ('torque = "12 N·m"', 'torque = "12 N·m"\nrecheck = true', "stage 2: what goes with it has changed"),
        ('torque = "12 N·m"', 'torque = "12 N·m"\nhold = "the nut"', "stage 2: what goes with it has changed"),
        ('torque = "12 N·m"', 'torque = "12 N·m"\norder = "2 1 3 4 5 6 7 8 9 10"', "stage 2: the order or the bolts have changed"),
        ("22–26 N·m", '22–26 N·m"\n[[group.stage]]\ntorque = "30 N·m', "stage 4 is new: 30 N·m"),
        ("diagram", 'condition = "oiled"\ndiagram', "condition: nothing is now oiled"),
        ("diagram", 'left_hand = true\ndiagram', "left-hand thread: no is now yes"),
    ],
)  # fmt: skip
def test_what_has_changed_is_said_in_few_words(tmp_path: Path, old: str, new: str, said: str) -> None:
    finished(tmp_path)
    assert old in TWO_ROUNDS
    assert changes(tmp_path, TWO_ROUNDS.replace(old, new, 1)) == said


def test_a_value_of_some_bolts_that_has_changed_names_them(tmp_path: Path) -> None:
    finished(tmp_path)
    subset = '[[group.fastener]]\nat = "9 10"\ntorque = ["5 N·m", "9 N·m"]\n'
    assert changes(tmp_path, TWO_ROUNDS.replace("[[group.stage]]", f"{subset}[[group.stage]]", 1)) == (
        "stage 2, bolt 9 10: 12 N·m is now 5 N·m; stage 3, bolt 9 10: 22–26 N·m is now 9 N·m"
    )


def changes(folder: Path, text: str) -> str:
    """What the library of today says other than the finished walk of a folder."""
    (told,) = outdated(records(folder)[0], lambda _: group(text))
    return "; ".join(told.changes)


def test_an_ended_walk_is_known_by_its_last_lines(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    clock = Clock()
    finished(tmp_path, "done", clock=clock)
    gone = Walk(group(TWO_ROUNDS, "gone"), tmp_path, clock=clock)
    gone.say("abandon 3")
    gone.session.close()
    taken_back = Walk(group(TWO_ROUNDS, "back"), tmp_path, clock=clock)
    taken_back.press(24)
    assert not taken_back.say("undo")
    taken_back.session.close()
    read: list[Path] = []

    def counted(path: Path) -> tuple[Record | None, tuple[Problem, ...]]:
        read.append(path)
        return read_record(path)

    monkeypatch.setattr("torqref.walk.archive.read_record", counted)
    found, _ = open_records(tmp_path)
    assert [record.header.plan.group for record in found] == ["back"]
    assert len(read) == 1


# --- how fast ----------------------------------------------------------------------------------------


def long_plan(steps: int) -> Plan:
    stages = '[[group.stage]]\ntorque = "12 N·m"\n' * (steps // 20)
    plan = make_plan(group(f"layout = {{ circle = 20 }}\n{stages}"), Bench(today=MORNING.date()))
    assert isinstance(plan, Plan)
    return plan


def long_journal(folder: Path, steps: int) -> Path:
    """A journal of so many check-offs, written in one go."""
    plan = long_plan(steps)
    header = Header(format=FORMAT, id=f"20260302-080000-{steps}", plan=plan, bay="bay 1")
    journal = create_journal(folder, header)
    time_ = MORNING.isoformat(timespec="milliseconds")
    journal.keep([Event(kind="opened", time=time_), Event(kind="gate", gate="opening", time=time_)])
    ticks = [
        Event(kind="check-off", bolts=step.labels, round=number, value="set 12 N·m", time=time_, press=-1)
        for number, round_ in enumerate(plan.rounds, start=1)
        for step in round_.steps
    ]
    journal.keep(ticks)
    journal.close()
    return journal.path


def seconds(folder: Path, steps: int) -> float:
    """The best of three readings of a journal, folded."""
    path, best = long_journal(folder, steps), 99.0
    for _ in range(3):
        before = time.perf_counter()
        told = read_journal(path)
        assert told.header is not None
        progress = fold(told.header.plan, told.events)
        best = min(best, time.perf_counter() - before)
        assert progress.round == steps // 20
    return best


@pytest.mark.slow
def test_five_thousand_events_are_resumed_at_once_and_the_time_is_linear(tmp_path: Path) -> None:
    small, large = seconds(tmp_path, 1000), seconds(tmp_path, 5000)
    assert large < 3
    assert large < 12 * small, "five times the events may not take more than about five times the time"


@pytest.mark.slow
def test_years_of_records_do_not_slow_the_opening_of_a_walk(tmp_path: Path) -> None:
    first = finished(tmp_path)
    data = first.session.journal.path.read_bytes()
    for number in range(600):
        (tmp_path / f"20250101-{number:06d}-sample.walk").write_bytes(data)
    wanted = Wanted(group="sample", place="", action="tighten", work_order="", bay="bay 1")
    before = time.perf_counter()
    assert open_walk(tmp_path, wanted) == (None, ())
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    assert time.perf_counter() - before < 2
    assert walk.asks == "stop"
    walk.session.close()
    shutil.rmtree(tmp_path)


def test_an_undo_among_thousands_of_events_is_found_at_once() -> None:
    from torqref.walk.progress import undone_numbers

    told = tuple(
        replace(
            Event(kind="undo", undoes=number - 1) if number % 2 == 0 else Event(kind="check-off"),
            number=number,
        )
        for number in range(1, 20001)
    )
    before = time.perf_counter()
    assert len(undone_numbers(told)) == 10000
    assert time.perf_counter() - before < 2
