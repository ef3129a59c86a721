"""`torqref walk`: opens or goes on with a walk, in the screens or as lines."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from typing import TYPE_CHECKING

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import clock, group_of, rack_of, request_of
from torqref.commands.terminal import context_of, has_screen, own_specs
from torqref.commands.worded import lines_of
from torqref.document.escape import escape
from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.quantity.reading import read_torque, read_unit
from torqref.walk.fitted import adapter_of
from torqref.walk.opening import open_group
from torqref.walk.planner import LOOSEN, TIGHTEN, Bench

if TYPE_CHECKING:
    from torqref.walk.session import Session
    from torqref.wrench.rack import Rack

# How the bolts of a quick walk stand: option, its argument and what it means.
_ARRANGEMENTS = {
    "rows": ("RxC", "the bolts of a quick walk or reference row in rows, 2x5 or 5/4"),
    "circle": ("N", "in a circle, counted clockwise from 12 o'clock"),
    "count": ("N", "so many, without a picture"),
}
_NONE = "how bolts stand is said of a quick walk, or of a row of a reference table."
_EPILOG = """\
  torqref walk exhaust-manifold --place left
  torqref walk --quick "M8 10.9 24 N·m" --rows 2x5
  torqref walk --quick "30 N·m + 90° + 90°" --circle 8
  torqref walk ac43-tension-3-8-24 --circle 6
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("group", metavar="GROUP", nargs="?", default="", help="id of a fastener group")
    parser.add_argument("--quick", metavar="TEXT", help="a walk without a library entry: the value as said")
    for name, what in _ARRANGEMENTS.items():
        parser.add_argument(f"--{name}", metavar=what[0], help=what[1])
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
    parser.add_argument("--drag", default="", metavar="TORQUE", help="measured drag of a locking nut, added")
    parser.add_argument("--new", action="store_true", help="begin a new walk though one is open")
    parser.add_argument("--practice", action="store_true", help="walk for practice; no record is kept")
    add_shared(parser, "specs", "rack", "records", "plain", "words", "speak")


def run(options: Namespace, console: Console) -> int:
    """Open the walk and hand it to a front end; returns the exit code."""
    if wrong := _misuse(options):
        return console.misuse(f"torqref walk: {wrong}")
    given, quick = _arrangement(options), options.quick is not None
    group = _typed(options, console) if quick else group_of(options.group, options, console)
    if group is not None and group.table and given:
        group = _spread(group, given, console)
    elif group is not None and given and not quick:
        return console.misuse(f"torqref walk: {escape(group.id)} has its own picture; {_NONE}")
    elif group is not None and group.table and len(group.layout.positions) == 1:
        console.tell("One bolt; for more: --rows 2x5, --circle 8 or --count 3.")
    bench = bench_of(options, console) if group is not None else None
    if group is None or bench is None:
        return 1
    opening = open_group(group, bench, request_of(options), clock)
    notes = (*opening.notes, *_unused(opening.session, bench))
    for note in notes:
        console.tell(note)
    if opening.session is None:
        return console.refuse(opening.refusal) if opening.refusal else 1
    if not (options.plain or options.words or console.as_json) and has_screen(os.environ):
        return _walk_on_screen(opening.session, notes, bench, options)
    from torqref.commands.plain import walk_plain
    from torqref.commands.voice import voice_of

    lines = lines_of(options, console)
    try:
        return walk_plain(opening.session, sys.stdin, lines, own_specs(), voice_of(options))
    finally:
        opening.session.close()


def _walk_on_screen(session: Session, notes: tuple[str, ...], bench: Bench, options: Namespace) -> int:
    from torqref.screens.app import run_app

    context = context_of(options, bench.rack, session, notes)
    return run_app("walk", context, session=session, notes=notes)


def _misuse(options: Namespace) -> str:
    """What is wrong with the command line itself, or nothing."""
    given = [name for name in _ARRANGEMENTS if getattr(options, name) is not None]
    if options.quick is None:
        if len(given) > 1:
            return f"--{given[0]} and --{given[1]} are too much; say once how the bolts stand."
        return "" if options.group else 'name a group, or give --quick "M8 10.9 24 N·m" --rows 2x5.'
    if options.group:
        return f'"{escape(options.group)}" is too much beside --quick; put the whole value in quotes.'
    if len(given) != 1:
        return "say how the bolts stand, once: --rows 2x5, --circle 8 or --count 3."
    return ""


def _spread(group: Group, given: str, console: Console) -> Group | None:
    """A row of a reference table on so many bolts; None where these words were refused, which was told."""
    from torqref.library.spread import spread

    found = spread(group, given)
    if isinstance(found, Refusal):
        console.refuse(found)
        return None
    return found


def _typed(options: Namespace, console: Console) -> Group | None:
    """The group of a quick walk; None where its words were refused, which was told."""
    from torqref.library.quick import quick_group

    group = quick_group(options.quick, _arrangement(options), by=options.by)
    if isinstance(group, Refusal):
        console.refuse(group)
        return None
    return group


def _arrangement(options: Namespace) -> str:
    """How the bolts stand, in one word and its number; empty where that was not said."""
    given = ((name, getattr(options, name)) for name in _ARRANGEMENTS)
    return next((f"{name} {said}" for name, said in given if said is not None), "")


def bench_of(options: Namespace, console: Console) -> Bench | None:
    """What the options say about the tools; None where that was refused."""
    rack = rack_of(options, console)
    if rack is None:
        return None
    bench = _bench(options, rack)
    if isinstance(bench, Refusal):
        console.refuse(bench)
        return None
    return bench


def _bench(options: Namespace, rack: Rack) -> Bench | Refusal:
    if options.wrench and rack.wrench(options.wrench) is None:
        return rack.lacking(options.wrench)
    adapter = adapter_of(options.crowfoot, rack)
    if isinstance(adapter, Refusal):
        return adapter
    drag = read_torque(options.drag) if options.drag else None
    if isinstance(drag, Refusal):
        return drag
    unit = read_unit(options.unit) if options.unit else ""
    if isinstance(unit, Refusal):
        return unit
    return Bench(
        today=clock().date(),
        rack=rack,
        wrench=options.wrench,
        parts=adapter.parts,
        adapter=adapter.words,
        unit=unit,
        place=options.place,
        action=LOOSEN if options.loosen else TIGHTEN,
        drag=drag,
    )


def _unused(session: Session | None, bench: Bench) -> tuple[str, ...]:
    """A walk that goes on keeps its tools: whoever named others is told how to change them."""
    if session is None or [event.kind for event in session.events].count("opened") < 2:
        return ()
    progress = session.progress
    wrench = bench.rack.wrench(bench.wrench) if bench.wrench else None
    asked = {
        "--wrench": wrench is None or any(dial.wrench == wrench.id for dial in progress.dials),
        "--crowfoot": not bench.adapter or any(dial.with_adapter == bench.adapter for dial in progress.dials),
        "--unit": not bench.unit or any(dial.unit == bench.unit for dial in progress.dials),
        "--drag": bench.drag is None or bench.drag == progress.drag,
    }
    left = " and ".join(name for name, is_met in asked.items() if not is_met)
    mend = "Say wrench ID in the walk to change them, or begin another walk with --new."
    return (f"This walk goes on with its own tools, without {left}. {mend}",) if left else ()
