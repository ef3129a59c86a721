"""`torqref kit`: what to lay out for a job, and what the rack does not cover."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import clock, rack_of
from torqref.commands.job import add_fact, order_of

_EPILOG = """\
  torqref kit demo/brindle-24-head.job.toml --rack demo/wrenches.toml
  torqref kit demo/brindle-24-head.job.toml --fact engine=R --html kit.html
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("file", metavar="FILE", type=Path, help="a job file")
    parser.add_argument("--html", type=Path, metavar="FILE", help="write the kit as a page to print")
    add_fact(parser)
    add_shared(parser, "specs", "rack")


def run(options: Namespace, console: Console) -> int:
    """Lay out the kit; exit code 1 only where the job cannot be read."""
    from torqref.sheets.kit import kit_text, kit_values
    from torqref.walk.kit import make_kit

    order = order_of(options, console)
    rack = rack_of(options, console) if order is not None else None
    if order is None or rack is None:
        return 1
    kit = make_kit(order.job, order.groups, rack, clock().date(), order.facts)
    if options.html is not None:
        from torqref.commands.paper import write_paper
        from torqref.sheets.kit_page import kit_page

        return write_paper(options.html, kit_page(kit), console)
    if console.as_json:
        console.answer(kit_values(kit))
        return 0
    for line in kit_text(kit):
        console.say(line)
    return 0
