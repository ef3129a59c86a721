"""What a front end is given to show: what the values are worth is said, and not where it would only nag."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group
from torqref.library.group import Group
from torqref.library.quick import quick_group
from torqref.walk.planner import LOOSEN, Bench
from torqref.walk.second import second_unit_text


def told(made: Group, folder: Path, **bench: str) -> str:
    walk = Walk(made, folder, bench=Bench(today=MORNING.date(), **bench))  # type: ignore[arg-type]  # words only
    return walk.shown.worth


def test_a_shops_own_values_typed_by_one_person_alone_are_said_to_be_so(tmp_path: Path) -> None:
    assert told(group(TWO_ROUNDS), tmp_path).startswith("UNVERIFIED")


def test_values_that_a_second_person_typed_are_left_in_peace(tmp_path: Path) -> None:
    sheet = group(TWO_ROUNDS)
    assert told(replace(sheet, source=replace(sheet.source, verified_by="Bea")), tmp_path) == ""


def test_practice_values_say_so_in_their_own_words(tmp_path: Path) -> None:
    sheet = group(TWO_ROUNDS)
    assert told(replace(sheet, source=replace(sheet.source, kind="invented")), tmp_path) == ""


@pytest.mark.parametrize("verified_by", ["", "Bea"])
def test_a_published_value_is_for_reference_and_the_manufacturer_comes_first(
    tmp_path: Path, verified_by: str
) -> None:
    sheet = group(TWO_ROUNDS)
    source = replace(sheet.source, kind="published", verified_by=verified_by)
    assert told(replace(sheet, source=source), tmp_path) == (
        "reference value: the manufacturer's own figure comes first"
    )


def test_taking_apart_uses_no_value_that_could_be_wrong(tmp_path: Path) -> None:
    assert told(group(TWO_ROUNDS), tmp_path, action=LOOSEN) == ""


def test_a_value_typed_just_now_needs_no_telling(tmp_path: Path) -> None:
    typed = quick_group("24 N·m", "rows 2x5")
    assert isinstance(typed, Group)
    assert told(typed, tmp_path) == ""


# 1 ft-lb = 1.355 818 N·m and 1 in-lb = 0.112 984 8 N·m (NIST SP 811, 2008, appendix B.8), by hand; limits inwards.
APART = [
    ("22 N·m", "20–24 N·m", "22 N·m, window 20–24 N·m", "16.2 (14.8–17.7) ft-lb"),
    ("35 ft-lb", "32–38 ft-lb", "35 ft-lb, window 32–38 ft-lb", "47.5 (43.4–51.5) N·m"),
    ("140 N·m", "130–150 N·m", "140 N·m, window 130–150 N·m", "103.3 (95.9–110.6) ft-lb"),
    ("85 N·m", "80–90 N·m", "85 N·m, window 80–90 N·m", "62.7 (59.1–66.3) ft-lb"),
    ("96 in-lb", "90–102 in-lb", "96 in-lb, window 90–102 in-lb", "10.8 (10.2–11.5) N·m"),
    ("96 in-lb", "± 6 in-lb", "96 in-lb, window 90–102 in-lb", "10.8 (10.2–11.5) N·m"),
    # The value is not in the middle of its window, and a limit has a digit more than the value.
    ("22 N·m", "19–23 N·m", "22 N·m, window 19–23 N·m", "16.23 (14.02–16.96) ft-lb"),
    ("24 N·m", "21.6–26.4 N·m", "24 N·m, window 21.6–26.4 N·m", "17.7 (16.0–19.4) ft-lb"),
    ("24 N·m (18 ft-lb)", "22–26 N·m", "24 N·m (18 ft-lb), window 22–26 N·m", ""),
    ("24 N·m", "max 26 N·m", "24 N·m, window max 26 N·m", "17.7 ft-lb, max 19.1 ft-lb"),
]


@pytest.mark.parametrize(("torque", "window", "printed", "second"), APART)
def test_a_window_apart_from_its_value_is_shown_with_it_and_the_value_is_not_lost(
    tmp_path: Path, torque: str, window: str, printed: str, second: str
) -> None:
    walk = Walk(group(f'count = 4\n[[group.stage]]\ntorque = "{torque}"\nwindow = "{window}"\n'), tmp_path)
    assert walk.shown.spec == printed
    assert second_unit_text(walk.session.progress, walk.shown) == second


@pytest.mark.parametrize("printed", ["57 ± 6 in-lb", "22–26 N·m", "22 N·m (20–24)", "24 N·m +2/-1", "24 N·m"])
def test_limits_that_stand_in_the_value_are_not_said_twice_and_none_are_made_up(
    tmp_path: Path, printed: str
) -> None:
    """Default tolerances are never limits of the page."""
    walk = Walk(group(f'count = 4\n[[group.stage]]\ntorque = "{printed}"\n'), tmp_path)
    assert walk.shown.spec == printed


def test_a_turn_shows_its_window_too(tmp_path: Path) -> None:
    turn = 'count = 1\n[[group.stage]]\nback_off = "180 ± 10°"\n'
    turn += '[[group.stage]]\nangle = "90°"\nwindow = "± 5°"\n[[group.stage]]\nangle = "60 ± 5°"\n'
    walk = Walk(group(f'one_time = "bolts"\n{turn}'), tmp_path)
    shown: list[str] = []
    while not walk.session.progress.finished and len(shown) < 20:
        shown.append(walk.shown.spec)
        walk.press()
    assert list(dict.fromkeys(filter(None, shown))) == ["180 ± 10°", "90°, window 85–95°", "60 ± 5°"]


def test_a_reading_outside_is_told_with_the_limits_and_not_with_the_value(tmp_path: Path) -> None:
    walk = Walk(group('count = 4\n[[group.stage]]\ntorque = "22 N·m"\nwindow = "19–23 N·m"\n'), tmp_path)
    walk.press()
    assert "BELOW the window 19–23 N·m" in walk.session.say("actual 18 N·m").told


def test_a_round_that_comes_again_is_said_in_words(tmp_path: Path) -> None:
    stage = '[[group.stage]]\ntorque = "22 N·m"\n'
    walk = Walk(group(f'count = 4\n{stage}{stage}until = "still"\nrecheck = true\n'), tmp_path)
    walk.press(6)
    walk.say("moved", "", "", "")
    assert walk.shown.round.endswith("RECHECK: never loosen first; round 2 of at most 5")
