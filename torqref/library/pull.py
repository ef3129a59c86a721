"""Every torque that a fastener of a group is pulled to, with where it stands and what comes after it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from torqref.library.fastener import Fastener
from torqref.library.group import Group
from torqref.library.stage import Stage
from torqref.quantity.term import Torque


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """One torque on one kind of fastener.

    Args:
        key: where the value stands, below the group.
        torque: the value.
        fastener: what is pulled; the group's own, or that of a subset.
        named: key of the thread of that fastener, below the group.
        last: whether no later stage pulls it further.
        then_angle: whether an angle stage follows.
    """

    key: str
    torque: Torque
    fastener: Fastener
    named: str
    last: bool
    then_angle: bool


def pulls(group: Group) -> Iterator[Pull]:
    """Every torque on every kind of fastener of the group; a recheck repeats one and is left out."""
    for named, fastener in fasteners(group):
        stages = [stage for stage in group.stages if _is_for(stage, fastener)]
        torques = [stage for stage in stages if stage.kind == "torque" and not stage.recheck]
        largest = max((_value(group, stage, fastener).aim for stage in torques), default=None)
        for stage in torques:
            torque = _value(group, stage, fastener)
            yield Pull(
                key=_key(group, stage, named, fastener),
                torque=torque,
                fastener=fastener,
                named=named,
                last=torque.aim == largest,
                then_angle=any(one.kind == "angle" for one in stages[stages.index(stage) :]),
            )


def _key(group: Group, stage: Stage, named: str, fastener: Fastener) -> str:
    """A subset without a value of its own is itself the place to look at."""
    if not named:
        return stage_key(group, stage)
    return f"{named}torque" if fastener.torques else named.rstrip(".")


def fasteners(group: Group) -> Iterator[tuple[str, Fastener]]:
    """Every kind of fastener with the key of its table, the group's own first where any position has it.

    Where the picture could not be read nobody knows the positions, and its own fastener is one of them.
    """
    subsets = {label for fastener in group.fasteners for label in fastener.at}
    if not group.layout.positions or set(group.layout.labels) - subsets:
        own = Fastener(thread=group.thread, grade=group.grade, length=group.length, socket=group.socket)
        yield "", own
    for number, fastener in enumerate(group.fasteners, start=1):
        yield f"fastener[{number}].", fastener


def stage_key(group: Group, stage: Stage) -> str:
    """Where the value of a stage stands: a chain is one text, passes have one stage."""
    if group.passes:
        return "stage[1].torque"
    members = sum(other.number == stage.number for other in group.stages)
    return f"stage[{stage.number}].{'chain' if members > 1 else stage.kind}"


def _is_for(stage: Stage, fastener: Fastener) -> bool:
    return not stage.at or not fastener.at or bool(set(stage.at) & set(fastener.at))


def _value(group: Group, stage: Stage, fastener: Fastener) -> Torque:
    """The value at this fastener: its own, one for each torque stage of the group, else the stage's."""
    assert stage.torque is not None
    if not fastener.torques:
        return stage.torque
    own = [other for other in group.stages if other.kind == "torque" and not other.recheck]
    return fastener.torques[min(own.index(stage), len(fastener.torques) - 1)]
