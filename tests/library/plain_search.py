"""The plain way to find: read every file, index every group. What is quicker must find the same."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.toml import read_document
from torqref.library.entry import Entry, entry_with, facts_in
from torqref.library.search import Index, Match

# Words as they are, cut short, with a slip, in vain; numbers, threads, values, nothing.
SOUGHT = (
    "", "lid", "cover", "manifold", "manifodl", "cov", "zzzz", "pump lid", "m8", "m8 24 Nm", "24 N·m", "18 ft-lb",
    "8", "1", "12 x", "waterpump", "brindle", "oiled 1/4-28", "lid lid", "°", "engine 24", "lid torque",
)  # fmt: skip


def plainly(paths: Sequence[Path], typed: str) -> tuple[Match, ...]:
    """What is found among all groups of these files, later ones in place of earlier ones of the same id."""
    found: dict[str, Entry] = {}
    for path in paths:
        document = read_document(path)
        for facts in () if isinstance(document, Problem) else facts_in(document):
            found[facts["id"]] = entry_with(facts, escape(str(path)))
    return Index.of(found.values()).search(typed)


def problems_of(paths: Sequence[Path]) -> tuple[Problem, ...]:
    """What cannot be read."""
    documents = [read_document(path) for path in paths]
    return tuple(each for each in documents if isinstance(each, Problem))


def told(matches: Iterable[Match]) -> list[tuple[Entry, tuple[str, ...]]]:
    """Each group that was found, in order, with the reason."""
    return [(match.entry, match.matched) for match in matches]
