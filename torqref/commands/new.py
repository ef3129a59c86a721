"""`torqref new`: a first library file from options or from a few answers."""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path
from typing import TextIO

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.document.refusal import Refusal
from torqref.library.starter import QUESTIONS, Starter, identity, starter_text

_EPILOG = """\
  torqref new                                  asks a few questions
  torqref new cover.toml --name "Front cover" --thread M8 --class 8.8 --bolts 2x5 --value "24 N·m"
Without FILE the file goes into specs/ of your configuration folder. No file is ever written over.
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("file", metavar="FILE", nargs="?", type=Path, help="the new file")
    parser.add_argument("--id", default="", help="the word for commands; made from the name otherwise")
    parser.add_argument("--name", default="", metavar="T", help="name of the group on the page")
    parser.add_argument("--assembly", default="", metavar="T", help="vehicle or machine")
    parser.add_argument("--thread", default="", metavar="T", help="thread, such as M8x1.25")
    parser.add_argument("--class", dest="grade", default="", metavar="C", help="property class or grade")
    parser.add_argument("--bolts", default="", metavar="N|RxC|circle N", help="how many, or how they stand")
    parser.add_argument(
        "--value", action="append", default=[], metavar="V", help="a value as printed; once for each stage"
    )
    parser.add_argument("--condition", default="", metavar="T", help="dry, oiled, anti-seize")
    parser.add_argument("--title", default="", metavar="T", help="title of the document")
    parser.add_argument("--reference", default="", metavar="T", help="page, sheet or table")
    parser.add_argument("--by", default="", metavar="NAME", help="who types the values")
    add_shared(parser)


def run(options: Namespace, console: Console) -> int:
    """Write the file and tell what the checks say of it; exit code 1 where an answer cannot be read."""
    starter = _told(options) if options.name or options.value else _asked(sys.stdin, console)
    if not starter.name:
        return console.misuse('torqref new: a group needs a name, such as --name "Front cover"')
    text = starter_text(starter)
    if isinstance(text, Refusal):
        return console.refuse(text)
    return write(options.file or _own(starter), text, console)


def write(path: Path, text: str, console: Console) -> int:
    """Put a new library file there and tell what deserves a look in it."""
    from torqref.commands.check import problem_values
    from torqref.document.newfile import write_new
    from torqref.library.check import check_file

    problem = write_new(path, text)
    if problem is not None:
        return console.deny(problem.sentence())
    problems = check_file(path)
    if console.as_json:
        console.answer({"file": str(path), "problems": [problem_values(problem) for problem in problems]})
    else:
        console.say(f"{path} is written; fill in what its comments ask for, then: torqref check {path}")
        console.problems(problems)
    return 0


def _own(starter: Starter) -> Path:
    """A free name in the user's own library folder."""
    from torqref.commands.terminal import own_specs
    from torqref.document.newfile import free_name

    folder = own_specs()
    return folder / f"{free_name(folder, starter.id or identity(starter.name), '.toml')}.toml"


def _told(options: Namespace) -> Starter:
    return Starter(
        id=options.id,
        name=options.name,
        assembly=options.assembly,
        thread=options.thread,
        grade=options.grade,
        bolts=options.bolts,
        values=tuple(options.value),
        condition=options.condition,
        title=options.title,
        reference=options.reference,
        entered_by=options.by,
    )


def _asked(answers: TextIO, console: Console) -> Starter:
    """The answers to the questions; an empty one leaves its key for later."""
    given: dict[str, str] = {}
    for field, question, example in QUESTIONS:
        console.err.write(f"{question} ({example}): {'' if answers.isatty() else chr(10)}")
        console.err.flush()
        given[field] = answers.readline().strip()
    values = tuple(value.strip() for value in given.pop("values").split(";") if value.strip())
    return Starter(values=values, **given)
