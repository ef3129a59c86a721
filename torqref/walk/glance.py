"""A look at a journal: what a list shows of it, in the time that its events take to be checked.

Every line is held to all that a full read holds it to, so that damage is never overlooked; but events are
not kept, and not folded. Whatever the fold alone can tell is left to `torqref.walk.archive.read_record`.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from datetime import datetime
from functools import lru_cache
from pathlib import Path

from torqref.walk.codec import from_plain
from torqref.walk.event import Event
from torqref.walk.journal import DAMAGE, FORMAT, event_of, header_of
from torqref.walk.seal import SEAL_LENGTH, sealed_lines
from torqref.walk.soundness import Bounds, bounds_of, check_event
from torqref.walk.summary import Summary, walk_line

# An event as it is written, up to where its kinds begin to differ.
_BEGIN = re.compile(
    rb'\{"kind":"(?P<kind>[a-z-]+)","number":(?P<number>[1-9]\d*),"time":"(?P<time>[0-9T:.+-]+)"'
    rb'(?:,"by":(?P<by>"(?:[^"\\]|\\.)*"))?'
)
# Fields that are sound or not by the running number of their event, and those that `_BEGIN` takes.
_BY_NUMBER = frozenset(("kind", "number", "time", "by", "press", "undoes"))
_ANY = {"kind": "note", "number": 1, "time": "2026-01-01T00:00:00+00:00"}
Seen = tuple[str, str, str]


def glance(path: Path) -> Summary | None:
    """What a list shows of a walk; None where its file has a problem, or only the fold tells its state."""
    try:
        lines = sealed_lines(path.read_bytes())
    except OSError:
        return None
    try:
        return _line(path, lines) if lines is not None else None
    except DAMAGE:
        return None


def _line(path: Path, lines: list[bytes]) -> Summary | None:
    told = json.loads(lines[0])
    if told.get("format") != FORMAT:
        return None
    header = header_of(told)
    if header.job is not None:
        return None
    events = tuple(_events(lines, bounds_of(header.plan)))
    end = _end(events)
    if end is None:
        return None
    return walk_line(path, header, (by for _, _, by in events), *end)


def _end(events: Iterable[Seen]) -> tuple[str, str] | None:
    """How a walk stands and when it ended; None where something was taken back, or it may be waiting."""
    state, ended, waited = "open", "", False
    for kind, time, _ in events:
        if kind == "undo" and state != "open":
            return None
        if kind in ("finished", "abandoned"):
            # Abandoned outweighs finished, as in the fold.
            state, ended = "abandoned" if state == "abandoned" else kind, time
        waited = waited or kind == "due"
    return None if waited and state == "open" else (state, ended)


def _events(lines: list[bytes], bounds: Bounds) -> Iterator[Seen]:
    """Kind, time and name of every event, checked.

    Raises:
        ValueError, TypeError, KeyError: one is damaged.
    """
    for number, line in enumerate(lines[1:], start=1):
        begin = _BEGIN.match(line)
        if begin and int(begin["number"]) == number and _fits(line[begin.end() : -SEAL_LENGTH], bounds):
            yield begin["kind"].decode(), _time(begin["time"].decode()), _name(begin["by"])
        else:
            event = event_of(json.loads(line), number, bounds)
            yield event.kind, event.time, event.by


def _time(text: str) -> str:
    if datetime.fromisoformat(text).tzinfo is None:
        raise ValueError("a time without its zone")
    return text


@lru_cache(maxsize=256)
def _name(text: bytes | None) -> str:
    name: str = json.loads(text.decode()) if text is not None else ""
    return name


@lru_cache(maxsize=1 << 14)
def _fits(rest: bytes, bounds: Bounds) -> bool:
    """Whether an event is sound, whoever made it and whenever; False where that goes by its number.

    The same few ticks come in every walk of a group: what was found sound once is not taken apart again.

    Args:
        rest: the line behind the name.
        bounds: what it can name.

    Raises:
        ValueError, TypeError, KeyError: it is damaged.
    """
    if rest[:2] not in (b"", b',"'):
        return False
    fields = json.loads(b"{" + rest[1:] + b"}")
    if fields.keys() & _BY_NUMBER:
        return False
    check_event(from_plain(Event, {**fields, **_ANY}), bounds)
    return True
