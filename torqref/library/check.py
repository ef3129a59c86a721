"""Checks over the library: a list of plain functions, each from one group to what deserves a look."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.toml import parse_document, read_file
from torqref.library.check_order import check_order
from torqref.library.check_source import (
    check_condition,
    check_one_time,
    check_source,
    check_verification,
)
from torqref.library.check_stage import (
    check_measure,
    check_recheck,
    check_start,
    check_steps,
    check_threadlocker,
    check_turn,
)
from torqref.library.check_value import (
    check_fasteners,
    check_holes,
    check_plausible,
    check_texts,
    check_windows,
)
from torqref.library.contradiction import contradictions
from torqref.library.file import LibraryFile, parse_library
from torqref.library.group import Group
from torqref.library.job import is_job, job_of
from torqref.library.remark import Lines, Remark, placed
from torqref.library.shelf import read_shelf
from torqref.library.unread import unread_parts
from torqref.wrench.rack import read_rack

# The same words that often in one file are one thing to mend, not many.
_MANY = 4
Check = Callable[[Group], Iterator[Remark]]

# Each check and the parts of a group it rests on: where one of them could not be read, nothing is judged
# by it, since what it would say follows from that fault.
_FASTENER = ("thread", "class", "fastener", "purpose")
_PULLED = (*_FASTENER, "value_is", "stage", "stage.at", "passes")
_SEQUENCE = ("stage", "passes", "stage.at", "stage.recheck")
CHECKS: Mapping[Check, tuple[str, ...]] = {
    check_source: ("source",),
    check_verification: ("source",),
    check_condition: ("condition", "purpose"),
    check_one_time: ("one_time", "parts", "purpose"),
    check_fasteners: _FASTENER,
    check_plausible: (*_PULLED, "condition", "stage.window"),
    check_windows: ("fastener", "stage.window"),
    check_holes: (*_PULLED, "parent", "condition"),
    check_texts: (),
    check_start: _SEQUENCE,
    check_steps: _SEQUENCE,
    check_order: ("diagram", "layout", "count", "order"),
    check_recheck: _SEQUENCE,
    check_threadlocker: ("condition", "stage.recheck"),
    check_turn: (*_SEQUENCE, "purpose"),
    check_measure: ("stage", "stage.band", "stage.else"),
}


def check_group(
    group: Group, lines: Lines | None = None, unread: frozenset[str] = frozenset()
) -> tuple[Problem, ...]:
    """Everything the checks say of one group, in the order of its lines.

    Args:
        group: the group, as far as it could be read.
        lines: lines of files that were already scanned.
        unread: its parts that could not be read, see `unread_parts`.
    """
    asked = (check for check, parts in CHECKS.items() if not unread.intersection(parts))
    remarks = (remark for check in asked for remark in check(group))
    problems = placed(group, remarks, lines or Lines())
    return tuple(sorted(problems, key=lambda problem: problem.line or 0))


def check_file(path: Path) -> tuple[Problem, ...]:
    """Every problem of a library or rack file."""
    return check_files((path,))


def check_files(paths: Sequence[Path]) -> tuple[Problem, ...]:
    """Every problem of several files, contradictions between their groups among them."""
    read = [_read(path) for path in paths]
    groups = [group for file in read for group in file.groups]
    faulty = [group for file in read for group in file.faulty]
    return _told([problem for file in read for problem in file.problems], groups + faulty, groups)


def check_shelf(folders: Sequence[Path]) -> tuple[Problem, ...]:
    """Every problem of whole folders, contradictions between their files among them."""
    shelf = read_shelf(folders)
    groups = list(shelf.groups.values())
    return _told(list(shelf.problems), [*groups, *shelf.faulty], [*shelf.hidden, *groups])


def _read(path: Path) -> LibraryFile:
    """A file with its problems; a rack or a job has problems only."""
    name = escape(str(path))
    data = read_file(path)
    document = data if isinstance(data, Problem) else parse_document(data, name)
    if isinstance(data, Problem) or isinstance(document, Problem):
        return LibraryFile(file=name, problems=(document,) if isinstance(document, Problem) else ())
    if is_job(document.values):
        return LibraryFile(file=name, problems=job_of(document)[1])
    if "wrench" in document.values or "adapter" in document.values:
        return LibraryFile(file=name, problems=read_rack(path, thorough=True)[1])
    return parse_library(data, name)


def _told(problems: list[Problem], groups: list[Group], compared: list[Group]) -> tuple[Problem, ...]:
    """The problems of reading and those of the checks, file by file in the order of their lines."""
    lines = Lines()
    errors: dict[str, list[Problem]] = {}
    for problem in problems:
        if problem.severity == "error":
            errors.setdefault(problem.file, []).append(problem)
    for group in groups:
        unread = unread_parts(group.key, errors[group.file]) if group.file in errors else frozenset()
        problems.extend(check_group(group, lines, unread))
    for group, remark in contradictions(compared):
        problems.extend(placed(group, (remark,), lines))
    files = {problem.file: number for number, problem in reversed(list(enumerate(problems)))}
    ordered = sorted(problems, key=lambda problem: (files[problem.file], problem.line or 0))
    return tuple(_once(ordered))


def _once(problems: list[Problem]) -> Iterator[Problem]:
    """The same said of many groups of a file is said once, with how many there are."""
    alike: dict[tuple[str, str, str], list[Problem]] = {}
    for problem in problems:
        alike.setdefault((problem.file, problem.severity, problem.message), []).append(problem)
    for problem in problems:
        same = alike[problem.file, problem.severity, problem.message]
        if problem.severity == "error" or len(same) < _MANY:
            yield problem
        elif problem is same[0]:
            yield replace(problem, message=f"{problem.message} (and {len(same) - 1} times more in this file)")
