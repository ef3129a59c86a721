"""What a front end is given to show: what the values are worth is said, and not where it would only nag."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group
from torqref.library.group import Group
from torqref.library.quick import quick_group
from torqref.walk.planner import LOOSEN, Bench


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
