"""Readings from a wrench that types like a keyboard: a torque with its unit is the reading of this bolt."""

from __future__ import annotations

from pathlib import Path

from tests.walk.workshop import TWO_ROUNDS, Walk, group

HUB = '[[group.stage]]\ntorque = "55 N·m"\n[[group.stage]]\nmeasure = "end play"\nband = "0.03–0.13 mm"\n'


def at_the_second_torque(folder: Path) -> Walk:
    walk = Walk(group(TWO_ROUNDS), folder)
    walk.press(14)
    assert walk.bolt == (1,)
    return walk


def test_a_reading_inside_the_window_ticks_the_bolt_as_measured(tmp_path: Path) -> None:
    walk = at_the_second_torque(tmp_path)
    assert walk.say("24.1 N·m") == ""
    assert walk.bolt == (2,)
    assert [(event.kind, event.text) for event in walk.events[-2:]] == [
        ("actual", ""),
        ("check-off", "measured 24.1 N·m"),
    ]


def test_a_reading_outside_the_window_is_told_and_ticks_nothing(tmp_path: Path) -> None:
    walk = at_the_second_torque(tmp_path)
    walk.say("27.5 N·m")
    assert walk.bolt == (1,)
    assert walk.events[-1].text.startswith("ABOVE the window")


def test_a_reading_in_another_unit_is_compared_exactly(tmp_path: Path) -> None:
    walk = at_the_second_torque(tmp_path)
    walk.say("17.7 ft-lb")  # 24.0 N·m
    assert walk.bolt == (2,)


def test_a_digit_alone_is_no_reading(tmp_path: Path) -> None:
    walk = at_the_second_torque(tmp_path)
    assert walk.say("24") == "No question is open; a digit does nothing."
    assert walk.bolt == (1,)


def test_a_reading_at_a_measure_stage_is_that_measurement(tmp_path: Path) -> None:
    walk = Walk(group(f"count = 1\n{HUB}"), tmp_path)
    walk.press(2)
    assert walk.asks == "measure"
    walk.say("0.08 mm")
    assert walk.asks == "finished"
