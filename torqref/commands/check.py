"""`torqref check`: looks through library, rack and job files and tells every fault with its mend."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import library_folders
from torqref.document.problem import Problem


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument(
        "files", metavar="FILE", nargs="*", type=Path, help="files to check; none checks the library"
    )
    add_shared(parser, "specs", "rack")


def run(options: Namespace, console: Console) -> int:
    """Tell every problem; exit code 1 if one of them is an error."""
    problems = _problems(options)
    if console.as_json:
        console.answer({"problems": [problem_values(problem) for problem in problems]})
    else:
        for problem in problems:
            console.say(f"{problem.severity}: {problem.sentence()}")
    return 1 if any(problem.severity == "error" for problem in problems) else 0


def _problems(options: Namespace) -> tuple[Problem, ...]:
    from torqref.library.check import check_files, check_shelf

    if options.files:
        return (*check_files(options.files), *_jobs(options))
    rack = (options.rack,) if options.rack else ()
    return (*check_shelf(library_folders(options)), *check_files(rack))


def _jobs(options: Namespace) -> tuple[Problem, ...]:
    """What is wrong with the job files among the files only beside the library."""
    from torqref.library.job import read_job
    from torqref.library.job_check import check_job
    from torqref.library.shelf import find_groups

    problems: tuple[Problem, ...] = ()
    for path in options.files:
        job, _ = read_job(path)
        if job is not None:
            groups, _ = find_groups(job.groups, library_folders(options))
            problems += check_job(job, groups)
    return problems


def problem_values(problem: Problem) -> dict[str, object]:
    """A problem for JSON."""
    return {
        "file": problem.file,
        "line": problem.line,
        "key": problem.key,
        "message": problem.message,
        "mend": problem.mend,
        "severity": problem.severity,
    }
