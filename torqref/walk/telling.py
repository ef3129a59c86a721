"""What is to be known at once after a command, as one line."""

from __future__ import annotations

from collections.abc import Sequence

from torqref.pattern.layout import labels_text
from torqref.walk.event import Event

# Kinds whose own words are news to the person who gave the command.
_NEWS = ("found", "actual", "page", "measure", "wrench", "verify", "hand-over", "note", "later", "skip")


def told_of(events: Sequence[Event]) -> str:
    """The news of one command; empty where the next thing that is asked says it all."""
    first = events[0]
    bolts = labels_text(first.bolts)
    if first.kind == "undo":
        return f"taken back: {first.text}{f' of bolt {bolts}' if bolts and first.text != 'round' else ''}"
    if first.kind == "round" and first.afterwards and len(events) > 1:
        ticked = dict.fromkeys(labels_text(event.bolts) for event in events if event.kind == "check-off")
        return f"bolt {', '.join(ticked)} ticked as a whole; the record says so"
    if first.kind not in _NEWS or (first.kind == "note" and not first.gate):
        return ""
    if first.kind in ("later", "skip"):
        done = "put off" if first.kind == "later" else "left out of this round"
        return f"bolt {bolts} {done}" + (f": {first.text}" if first.text else "")
    named = first.value and first.text and first.kind != "wrench"
    value = f"{first.kind} {first.value}: " if named else ""
    return f"{value}{first.text}"
