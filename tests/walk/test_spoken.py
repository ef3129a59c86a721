"""What is heard of a walk: the bolt first, then the number in words."""

from __future__ import annotations

from pathlib import Path

from tests.walk.workshop import Walk, group
from torqref.walk.spoken import spoken
from torqref.walk.view import view

COVER = 'count = 4\n[[group.stage]]\nhand = "touch"\n[[group.stage]]\ntorque = "96 in-lb"\n'


def heard(walk: Walk) -> str:
    session = walk.session
    now = session.clock()
    return spoken(session.progress, walk.moment, view(session.progress, walk.moment, now), now)


def test_a_bolt_is_spoken_with_its_setting_in_words(tmp_path: Path) -> None:
    walk = Walk(group(COVER), tmp_path)
    walk.press(4)
    assert heard(walk) == "bolt two; ninety-six inch-pounds"


def test_a_stop_says_the_new_number(tmp_path: Path) -> None:
    walk = Walk(group(COVER), tmp_path)
    walk.press(2)
    assert heard(walk) == "stop; ninety-six inch-pounds"


def test_a_pair_pulled_together_is_spoken_as_a_pair(tmp_path: Path) -> None:
    walk = Walk(
        group('layout = { circle = 4 }\norder = "1+3 2+4"\n[[group.stage]]\ntorque = "24 N·m"\n'), tmp_path
    )
    walk.press()
    assert heard(walk) == "bolt one and three; twenty-four newton metres"


def test_a_question_is_spoken_with_its_digits(tmp_path: Path) -> None:
    walk = Walk(
        group('count = 4\n[[group.stage]]\ntorque = "20 N·m"\n[[group.stage]]\nangle = "90°"\n'), tmp_path
    )
    walk.press(7)
    assert walk.asks == "bolt"
    walk.again(minutes=60)
    assert walk.asks == "question"
    said = heard(walk)
    for digit, words in ((1, "the mark is still at the start"), (3, "cannot tell")):
        assert f"{digit}: {words}" in said


def test_a_unit_keeps_its_capitals_so_that_it_is_said_in_words(tmp_path: Path) -> None:
    walk = Walk(group('count = 4\n[[group.stage]]\nhand = "no more than 2 N·m"\n'), tmp_path)
    walk.press()
    assert heard(walk) == "hand: no more than 2 newton metres"


def test_a_wait_is_spoken_with_its_time_and_no_minutes_are_counted_aloud(tmp_path: Path) -> None:
    walk = Walk(
        group(
            'count = 2\n[[group.stage]]\ntorque = "9 N·m"\n[[group.stage]]\nwait = "cold again"\n'
            'due = { hours = 1 }\n[[group.stage]]\ntorque = "9 N·m"\n'
        ),
        tmp_path,
    )
    walk.press(2)
    assert walk.asks == "wait"
    said = heard(walk)
    assert said.endswith("; due today 09:00")
    walk.clock.go(minutes=20)
    assert heard(walk) == said


def test_a_hand_round_is_spoken_as_what_to_do(tmp_path: Path) -> None:
    walk = Walk(group(COVER), tmp_path)
    walk.press()
    assert heard(walk) == "hand: touch"
