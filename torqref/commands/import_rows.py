"""`torqref import`: rows of a table of values (CSV) as a library file."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.toml import read_file

_EPILOG = """\
The first row names the columns: name and value, and as many as there are of thread, class, unit, count,
condition, source, reference, id, socket, purpose. The value may hold its unit, "22–26 N·m".
A row that cannot be read is told, and stands in the new file as a comment.
  torqref import values.csv cover.toml --assembly "Brindle 24 utility truck"
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("table", metavar="CSV", type=Path, help="the table of values")
    parser.add_argument("file", metavar="FILE", type=Path, help="the new library file")
    parser.add_argument("--assembly", default="", metavar="T", help="vehicle or machine")
    parser.add_argument("--by", default="", metavar="NAME", help="who imports the values")
    add_shared(parser)


def run(options: Namespace, console: Console) -> int:
    """Write the file and tell each bad row; exit code 1 where there is one."""
    from torqref.document.newfile import write_new
    from torqref.library.table_import import import_table

    text = _text(options.table)
    if isinstance(text, Problem):
        return console.deny(text.sentence())
    found = import_table(text, escape(str(options.table)), options.assembly, options.by)
    problem = write_new(options.file, found.text) if found.text else None
    if problem is not None:
        return console.deny(problem.sentence())
    if console.as_json:
        from torqref.commands.check import problem_values

        problems = [problem_values(problem) for problem in found.problems]
        console.answer({"file": str(options.file), "groups": found.groups, "problems": problems})
    else:
        _tell(options, found.groups, found.problems, console)
    return 1 if any(problem.severity == "error" for problem in found.problems) else 0


def _tell(options: Namespace, groups: int, problems: tuple[Problem, ...], console: Console) -> None:
    console.problems(problems)
    if groups:
        bad = sum(problem.severity == "error" for problem in problems)
        aside = f", {_counted(bad, 'row')} set aside as comments" if bad else ""
        done = f"{options.file}: {_counted(groups, 'group')}{aside}"
        console.say(f"{done}. Next: torqref check {options.file}")


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _text(path: Path) -> str | Problem:
    data = read_file(path)
    if isinstance(data, Problem):
        return data
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        name = escape(str(path))
        return Problem(file=name, line=line, message="the table is not UTF-8 text", mend="Save it as UTF-8.")
