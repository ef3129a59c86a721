"""Plans and events as plain JSON and back: what goes in comes out, and what does not fit is refused."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.walk.test_practice_jobs import JOBS
from tests.walk.workshop import MORNING
from torqref.walk.codec import from_plain, to_plain
from torqref.walk.event import KINDS, Event
from torqref.walk.plan import Plan
from torqref.walk.planner import Bench, make_plan


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("action", ["tighten", "loosen"])
def test_a_plan_comes_back_as_it_was(job: str, action: str) -> None:
    plan = make_plan(JOBS[job], Bench(today=MORNING.date(), action=action))
    assert isinstance(plan, Plan)
    assert from_plain(Plan, json.loads(json.dumps(to_plain(plan)))) == plan


EVENTS = st.builds(
    Event,
    kind=st.sampled_from(KINDS),
    number=st.integers(0, 10**6),
    bolts=st.lists(st.integers(1, 500), max_size=4).map(tuple),
    text=st.text(max_size=40),
    value=st.text(max_size=20),
    limits=st.lists(st.text(max_size=5), max_size=2).map(tuple),
    stood=st.lists(st.tuples(st.text(max_size=5), st.text(max_size=5), st.text(max_size=5)), max_size=2).map(
        tuple
    ),
    afterwards=st.booleans(),
)


@given(EVENTS)
def test_an_event_comes_back_as_it_was(event: Event) -> None:
    assert from_plain(Event, json.loads(json.dumps(to_plain(event)))) == event


def test_fields_of_a_later_version_are_left_alone() -> None:
    assert from_plain(Event, {"kind": "note", "colour": "red"}) == Event(kind="note")


@pytest.mark.parametrize(
    "data",
    [
        {},
        {"kind": 3},
        {"kind": "note", "bolts": "12"},
        {"kind": "note", "bolts": ["1"]},
        {"kind": "note", "bolts": {"1": 1}},
        {"kind": "note", "number": "1"},
        {"kind": "note", "stood": [["W1", "12 N·m"]]},
        {"kind": "note", "drag": [1]},
        {"kind": "note", "dials": [{"target": 1}]},
        [],
        None,
        "note",
    ],
)
def test_what_does_not_fit_is_refused_as_such(data: Any) -> None:
    with pytest.raises((TypeError, ValueError, KeyError)):
        from_plain(Event, data)


def test_fractions_stay_exact() -> None:
    plan = make_plan(JOBS["bearing"], Bench(today=MORNING.date()))
    assert isinstance(plan, Plan)
    plain = to_plain(plan)
    assert plain["rounds"][4]["band"]["low"] == "3/100"
    assert from_plain(Plan, plain).rounds[4].band == plan.rounds[4].band
    assert plan.rounds[4].band is not None
    assert plan.rounds[4].band.low == Fraction(3, 100)
