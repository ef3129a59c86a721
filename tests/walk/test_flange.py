"""A flange of two hundred bolts, walked to its end: nothing is too many."""

from __future__ import annotations

from pathlib import Path

from tests.walk.workshop import Walk, group

FLANGE = 'layout = { circle = 200 }\n[[group.stage]]\nhand = "seated"\n[[group.stage]]\ntorque = "140 N·m"\n'


def test_two_hundred_bolts_are_walked_each_once_opposite_ones_in_turn(tmp_path: Path) -> None:
    walk = Walk(group(FLANGE), tmp_path)
    walk.press(3 + 200)  # the opening stop, the hand round, the stop of the setting, then every bolt
    assert walk.asks == "finished"
    bolts = [labels[0] for labels in walk.ticks()]
    assert sorted(bolts) == list(range(1, 201))
    assert all(abs(one - other) == 100 for one, other in zip(bolts[::2], bolts[1::2], strict=True))
