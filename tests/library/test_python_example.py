"""torqref from Python: a library read, a plan and a setting made, in ten lines that are run as they stand."""

from __future__ import annotations

import doctest
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

EXAMPLE = """\
>>> from datetime import date
>>> from pathlib import Path
>>> from torqref.library.shelf import find_group, shipped_folder
>>> from torqref.walk.planner import Bench, make_plan
>>> from torqref.wrench.rack import read_rack
>>> rack, problems = read_rack(Path("demo/wrenches.toml"))
>>> group, problems = find_group("coolant-pump", [shipped_folder()])
>>> plan = make_plan(group, Bench(rack=rack, today=date(2026, 6, 1)))
>>> [(dial.target.text, dial.wrench, f"{dial.shown} {dial.unit}") for dial in plan.dials]
[('10 N·m', 'W1', '10.0 N·m'), ('22 N·m', 'W2', '22.0 N·m')]
>>> [step.labels for step in plan.rounds[-1].steps][:3]
[(1,), (2,), (3,)]
"""


def test_the_example_runs_as_it_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    test = doctest.DocTestParser().get_doctest(EXAMPLE, {}, "example", None, 0)
    assert len(test.examples) == 10
    told: list[str] = []
    failures, tried = doctest.DocTestRunner().run(test, out=told.append)
    assert (failures, tried) == (0, 10), "".join(told)
