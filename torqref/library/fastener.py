"""What is fitted at a position: thread, class, length, socket, and a value of its own where it differs."""

from __future__ import annotations

from dataclasses import dataclass

from torqref.document.refusal import Refusal
from torqref.document.table import Table
from torqref.library.value import angle_at, labels_at, tell_doubled
from torqref.quantity.reading import read_torque
from torqref.quantity.term import Angle, Torque


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """The fastener at some positions of a group.

    Args:
        at: the positions; empty for the group's own fastener.
        thread, grade, length, socket: as printed.
        torques: its own values, one for each torque stage that is no recheck; empty for the group's.
        angle: its own angle in every angle stage, or None.
        note: what to mind here, such as sealant on this thread only.
    """

    at: tuple[int, ...] = ()
    thread: str = ""
    grade: str = ""
    length: str = ""
    socket: str = ""
    torques: tuple[Torque, ...] = ()
    angle: Angle | None = None
    note: str = ""


def read_fasteners(table: Table, own: Fastener) -> tuple[Fastener, ...]:
    """The `[[group.fastener]]` tables; what one leaves out is the group's own."""
    fasteners = tuple(_read_fastener(inner, own) for inner in table.tables("fastener"))
    seen: set[int] = set()
    for number, fastener in enumerate(fasteners, start=1):
        doubled = sorted(seen & set(fastener.at))
        if doubled:
            table.tell(
                f"fastener[{number}].at",
                f"position {doubled[0]} is in two subsets",
                "Name each position in one subset only.",
            )
        seen |= set(fastener.at)
    return fasteners


def _read_fastener(table: Table, own: Fastener) -> Fastener:
    fastener = Fastener(
        at=labels_at(table, "at"),
        thread=table.text("thread", own.thread),
        grade=table.text("class", own.grade),
        length=table.text("length", own.length),
        socket=table.text("socket", own.socket),
        torques=_torques(table),
        angle=angle_at(table, "angle"),
        note=table.text("note"),
    )
    tell_doubled(table, "at", fastener.at)
    if not fastener.at and not table.told("at"):
        table.tell("at", "a subset needs its positions", 'Write at = "3 4 7 8".')
    table.close()
    return fastener


def _torques(table: Table) -> tuple[Torque, ...]:
    """One value, or a list with one value a torque stage."""
    torques = []
    for text in table.texts("torque"):
        found = read_torque(text)
        if isinstance(found, Refusal):
            table.refuse("torque", found, "10 N·m")
        else:
            torques.append(found)
    return tuple(torques)
