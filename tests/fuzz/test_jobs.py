"""Mutated job files: never a traceback, and every message names its file and its mend."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.fuzz.mutation import mutated
from tests.fuzz.test_files import told_well
from torqref.document.problem import Problem
from torqref.document.toml import parse_document
from torqref.library.job import job_of
from torqref.library.job_check import check_job
from torqref.library.shelf import read_shelf, shipped_folder
from torqref.walk.job_planner import make_job_plan

ROOT = Path(__file__).parents[2]
DEMO = (ROOT / "demo" / "brindle-24-head.job.toml").read_bytes()
ROUNDS = 3_000


@pytest.mark.slow
def test_mutated_job_files_are_told_and_never_break() -> None:
    dice, groups, sound = random.Random(8), read_shelf((shipped_folder(),)).groups, 0
    for _ in range(ROUNDS):
        document = parse_document(mutated(DEMO, dice), "job.toml")
        if isinstance(document, Problem):
            told_well((document,), "job.toml")
            continue
        job, problems = job_of(document)
        told_well(problems, "job.toml")
        if job is not None:
            found = check_job(job, groups)
            told_well(found, "job.toml")
            if not found:
                sound += 1
                assert make_job_plan(job, groups).steps
    assert sound > ROUNDS // 100
