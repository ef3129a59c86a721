"""Mutated files by the ten thousand: never a traceback, and every message names its file."""

from __future__ import annotations

import random
import time
import unicodedata
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.fuzz.conftest import COUNT
from tests.fuzz.mutation import mutated
from torqref.document.problem import Problem
from torqref.document.toml import parse_document
from torqref.library.check import check_group
from torqref.library.file import parse_library
from torqref.walk.journal import parse_journal
from torqref.wrench.rack_file import rack_of

ROOT = Path(__file__).parents[2]
ROUNDS = 20_000
LONGEST = 240.0  # seconds for one kind of file, so that a slow machine ends before its CI does

HEAD = 'format = 1\nassembly = "truck"\n[source]\nkind = "shop"\ntitle = "own sheet"\n'
GROUPS = (
    '[[group]]\nid = "case"\ndiagram = \'\'\'\n FRONT\n 3 1\n 4 2\n\'\'\'\nthread = "M8x1.25"\nclass = "8.8"\n'
    'condition = "dry"\n[[group.fastener]]\nat = "3-4"\nthread = "M6"\ntorque = ["5 N·m", "9–11 N·m"]\n'
    '[[group.stage]]\nhand = "touch"\n[[group.stage]]\ntorque = "12 N·m"\n[[group.stage]]\n'
    'torque = "22–26 N·m (16–19 ft-lb)"\nwithin = "10 min"\n',
    '[[group]]\nid = "head"\nlayout = { circle = 6 }\none_time = "bolts"\nplaces = ["left", "right"]\n'
    'cautions = [{ text = "hot", alone = true }, "sharp"]\n[[group.stage]]\nchain = "30 N·m + 90° + 90°"\n'
    '[[group.stage]]\nangle = "90°"\nwindow = "±5°"\n[[group.stage]]\nwait = "cold"\ndue = { hours = 4 }\n'
    '[[group.stage]]\ntorque = "30 N·m"\nrecheck = true\nuntil = "still"\n',
    '[[group]]\nid = "hub"\npurpose = "adjust"\ncount = 1\napplies = { engine = ["Q"] }\n[[group.stage]]\n'
    'torque = "55 N·m"\nwhile = "turning"\n[[group.stage]]\nback_off = "half a turn"\n[[group.stage]]\n'
    'align = "next hole"\nback_at_most = "45°"\n[[group.stage]]\nmeasure = "play"\nband = "0.03–0.13 mm"\n'
    'else = "stage 1"\n',
)  # fmt: skip


def hidden(text: str) -> set[str]:
    """Control and bidirectional characters that a terminal would obey."""
    return {char for char in text if char not in "\n\t" and unicodedata.category(char) in ("Cc", "Cf", "Cs")}


def told_well(problems: tuple[Problem, ...], file: str) -> None:
    for problem in problems:
        assert problem.file == file
        assert problem.message
        assert problem.mend
        assert not hidden(problem.sentence())


def read_library(data: bytes) -> tuple[Problem, ...]:
    found = parse_library(data, "sheet.toml")
    for group in found.groups:
        assert group.order.labels
        told_well(check_group(group), "sheet.toml")
    return found.problems


def read_wrenches(data: bytes) -> tuple[Problem, ...]:
    document = parse_document(data, "sheet.toml")
    return (document,) if isinstance(document, Problem) else rack_of(document, thorough=True)[1]


def read_walk(data: bytes) -> tuple[Problem, ...]:
    return parse_journal(Path("sheet.toml"), data).problems


def seeds_of(name: str) -> list[bytes]:
    if name == "library":
        return [(HEAD + group).encode() for group in GROUPS]
    if name == "rack":
        return [(ROOT / "demo" / "wrenches.toml").read_bytes()]
    return [path.read_bytes() for path in sorted((ROOT / "tests" / "walk" / "journals").glob("*.walk"))]


READERS: dict[str, Callable[[bytes], tuple[Problem, ...]]] = {
    "library": read_library,
    "rack": read_wrenches,
    "journal": read_walk,
}


@pytest.mark.slow
@pytest.mark.parametrize("name", READERS)
def test_mutated_files_never_give_a_traceback(
    name: str, record_property: Callable[[str, object], None]
) -> None:
    dice, seeds, reader = random.Random(f"torqref {name}"), seeds_of(name), READERS[name]
    assert seeds
    end, done, faulty = time.monotonic() + LONGEST, 0, 0
    while done < ROUNDS and time.monotonic() < end:
        problems = reader(mutated(dice.choice(seeds), dice))
        told_well(problems, "sheet.toml")
        done, faulty = done + 1, faulty + bool(problems)
    record_property(COUNT, f"{name}: {done} mutated files read, {faulty} with problems told, no traceback")
    assert done == ROUNDS
    assert faulty > ROUNDS // 4  # a mutation that nobody notices tests nothing
