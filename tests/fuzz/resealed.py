"""Journals sealed anew: every checksum fits, and what stands in the lines is garbage."""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from torqref.walk.seal import FIRST, hash_of, seal

Line = dict[str, Any]
GARBAGE: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 7, 10**6, 10**30, -(10**30), 1.5, 1e308, float("inf"), float("nan"), "", "x",
    "1/0", "1e999999", "nan", "-3/7", "9" * 500, "9" * 5000, "\x1b[2J", "\u202e21", "[/]", "../../x", [], [[]],
    {}, {"a": 1}, ["x"], [1], [0], [-1], [None], [True], [10**9], [[1, 2], [3]], "2026-13-45T99:99",
    "2026-03-02T08:00:00", "2026-03-02T08:00:00+02:00", "check-off", "undo", "finished", "angle", "torque",
    "wait", "signed", "walk", "N·m", "ft-lb", "furlong", "Ada",
)  # fmt: skip


def lines_of(path: Path) -> list[Line]:
    """The lines of a journal without their seals."""
    lines = []
    for text in path.read_bytes().splitlines():
        line = json.loads(text)
        del line["before"], line["sum"]
        lines.append(line)
    return lines


def sealed(lines: list[Line]) -> bytes:
    """A journal of these lines, with seals that fit."""
    data, before = b"", FIRST
    for fields in lines:
        line = seal(fields, before)
        data, before = data + line + b"\n", hash_of(line)
    return data


def spoiled(lines: list[Line], dice: random.Random) -> list[Line]:
    """The lines with one to three values, fields or lines changed."""
    changed = copy.deepcopy(lines)
    for _ in range(dice.randrange(1, 4)):
        _spoil(changed, dice)
    if dice.random() < 0.8:
        # A wrong running number is found at once: mostly the others are what is looked for.
        for number, line in enumerate(changed[1:], start=1):
            line["number"] = number
    return changed


def _spoil(lines: list[Line], dice: random.Random) -> None:
    kind = dice.random()
    if kind < 0.15 and len(lines) > 2:
        _move(lines, dice)
        return
    # The header is one line among many and holds most of what can be wrong.
    inside = lines[dice.randrange(len(lines)) if dice.random() < 0.5 else 0]
    owner, key = dice.choice(list(_places(inside)))
    if kind < 0.3:
        del owner[key]
    elif kind < 0.45:
        other, name = dice.choice(list(_places(dice.choice(lines))))
        owner[key] = copy.deepcopy(other[name])
    else:
        owner[key] = copy.deepcopy(dice.choice(GARBAGE))


def _move(lines: list[Line], dice: random.Random) -> None:
    place = dice.randrange(1, len(lines))
    if dice.random() < 0.5:
        del lines[place]
    else:
        lines.insert(dice.randrange(1, len(lines)), copy.deepcopy(lines[place]))


def _places(inside: Any) -> Iterator[tuple[Any, Any]]:
    """Every value inside a line, as what holds it and under which key."""
    keys = inside if isinstance(inside, dict) else range(len(inside)) if isinstance(inside, list) else ()
    for key in list(keys):
        yield inside, key
        yield from _places(inside[key])
