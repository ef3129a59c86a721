"""Plans that were read before: what comes back is what stands there, and what is no plan is refused each time."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from tests.walk.test_practice_jobs import JOBS
from tests.walk.workshop import MORNING
from torqref.walk.codec import to_plain
from torqref.walk.plan import Plan, Remark
from torqref.walk.plan_memory import read_plan
from torqref.walk.planner import Bench, make_plan


def plain(job: str) -> dict[str, Any]:
    plan = make_plan(JOBS[job], Bench(today=MORNING.date()))
    assert isinstance(plan, Plan)
    table: dict[str, Any] = json.loads(json.dumps(to_plain(plan)))
    return table


@pytest.mark.parametrize("job", JOBS)
def test_a_plan_read_again_is_the_same(job: str) -> None:
    plan = make_plan(JOBS[job], Bench(today=MORNING.date()))
    assert read_plan(plain(job)) == plan == read_plan(plain(job))


def test_each_walk_has_what_its_own_day_brought() -> None:
    table = plain("bearing")
    stood = [["W1", "12 N·m", "2026-03-02T08:00:00+00:00"]]
    one = read_plan({**table, "stood": stood, "remarks": [{"text": "rust", "bolts": [2]}]})
    two = read_plan({**table, "again": "done already", "answered": ["doubt"]})
    assert one.stood == (("W1", "12 N·m", "2026-03-02T08:00:00+00:00"),)
    assert one.remarks == (Remark(text="rust", bolts=(2,)),)
    assert (one.again, two.stood, two.remarks) == ("", (), ())
    assert (two.again, two.answered) == ("done already", ("doubt",))
    assert read_plan(table) == make_plan(JOBS["bearing"], Bench(today=MORNING.date()))


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("invented", 1),
        ("rounds", []),
        ("stood", [["W1", "12 N·m", "2026-03-02T08:00:00"]]),
        ("stood", [["W1", "12 N·m"]]),
        ("again", 7),
        ("remarks", ["rust"]),
        ("layout", None),
        ("name", ["x"]),
    ],
)
def test_what_is_no_plan_is_refused_though_one_like_it_was_read(field: str, value: Any) -> None:
    table = plain("bearing")
    table["invented"] = True
    read_plan(table)
    for _ in range(2):
        with pytest.raises((ValueError, TypeError, KeyError)):
            read_plan({**copy.deepcopy(table), field: value})


@pytest.mark.parametrize("data", [None, 7, [], "plan", {}, True])
def test_what_is_no_table_is_refused(data: Any) -> None:
    with pytest.raises((ValueError, TypeError, KeyError)):
        read_plan(data)


def test_a_plan_too_long_to_be_kept_is_read_all_the_same() -> None:
    table = {**plain("bearing"), "source": "x" * 100_000}
    assert read_plan(table).source == "x" * 100_000
