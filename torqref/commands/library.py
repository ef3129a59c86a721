"""`torqref` alone: the library screen; in a pipe the list of groups, and the exit code of wrong usage."""

from __future__ import annotations

import os
from argparse import Namespace

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.terminal import context_of, has_screen


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument("--by", default="", metavar="NAME", help="who works")
    parser.add_argument("--work-order", default="", metavar="T", help="number of the work order")
    add_shared(parser, "specs", "rack", "records", "plain", "speak")


def run(options: Namespace, console: Console) -> int:
    """Show the library; without a terminal list its groups and say what is missing, exit code 2."""
    if options.plain or console.as_json or not has_screen(os.environ):
        return _listed(options, console)
    from torqref.commands.desk import rack_of
    from torqref.screens.app import run_app

    rack = rack_of(options, console)
    return 1 if rack is None else run_app("library", context_of(options, rack))


def _listed(options: Namespace, console: Console) -> int:
    from torqref.commands import find

    find.run(Namespace(**{**vars(options), "words": []}), console)
    if not console.as_json:
        console.tell("torqref: the screens need a terminal; `torqref --help` lists the commands.")
    return 2
