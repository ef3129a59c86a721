"""Ready-made schemes against the values published."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tests.pattern.published import PUBLISHED
from torqref.pattern.scheme import SCHEMES, Scheme


def shares(scheme: Scheme) -> list[int | Fraction]:
    return [step.share * 100 for step in scheme.steps if step.kind == "share" and step.share]


def test_the_flange_goes_through_the_published_shares_then_round_and_again_after_the_wait() -> None:
    published, flange = PUBLISHED["flange"], SCHEMES["flange"]
    assert shares(flange) == published["shares_percent"]
    kinds = [step.kind for step in flange.steps]
    assert kinds[-3:] == ["circular-until-still", "wait", "circular-until-still"]
    snug = next(step for step in flange.steps if step.kind == "snug")
    assert snug.share == Fraction(published["snug_limit_percent"], 100)
    wait = next(step for step in flange.steps if step.kind == "wait")
    assert wait.hours == published["dwell_hours"]
    assert all(step.order == "circular" for step in flange.steps if step.kind == "circular-until-still")


def test_the_army_goes_round_at_seventy_percent_first() -> None:
    assert shares(SCHEMES["army-70"]) == [PUBLISHED["army_70"]["share_percent"], 100]


def test_a_wheel_is_finished_with_its_weight_on_the_ground_and_looked_at_again() -> None:
    steps = SCHEMES["wheel"].steps
    assert [step.kind for step in steps] == ["hand", "wheels-in-the-air", "weight-on-wheels", "recheck"]
    assert steps[1].share is not None
    assert steps[1].share < 1
    assert steps[2].share == 1
    told = [int(number) for number in re.findall(r"\d+", steps[3].words)]
    assert told == [PUBLISHED["wheel"]["recheck_km"], PUBLISHED["wheel"]["recheck_miles"]]


@pytest.mark.parametrize("scheme", SCHEMES.values(), ids=lambda scheme: scheme.name)
def test_every_scheme_begins_by_hand_rises_to_all_and_names_its_source(scheme: Scheme) -> None:
    pulls = [step.share for step in scheme.steps if step.share is not None]
    assert scheme.steps[0].kind == "hand"
    assert pulls == sorted(pulls)
    assert pulls[-1] == 1
    assert all(step.words.endswith(".") for step in scheme.steps)
    assert all((step.hours is not None) == (step.kind == "wait") for step in scheme.steps)
    assert len(scheme.source) > 40


def test_schemes_are_found_by_their_names() -> None:
    assert all(name == scheme.name for name, scheme in SCHEMES.items())
    assert {"flange", "army-70", "wheel"} <= set(SCHEMES)
