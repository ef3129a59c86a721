"""`torqref show`: the card of a group."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import asdict

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import group_of, library_folders
from torqref.library.group import Group
from torqref.library.shelf import find_table


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument("group", metavar="GROUP", help="id of a fastener group or of a reference table")
    add_shared(parser, "specs")


def run(options: Namespace, console: Console) -> int:
    """Show the card, or its values as JSON."""
    from torqref.sheets.card import card

    if rows := find_table(options.group, library_folders(options)):
        return _table(rows, console)
    group = group_of(options.group, options, console)
    if group is None:
        return 1
    if console.as_json:
        console.answer(_values(group))
    else:
        console.say(card(group).rstrip("\n"))
    return 0


def _table(rows: tuple[Group, ...], console: Console) -> int:
    """A reference table as a page, or its rows as JSON."""
    from torqref.sheets.reference import reference

    if console.as_json:
        console.answer({"id": rows[0].table, "rows": [_values(group) for group in rows]})
    else:
        console.say(reference(rows).rstrip("\n"))
    return 0


def _values(group: Group) -> dict[str, object]:
    from torqref.commands.check import problem_values
    from torqref.library.check import check_group

    return {
        "id": group.id,
        "name": group.name,
        "bolts": len(group.layout.positions),
        "order": list(group.order.labels),
        "stages": [{"kind": stage.kind, "text": stage.text} for stage in group.stages],
        "thread": group.thread,
        "class": group.grade,
        "source": asdict(group.source),
        "problems": [problem_values(problem) for problem in check_group(group)],
    }
