"""Values in a library table: text as printed, read by the grammar, refused as problems with a place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from torqref.document.table import Table
from torqref.quantity.length import read_length
from torqref.quantity.measure import read_duration, read_measure
from torqref.quantity.reading import read_angle, read_term, read_torque
from torqref.quantity.term import Angle, Length, Measure, Term, Torque


def torque_at(table: Table, name: str) -> Torque | None:
    """The torque under a key, or None with a problem told."""
    return table.read(name, read_torque, "24 N·m")


def angle_at(table: Table, name: str) -> Angle | None:
    """The angle under a key, or None with a problem told."""
    return table.read(name, read_angle, "90°")


def term_at(table: Table, name: str) -> Term | None:
    """The chain of stages under a key, or None with a problem told."""
    return table.read(name, read_term, "30 N·m + 90°")


def length_at(table: Table, name: str) -> Length | None:
    """The length under a key, or None with a problem told."""
    return table.read(name, read_length, "38 mm")


def measure_at(table: Table, name: str) -> Measure | None:
    """The reading with its limits under a key, or None with a problem told."""
    return table.read(name, read_measure, "0.03–0.13 mm")


def minutes_at(table: Table, name: str) -> Fraction | None:
    """The duration under a key in minutes, or None with a problem told."""
    return table.read(name, read_duration, "10 min")


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


def tell_doubled(table: Table, name: str, labels: tuple[int, ...], but: str = "") -> None:
    """Positions that stand twice under a key; one of them may be another position, typed wrong."""
    for label, times in sorted(Counter(labels).items()):
        if times > 1:
            table.tell(name, f"position {label} stands {times} times", f"Name each position once{but}.")


def _span(word: str) -> range | None:
    first, _, last = word.partition("-")
    ends = (first, last or first)
    if not all(end.isascii() and end.isdigit() and len(end) < 4 for end in ends):
        return None
    return range(int(first), int(last or first) + 1)
