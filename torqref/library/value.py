"""Values in a library table: text as printed, read by the grammar, refused as problems with a place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TypeVar

from torqref.document.refusal import Refusal
from torqref.document.table import Table
from torqref.quantity.length import read_length
from torqref.quantity.measure import read_duration, read_measure
from torqref.quantity.reading import read_angle, read_term, read_torque
from torqref.quantity.term import Angle, Length, Measure, Term, Torque

Read = TypeVar("Read")


def torque_at(table: Table, name: str) -> Torque | None:
    """The torque under a key, or None with a problem told."""
    return _read(table, name, read_torque)


def angle_at(table: Table, name: str) -> Angle | None:
    """The angle under a key, or None with a problem told."""
    return _read(table, name, read_angle)


def term_at(table: Table, name: str) -> Term | None:
    """The chain of stages under a key, or None with a problem told."""
    return _read(table, name, read_term)


def length_at(table: Table, name: str) -> Length | None:
    """The length under a key, or None with a problem told."""
    return _read(table, name, read_length)


def measure_at(table: Table, name: str) -> Measure | None:
    """The reading with its limits under a key, or None with a problem told."""
    return _read(table, name, read_measure)


def minutes_at(table: Table, name: str) -> Fraction | None:
    """The duration under a key in minutes, or None with a problem told."""
    return _read(table, name, read_duration)


def _read(table: Table, name: str, reader: Callable[[str], Read | Refusal]) -> Read | None:
    text = table.text(name)
    if not text:
        return None
    found = reader(text)
    if isinstance(found, Refusal):
        tell_refusal(table, name, found)
        return None
    return found


def tell_refusal(table: Table, name: str, refusal: Refusal) -> None:
    """A refused text as a problem at its key."""
    mend = f"Write one of: {'; '.join(refusal.readings)}." if refusal.readings else "Write it as printed."
    table.tell(name, f'"{refusal.text}": {refusal.message}', mend)


def labels_at(table: Table, name: str) -> tuple[int, ...]:
    """Positions such as "3 4 7 8", "1-10" or a list of whole numbers; empty if the key is not there."""
    value = table.values.get(name)
    table.known.add(name)
    words: Sequence[object] = value if isinstance(value, list) else str(value or "").replace(",", " ").split()
    labels: list[int] = []
    for word in words:
        span = _span(str(word))
        if span is None:
            table.tell(name, f'"{word}" is not a position', 'Write positions as "3 4 7 8" or "1-10".')
            return ()
        labels.extend(span)
    return tuple(labels)


def _span(word: str) -> range | None:
    first, _, last = word.partition("-")
    ends = (first, last or first)
    if not all(end.isascii() and end.isdigit() and len(end) < 4 for end in ends):
        return None
    return range(int(first), int(last or first) + 1)
