"""Seeded mutations of files: what a slip of the hand, a bad disk or a bad mind makes of them."""

from __future__ import annotations

import random
from collections.abc import Callable

NASTY = (
    b"\x00", b"\x1b[2J", b"\xff\xfe", b"\xef\xbb\xbf", "\u202e21".encode(), b"\r\n", b"\t", b"'''", b'"""',
    b"[[", b"]]", b"[/]", b"=", b"= = =", b"nan", b"inf", b"1e400", b"0x10", b"1_000", b"9" * 400, b"-5 N\xc2\xb7m",
    b"2,5", b"{", b"}" * 40, b"[" * 200, b"true", b"2026-01-01", b'""', b"[]", b"{}", b"a.b.c = 1\n",
    "½ ft-lb".encode(), "９９ N·m".encode(), b"../../etc/passwd", b"\\u001b", b"9**9**9", b"#",
)  # fmt: skip


def _flip(data: bytearray, dice: random.Random) -> None:
    data[dice.randrange(len(data))] ^= 1 << dice.randrange(8)


def _cut(data: bytearray, dice: random.Random) -> None:
    start = dice.randrange(len(data))
    del data[start : start + dice.randrange(1, 40)]


def _insert(data: bytearray, dice: random.Random) -> None:
    place = dice.randrange(len(data))
    data[place:place] = dice.choice(NASTY)


def _double(data: bytearray, dice: random.Random) -> None:
    start = dice.randrange(len(data))
    part = data[start : start + dice.randrange(1, 120)]
    data[start:start] = part


def _swap_lines(data: bytearray, dice: random.Random) -> None:
    lines = bytes(data).split(b"\n")
    one, two = dice.randrange(len(lines)), dice.randrange(len(lines))
    lines[one], lines[two] = lines[two], lines[one]
    data[:] = b"\n".join(lines)


def _swap_values(data: bytearray, dice: random.Random) -> None:
    """Give one key the value of another: right syntax, wrong kind."""
    lines = bytes(data).split(b"\n")
    keyed = [place for place, line in enumerate(lines) if b" = " in line]
    if len(keyed) > 1:
        one, two = dice.sample(keyed, 2)
        lines[one] = lines[one].split(b" = ", 1)[0] + b" = " + lines[two].split(b" = ", 1)[1]
        data[:] = b"\n".join(lines)


def _truncate(data: bytearray, dice: random.Random) -> None:
    del data[dice.randrange(len(data)) :]


MUTATIONS: tuple[Callable[[bytearray, random.Random], None], ...] = (
    _flip, _cut, _insert, _insert, _double, _swap_lines, _swap_values, _swap_values, _truncate,
)  # fmt: skip


def mutated(data: bytes, dice: random.Random) -> bytes:
    """A file with one to four mutations."""
    changed = bytearray(data)
    for _ in range(dice.randrange(1, 5)):
        if changed:
            dice.choice(MUTATIONS)(changed, dice)
    return bytes(changed)
