"""Eight jobs walked as a technician lives them, with their presses counted and the budget of asking held.

Budget: stops and questions together are no more than the changes of setting or tool, and two. The presses
in the table were counted by hand from the pages of the jobs: one for each stop, each hand or place round,
each look at the marks, each visit of a bolt or pair.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from tests.walk.workshop import Clock, Walk
from torqref.library.file import read_library_file
from torqref.walk.event import Event

JOBS = {group.id: group for group in read_library_file(Path(__file__).with_name("jobs.toml")).groups}

# job: presses of the main key, lines that are typed or digits, changes of setting or tool
COUNTED = {
    "manifold": (1 + 1 + 1 + 8 + 1 + 8 + 1 + 8, 0, 2),
    "head": (1 + 1 + 1 + 10 + 1 + 10 + 1 + 10 + 1 + 10 + 1, 1, 3),
    "wheels": (1 + 4 + 1 + 20 + 1 + 20 + 20, 1, 2),
    "bearing": (1 + 1 + 1 + 1 + 1 + 1 + 1 + 1, 1, 4),
    "flare-nut": (1 + 1 + 1 + 1, 0, 1),
    "flange": (1 + 8 + 1 + 8 + 1 + 8 + 8 + 1 + 8, 4, 3),
    "cover": (1 + 1 + 1 + 12 + 1 + 12, 0, 2),
    "pump": (1 + 1 + 1 + 1 + 9 + 1 + 9, 0, 2),
}
READINGS = {"bearing": "0.08 mm", "flange": "2.0 mm"}


@dataclass(slots=True)
class Count:
    """What a walk cost: presses, lines, stops, questions, and the changes there were to set."""

    presses: int = 0
    typed: int = 0
    stops: int = 0
    questions: int = 0
    cautions: int = 0
    settings: list[str] = field(default_factory=list)

    @property
    def changes(self) -> int:
        return len(self.settings)


def run(walk: Walk, count: Count) -> Count:
    """Walk to the end: the main key wherever it does something, else the answer that is true."""
    while walk.asks != "finished":
        asked = walk.asks
        if asked == "wait":
            walk.say("pause")
            walk.again(minutes=60 * 24)
            if walk.asks == "wait":
                assert not walk.say("1")
                count.typed += 1
                count.questions += 1
        elif asked == "measure":
            assert not walk.say(READINGS[walk.group.id])
            count.typed += 1
        elif asked == "second-check":
            assert not walk.say("verify marks by Ben")
            count.typed += 1
        else:
            assert not walk.press()
            count.presses += 1
            count.stops += asked == "stop"
            count.questions += asked == "question"
    count.settings = list(settings(walk.events))
    return count


def settings(events: Iterable[Event]) -> Iterable[str]:
    """What had to be set or turned otherwise than at the pull before, by the record alone."""
    before = ""
    for event in events:
        if event.kind == "check-off" and (event.value or "align") != before:
            before = event.value or "align"
            yield before


def test_all_eight_jobs_are_there() -> None:
    assert set(JOBS) == set(COUNTED)


@pytest.mark.parametrize("job", COUNTED)
def test_a_job_costs_the_presses_that_were_counted_by_hand(tmp_path: Path, job: str) -> None:
    count = run(Walk(JOBS[job], tmp_path), Count())
    assert (count.presses, count.typed, count.changes) == COUNTED[job]


@pytest.mark.parametrize("job", COUNTED)
def test_a_job_stays_inside_its_budget_of_stops_and_questions(tmp_path: Path, job: str) -> None:
    count = run(Walk(JOBS[job], tmp_path), Count())
    assert count.stops + count.questions <= count.changes + 2


# --- what the jobs ask beside the presses ------------------------------------------------------------


def test_the_nut_under_the_shield_and_a_call_of_two_minutes(tmp_path: Path) -> None:
    walk = Walk(JOBS["manifold"], tmp_path)
    walk.press(6)
    assert walk.bolt == (4,)
    assert not walk.say("later")
    walk.clock.go(minutes=2, seconds=5)
    assert (walk.asks, walk.bolt, walk.lines[0]) == ("bolt", (5,), "last 3, now 5")
    walk.press(4)
    assert walk.bolt == (4,)


def test_the_next_day_the_manifold_lies_on_top_and_takes_a_key_a_nut(tmp_path: Path) -> None:
    walk = Walk(JOBS["manifold"], tmp_path)
    walk.press(20)
    assert walk.asks == "wait"
    walk.say("pause")
    walk.again(minutes=60 * 24)
    walk.press(3)
    assert not walk.say("moved")
    assert walk.ticks()[-3:] == [(1,), (2,), (3,)]
    assert walk.kinds().count("moved") == 1


def test_the_head_bolt_at_the_bulkhead_is_left_at_fifty_degrees(tmp_path: Path) -> None:
    walk = Walk(JOBS["head"], tmp_path)
    walk.press(25 + 8)
    assert walk.bolt == (9,)
    walk.say("actual 50°")
    assert "40° LEFT" in walk.shown.headline
    walk.press(2)
    assert walk.asks == "marks"
    assert walk.lines[0] == "every mark must stand 90° clockwise of where it was painted"
    walk.press(11)
    assert walk.lines[0].startswith("every mark must stand 180°")


def test_a_missed_head_bolt_is_found_by_its_mark_and_turned(tmp_path: Path) -> None:
    walk = Walk(JOBS["head"], tmp_path)
    walk.press(25 + 10)
    assert walk.asks == "marks"
    assert not walk.say("undo 6")
    assert (walk.asks, walk.bolt) == ("bolt", (6,))
    walk.press()
    assert walk.asks == "marks"


def test_a_doubled_head_bolt_is_trouble_and_starts_again(tmp_path: Path) -> None:
    walk = Walk(JOBS["head"], tmp_path)
    walk.press(25 + 10)
    assert not walk.say("trouble 7 6")
    assert walk.lines[0] == "bolt 6: overshot"
    assert "new parts" in walk.lines[1]
    walk.press()
    assert walk.session.progress.round == 0


def test_each_wheel_has_its_tick_sheet_and_the_last_value_needs_the_weight(tmp_path: Path) -> None:
    walk = Walk(JOBS["wheels"], tmp_path)
    seen = []
    while walk.asks != "wait":
        round_ = walk.session.progress.current
        assert round_ is not None
        if walk.asks == "bolt":
            seen.append((round_.stage, round_.place))
        walk.press()
    places = ["left front", "right front", "left rear", "right rear"]
    assert list(dict.fromkeys(seen)) == [(stage, place) for stage in (2, 3) for place in places]
    assert all(seen.count(pair) == 5 for pair in seen)


def test_the_stop_of_the_last_wheel_value_says_weight_first(tmp_path: Path) -> None:
    walk = Walk(JOBS["wheels"], tmp_path)
    walk.press(1 + 4 + 1 + 20)
    assert walk.asks == "stop"
    assert "FIRST: weight on the wheels" in walk.lines


def test_a_bearing_out_of_its_play_goes_back_to_the_seat(tmp_path: Path) -> None:
    walk = Walk(JOBS["bearing"], tmp_path)
    walk.press(8)
    assert not walk.say("measure 0.2 mm")
    assert walk.session.progress.round == 0
    walk.press(8)
    assert not walk.say("measure 0.05 mm")
    assert walk.asks == "finished"


def test_the_bearing_says_which_way_each_time(tmp_path: Path) -> None:
    walk, ways = Walk(JOBS["bearing"], tmp_path), []
    while walk.asks != "measure":
        if walk.asks == "stop":
            ways.append((walk.shown.verb, walk.shown.number, walk.shown.direction))
        walk.press()
    assert ways == [
        ("SET", "150", "clockwise"),
        ("TURN BACK", "180", "anticlockwise"),
        ("SET", "55", "clockwise"),
        ("TURN BACK AT MOST", "45", "anticlockwise"),
    ]


def test_the_bearing_nut_at_two_per_cent_of_its_proof_is_left_in_peace(tmp_path: Path) -> None:
    for job in ("bearing", "flare-nut"):
        assert Walk(JOBS[job], tmp_path / job).asks == "stop"


def test_the_flare_nut_says_what_to_hold_and_what_to_turn(tmp_path: Path) -> None:
    walk = Walk(JOBS["flare-nut"], tmp_path)
    walk.press(2)
    assert "hold the body with a second spanner, turn the nut only" in walk.lines


def test_the_flange_is_pulled_in_pairs_until_nothing_moves(tmp_path: Path) -> None:
    walk = Walk(JOBS["flange"], tmp_path)
    walk.press(2)
    assert (walk.bolt, walk.shown.bolt) == ((5, 13), "5+13")
    walk.press(8 + 1 + 8 + 8)
    assert walk.session.progress.round == 3
    walk.say("moved", *[""] * 7)
    assert (walk.session.progress.round, walk.session.progress.trip) == (3, 2)
    walk.press(8)
    assert walk.asks == "measure"


def test_one_stud_of_the_flange_strips_and_the_round_goes_again(tmp_path: Path) -> None:
    walk = Walk(JOBS["flange"], tmp_path)
    walk.press(1 + 8 + 1 + 8 + 1 + 3)
    assert not walk.say("trouble 1")
    walk.press()
    assert (walk.session.progress.round, walk.session.progress.done, walk.asks) == (2, frozenset(), "bolt")


def test_the_cover_hurries_and_stays_in_inch_pounds(tmp_path: Path) -> None:
    walk = Walk(JOBS["cover"], tmp_path)
    walk.press(2)
    assert (walk.shown.number, walk.shown.unit) == ("40", "in-lb")
    walk.clock.go(minutes=29)
    assert walk.asks == "question"


def test_the_lengths_of_the_pump_lie_at_their_holes(tmp_path: Path) -> None:
    from torqref.walk.hole import lengths

    walk = Walk(JOBS["pump"], tmp_path)
    walk.press()
    assert walk.asks == "whole"
    assert walk.lines == ("45 mm: 1 2 5 6", "25 mm: 3 4 7 8", "80 mm, sealant on this thread: 9")
    assert lengths(walk.session.progress) == dict.fromkeys((1, 2, 5, 6), "45 mm") | dict.fromkeys(
        (3, 4, 7, 8), "25 mm"
    ) | {9: "80 mm"}
    walk.press(3)
    assert not walk.lines


def test_three_bolts_on_a_bracket_are_one_card_and_one_key(tmp_path: Path) -> None:
    from tests.walk.workshop import group

    walk = Walk(group('count = 3\n[[group.stage]]\ntorque = "9–11 N·m"\n'), tmp_path, clock=Clock())
    walk.press(2)
    assert walk.asks == "finished"
    assert walk.ticks() == [(1,), (2,), (3,)]
