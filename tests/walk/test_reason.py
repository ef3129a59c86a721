"""An apprentice asks why, and is answered from the plan; what only the page can know is not guessed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group, rack
from torqref.library.source import DEFER
from torqref.walk.planner import Bench
from torqref.walk.reason import reasons


def why(walk: Walk) -> str:
    return "\n".join(reasons(walk.session.progress, walk.moment))


def test_the_hand_round_is_told_from_the_rounds_with_a_wrench(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press()
    assert "By fingers first" in why(walk)
    walk.press(2)
    assert "each bolt that is pulled takes load from its neighbours" in why(walk)


def test_the_number_comes_with_what_arrives_and_what_the_page_allows(tmp_path: Path) -> None:
    bench = Bench(rack=rack(tmp_path), today=MORNING.date())
    walk = Walk(group('count = 4\n[[group.stage]]\ntorque = "22–26 N·m"'), tmp_path / "records", bench=bench)
    walk.press()
    # 4 % of 24 N·m and half a graduation of 0.2 N·m, worst case summed: 24 ± 1.06, by hand.
    told = why(walk)
    assert "the fastener may get 22.9 to 25.1 N·m" in told
    assert "the page allows 22.0 to 26.0 N·m" in told


def test_one_value_has_no_rounds_to_explain(tmp_path: Path) -> None:
    walk = Walk(group('count = 4\n[[group.stage]]\ntorque = "24 N·m"'), tmp_path)
    walk.press()
    assert "neighbours" not in why(walk)


def test_the_drag_of_a_locking_nut_is_explained(tmp_path: Path) -> None:
    walk = Walk(group('count = 4\nlocking = true\n[[group.stage]]\ntorque = "24 N·m"'), tmp_path)
    walk.press()
    walk.say("drag 1.8 N·m")
    assert "The drag of 1.8 N·m only turns the nut" in why(walk)


def test_an_order_of_our_own_says_that_it_is_not_the_manufacturers(tmp_path: Path) -> None:
    walk = Walk(group('layout = { circle = 8 }\n[[group.stage]]\ntorque = "24 N·m"'), tmp_path)
    walk.press()
    assert "generic, not the manufacturer's" in why(walk)
    assert "keeps the parts level" in why(walk)


KINDS = {
    'angle = "90°"': "a turn stretches every bolt alike",
    'torque = "24 N·m"\nrecheck = true': "Never loosened first",
    'torque = "24 N·m"\nuntil = "still"': "until nothing moves",
    'wait = "one heat cycle"\ndue = { hours = 4 }': "The joint settles meanwhile",
}


@pytest.mark.parametrize("stage", KINDS)
def test_each_kind_of_stage_has_its_reason(stage: str, tmp_path: Path) -> None:
    text = f'count = 4\n[[group.stage]]\ntorque = "12 N·m"\n[[group.stage]]\n{stage}'
    walk = Walk(group(text), tmp_path)
    walk.press()
    walk.press(4)
    if walk.moment.kind == "stop":
        walk.press()
    assert KINDS[stage] in why(walk)


def test_loosening_has_reasons_of_its_own(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), action="loosen")
    walk = Walk(group(TWO_ROUNDS), tmp_path, bench=bench)
    assert "the last tight bolt would carry everything" in why(walk)


def test_the_last_word_is_the_manufacturers(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    told = reasons(walk.session.progress, walk.moment)
    assert told[-1] == DEFER
    assert told[-2] == "From: own sheet."
