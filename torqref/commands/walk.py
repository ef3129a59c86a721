"""`torqref walk`: opens or goes on with a walk, in the screens or as lines."""

from __future__ import annotations

import sys
from argparse import Namespace
from dataclasses import dataclass

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import bay, clock, group_of, rack_of, records_folder
from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.walk.archive import Record, Wanted, open_walk, walk_id
from torqref.walk.journal import FORMAT, Header, JournalError, create_journal, open_journal
from torqref.walk.plan import Plan
from torqref.walk.planner import LOOSEN, TIGHTEN, Bench, fingerprint, make_plan
from torqref.walk.session import Session
from torqref.wrench.adapter import Part
from torqref.wrench.fitting import read_pieces
from torqref.wrench.rack import Rack


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument("group", metavar="GROUP", help="id of a fastener group")
    parser.add_argument("--place", default="", metavar="P", help="one place of a group that has several")
    parser.add_argument("--wrench", default="", metavar="ID", help="a wrench of your rack")
    parser.add_argument(
        "--crowfoot", default="", metavar="OFFSET[@ANGLE]|ADAPTER", help='such as "38 mm@45", or an adapter id'
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
    if group is None:
        return 1
    try:
        session = _session(group, options, console)
    except JournalError as error:
        return console.deny(str(error))
    if session is None:
        return 1
    from torqref.commands.plain import walk_plain

    try:
        return walk_plain(session, sys.stdin, console)
    finally:
        session.close()


def _session(group: Group, options: Namespace, console: Console) -> Session | None:
    """The open walk of this group, place, action and work order, or a new one."""
    folder = records_folder(options)
    action = LOOSEN if options.loosen else TIGHTEN
    wanted = Wanted(
        group=group.id, place=options.place, action=action, work_order=options.work_order, bay=bay()
    )
    own, others = (None, ()) if options.new else open_walk(folder, wanted)
    _tell_others(others, console)
    if own is not None:
        return _go_on(own, group, options, console)
    plan = _plan(group, action, options, console)
    if plan is None:
        return None
    now = clock()
    header = Header(
        format=FORMAT,
        id=walk_id(group.id, now, folder),
        plan=plan,
        bay=bay(),
        work_order=options.work_order,
        by=options.by,
        started=now.isoformat(timespec="seconds"),
    )
    return Session.start(header, create_journal(folder, header), clock, options.by)


def _go_on(record: Record, group: Group, options: Namespace, console: Console) -> Session:
    """The journal's own plan goes on; what was set aside or has changed since is told."""
    journal, told = open_journal(record.told.path)
    console.problems(told.problems)
    if fingerprint(group) != record.header.plan.fingerprint:
        console.tell(
            "The library has changed since this walk began: it goes on by its own plan. "
            "--new begins one with the new values."
        )
    return Session.start(record.header, journal, clock, options.by, told.events)


def _tell_others(others: tuple[Record, ...], console: Console) -> None:
    for record in others:
        console.tell(f"Bay {record.header.bay} has this walk open ({record.header.id}); it stays theirs.")


def _plan(group: Group, action: str, options: Namespace, console: Console) -> Plan | None:
    rack = rack_of(options, console)
    if rack is None:
        return None
    adapter = adapter_of(options.crowfoot, rack)
    if isinstance(adapter, Refusal):
        console.refuse(adapter)
        return None
    bench = Bench(
        today=clock().date(),
        rack=rack,
        wrench=options.wrench,
        parts=adapter.parts,
        adapter=adapter.words,
        unit=options.unit,
        place=options.place,
        action=action,
    )
    plan = make_plan(group, bench)
    if isinstance(plan, Refusal):
        console.refuse(plan)
        return None
    return plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """What stands between drive and fastener, as pieces and in words."""

    parts: tuple[Part, ...] = ()
    words: str = ""


def adapter_of(text: str, rack: Rack) -> Fitted | Refusal:
    """An adapter of the rack by its id, or pieces written as OFFSET[@ANGLE]."""
    if not text:
        return Fitted()
    adapter = rack.adapter(text)
    if adapter is not None:
        return Fitted(parts=adapter.pieces, words=adapter.name)
    pieces = read_pieces(text, rack)
    return pieces if isinstance(pieces, Refusal) else Fitted(parts=pieces, words=f"crowfoot {text}")
