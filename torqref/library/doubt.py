"""Why a value of a group cannot be right for its thread, as the technician has to hear it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from torqref.library.fastener import Fastener
from torqref.library.group import Group
from torqref.quantity.term import Torque

if TYPE_CHECKING:
    from torqref.fastener.plausibility import Plausibility
    from torqref.library.quick import Typed


def doubt_of(group: Group) -> str:
    """The first finding about a value that would stretch or break its fastener; empty where there is none.

    Only pulls to a torque are judged, each with the thread and class of its positions and its condition.
    A value that already holds the tool says nothing about the fastener and is left alone.
    """
    if group.value_is != "at fastener":
        return ""
    return next((sentence for sentence in _findings(group) if sentence), "")


def verdict_of(typed: Typed) -> Plausibility | None:
    """What is to be thought of the last torque of a quick text for its thread; None without either."""
    torques = [stage for stage in typed.term.stages if isinstance(stage, Torque)]
    if typed.thread is None or not torques:
        return None
    from torqref.fastener.grade import BY_NAME
    from torqref.fastener.plausibility import judge

    after = typed.term.stages[typed.term.stages.index(torques[-1]) :]
    return judge(
        torques[-1],
        typed.thread,
        BY_NAME.get(typed.grade),
        purpose="",
        condition=typed.condition,
        then_angle=any(stage.kind == "angle" for stage in after),
    )


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
    return doubt_about(
        torque,
        thread=fastener.thread,
        grade=fastener.grade,
        purpose=group.purpose,
        condition=group.condition,
        then_angle=then_angle,
    )


def doubt_about(
    torque: Torque, *, thread: str, grade: str, purpose: str, condition: str, then_angle: bool
) -> str:
    """Why one value cannot be right for a fastener, as the technician has to hear it; empty where it can.

    Args:
        torque: the value.
        thread: of the fastener, as printed; without one nothing is judged.
        grade: its class or grade, empty if unknown.
        purpose: what it is for, as a group says.
        condition: of its threads.
        then_angle: whether it is turned by an angle afterwards.
    """
    # Only what has a thread is judged, and a walk without one does not pay for the tables of threads.
    if not thread:
        return ""
    from torqref.fastener.grade import Grade, read_grade
    from torqref.fastener.plausibility import judge
    from torqref.fastener.thread import Thread, read_thread

    known = read_thread(thread)
    if not isinstance(known, Thread):
        return ""
    found_grade = read_grade(grade, known) if grade else None
    found = judge(
        torque,
        known,
        found_grade if isinstance(found_grade, Grade) else None,
        purpose=purpose,
        condition=condition,
        then_angle=then_angle,
    )
    return found.sentence if found.at_vehicle else ""
