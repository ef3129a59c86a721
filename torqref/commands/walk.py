"""`torqref walk`: opens or goes on with a walk, in the screens or as lines."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Mapping

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import bay, clock, group_of, library_folders, rack_of, records_folder
from torqref.document.refusal import Refusal
from torqref.walk.fitted import adapter_of
from torqref.walk.opening import Opening, Request, open_group
from torqref.walk.planner import LOOSEN, TIGHTEN, Bench


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument("group", metavar="GROUP", help="id of a fastener group")
    parser.add_argument("--place", default="", metavar="P", help="one place of a group that has several")
    parser.add_argument("--wrench", default="", metavar="ID", help="a wrench of your rack")
    parser.add_argument(
        "--crowfoot",
        default="",
        metavar="OFFSET[@ANGLE]|ADAPTER",
        help='such as "38 mm@45", or an adapter id',
    )
    parser.add_argument("--unit", default="", metavar="U", help="unit on the dial, where the wrench has it")
    parser.add_argument("--loosen", action="store_true", help="loosen in reverse and in rounds")
    parser.add_argument("--by", default="", metavar="NAME", help="who works")
    parser.add_argument("--work-order", default="", metavar="T", help="number of the work order")
    parser.add_argument("--new", action="store_true", help="begin a new walk though one is open")
    add_shared(parser, "specs", "rack", "records", "plain")


def run(options: Namespace, console: Console) -> int:
    """Open the walk and hand it to a front end; returns the exit code."""
    group = group_of(options.group, options, console)
    bench = bench_of(options, console) if group is not None else None
    if group is None or bench is None:
        return 1
    opening = open_group(group, bench, request_of(options), clock)
    for note in opening.notes:
        console.tell(note)
    if opening.session is None:
        return console.refuse(opening.refusal) if opening.refusal else 1
    if not (options.plain or console.as_json) and has_screen(os.environ):
        return _walk_on_screen(opening, bench, options)
    from torqref.commands.plain import walk_plain

    try:
        return walk_plain(opening.session, sys.stdin, console)
    finally:
        opening.session.close()


def has_screen(environment: Mapping[str, str]) -> bool:
    """Whether there is a terminal on both sides that can show screens."""
    dumb = environment.get("TERM", "dumb") in ("", "dumb")
    return sys.stdin.isatty() and sys.stdout.isatty() and not (dumb and os.name == "posix")


def _walk_on_screen(opening: Opening, bench: Bench, options: Namespace) -> int:
    from torqref.screens.app import run_app
    from torqref.screens.context import Context
    from torqref.screens.look import look_of

    context = Context(
        clock=clock,
        bay=bay(),
        records=records_folder(options),
        libraries=library_folders(options),
        rack=bench.rack,
        by=options.by,
        work_order=options.work_order,
        session=opening.session,
        notes=opening.notes,
        look=look_of(os.environ, sys.stdout.encoding),
    )
    return run_app("walk", context, session=opening.session, notes=opening.notes)


def request_of(options: Namespace) -> Request:
    """What the options say about the record."""
    return Request(
        folder=records_folder(options),
        bay=bay(),
        work_order=options.work_order,
        by=options.by,
        new=options.new,
    )


def bench_of(options: Namespace, console: Console) -> Bench | None:
    """What the options say about the tools; None where that was refused."""
    rack = rack_of(options, console)
    if rack is None:
        return None
    adapter = adapter_of(options.crowfoot, rack)
    if isinstance(adapter, Refusal):
        console.refuse(adapter)
        return None
    return Bench(
        today=clock().date(),
        rack=rack,
        wrench=options.wrench,
        parts=adapter.parts,
        adapter=adapter.words,
        unit=options.unit,
        place=options.place,
        action=LOOSEN if options.loosen else TIGHTEN,
    )
