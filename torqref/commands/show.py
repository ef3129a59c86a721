"""`torqref show`: the card of a group, as text or as a page to print."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import asdict
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import group_of, library_folders
from torqref.library.group import Group
from torqref.library.shelf import find_table

_EPILOG = """\
  torqref show exhaust-manifold
  torqref show ac43-tension                        a reference table
  torqref show exhaust-manifold --html card.html   a page to print
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("group", metavar="GROUP", help="id of a fastener group or of a reference table")
    parser.add_argument("--html", type=Path, metavar="FILE", help="write the card as a page to print")
    parser.add_argument("--svg", type=Path, metavar="FILE", help="write the picture with its order")
    add_shared(parser, "specs")


def run(options: Namespace, console: Console) -> int:
    """Show the card, or its values as JSON, or write it to a file."""
    if options.html is not None and options.svg is not None:
        return console.misuse("one sheet at a time: --html or --svg.")
    if rows := find_table(options.group, library_folders(options)):
        return _table(rows, console)
    group = group_of(options.group, options, console)
    if group is None:
        return 1
    if options.html is not None or options.svg is not None:
        return _write(group, options, console)
    if console.as_json:
        console.answer(_values(group))
        return 0
    from torqref.sheets.card import card

    console.say(card(group).rstrip("\n"))
    return 0


def _write(group: Group, options: Namespace, console: Console) -> int:
    from torqref.commands.paper import write_paper

    if options.html is not None:
        from torqref.sheets.card_page import card_page

        return write_paper(options.html, card_page(group), console)
    from torqref.library.source import PRACTICE
    from torqref.sheets.picture import group_picture

    title = f"{group.name}: {PRACTICE}" if group.source.invented else group.name
    return write_paper(options.svg, group_picture(group, title=title), console)


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
