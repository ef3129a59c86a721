"""What the benchmarks work on: libraries of any size, patterns of any size, long walks and many walks."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from platform import node

from torqref.library.file import parse_library
from torqref.walk.codec import to_plain
from torqref.walk.journal import ENDING, Header, Told, read_journal
from torqref.walk.opening import Request, open_group
from torqref.walk.planner import Bench
from torqref.walk.seal import FIRST, hash_of, seal
from torqref.walk.session import Session

BAY = node()  # as the command calls this machine, so that it goes on with what is written here
A_FILE = 50  # groups in a file: a workshop manual of one engine has about as many
_NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
_HEAD = """\
format = 1
assembly = "Bench vehicle {number}"

[source]
kind = "invented"
title = "Practice values"
reference = "sheet {number}"
entered_by = "bench"
"""
_GROUP = """
[[group]]
id = "joint-{number:06d}"
name = "Cover {number} to housing"
aliases = ["lid {number}"]
thread = "M8x1.25"
class = "10.9"
socket = "13 mm hex"
condition = "dry"
{picture}
[[group.stage]]
hand = "run down until seated"
[[group.stage]]
torque = "{first} N·m"
[[group.stage]]
torque = "{low}–{high} N·m ({low_feet}–{high_feet} ft-lb)"
"""
_PICTURES = (
    "diagram = '''\n            FRONT\n   7   3   1   5   9\n   8   4   2   6   10\n'''",
    "diagram = '''\n 3 1\n 4 2\n'''",
    "diagram = '''\n   1   5\n 3       7    PULLEY\n 8       4\n   6   2\n'''",
    *(f"layout = {{ circle = {bolts} }}" for bolts in range(3, 25)),
    *(f"layout = {{ rows = [{bolts}, {bolts}] }}" for bolts in range(2, 12)),
    *(f"count = {bolts}" for bolts in range(1, 7)),
)
_FOOT_POUND = 1.3558179483314


def write_library(folder: Path, groups: int) -> Path:
    """A library of so many groups; values and pictures repeat in it as they do in one of a workshop."""
    dice = random.Random(groups)
    folder.mkdir(parents=True)
    for first in range(0, groups, A_FILE):
        text = _HEAD.format(number=first // A_FILE)
        for number in range(first, min(first + A_FILE, groups)):
            low = dice.randrange(18, 40) if number % 2 else dice.randrange(180, 280) / 10
            high = round(low * 1.15, 1) if number % 2 == 0 else low + 4
            text += _GROUP.format(
                number=number,
                picture=dice.choice(_PICTURES),
                first=dice.randrange(8, 16),
                low=low,
                high=high,
                low_feet=round(low / _FOOT_POUND, 1),
                high_feet=round(high / _FOOT_POUND, 1),
            )
        (folder / f"sheet-{first // A_FILE:05d}.toml").write_text(text, encoding="utf-8")
    return folder


def write_pattern(folder: Path, bolts: int, rounds: int) -> Path:
    """A library file with one group, `plate`, of so many bolts and torque rounds."""
    layout = f"{{ rows = [{', '.join(['10'] * (bolts // 10) + [str(bolts % 10)] * (bolts % 10 > 0))}] }}"
    stages = "".join(f'[[group.stage]]\ntorque = "{10 + number} N·m"\n' for number in range(rounds))
    text = (
        f'{_HEAD.format(number=1)}[[group]]\nid = "plate"\nname = "Benchplate"\ncondition = "dry"\n'
        f"layout = {layout}\n{stages}"
    )
    folder.mkdir(parents=True)
    (folder / "plate.toml").write_text(text, encoding="utf-8")
    return folder


def write_walk(folder: Path, specs: Path, events: int) -> Path:
    """A walk of the group `plate` with at least so many events, open at its last bolts; its journal."""
    group = parse_library((specs / "plate.toml").read_bytes(), "plate.toml").groups[0]
    request = Request(folder=folder, bay=BAY)
    opening = open_group(group, Bench(today=_NOON.date()), request, _clock())
    session = opening.session
    assert session is not None, opening.refusal
    while len(session.events) < events:
        _press(session)
    session.close()
    return session.journal.path


def _clock() -> Callable[[], datetime]:
    """A clock that goes on a second whenever it is looked at."""
    now = [_NOON]

    def look() -> datetime:
        now[0] += timedelta(seconds=1)
        return now[0]

    return look


def _press(session: Session) -> None:
    reply = session.do("done")
    assert not reply.refused, reply.refused


def write_walks(folder: Path, told: Told, walks: int, *, alike: bool = True) -> Path:
    """A folder with so many copies of one walk, each with its own name and time.

    Args:
        folder: a folder that is not there yet.
        told: the walk.
        walks: how many.
        alike: all of one plan, as a workshop that does the same every day; else no two share a plan or a line.
    """
    folder.mkdir(parents=True)
    assert told.header is not None
    for number in range(walks):
        began = _NOON + timedelta(minutes=number)
        name = f"{began:%Y%m%d-%H%M%S}-{told.header.plan.group}"
        header = replace(told.header, id=name, started=began.isoformat(timespec="seconds"))
        one = replace(told, header=header)
        (folder / f"{name}{ENDING}").write_bytes(sealed(one if alike else _unlike(one, header, number)))
    return folder


def _unlike(told: Told, header: Header, number: int) -> Told:
    """The same walk with a name and a value that no other one has."""
    plan = replace(header.plan, name=f"{header.plan.name} {number}")
    events = tuple(replace(event, value=f"set {number + 1} N·m") for event in told.events)
    return replace(told, header=replace(header, plan=plan), events=events)


def sealed(told: Told) -> bytes:
    """The bytes of a journal that says this."""
    data, before = b"", FIRST
    for fields in (to_plain(told.header), *(to_plain(event) for event in told.events)):
        line = seal(fields, before)
        data, before = data + line + b"\n", hash_of(line)
    return data


def read(path: Path) -> Told:
    """What a journal says; it must be whole."""
    told = read_journal(path)
    assert not told.problems
    return told
