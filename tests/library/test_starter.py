"""A first file from a few answers: valid as it stands, and with its diagram filled in."""

from __future__ import annotations

from pathlib import Path

import pytest

from torqref.document.refusal import Refusal
from torqref.library.check import check_file
from torqref.library.file import parse_library
from torqref.library.starter import Starter, starter_text

FULL = Starter(
    name="Front cover to block",
    values=("12 N·m", "22–26 N·m (16–19 ft-lb)"),
    assembly='Brindle 24 "utility" truck',
    thread="M8",
    grade="8.8",
    bolts="2x5",
    condition="dry",
    title="own sheet",
    reference="page 3",
    entered_by="A. Clerk",
)


def text_of(starter: Starter) -> str:
    text = starter_text(starter)
    assert isinstance(text, str), text
    return text


def test_a_full_answer_gives_a_file_with_nothing_to_say(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    path.write_text(text_of(FULL), encoding="utf-8")
    assert [problem.sentence() for problem in check_file(path)] == []
    (group,) = parse_library(path.read_bytes(), str(path)).groups
    assert (group.id, group.thread, group.order.generic) == ("front-cover-to-block", "M8", True)
    assert group.assembly == 'Brindle 24 "utility" truck'
    assert [stage.text for stage in group.stages] == ["12 N·m", "22–26 N·m (16–19 ft-lb)"]


def test_two_answers_are_enough_for_a_file_that_can_be_walked() -> None:
    file = parse_library(text_of(Starter(name="Plug", values=("25 N·m",))).encode(), "new.toml")
    assert file.problems == ()
    assert len(file.groups[0].layout.positions) == 1


@pytest.mark.parametrize(
    ("bolts", "count"), [("2x5", 10), ("circle 8", 8), ("circle 12", 12), ("5/4", 9), ("3", 3)]
)
def test_the_diagram_is_ready_to_fill(bolts: str, count: int) -> None:
    lines = text_of(Starter(name="Cover", values=("24 N·m",), bolts=bolts)).splitlines()
    start, end = lines.index("# diagram = '''"), lines.index("# '''")
    filled = [line.removeprefix("#").removeprefix(" ") for line in lines[start : end + 1]]
    kept = [line for line in lines[:start] if not line.startswith(("layout", "count"))]
    file = parse_library("\n".join([*kept, *filled, *lines[end + 1 :]]).encode(), "new.toml")
    assert file.problems == ()
    (group,) = file.groups
    assert len(group.layout.positions) == count
    assert group.layout.basis == "diagram"
    assert [landmark.text for landmark in group.layout.landmarks] == ["FRONT"]


def test_a_chain_becomes_its_stages() -> None:
    text = text_of(Starter(name="Head", values=("30 N·m + 90° + 90°",)))
    (group,) = parse_library(text.encode(), "new.toml").groups
    assert [stage.kind for stage in group.stages] == ["torque", "angle", "angle"]


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (Starter(name="a", values=("24",)), "has no unit"),
        (Starter(name="a", values=()), "a group needs a value"),
        (Starter(name="a", values=("24 N·m",), bolts="many"), "is no layout"),
        (Starter(name="a", values=("24 N·m",), thread="13 mm"), "names a hexagon"),
        (Starter(name="a", values=("24 N·m",), thread="M8", grade="8"), "is no property class"),
    ],
)
def test_an_answer_that_cannot_be_read_is_refused(wrong: Starter, told: str) -> None:
    found = starter_text(wrong)
    assert isinstance(found, Refusal)
    assert told in found.message
