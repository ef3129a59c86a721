"""What stands at a hole in the picture: its length in a place round, its mark after an angle round."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.walk.workshop import Walk, group
from torqref.walk import hole

PUMP = """
diagram = '''
   1   2
   3   4
'''
[[group.fastener]]
at = "1 4"
length = "45 mm"
[[group.fastener]]
at = "2"
length = "1 1/2 in"
note = "sealant on this thread"
[[group.stage]]
place = "every head proud by 16 mm"
[[group.stage]]
torque = "22 N·m"
"""
HEAD = """
diagram = '''
        FRONT
   1   2   3   4
'''
[[group.stage]]
torque = "30 N·m"
[[group.stage]]
angle = "90°"
[[group.stage]]
angle = "90°"
"""

OPEN: list[Walk] = []


@pytest.fixture(autouse=True)
def closed() -> Iterator[None]:
    yield
    while OPEN:
        OPEN.pop().session.close()


def walk_of(text: str, folder: Path) -> Walk:
    OPEN.append(Walk(group(text), folder))
    return OPEN[-1]


def test_a_socket_of_its_own_is_not_taken_for_a_length(tmp_path: Path) -> None:
    walk = walk_of(
        PUMP.replace('note = "sealant on this thread"', 'socket = "10 mm hex"').replace(
            'length = "1 1/2 in"\n', ""
        ),
        tmp_path,
    )
    assert hole.lengths(walk.session.progress) == {1: "45 mm", 4: "45 mm"}


def test_lengths_stand_at_their_holes_in_the_place_round_only(tmp_path: Path) -> None:
    walk = walk_of(PUMP, tmp_path)
    walk.press()
    assert hole.texts(walk.session.progress, walk.moment) == {1: "45 mm", 4: "45 mm", 2: "1 1/2 in"}
    walk.press(2)
    assert walk.asks == "bolt"
    assert hole.texts(walk.session.progress, walk.moment) == {}


def test_after_a_quarter_turn_marks_painted_to_the_front_point_right(tmp_path: Path) -> None:
    # Seen from above with FRONT up: a mark at 12 o'clock turned 90° clockwise stands at 3 o'clock.
    walk = walk_of(HEAD, tmp_path)
    walk.press(1 + 4 + 1)
    assert "pointing right" in hole.mark_line(walk.session.progress, walk.moment)
    walk.press(4)
    assert walk.asks == "marks"
    assert hole.texts(walk.session.progress, walk.moment) == {1: "1→", 2: "2→", 3: "3→", 4: "4→"}
    walk.press(1 + 4)
    assert hole.texts(walk.session.progress, walk.moment, ascii_only=True)[1] == "1v", "half a turn in all"


def test_the_second_check_looks_at_the_same_picture(tmp_path: Path) -> None:
    walk = walk_of('second_check = "marks"\n' + HEAD, tmp_path)
    walk.press(1 + 4 + 1 + 4 + 1 + 4 + 1)
    assert walk.asks == "second-check"
    assert hole.texts(walk.session.progress, walk.moment) == {1: "1↓", 2: "2↓", 3: "3↓", 4: "4↓"}


def test_the_marks_turn_with_the_picture(tmp_path: Path) -> None:
    walk = walk_of(HEAD, tmp_path)
    walk.press(1 + 4 + 1 + 4)
    assert hole.texts(walk.session.progress, walk.moment, turn=1)[1] == "1↓"


def test_marks_of_a_left_hand_thread_turn_the_other_way(tmp_path: Path) -> None:
    walk = walk_of("left_hand = true\n" + HEAD, tmp_path)
    walk.press(1 + 4 + 1 + 4)
    assert hole.texts(walk.session.progress, walk.moment)[1] == "1←"


def test_a_place_that_is_drawn_the_other_way_round_says_so(tmp_path: Path) -> None:
    text = 'places = ["left", "right"]\nmirrored = ["right"]\n' + PUMP
    walk = walk_of(text, tmp_path)
    assert not hole.mirrored(walk.session.progress)
    walk.press(2 + 1 + 4)
    round_ = walk.session.progress.current
    assert round_ is not None
    assert round_.place == "right"
    assert hole.mirrored(walk.session.progress)
