"""Entries of one name for other variants of the vehicle: which ones are told, and which are left alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from torqref.library.shelf import find_group
from torqref.library.sister import variant_of

HEAD = 'format = 1\nassembly = "{}"\n[source]\nkind = "invented"\ntitle = "practice"\n'
IRON = 'id = "pump-iron"\nname = "Water pump"\napplies = { housing = ["iron"] }\n[[group.stage]]\ntorque = "25 N·m"\n'
OTHER = (
    'id = "{}"\nname = "{}"\napplies = {{ {} }}\n'
    '[[group.stage]]\nhand = "touch"\n[[group.stage]]\ntorque = "9 N·m"\n[[group.stage]]\ntorque = "18 N·m"\n'
)


def said(folder: Path, *files: tuple[str, str]) -> str:
    for number, (assembly, groups) in enumerate(files):
        (folder / f"{number}.toml").write_text(HEAD.format(assembly) + groups, encoding="utf-8")
    group, _ = find_group("pump-iron", (folder,))
    assert group is not None
    return variant_of(group)


ALUMINIUM = OTHER.format("pump-alu", "water  PUMP", 'housing = ["aluminium", "magnesium"]')


@pytest.mark.parametrize("files", [1, 2], ids=["in one file", "in another file of the folder"])
def test_the_entry_of_another_variant_is_named_with_its_values(tmp_path: Path, files: int) -> None:
    iron, other = f"[[group]]\n{IRON}", f"[[group]]\n{ALUMINIUM.replace('water  PUMP', 'Water pump')}"
    truck = ("Brindle, engine Q", "Brindle, engine R")
    sheets = ((truck[0], iron + other),) if files == 1 else ((truck[0], iron), (truck[1], other))
    assert said(tmp_path, *sheets) == (
        "this entry is for housing iron only; for aluminium or magnesium see pump-alu: 9 N·m, 18 N·m"
    )


@pytest.mark.parametrize(
    "other",
    [
        OTHER.format("lid", "Lid", 'housing = ["aluminium"]'),
        OTHER.format("pump-2", "Water pump", 'housing = ["iron", "steel"]'),
        OTHER.format("pump-2", "Water pump", 'engine = ["R"]'),
    ],
    ids=["another joint", "the same variant", "another kind of fact"],
)
def test_what_is_no_other_variant_of_the_joint_is_left_alone(tmp_path: Path, other: str) -> None:
    file = ("Brindle", f"[[group]]\n{IRON}[[group]]\n{other}")
    assert said(tmp_path, file) == "this entry is for housing iron only"


def test_another_vehicle_has_no_sister_here(tmp_path: Path) -> None:
    other = OTHER.format("pump-alu", "Water pump", 'housing = ["aluminium"]')
    files = (("Brindle", f"[[group]]\n{IRON}"), ("Other truck", f"[[group]]\n{other}"))
    assert said(tmp_path, *files) == "this entry is for housing iron only"


def test_an_entry_for_all_variants_says_nothing(tmp_path: Path) -> None:
    plain = IRON.replace('applies = { housing = ["iron"] }\n', "")
    assert said(tmp_path, ("Brindle", f"[[group]]\n{plain}[[group]]\n{ALUMINIUM}")) == ""
