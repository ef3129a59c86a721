"""Why a value of a group cannot be right for its thread, as the technician has to hear it."""

from __future__ import annotations

from collections.abc import Iterator

from torqref.library.fastener import Fastener
from torqref.library.group import Group
from torqref.quantity.term import Torque


def doubt_of(group: Group) -> str:
    """The first finding about a value that would stretch or break its fastener; empty where there is none.

    Only pulls to a torque are judged, each with the thread and class of its positions and its condition.
    A value that already holds the tool says nothing about the fastener and is left alone.
    """
    if group.value_is != "at fastener":
        return ""
    return next((sentence for sentence in _findings(group) if sentence), "")


def _findings(group: Group) -> Iterator[str]:
    # The largest value first: it is the one that breaks, and the one to be asked about.
    values = sorted(set(_values(group)), key=lambda value: -value[1].aim)
    for fastener, torque, then_angle in values:
        yield _judged(group, fastener, torque, then_angle=then_angle)


def _values(group: Group) -> Iterator[tuple[Fastener, Torque, bool]]:
    """Every fastener of the group with every torque it is pulled to, and whether an angle follows."""
    own = Fastener(thread=group.thread, grade=group.grade)
    turned = any(stage.kind == "angle" for stage in group.stages)
    for stage in group.stages:
        if stage.kind == "torque" and stage.torque is not None:
            yield own, stage.torque, turned
    for fastener in group.fasteners:
        torques = fastener.torques or tuple(stage.torque for stage in group.stages if stage.torque)
        yield from ((fastener, torque, turned) for torque in torques)


def _judged(group: Group, fastener: Fastener, torque: Torque, *, then_angle: bool) -> str:
    # Only what has a thread is judged, and a walk without one does not pay for the tables of threads.
    if not fastener.thread:
        return ""
    from torqref.fastener.grade import Grade, read_grade
    from torqref.fastener.plausibility import judge
    from torqref.fastener.thread import Thread, read_thread

    thread = read_thread(fastener.thread)
    if not isinstance(thread, Thread):
        return ""
    grade = read_grade(fastener.grade, thread) if fastener.grade else None
    found = judge(
        torque,
        thread,
        grade if isinstance(grade, Grade) else None,
        purpose=group.purpose,
        condition=group.condition,
        then_angle=then_angle,
    )
    return found.sentence if found.at_vehicle else ""
