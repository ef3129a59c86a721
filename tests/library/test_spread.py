"""A row of a reference table on the bolts of a job: the value stays the page's, the order is made up and says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from torqref.document.refusal import Refusal
from torqref.library.file import parse_library
from torqref.library.group import Group
from torqref.library.shelf import find_group, find_groups, shipped_folder
from torqref.library.spread import spread

# FAA AC 43.13-1B, table 7-1, p. 7-9: 3/8-24 tension nut, 160 to 190 in-lb
ROW = "ac43-tension-3-8-24"
# A table of our own with the flange passes, whose last rounds go round the circle instead of across.
FLANGE = """
format = 1
assembly = "Test bench"
[source]
kind = "published"
title = "own sheet"
[[table]]
id = "stud"
name = "Stud"
rows = '''
   thread    torque     passes
   M16x2     150 N·m    flange
'''
"""


def row() -> Group:
    found, _ = find_group(ROW, [shipped_folder()])
    assert found is not None
    return found


def made(group: Group, arrangement: str) -> Group:
    found = spread(group, arrangement)
    assert isinstance(found, Group), found
    return found


def test_the_value_and_its_source_stay_and_the_order_is_generic() -> None:
    found = made(row(), "circle 6")
    torque = found.stages[0].torque
    assert torque is not None
    assert torque.text == "160–190 in-lb"
    assert found.source == row().source
    assert found.order.generic
    # cross on a circle of six, places counted clockwise: common practice, no source
    assert found.order.visits == ((1,), (4,), (2,), (5,), (3,), (6,))


def test_one_bolt_is_the_row_itself() -> None:
    assert made(row(), "1") == row()


@pytest.mark.parametrize(
    ("arrangement", "identity"),
    [
        ("rows 2x5", f"{ROW}@2x5"),
        ("circle 8", f"{ROW}@c8"),
        ("rows 5/4", f"{ROW}@5+4"),
        ("count 3", f"{ROW}@3"),
    ],
)
def test_its_id_leads_back_to_it(arrangement: str, identity: str) -> None:
    found = made(row(), arrangement)
    assert found.id == identity
    assert find_group(identity, [shipped_folder()])[0] == found
    assert find_groups([identity], [shipped_folder()])[0] == {identity: found}


def test_ready_made_passes_are_laid_out_anew() -> None:
    (single,) = parse_library(FLANGE.encode(), "stud.toml").groups
    found = made(single, "circle 8")
    assert len(found.stages) == len(single.stages)
    orders = [stage.order.visits for stage in found.stages if stage.order is not None]
    # the last rounds of a flange go round the circle, stud after stud: common practice, no source
    assert orders
    assert all(order == tuple((label,) for label in range(1, 9)) for order in orders)
    assert [stage.text for stage in found.stages] == [stage.text for stage in single.stages]


@pytest.mark.parametrize(
    "identity", ["exhaust-manifold@2x5", f"{ROW}@", f"{ROW}@x", "no-such-row@3", f"{ROW}@c6@3", "@3", "@"]
)
def test_what_is_no_row_or_no_arrangement_is_not_found(identity: str) -> None:
    assert find_group(identity, [shipped_folder()])[0] is None


def test_a_group_with_a_picture_keeps_it() -> None:
    manifold, _ = find_group("exhaust-manifold", [shipped_folder()])
    assert manifold is not None
    found = spread(manifold, "2x5")
    assert isinstance(found, Refusal)
    assert "its own picture" in found.message


def test_a_file_of_its_own_may_have_the_sign_in_an_id(tmp_path: Path) -> None:
    text = 'format = 1\nassembly = "A"\n[[group]]\nid = "lid@2x5"\ncount = 3\n[[group.stage]]\ntorque = "9 N·m"\n'
    (tmp_path / "lid.toml").write_text(text, encoding="utf-8")
    found, _ = find_group("lid@2x5", [tmp_path])
    assert found is not None
    assert len(found.layout.positions) == 3
