"""Whatever is said, in whatever order, to whatever group: the walk answers, and the record tells the same."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.walk.test_practice_jobs import JOBS
from tests.walk.workshop import MORNING, Walk, rack
from torqref.walk.condition import MOST_LINES
from torqref.walk.hole import texts
from torqref.walk.journal import read_journal
from torqref.walk.planner import Bench
from torqref.walk.progress import fold
from torqref.walk.second import second_unit_text
from torqref.walk.spoken import spoken

SEEDS, STEPS = range(3), 120
# Words with what may stand behind them, about as often as a hand would say them.
WORDS = (
    *[""] * 40,
    "undo", "undo", "undo", "undo 3", "later", "later 2", "moved", "round",
    "skip 4", "skip 2 1", "trouble 1", "trouble 7 2", "old 1", "old 2", "note rusty", "afterwards",
    "found 60 N·m", "found 200 in-lb at 2", "actual 24 N·m", "actual 999 N·m", "actual 50", "actual 91°",
    "page 20 N·m", "page 75°", "page 60 N·m on sheet 2", "drag 1 N·m", "measure 0.08 mm", "measure 9 mm",
    "measure 2 mm", "wrench W1", "wrench W2", "wrench none", "unit", "verify marks", "verify 24 N·m by Ben",
    "sign Ben", "sign Ada", "pause", "1", "1", "2", "3", "6", "nonsense", "show", "12,5 N·m", "24.1 N·m",
)  # fmt: skip
MINUTES = (*[0] * 20, 1, 5, 14, 16, 60, 300, 1500, -20)


@pytest.mark.slow
@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("action", ["tighten", "loosen"])
@pytest.mark.parametrize("job", JOBS)
def test_whatever_is_said_the_walk_answers_and_the_record_tells_the_same(
    tmp_path: Path, job: str, action: str, seed: int
) -> None:
    dice = random.Random(f"{job} {action} {seed}")
    bench = Bench(today=MORNING.date(), action=action)
    if seed % 2:
        bench = Bench(today=MORNING.date(), action=action, rack=rack(tmp_path))
    walk = Walk(JOBS[job], tmp_path / "records", bench=bench, by="Ada")
    for _ in range(STEPS):
        said, before = dice.choice(WORDS), walk.events
        walk.clock.go(minutes=dice.choice(MINUTES))
        refused = walk.say(said)
        # a value that the second person typed otherwise is refused and kept all the same
        assert not refused or walk.events == before or said.startswith("verify"), (said, refused)
        look_at(walk)
        if walk.session.progress.paused or dice.random() < 0.03:
            walk.again()
            look_at(walk)
    told = read_journal(walk.session.journal.path)
    assert not told.problems
    assert told.events == walk.events
    assert fold(walk.session.header.plan, told.events) == walk.session.progress
    walk.session.close()


def look_at(walk: Walk) -> None:
    """Everything that a front end asks of the core."""
    shown, progress, moment = walk.shown, walk.session.progress, walk.moment
    assert shown.headline
    assert shown.title
    assert len(shown.lines) <= MOST_LINES or shown.kind not in ("stop", "question", "marks", "wait")
    assert all(len(line) <= 110 for line in shown.lines), shown.lines
    assert bool(shown.options) or shown.kind != "question"
    assert isinstance(spoken(progress, moment, shown, walk.session.clock()), str)
    assert isinstance(second_unit_text(progress, shown), str)
    assert isinstance(dict(texts(progress, moment)), dict)
