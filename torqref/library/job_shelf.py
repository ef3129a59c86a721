"""Job files beside the library: which there are, and one with the groups it names."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from torqref.document.problem import Problem
from torqref.library.folder import job_files
from torqref.library.group import Group
from torqref.library.job import Job, read_job
from torqref.library.job_check import check_job
from torqref.library.shelf import find_groups


def read_jobs(folders: Sequence[Path]) -> tuple[tuple[Job, ...], tuple[Problem, ...]]:
    """Every job of these folders by its name, and what is wrong with their files.

    Args:
        folders: in the order they are looked through, later ones shadowing earlier ones.
    """
    jobs: dict[str, Job] = {}
    problems: list[Problem] = []
    for path in (path for folder in folders if os.path.isdir(folder) for path in job_files(folder)):
        job, told = read_job(path)
        problems.extend(told)
        if job is not None:
            jobs[job.id] = job
    return tuple(sorted(jobs.values(), key=lambda job: job.name.casefold())), tuple(problems)


def job_with_groups(
    path: Path, folders: Sequence[Path]
) -> tuple[Job | None, dict[str, Group], tuple[Problem, ...]]:
    """A job file, the groups that it names, and every fault of both; none is worked by that has an error.

    Args:
        path: the job file.
        folders: the library folders.
    """
    job, problems = read_job(path)
    if job is None:
        return None, {}, problems
    groups, told = find_groups(job.groups, folders)
    problems += told if set(job.groups) - set(groups) else ()
    return job, groups, problems + check_job(job, groups)
