"""The words of a stop: at most three lines of at most a hundred characters, and nothing lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.walk.test_practice_jobs import JOBS
from tests.walk.workshop import Walk, group
from torqref.library.shelf import read_shelf, shipped_folder
from torqref.walk.condition import MOST_LINES, WIDTH, fitted

SAID = st.lists(st.text(alphabet="abc de", min_size=1, max_size=140).filter(str.strip), max_size=12)


@given(SAID, st.integers(1, 3))
def test_whatever_is_said_fits(said: list[str], most: int) -> None:
    lines = fitted(said, most=most)
    assert len(lines) <= most
    assert all(len(line) <= max(WIDTH, max(len(word) for word in line.split())) for line in lines)


SHORT = st.lists(st.text(alphabet="abcde", min_size=1, max_size=90), max_size=12)


@given(SHORT)
def test_nothing_is_lost_without_being_said_to_be_on_the_card(said: list[str]) -> None:
    words = " ".join(fitted(said)).replace(";", " ").split()
    if words[-1:] != ["show"]:
        assert words == said
        return
    told = words[: words.index("more")]
    assert told[:-1] == said[: len(told) - 1]
    assert int(told[-1]) == len(said) - len(told) + 1


LONG = """
left_hand = true
one_time = "bolts, washers and the seal ring of the housing"
condition = "threads and under the heads oiled, contact faces dry and free of grease, dowels in place"
blind_holes = true
locking = true
cautions = ["The housing may still be hot; look before a hand goes near", "Springs push the cover off"]
before = ["faces flat within 0.05 mm", "new bolts beside an old one", "dowels seated", "oil drained"]
layout = { circle = 8 }
[[group.stage]]
torque = "24 N·m"
hold = "the counter nut with the second spanner"
state = "weight on the wheels"
"""


def test_a_long_list_of_conditions_is_three_lines_with_the_safety_first(tmp_path: Path) -> None:
    walk = Walk(group(LONG), tmp_path)
    lines = walk.lines
    assert len(lines) == MOST_LINES
    assert all(len(line) <= WIDTH for line in lines)
    assert lines[0].startswith("LEFT-HAND THREAD")
    assert "hot" in " ".join(lines)
    assert "more on the card: show" in " ".join(lines)
    assert set(walk.session.progress.plan.conditions) <= set(walk.shown.card)


def _groups() -> dict[str, object]:
    return {**read_shelf([shipped_folder()]).groups, **JOBS}


@pytest.mark.parametrize("name", sorted(_groups()))
def test_no_stop_of_any_group_is_longer_than_three_lines(tmp_path: Path, name: str) -> None:
    found = {**read_shelf([shipped_folder()]).groups, **JOBS}[name]
    walk = Walk(found, tmp_path)
    for _ in range(400):
        shown = walk.shown
        if shown.kind in ("stop", "question", "marks", "wait", "second-check"):
            assert len(shown.lines) <= MOST_LINES, shown.lines
        assert all(len(line) <= WIDTH for line in shown.lines), shown.lines
        if shown.kind in ("wait", "measure", "second-check", "finished", "question"):
            break
        assert not walk.press()
