"""How a wrench is pulled is said once, before the first pull: a clicker only signals."""

from __future__ import annotations

from pathlib import Path

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group
from torqref.walk.planner import Bench
from torqref.walk.view import view
from torqref.wrench.rack import read_rack

RACK = read_rack(Path(__file__).parents[2] / "demo" / "wrenches.toml")[0]


def test_the_first_stop_of_a_click_wrench_says_to_stop_at_the_first_click(tmp_path: Path) -> None:
    # Common practice, no source: a first user pulls past the click and the head comes off.
    walk = Walk(group(TWO_ROUNDS), tmp_path, bench=Bench(today=MORNING.date(), rack=RACK))
    walk.press(2)
    first = view(walk.session.progress, walk.moment, walk.clock())
    assert any("Stop at the first click" in line for line in first.lines)
    walk.press(1 + 10)
    second = view(walk.session.progress, walk.moment, walk.clock())
    assert second.kind == "stop"
    assert not any("first click" in line for line in second.lines)
