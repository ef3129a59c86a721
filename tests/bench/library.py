"""Large libraries: opening one group, finding, checking, and how the time grows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from tests.bench.material import write_library
from tests.bench.process import Runs, environment, in_turn, python, script
from tests.bench.row import Row, memory, ratio
from tests.bench.size import Size
from torqref.commands.home import home_of

GROUPS = 10_000
_PARSE = """
import sys, tomli
from pathlib import Path
for path in sorted(Path(sys.argv[1]).glob("*.toml")):
    tomli.loads(path.read_bytes().decode())
"""
# A user who never searched before: what an earlier search kept is deleted.
_FIRST = """
import os, sys
try:
    os.unlink(sys.argv.pop(1))
except OSError:
    pass
from torqref.__main__ import start
sys.exit(start())
"""
_AGAINST = "tomli parsing the same files"
_AIMS = {"open": 0.5, "find again": 1.2, "check": 15.0}
_WITHOUT_AIM = {
    "find": "find, the first time",
    "thread": "find again, a thread and a value",
    "slip": "find again, a slip",
    "list": "find again, without words",
}
_GROWING = ("open", "find", "find again", "check", "parse")


def library_rows(folder: Path, size: Size) -> Iterator[Row]:
    """One group, a search and a full check; then the same in smaller and larger libraries."""
    groups = size.of(GROUPS)
    runs = measured(folder, groups, size.runs)
    for name, aim in _AIMS.items():
        yield ratio(f"{name}, {groups} groups", _AGAINST, (runs[name], runs["parse"]), aim)
    for name, what in _WITHOUT_AIM.items():
        yield ratio(f"{what}, {groups} groups", _AGAINST, (runs[name], runs["parse"]))
    for name in _GROWING[:-1]:
        yield memory(f"{name}, {groups} groups", _AGAINST, (runs[name], runs["parse"]))
    few, many = measured(folder, groups // 10, size.runs), measured(folder, groups * 10, 1)
    for name in _GROWING:
        yield growth(name, groups, (few[name], runs[name], many[name]))


def commands(folder: Path, groups: int) -> Mapping[str, Sequence[str]]:
    """The commands to measure in a library of this size."""
    specs = folder / f"specs-{groups}"
    if not specs.exists():
        write_library(specs, groups)
    torqref, shared = script(folder), ("--specs", str(specs))
    middle = groups // 2
    index = home_of(environment(folder), folder).index
    return {
        "open": [*torqref, "show", f"joint-{middle:06d}", *shared],
        "find": python(_FIRST, str(index), "find", "lid", str(middle), *shared),
        "find again": [*torqref, "find", "lid", str(middle), *shared],
        "thread": [*torqref, "find", "m8", "24", "N·m", *shared],
        "slip": [*torqref, "find", "housign", str(middle), *shared],
        "list": [*torqref, "find", *shared],
        "check": [*torqref, "check", *shared],
        "parse": python(_PARSE, str(specs)),
    }


def measured(folder: Path, groups: int, runs: int) -> Mapping[str, Runs]:
    """The runs in a library of this size."""
    return in_turn(commands(folder, groups), folder, runs)


def growth(name: str, groups: int, runs: tuple[Runs, Runs, Runs]) -> Row:
    """What a further group costs in a large library against a small one; 1 is linear growth.

    Args:
        name: the command.
        groups: size of the middle library; the others have a tenth and ten times as many.
        runs: the runs in the small, the middle and the large one.
    """
    small, middle, large = (run.middle for run in runs)
    early = max(middle - small, 1e-9) / (groups - groups // 10)
    late = max(large - middle, 1e-9) / (groups * 9)
    return Row(
        what=f"{name}: a further group, {groups} to {groups * 10}",
        against=f"{groups // 10} to {groups}",
        value=late / early,
        detail=f"{late * 1e6:.1f} : {early * 1e6:.1f} µs a group",
    )
