"""Checks of the stages of a group one after the other: what cannot be meant in this order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from torqref.library.group import Group
from torqref.library.pull import stage_key
from torqref.library.remark import Remark
from torqref.library.stage import Stage
from torqref.quantity.conversion import convert
from torqref.quantity.showing import show_angle, show_torque
from torqref.quantity.turn import turn_in_words

# The largest turn behind a torque that pages print in one stage is below a full one: our own limit.
_MOST_DEGREES = 360
_LOOSENED = ("back_off", "hand", "wait")


def check_threadlocker(group: Group) -> Iterator[Remark]:
    """A recheck on threadlocker breaks the cured bond."""
    for stage in group.stages:
        if group.threadlocker and stage.recheck:
            yield Remark(
                key=f"stage[{stage.number}].recheck",
                message="a recheck on threadlocker: pulling breaks the cured bond",
                mend="Leave the recheck out; look at the mark only.",
            )


def check_turn(group: Group) -> Iterator[Remark]:
    """More than a full turn behind a torque is no angle stage that is usual: a digit may be too much."""
    pulled = False
    for stage in group.stages:
        angle = stage.angle if stage.kind == "angle" else None
        if pulled and group.purpose == "clamp" and angle and angle.aim > _MOST_DEGREES:
            yield Remark(
                key=stage_key(group, stage),
                message=f"{show_angle(angle)} after a torque is {turn_in_words(angle.aim)}",
                mend="Look at the page again.",
                severity="hint",
            )
        pulled = pulled or stage.kind == "torque"


def check_recheck(group: Group) -> Iterator[Remark]:
    """A recheck needs something that was tightened before."""
    first = next((stage for stage in group.stages if stage.kind in ("torque", "angle")), None)
    if first is not None and first.recheck:
        yield Remark(
            key=f"stage[{first.number}].recheck",
            message="a recheck before anything was tightened",
            mend="Write the tightening stages before it, or take recheck = true off.",
        )


def check_start(group: Group) -> Iterator[Remark]:
    """An angle is counted from a seated joint."""
    first = next((stage for stage in group.stages if stage.kind != "place"), None)
    if first is not None and first.kind == "angle":
        yield Remark(
            key=stage_key(group, first),
            message="the angle is counted from nothing: no stage seats the joint before it",
            mend='Write the stage before it, such as torque = "30 N·m" or hand = "until it touches".',
        )


def check_steps(group: Group) -> Iterator[Remark]:
    """A stage below the one before clicks at once and does nothing: two values may be swapped."""
    for before, after in pairwise(_pulled(group)):
        if not (before.torque and after.torque) or (
            before.at and after.at and set(before.at) != set(after.at)
        ):
            continue
        if convert(after.torque.aim, after.torque.unit, before.torque.unit) < before.torque.aim:
            yield Remark(
                key=stage_key(group, after),
                message=(
                    f"{show_torque(after.torque)} after {show_torque(before.torque)}: "
                    "the wrench clicks at once and nothing is tightened"
                ),
                mend="Look whether two values are swapped, or write the back_off stage between them.",
            )


def _pulled(group: Group) -> Iterator[Stage]:
    """The torque stages; one that loosens, or lets the joint settle, begins anew with an empty stage."""
    for stage in group.stages:
        if stage.kind == "torque" or stage.kind in _LOOSENED:
            yield stage


def check_measure(group: Group) -> Iterator[Remark]:
    """A reading that nothing decides, or that leads back to a stage that is not there."""
    numbers = {stage.number for stage in group.stages}
    for stage in group.stages:
        if stage.kind == "measure" and stage.band is None and not stage.otherwise:
            yield Remark(
                key=f"stage[{stage.number}].measure",
                message="the reading has no limits: it is kept, and nobody can say whether it is right",
                mend='Write band = "0.03–0.13 mm", where the page gives limits.',
                severity="hint",
            )
        if stage.otherwise and stage.band is None:
            yield Remark(
                key=f"stage[{stage.number}].else",
                message="the reading sends back and has no limits",
                mend='Write band = "0.03–0.13 mm", as the page gives it.',
            )
        if stage.otherwise and (stage.otherwise not in numbers or stage.otherwise >= stage.number):
            yield Remark(
                key=f"stage[{stage.number}].else",
                message=f"there is no stage {stage.otherwise} before this one to go back to",
                mend='Write else = "stage 1", counted from the top of the group.',
                severity="error",
            )
