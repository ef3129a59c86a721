"""The walks and jobs of a folder as lines of a list, read one by one; only what waits is kept whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from torqref.document.problem import Problem
from torqref.walk.archive import folder_problems, journals, read_record
from torqref.walk.glance import glance
from torqref.walk.job_archive import job_journals, read_job_record
from torqref.walk.journal import ENDING
from torqref.walk.summary import Summary, job_summary, walk_summary

Found = tuple[Summary | None, tuple[Problem, ...]]


def record_paths(folder: Path) -> tuple[Path, ...]:
    """The journals of walks and jobs in a folder, newest first by their names."""
    found = (*journals(folder), *job_journals(folder))
    return tuple(sorted(found, key=lambda path: path.name, reverse=True))


def read_summary(path: Path) -> Found:
    """A journal in a list, and what is wrong with its file."""
    if path.suffix != ENDING:
        job, problems = read_job_record(path, state_only=True)
        return (None if job is None else job_summary(job)), problems
    seen = glance(path)
    if seen is not None:
        return seen, ()
    walk, problems = read_record(path)
    return (None if walk is None else walk_summary(walk)), problems


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """What a folder of records holds.

    Args:
        walks, jobs: oldest first by the names of their files.
        problems: what is wrong with the files, each once.
    """

    walks: tuple[Summary, ...]
    jobs: tuple[Summary, ...]
    problems: tuple[Problem, ...]


def list_folder(folder: Path, named: str = "") -> Listing:
    """Every walk and job of a folder, and every problem with its files.

    Args:
        folder: the folder of records.
        named: a part of a name: where files of walks have it in theirs, only they are read.
    """
    paths = tuple(journals(folder))
    read = {path: read_summary(path) for path in tuple(path for path in paths if named in path.stem) or paths}
    jobs = [(path, read_summary(path)) for path in job_journals(folder)]
    problems = [*folder_problems(folder), *(each for _, told in read.values() for each in told)]
    for path, (job, told) in jobs:
        problems.extend(told)
        problems.extend(_of_walks(path.parent, job, read) if job is not None and not job.is_open else ())
    return Listing(
        walks=tuple(walk for walk, _ in read.values() if walk is not None),
        jobs=tuple(job for _, (job, _) in jobs if job is not None),
        problems=tuple(dict.fromkeys(problems)),
    )


def _of_walks(folder: Path, job: Summary, read: Mapping[Path, Found]) -> Iterator[Problem]:
    """What is wrong with the walks of a job that is over; those of an open one were read with it."""
    for name in job.walks:
        path = folder / f"{name}{ENDING}"
        yield from (read[path] if path in read else read_summary(path))[1]
