"""Checks over the library: a list of plain functions, each from one group to what deserves a look."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from torqref.document.problem import Problem
from torqref.document.toml import parse_document, read_file
from torqref.library.file import parse_library
from torqref.library.group import Group
from torqref.library.shelf import read_shelf
from torqref.wrench.rack import read_rack

Check = Callable[[Group], Iterator[Problem]]


def _told(group: Group, key: str, message: str, mend: str) -> Problem:
    where = f"group {group.id}" + (f".{key}" if key else "")
    return Problem(
        file=group.file, line=group.line, key=where, message=message, mend=mend, severity="warning"
    )


def _source(group: Group) -> Iterator[Problem]:
    if not group.source.kind or not group.source.title:
        yield _told(group, "source", "the value has no source", "Write [source] with kind and title.")


def _condition(group: Group) -> Iterator[Problem]:
    pulled = any(stage.kind == "torque" for stage in group.stages)
    if pulled and not group.condition and group.purpose == "clamp":
        yield _told(group, "condition", "dry or oiled is not said", 'Write condition = "dry".')


def _threadlocker(group: Group) -> Iterator[Problem]:
    if group.threadlocker and any(stage.recheck for stage in group.stages):
        yield _told(
            group,
            "stage",
            "a recheck stage on threadlocker: pulling breaks the cured bond",
            "Leave the recheck out; look at the mark only.",
        )


def _reused_yield(group: Group) -> Iterator[Problem]:
    turned = sum(stage.kind == "angle" for stage in group.stages)
    if turned and not group.one_time and group.purpose == "clamp":
        yield _told(
            group,
            "one_time",
            "angle stages, and nothing is said about using the fasteners again",
            'Write one_time = "bolts", or one_time = "none: length check" with what the page says.',
        )


CHECKS: tuple[Check, ...] = (_source, _condition, _threadlocker, _reused_yield)


def check_group(group: Group) -> tuple[Problem, ...]:
    """Everything the checks say of one group."""
    return tuple(problem for check in CHECKS for problem in check(group))


def check_file(path: Path) -> tuple[Problem, ...]:
    """Every problem of a library or rack file."""
    data = read_file(path)
    if isinstance(data, Problem):
        return (data,)
    document = parse_document(data, str(path))
    if isinstance(document, Problem):
        return (document,)
    if "wrench" in document.values or "adapter" in document.values:
        return read_rack(path, thorough=True)[1]
    file = parse_library(data, document.file)
    return (*file.problems, *(problem for group in file.groups for problem in check_group(group)))


def check_shelf(folders: Sequence[Path]) -> tuple[Problem, ...]:
    """Every problem of whole folders, contradictions between their files among them."""
    shelf = read_shelf(folders)
    return (*shelf.problems, *(told for group in shelf.groups.values() for told in check_group(group)))
