"""`torqref find`: groups by what one remembers of them."""

from __future__ import annotations

from argparse import Namespace

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import library_folders, tell_faulty_files
from torqref.library.search import Match
from torqref.library.shelf import search_folders


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument("words", metavar="WORD", nargs="*", help="words in any order; none lists all groups")
    add_shared(parser, "specs")


def run(options: Namespace, console: Console) -> int:
    """List the groups that fit; exit code 1 where none does."""
    found, problems = search_folders(options.words, library_folders(options))
    serious = [problem for problem in problems if problem.severity == "error"]
    tell_faulty_files(serious, console)
    if console.as_json:
        console.answer({"groups": [_values(match) for match in found]})
    elif not found:
        return console.deny("Nothing fits. `torqref find` without words lists every group.")
    else:
        width = max(len(match.group.id) for match in found)
        for match in found:
            console.say(_line(match, width))
    return 0 if found else 1


def _line(match: Match, width: int) -> str:
    group = match.group
    practice = "  (practice values)" if group.source.invented else ""
    return f"{group.id.ljust(width)}  {group.name}, {group.assembly}{practice}"


def _values(match: Match) -> dict[str, object]:
    group = match.group
    return {
        "id": group.id,
        "name": group.name,
        "assembly": group.assembly,
        "file": group.file,
        "matched": list(match.matched),
    }
