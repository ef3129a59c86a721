"""Every text of every kind of file made endless: read or told in a message that fits a screen, never a hang."""

from __future__ import annotations

import copy
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli

from tests.fuzz.test_files import GROUPS, HEAD
from torqref.document.problem import Problem
from torqref.document.table import Table
from torqref.document.toml import Document
from torqref.library.check import check_group
from torqref.library.file import read_library as read_tables
from torqref.library.job import job_of
from torqref.library.job_check import check_job
from torqref.sheets.card import card
from torqref.wrench.rack_file import rack_of

ROOT = Path(__file__).parents[2]
MANY = 200_000
FILLINGS = {
    "digits": "1" * MANY,
    "blanks": " " * MANY + "x",
    "brackets": "(" * MANY,
    "points": "1." * (MANY // 2),
    "numbers": "7 " * (MANY // 2),
    "dashes": "1-" * (MANY // 2),
    "letters": "a" * MANY,
    "words": "lh " * (MANY // 3),
    "bars": "  |" * (MANY // 3),
    "fractions": "½" * MANY,
    "wide signs": "漢" * MANY,
    "lines": "x\n" * (MANY // 2),
    "escapes": "\x1b" * (MANY // 8),
}
LONGEST_MESSAGE = 2000
LONGEST_WAIT = 15.0  # seconds for one file; without a bound such a text took hours


def read_library(document: Document) -> tuple[Problem, ...]:
    found = read_tables(Table.of(document))
    for group in found.groups:
        assert card(group)
    return (*found.problems, *(problem for group in found.groups for problem in check_group(group)))


def read_steps(document: Document) -> tuple[Problem, ...]:
    job, problems = job_of(document)
    return problems if job is None else (*problems, *check_job(job, {}))


SEEDS: dict[str, tuple[dict[str, Any], Callable[[Document], tuple[Problem, ...]]]] = {
    "library": (tomli.loads(HEAD + "".join(GROUPS)), read_library),
    "rack": (
        tomli.loads((ROOT / "demo" / "wrenches.toml").read_text(encoding="utf-8")),
        lambda document: rack_of(document, thorough=True)[1],
    ),
    "job": (
        tomli.loads((ROOT / "demo" / "brindle-24-head.job.toml").read_text(encoding="utf-8")),
        read_steps,
    ),
}


def texts(inside: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The path of every text, the same key of a table of an array once only."""
    if isinstance(inside, str):
        yield path
    elif isinstance(inside, dict):
        for key, value in inside.items():
            yield from texts(value, (*path, key))
    elif isinstance(inside, list):
        for number, value in enumerate(inside):
            yield from texts(value, (*path, number))


def filled(values: dict[str, Any], path: tuple[Any, ...], text: str) -> dict[str, Any]:
    changed = copy.deepcopy(values)
    owner: Any = changed
    for key in path[:-1]:
        owner = owner[key]
    owner[path[-1]] = text
    return changed


def one_of_each(kind: str) -> dict[str, tuple[Any, ...]]:
    """One place for each key that holds a text."""
    return {
        ".".join(str(key) for key in path if isinstance(key, str)): path for path in texts(SEEDS[kind][0])
    }


@pytest.mark.slow
@pytest.mark.parametrize("kind", SEEDS)
@pytest.mark.parametrize("filling", FILLINGS)
def test_an_endless_text_is_told_in_a_line_that_fits_a_screen(kind: str, filling: str) -> None:
    values, reader = SEEDS[kind]
    places = one_of_each(kind)
    assert len(places) > 10
    for name, path in places.items():
        began = time.monotonic()
        document = Document(file="sheet.toml", values=filled(values, path, FILLINGS[filling]), text="")
        for problem in reader(document):
            assert len(problem.sentence()) < LONGEST_MESSAGE, name
        assert time.monotonic() - began < LONGEST_WAIT, name
