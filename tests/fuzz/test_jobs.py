"""Mutated job files: never a traceback, and every message names its file and its mend."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.fuzz.conftest import COUNT
from tests.fuzz.mutation import mutated
from tests.fuzz.test_files import LONGEST, ROUNDS, told_well
from torqref.document.problem import Problem
from torqref.document.toml import parse_document
from torqref.library.job import job_of
from torqref.library.job_check import check_job
from torqref.library.shelf import read_shelf, shipped_folder
from torqref.walk.job_planner import make_job_plan

ROOT = Path(__file__).parents[2]
DEMO = (ROOT / "demo" / "brindle-24-head.job.toml").read_bytes()
GROUPS = read_shelf((shipped_folder(),)).groups


def is_sound(data: bytes) -> bool:
    """Whether a job can be worked by the file; everything wrong with it must be told well."""
    document = parse_document(data, "job.toml")
    if isinstance(document, Problem):
        told_well((document,), "job.toml")
        return False
    job, problems = job_of(document)
    told_well(problems, "job.toml")
    if job is None:
        return False
    found = check_job(job, GROUPS)
    told_well(found, "job.toml")
    return not found and bool(make_job_plan(job, GROUPS).steps)


@pytest.mark.slow
def test_mutated_job_files_are_told_and_never_break(record_property: Callable[[str, object], None]) -> None:
    dice, end, done, sound = random.Random("torqref job file"), time.monotonic() + LONGEST, 0, 0
    while done < ROUNDS and time.monotonic() < end:
        sound += is_sound(mutated(DEMO, dice))
        done += 1
    told = f"job file: {done} mutated files read, {done - sound} with problems told, no traceback"
    record_property(COUNT, told)
    assert done == ROUNDS
    assert ROUNDS // 100 < sound < ROUNDS
