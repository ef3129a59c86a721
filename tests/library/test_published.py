"""The reference library against the published tables, cell by cell; the values and their sources stand in
`published_reference.toml` beside this file."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import tomli

from torqref.library.file import read_library_file
from torqref.library.group import Group
from torqref.library.shelf import find_group, find_table, shipped_folder

PUBLISHED: dict[str, Any] = tomli.loads(
    (Path(__file__).parent / "published_reference.toml").read_text(encoding="utf-8")
)
FOLDER = shipped_folder() / "published"


@cache
def library() -> dict[str, Group]:
    files = [read_library_file(path) for path in sorted(FOLDER.glob("*.toml"))]
    assert [problem.sentence() for file in files for problem in file.problems] == []
    return {group.id: group for file in files for group in file.groups}


def row(table: str, name: str) -> Group:
    """The row of a table by what the page calls it, whatever its id is made of."""
    (found,) = [
        group
        for group in library().values()
        if group.table == table
        and (group.thread == name or group.name.endswith(f", {name}"))
        and "computed" not in " ".join(group.before)
    ]
    return found


def limits(group: Group) -> tuple[Fraction | None, Fraction | None, str]:
    torque = group.stages[-1].torque
    assert torque is not None
    return torque.low, torque.high, torque.unit


@pytest.mark.parametrize("thread", PUBLISHED["ac43_table_7_1"])
@pytest.mark.parametrize(("nut", "first"), [("tension", 0), ("shear", 3)])
def test_every_cell_of_the_aircraft_nut_table(nut: str, first: int, thread: str) -> None:
    low, high, most = PUBLISHED["ac43_table_7_1"][thread][first : first + 3]
    group = row(f"ac43-{nut}", thread)
    assert limits(group) == (Fraction(low), Fraction(high), "in-lb")
    assert f"never beyond {most} in-lb, the largest torque allowed" in group.before
    assert group.locking, "the drag of the nut is added"
    assert any("add it to the value" in words for words in group.before)
    estimated = nut == "shear" and thread in PUBLISHED["ac43_table_7_1_estimated"]["threads"]
    assert ("given as estimated in the source" in group.before) == estimated


@pytest.mark.parametrize("thread", PUBLISHED["ac43_table_7_2"])
def test_every_cell_of_the_table_of_used_locking_nuts(thread: str) -> None:
    (stage,) = row("ac43-reuse", thread).stages
    assert stage.band is not None
    least = Fraction(PUBLISHED["ac43_table_7_2"][thread])
    assert (stage.kind, stage.band.low, stage.band.high, stage.band.unit) == ("measure", least, None, "in-lb")


@pytest.mark.parametrize("tube", PUBLISHED["flared_nuts"])
@pytest.mark.parametrize(("kind", "column"), [("aluminium", 2), ("steel", 3), ("hose", 4)])
def test_every_cell_of_the_flared_nut_table(kind: str, column: int, tube: str) -> None:
    published = PUBLISHED["flared_nuts"][tube]
    group = row(f"flare-{kind}", f"{published[0]} hose" if kind == "hose" else f"{tube} in tube")
    assert limits(group) == (Fraction(published[column][0]), Fraction(published[column][1]), "in-lb")
    assert group.socket == f"{published[1]} in flare crowfoot"
    assert (group.purpose, group.condition.partition(";")[0]) == ("seal", "threads lubricated")


@pytest.mark.parametrize("thread", PUBLISHED["capscrews"])
@pytest.mark.parametrize(("grade", "column"), [("5", 0), ("8", 1)])
def test_every_cell_of_the_capscrew_table_and_its_rules(grade: str, column: int, thread: str) -> None:
    value, rules = PUBLISHED["capscrews"][thread][column], PUBLISHED["rules"]
    group = row(f"capscrew-{grade}", thread)
    final = group.stages[-1].torque
    assert final is not None
    assert (final.target, final.unit, group.grade) == (Fraction(value), "ft-lb", f"SAE grade {grade}")
    torques = [stage.torque.aim for stage in group.stages if stage.torque is not None]
    is_high = value > rules["first_round_above_lbf_ft"]
    expected = [value * rules["first_round_share"], value] if is_high else [value]
    assert [float(torque) for torque in torques] == pytest.approx(expected)
    for name in ("oiled", "plated", "aluminium"):
        lowered = library()[f"{group.id}-{name}"]
        torque = lowered.stages[-1].torque
        assert torque is not None
        assert float(torque.aim) == pytest.approx(value * (1 - rules[f"less_{name}"]))
        assert any(words.startswith("computed: ") for words in lowered.before)
        assert lowered.condition != group.condition


def test_there_is_no_row_that_no_published_table_has() -> None:
    printed = 2 * len(PUBLISHED["ac43_table_7_1"]) + len(PUBLISHED["ac43_table_7_2"])
    printed += 3 * len(PUBLISHED["flared_nuts"]) + 2 * 4 * len(PUBLISHED["capscrews"])
    assert len(library()) == printed == 50 + 18 + 21 + 160


def test_every_row_says_where_it_comes_from_how_it_was_seen_and_what_comes_first() -> None:
    for group in library().values():
        source = group.source
        assert source.kind == "published"
        assert source.title
        assert source.reference
        assert source.seen
        assert "the manufacturer's own figure comes first" in source.sentence()


def test_a_row_is_found_by_its_id_and_a_table_by_the_id_of_all_its_rows() -> None:
    group, problems = find_group("ac43-tension-1-1-8-12", (shipped_folder(),))
    assert group is not None
    assert (group.thread, problems) == ("1-1/8-12", ())
    assert len(find_table("ac43-tension", (shipped_folder(),))) == len(PUBLISHED["ac43_table_7_1"])
    assert find_table("exhaust-manifold", (shipped_folder(),)) == ()
