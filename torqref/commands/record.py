"""`torqref record`: lists, shows and exports walks."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.check import problem_values
from torqref.commands.console import Console
from torqref.commands.desk import records_folder
from torqref.walk.archive import Record, records


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument(
        "id", metavar="ID", nargs="?", default="", help="one walk; a part of its name will do"
    )
    parser.add_argument("--csv", action="store_true", help="every event as a row")
    add_shared(parser, "records")


def run(options: Namespace, console: Console) -> int:
    """Show the records; exit code 1 for damage, or where nothing is found."""
    from torqref.sheets.record import csv_text, listing, record_text, record_values

    found, problems = records(records_folder(options))
    chosen = _chosen(found, options.id)
    damaged = any(problem.severity == "error" for problem in problems)
    if console.as_json:
        console.answer(
            {
                "walks": [record_values(record) for record in chosen],
                "problems": [problem_values(problem) for problem in problems],
            }
        )
        return 1 if damaged or (options.id and not chosen) else 0
    console.problems(problems)
    if options.id and not chosen:
        return console.deny(f"no walk named {options.id}. `torqref record` lists them.")
    if options.csv:
        console.say(csv_text(chosen).rstrip("\n"))
    else:
        for record in chosen if options.id else ():
            for line in record_text(record):
                console.say(line)
        for line in listing(chosen) if not options.id else ():
            console.say(line)
    if not chosen and not damaged:
        console.tell("No walks yet.")
    return 1 if damaged else 0


def _chosen(found: Sequence[Record], wanted: str) -> tuple[Record, ...]:
    """The walk of this name, else those whose name holds it; all where none is asked for."""
    exact = tuple(record for record in found if record.header.id == wanted)
    return exact or tuple(record for record in found if wanted in record.header.id)
