"""`torqref check`: looks through library, rack and job files and tells every fault with its mend."""

from __future__ import annotations

import os
from argparse import Namespace
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import library_folders
from torqref.document.problem import Problem

_EPILOG = """\
  torqref check                                   the library
  torqref check cover.toml demo/wrenches.toml     these files; a folder means the files in it
  torqref check --second cover.toml --by "B. Clerk"
  torqref check --corrections
Nothing is said and the exit code is 0 where nothing is wrong.
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument(
        "files",
        metavar="FILE",
        nargs="*",
        type=Path,
        help="library, rack or job files; none: the library",
    )
    parser.add_argument(
        "--second", metavar="FILE", type=Path, help="another person types the values of a file, unseen"
    )
    parser.add_argument(
        "--group", metavar="ID", action="append", default=[], help="with --second: only this group"
    )
    parser.add_argument("--corrections", action="store_true", help="what pages say other than the library")
    parser.add_argument("--accept", metavar="N", type=int, default=0, help="put a correction into its file")
    parser.add_argument("--decline", metavar="N", type=int, default=0, help="leave the library as it is")
    parser.add_argument("--by", default="", metavar="NAME", help="who types, or who decides")
    add_shared(parser, "specs", "rack", "records")


def run(options: Namespace, console: Console) -> int:
    """Tell every problem; exit code 1 if one of them is an error."""
    if options.second is not None:
        return _second(options, console)
    if options.corrections or options.accept or options.decline:
        from torqref.commands.corrections import run_corrections

        return run_corrections(options, console)
    problems = _problems(options)
    if console.as_json:
        console.answer({"problems": [problem_values(problem) for problem in problems]})
    else:
        for problem in problems:
            console.say(f"{problem.severity}: {problem.sentence()}")
    return 1 if any(problem.severity == "error" for problem in problems) else 0


def _second(options: Namespace, console: Console) -> int:
    import sys

    from torqref.commands.desk import clock
    from torqref.commands.second import run_second

    return run_second(options, sys.stdin, clock().date(), console)


def _problems(options: Namespace) -> tuple[Problem, ...]:
    from torqref.library.check import check_files, check_shelf

    if options.files:
        files = tuple(file for path in options.files for file in _files_in(path))
        return (*check_files(files), *_jobs(files, options))
    rack = (options.rack,) if options.rack else ()
    return (*check_shelf(library_folders(options)), *check_files(rack))


def _files_in(path: Path) -> tuple[Path, ...]:
    """The TOML files of a folder, or the file itself."""
    found = tuple(sorted(path.glob("*.toml"))) if os.path.isdir(path) else ()
    return found or (path,)


def _jobs(files: tuple[Path, ...], options: Namespace) -> tuple[Problem, ...]:
    """What is wrong with the job files among the files only beside the library."""
    from torqref.library.job import read_job
    from torqref.library.job_check import check_job
    from torqref.library.shelf import find_groups

    problems: tuple[Problem, ...] = ()
    for path in files:
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
