"""Makes a plan: a group and the wrenches at hand become rounds, steps and settings."""

from __future__ import annotations

import hashlib
import json

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.walk.bench import LOOSEN, TIGHTEN, Bench
from torqref.walk.codec import to_plain
from torqref.walk.condition import conditions_of, loosening_of
from torqref.walk.dialling import bare_dial, dial_for, used_facts
from torqref.walk.plan import Dial, Plan, Round
from torqref.walk.rounds import loosening, removal_of, tightening

__all__ = ["LOOSEN", "TIGHTEN", "Bench", "conditions_of", "fingerprint", "make_plan"]

REASONS = (
    "stripped",
    "snapped",
    "turns freely",
    "clicks before it is down",
    "feels wrong",
    "stud turns with the nut",
    "overshot",
)


def make_plan(group: Group, bench: Bench) -> Plan | Refusal:
    """The plan of a group with these tools, or why there is none and what would do."""
    if bench.place and bench.place not in group.places:
        message = f'"{bench.place}" is not a place of {group.id}'
        return Refusal(text=bench.place, message=message, readings=group.places)
    wrench = bench.rack.wrench(bench.wrench) if bench.wrench else None
    if bench.wrench and wrench is None:
        return bench.rack.lacking(bench.wrench)
    taken_apart = bench.action == LOOSEN
    targets, rounds = loosening(group, bench) if taken_apart else tightening(group, bench)
    if bench.drag is not None and not taken_apart:
        from torqref.walk.window import drag_refused

        if wrong := drag_refused(bench.drag, targets):
            return Refusal(text=bench.drag.text, message=wrong.rstrip("."))
    dials: list[Dial] = []
    for target in targets:
        dial = bare_dial(target, group, bench) if taken_apart else dial_for(target, group, bench, wrench)
        if isinstance(dial, Refusal):
            return dial
        dials.append(dial)
    return _plan(group, bench, tuple(dials), rounds)


def fingerprint(group: Group) -> str:
    """A short mark of everything that a group says, to tell later whether its file has changed."""
    told = {name: value for name, value in to_plain(group).items() if name not in ("file", "key")}
    return hashlib.sha256(json.dumps(told, sort_keys=True).encode()).hexdigest()[:16]


def _plan(group: Group, bench: Bench, dials: tuple[Dial, ...], rounds: tuple[Round, ...]) -> Plan:
    order = group.order if bench.action == TIGHTEN else removal_of(group)
    return Plan(
        group=group.id,
        name=group.name,
        assembly=group.assembly,
        place=bench.place,
        places=group.places,
        action=bench.action,
        thread=group.thread,
        grade=group.grade,
        purpose=group.purpose,
        socket=group.socket,
        source=group.source.sentence(),
        invented=group.source.invented,
        unverified=not group.source.verified_by,
        generic=order.generic,
        order_basis=order.basis,
        left_hand=group.left_hand,
        seen_from=group.seen_from,
        mirrored=group.mirrored,
        one_time=group.one_time,
        uses=group.uses if bench.action == TIGHTEN else 0,
        condition=group.condition,
        provisos=bench.provisos,
        conditions=conditions_of(group, bench.drag) if bench.action == TIGHTEN else loosening_of(group),
        cautions=tuple(caution.text for caution in group.cautions if not caution.alone),
        alone=tuple(caution.text for caution in group.cautions if caution.alone),
        before=group.before,
        after=group.after if bench.action == TIGHTEN else (),
        layout=group.layout,
        dials=dials,
        rounds=rounds,
        # taking apart has no pattern to begin again and nothing to check twice
        after_trouble=group.after_trouble if bench.action == TIGHTEN else "this place",
        second_check=group.second_check if bench.action == TIGHTEN else "",
        threadlocker=group.threadlocker,
        locking=group.locking,
        wrenches=used_facts(group, bench, dials) if bench.action == TIGHTEN else (),
        reasons=group.trouble_reasons or REASONS,
        fingerprint=fingerprint(group),
        about=bench.doubt,
        value_is=group.value_is,
        drag=bench.drag,
        typed=group.typed,
    )
