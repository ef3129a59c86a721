"""Where library files stand, and how one group is found among many.

Found in this order, later ones shadowing earlier ones: the library that ships with the package, the
user's own folder, folders named on the command line. To open one group nothing is indexed:
the bytes of the files are looked through, and only files that may hold its id are parsed.
"""

from __future__ import annotations

import os
from collections import ChainMap
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.toml import read_file
from torqref.library.file import LibraryFile, parse_library, read_library_file
from torqref.library.folder import library_files, missing_folders, shipped_folder
from torqref.library.group import Group
from torqref.library.remark import Lines, Remark, placed
from torqref.library.sieve import may_hold_id

# Between the id of a reference row and how its bolts stand; no import for it, as few groups need one.
AT = "@"

__all__ = [
    "Shelf",
    "find_group",
    "find_groups",
    "find_table",
    "library_files",
    "missing_folders",
    "read_shelf",
    "shipped_folder",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """All groups of some folders.

    Args:
        groups: by id, later folders shadowing earlier ones.
        hidden: groups that another one of the same id stands in front of.
        faulty: groups that cannot be walked, as far as they could be read.
        problems: of all files, and of ids that shadow or collide.
    """

    groups: dict[str, Group]
    hidden: tuple[Group, ...] = ()
    faulty: tuple[Group, ...] = ()
    problems: tuple[Problem, ...] = ()


def read_shelf(folders: Sequence[Path], heard: Callable[[Mapping[str, Group]], bool] | None = None) -> Shelf:
    """Every group of these folders.

    Args:
        folders: in the order they are looked through, later ones shadowing earlier ones.
        heard: told after each file what is there so far, since a large library takes seconds; where it
            says False nobody wants the rest any more.
    """
    groups: dict[str, Group] = {}
    hidden: list[Group] = []
    faulty: list[Group] = []
    problems: list[Problem] = list(missing_folders(folders))
    lines = Lines()
    for folder in folders:
        here: dict[str, Group] = {}
        for path in library_files(folder) if os.path.isdir(folder) else ():
            file = read_library_file(path)
            problems.extend(file.problems)
            faulty.extend(file.faulty)
            problems.extend(_take_in(here, hidden, file, lines))
            if heard is not None and not heard(ChainMap(here, groups)):
                return Shelf(groups={**groups, **here}, problems=tuple(problems))
        problems.extend(_shadowed(groups, here, lines))
        hidden.extend(groups[identity] for identity in groups.keys() & here.keys())
        groups.update(here)
    return Shelf(groups=groups, hidden=tuple(hidden), faulty=tuple(faulty), problems=tuple(problems))


def _take_in(
    here: dict[str, Group], hidden: list[Group], file: LibraryFile, lines: Lines
) -> Iterator[Problem]:
    for group in file.groups:
        if group.id in here:
            hidden.append(group)
            remark = Remark(
                key="id",
                message=f'id "{group.id}" is also in {here[group.id].file}',
                mend="Give one of them another id; the first one is used.",
                severity="error",
            )
            yield from placed(group, (remark,), lines)
        here.setdefault(group.id, group)


def _shadowed(groups: dict[str, Group], here: dict[str, Group], lines: Lines) -> Iterator[Problem]:
    for identity in sorted(groups.keys() & here.keys()):
        remark = Remark(
            key="id",
            message=f'id "{identity}" stands in front of the one in {groups[identity].file}',
            mend="Nothing to do if that is meant; else give it another id.",
        )
        yield from placed(here[identity], (remark,), lines)


def find_groups(
    identities: Sequence[str], folders: Sequence[Path]
) -> tuple[dict[str, Group], tuple[Problem, ...]]:
    """Several groups by their ids, each file parsed once; and the errors of files that hold others."""
    found: dict[str, Group] = {}
    problems: list[Problem] = list(missing_folders(folders))
    for folder in reversed(folders):
        here: dict[str, Group] = {}
        for path in library_files(folder) if os.path.isdir(folder) else ():
            data = read_file(path)
            wanted = [each for each in identities if each not in found]
            if isinstance(data, Problem) or not any(may_hold_id(data, each) for each in wanted):
                continue
            file = parse_library(data, escape(str(path)))
            here = {**{group.id: group for group in file.groups if group.id in wanted}, **here}
            problems.extend(problem for problem in file.problems if problem.severity == "error")
        found.update(here)
    missing = (each for each in identities if each not in found and AT in each)
    spreads = ((each, _spread_group(each, folders)[0]) for each in missing)
    found.update({each: group for each, group in spreads if group is not None})
    return found, tuple(problems)


def find_group(identity: str, folders: Sequence[Path]) -> tuple[Group | None, tuple[Problem, ...]]:
    """One group by its id, from the last folder that has it, and the problems with it.

    A row of a reference table on so many bolts goes by `ROW@2x5`, see `spread`.

    Other groups of its file are not read, and what is wrong with them is not told.
    """
    problems: tuple[Problem, ...] = missing_folders(folders)
    for folder in reversed(folders):
        for path in library_files(folder) if os.path.isdir(folder) else ():
            data = read_file(path)
            if isinstance(data, Problem) or not may_hold_id(data, identity):
                continue
            file = parse_library(data, escape(str(path)), identity)
            group = next((group for group in file.groups if group.id == identity), None)
            if group is not None:
                return group, problems + file.problems
            problems += tuple(problem for problem in file.problems if problem.severity == "error")
    return _spread_group(identity, folders, problems) if AT in identity else (None, problems)


def _spread_group(
    identity: str, folders: Sequence[Path], problems: tuple[Problem, ...] = ()
) -> tuple[Group | None, tuple[Problem, ...]]:
    from torqref.library.spread import parts_of, spread

    name, arrangement = parts_of(identity)
    row, told = find_group(name, folders)
    group = spread(row, arrangement) if row is not None and row.table else None
    if isinstance(group, Group) and group.id == identity:
        return group, told
    return None, problems


def find_table(identity: str, folders: Sequence[Path]) -> tuple[Group, ...]:
    """The rows of a reference table by its id, from the last folder that has it."""
    wanted = f'"{identity}"'.encode()
    for folder in reversed(folders):
        for path in library_files(folder) if os.path.isdir(folder) else ():
            data = read_file(path)
            if isinstance(data, Problem) or b"[[table]]" not in data or wanted not in data:
                continue
            file = parse_library(data, escape(str(path)))
            if rows := tuple(group for group in file.groups if group.table == identity):
                return rows
    return ()
