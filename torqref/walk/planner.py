"""Makes a plan: a group and the wrenches at hand become rounds, steps and settings."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.library.stage import Stage
from torqref.pattern.layout import Order
from torqref.quantity.term import Torque
from torqref.walk.codec import to_plain
from torqref.walk.plan import Dial, Plan, Round, Step, WrenchFacts
from torqref.wrench.adapter import Part
from torqref.wrench.choice import Offer, choose
from torqref.wrench.rack import Rack, Wrench
from torqref.wrench.setting import Setting, setting_for

EMPTY_RACK = Rack()
REASONS = (
    "stripped",
    "snapped",
    "turns freely",
    "clicks before it is down",
    "feels wrong",
    "stud turns with the nut",
    "overshot",
)
TIGHTEN, LOOSEN = "tighten", "loosen"
MOST_IN_ANY_ORDER = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What the technician brings to a group.

    Args:
        rack: the wrenches and adapters at hand; empty where no rack was named.
        today: for calibration dates.
        wrench: id of the wrench asked for, empty for the best of the rack.
        parts: adapter pieces between drive and fastener; `adapter` says them in words.
        unit: the unit asked for on the dial, empty for the printed one.
        place: the one place asked for, empty for all.
        action: `tighten` or `loosen`.
        drag: measured drag of a locking nut, added to the value.
        doubt: why the value cannot be right, as plausibility says; empty for none.
    """

    today: date
    rack: Rack = EMPTY_RACK
    wrench: str = ""
    parts: tuple[Part, ...] = ()
    adapter: str = ""
    unit: str = ""
    place: str = ""
    action: str = TIGHTEN
    drag: Torque | None = None
    doubt: str = ""


def make_plan(group: Group, bench: Bench) -> Plan | Refusal:
    """The plan of a group with these tools, or why there is none and what would do."""
    if bench.place and bench.place not in group.places:
        message = f'"{bench.place}" is not a place of {group.id}'
        return Refusal(text=bench.place, message=message, readings=group.places)
    wrench = bench.rack.wrench(bench.wrench) if bench.wrench else None
    if bench.wrench and wrench is None:
        known = tuple(each.id for each in bench.rack.wrenches)
        return Refusal(text=bench.wrench, message=f'no wrench "{bench.wrench}" in the rack', readings=known)
    loosening = bench.action == LOOSEN
    targets, rounds = ((), _loosening(group, bench)) if loosening else _tightening(group, bench)
    dials: list[Dial] = []
    for target in targets:
        dial = dial_for(target, group, bench, wrench)
        if isinstance(dial, Refusal):
            return dial
        dials.append(dial)
    return _plan(group, bench, tuple(dials), rounds)


def fingerprint(group: Group) -> str:
    """A short mark of everything that a group says, to tell later whether its file has changed."""
    told = {name: value for name, value in to_plain(group).items() if name not in ("file", "line")}
    return hashlib.sha256(json.dumps(told, sort_keys=True).encode()).hexdigest()[:16]


def _plan(group: Group, bench: Bench, dials: tuple[Dial, ...], rounds: tuple[Round, ...]) -> Plan:
    order = group.order if bench.action == TIGHTEN else removal_of(group)
    return Plan(
        group=group.id,
        name=group.name,
        assembly=group.assembly,
        place=bench.place,
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
        condition=group.condition,
        conditions=conditions_of(group),
        cautions=tuple(caution.text for caution in group.cautions if not caution.alone),
        alone=tuple(caution.text for caution in group.cautions if caution.alone),
        before=group.before,
        after=group.after,
        layout=group.layout,
        dials=dials,
        rounds=rounds,
        after_trouble=group.after_trouble,
        second_check=group.second_check,
        threadlocker=group.threadlocker,
        wrenches=_facts(bench.rack, dials),
        reasons=group.trouble_reasons or REASONS,
        fingerprint=fingerprint(group),
        about=bench.doubt,
        value_is=group.value_is,
        drag=bench.drag,
        typed=group.typed,
    )


def conditions_of(group: Group) -> tuple[str, ...]:
    """Everything that must be so before the first pull, most important first, each in few words."""
    said = (
        (group.left_hand, "LEFT-HAND THREAD: tightens anticlockwise, facing it"),
        (bool(group.one_time), f"NEW {group.one_time}: used once only"),
        (bool(group.condition), group.condition),
        (group.blind_holes, "blind holes: blow them dry; trapped fluid cracks castings and fakes the click"),
        (group.threadlocker, "threadlocker: once cured, check the mark only and do not pull"),
        (group.locking, "locking nut: its measured drag is added"),
        (group.value_is == "setting with tool", "the printed value already includes the tool"),
        (bool(group.passes), f"ready-made passes, {group.passes}: generic, not the manufacturer's"),
        (bool(group.thread), "start every thread by hand; no gun for the last rounds"),
    )
    made_up = group.order.generic and len(group.layout.positions) > MOST_IN_ANY_ORDER
    order = (f"order {group.order.basis}",) if made_up else ()
    return (*(words for holds, words in said if holds), *group.before, *order)


# --- rounds ---------------------------------------------------------------------------------------


def _tightening(group: Group, bench: Bench) -> tuple[tuple[Torque, ...], tuple[Round, ...]]:
    """All distinct printed values, and the rounds that point to them."""
    targets: list[Torque] = []
    places = (bench.place,) if bench.place else (group.places or ("",))
    bundles = _bundles(group.stages)
    rounds: list[Round] = []
    for place, bundle in _visited(places, bundles, by_stage=any(stage.state for stage in group.stages)):
        rounds.append(_round(group, bundle, place, targets))
    return tuple(targets), tuple(_linked(rounds, group))


Bundle = tuple[tuple[int, Stage], ...]


def _bundles(stages: tuple[Stage, ...]) -> tuple[Bundle, ...]:
    """Stages with their running numbers; those of one chain with `each_bolt` stay together."""
    bundles: list[Bundle] = []
    for place, stage in enumerate(stages):
        if stage.each_bolt and bundles and bundles[-1][-1][1].number == stage.number:
            bundles[-1] = (*bundles[-1], (place, stage))
        else:
            bundles.append(((place, stage),))
    return tuple(bundles)


def _visited(
    places: tuple[str, ...], bundles: tuple[Bundle, ...], *, by_stage: bool
) -> Iterator[tuple[str, Bundle]]:
    """Place after place; stage after stage where the vehicle must be in another state: one wait for all."""
    if by_stage:
        for bundle in bundles:
            shared = len(places) > 1 and bundle[0][1].kind == "wait"
            yield from ((place, bundle) for place in (("",) if shared else places))
    else:
        yield from ((place, bundle) for place in places for bundle in bundles)


def _round(group: Group, bundle: Bundle, place: str, targets: list[Torque]) -> Round:
    _, first = bundle[0]
    texts = [stage.text for _, stage in bundle]
    return Round(
        stage=first.number,
        kind=first.kind,
        text=" + ".join(texts) if len(texts) > 1 else first.text,
        steps=tuple(_steps(group, bundle, targets)),
        place=place,
        recheck=first.recheck,
        until_still=first.until_still,
        each_bolt=first.each_bolt,
        due_minutes=first.due.minutes if first.due else None,
        due=first.due.text if first.due else "",
        within=first.within,
        band=first.band,
        words=tuple(_words(first)),
    )


def _words(stage: Stage) -> Iterator[str]:
    if stage.state:
        yield stage.state
    if stage.hold:
        yield f"hold {stage.hold}"
    if stage.turn:
        yield f"turn {stage.turn}"
    if stage.meanwhile:
        yield f"while {stage.meanwhile}"


def _steps(group: Group, bundle: Bundle, targets: list[Torque]) -> Iterator[Step]:
    _, first = bundle[0]
    if first.kind == "wait":
        return
    if first.kind == "measure" and not first.at:
        yield Step(labels=(), kind="measure")
        return
    for labels in visits_of(first.order or group.order, first.at):
        for place, stage in bundle:
            yield _step(group, place, stage, labels, targets)


def visits_of(order: Order, at: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """The visits of an order, only those at the named positions where any are named."""
    for visit in order.visits:
        kept = tuple(label for label in visit if not at or label in at)
        if kept:
            yield kept


def _step(group: Group, place: int, stage: Stage, labels: tuple[int, ...], targets: list[Torque]) -> Step:
    fastener = group.fastener(labels[0])
    note = _note(group, labels[0], stage)
    if stage.kind == "torque" or (stage.kind == "align" and stage.torque is not None):
        torque = _torque_at(group, place, stage, labels[0])
        return Step(labels=labels, kind=stage.kind, dial=_index(torque, targets), note=note)
    angle = fastener.angle if stage.kind == "angle" and fastener.angle else stage.angle
    if angle is None:
        return Step(labels=labels, kind=stage.kind, note=note)
    return Step(labels=labels, kind=stage.kind, degrees=angle.aim, low=angle.low, high=angle.high, note=note)


def _torque_at(group: Group, place: int, stage: Stage, label: int) -> Torque:
    """The value at a position: the stage's, or the one of the subset it belongs to."""
    own = group.fastener(label).torques
    if stage.torque is None:
        raise ValueError("a torque stage holds a torque")
    if not own or stage.kind != "torque":
        return stage.torque
    before = sum(other.kind == "torque" and not other.recheck for other in group.stages[:place])
    return own[min(before, len(own) - 1)]


def _index(torque: Torque, targets: list[Torque]) -> int:
    if torque not in targets:
        targets.append(torque)
    return targets.index(torque)


def _note(group: Group, label: int, stage: Stage) -> str:
    """What differs at a position: thread, length, socket, and the words of its subset."""
    fastener = group.fastener(label)
    differs = (
        fastener.thread if fastener.thread != group.thread else "",
        # the length matters while the bolts go into their holes; later it would only be in the way
        fastener.length if stage.kind in ("place", "hand") else "",
        fastener.socket if fastener.socket != group.socket else "",
        fastener.note,
    )
    return ", ".join(part for part in differs if part)


def _linked(rounds: list[Round], group: Group) -> Iterator[Round]:
    """`else = "stage 1"` as the index of that stage's round at the same place."""
    goals = {stage.number: stage.otherwise for stage in group.stages if stage.otherwise}
    for round_ in rounds:
        goal = goals.get(round_.stage, 0)
        found = [
            index for index, other in enumerate(rounds) if other.stage == goal and other.place == round_.place
        ]
        yield replace(round_, otherwise=found[0]) if found else round_


# Loosening in small turns, in reverse and in rounds: common practice, no source.
_LOOSENING = (("a quarter turn each", Fraction(-90)), ("half a turn more", Fraction(-180)))


def removal_of(group: Group) -> Order:
    """The order of loosening: the page's own, else the reverse of tightening."""
    if group.removal is not None:
        return group.removal
    visits = tuple(reversed(group.order.visits))
    return Order(visits=visits, basis=f"reverse of {group.order.basis}", generic=True)


def _loosening(group: Group, bench: Bench) -> tuple[Round, ...]:
    places = (bench.place,) if bench.place else (group.places or ("",))
    visits = removal_of(group).visits
    rounds = []
    for place in places:
        for number, (text, degrees) in enumerate(_LOOSENING, start=1):
            steps = tuple(Step(labels=labels, kind="loosen", degrees=degrees) for labels in visits)
            rounds.append(Round(stage=number, kind="loosen", text=text, steps=steps, place=place))
        out = tuple(Step(labels=labels, kind="hand") for labels in visits)
        last = len(_LOOSENING) + 1
        rounds.append(Round(stage=last, kind="hand", text="out by hand", steps=out, place=place))
    return tuple(rounds)


# --- settings -------------------------------------------------------------------------------------


def dial_for(target: Torque, group: Group, bench: Bench, wrench: Wrench | None) -> Dial | Refusal:
    """What to set for one printed value, with the wrench asked for or the best of the rack."""
    direction = "anticlockwise" if group.left_hand else "clockwise"
    if wrench is not None or not bench.rack.wrenches:
        setting = setting_for(
            target,
            wrench,
            bench.parts,
            drag=bench.drag,
            value_is=group.value_is,
            unit=bench.unit or None,
            direction=direction,
        )
        return setting if isinstance(setting, Refusal) else dial_of(target, setting, wrench, bench.adapter)
    offers = choose(
        target,
        bench.rack,
        bench.parts,
        today=bench.today,
        direction=direction,
        drag=bench.drag,
        value_is=group.value_is,
        unit=bench.unit or None,
    )
    return _best_dial(target, offers, group, bench)


def _best_dial(target: Torque, offers: tuple[Offer, ...], group: Group, bench: Bench) -> Dial | Refusal:
    """The best offer; where the rack has none that reaches, the bare value with the reason beside it."""
    best = next((offer for offer in offers if offer.setting is not None and not offer.blocked), None)
    if best is not None and best.setting is not None:
        return dial_of(target, best.setting, best.wrench, bench.adapter)
    reasons = "; ".join(f"{offer.wrench.id} {offer.reason}" for offer in offers)
    if bench.parts:
        message = f"no wrench of the rack fits with this adapter ({reasons})"
        return Refusal(text=target.text, message=message)
    bare = setting_for(target, drag=bench.drag, value_is=group.value_is)
    if isinstance(bare, Refusal):
        return bare
    dial = dial_of(target, bare, None, "")
    return replace(dial, notes=(f"no wrench of the rack fits: {reasons}", *dial.notes))


def dial_of(target: Torque, setting: Setting, wrench: Wrench | None, adapter: str) -> Dial:
    """A setting as the plan keeps it."""
    band = setting.at_fastener
    name = "" if wrench is None else ", ".join(part for part in (wrench.id, wrench.mark) if part)
    return Dial(
        target=target,
        value=setting.dial,
        unit=setting.unit,
        shown=setting.shown,
        wrench="" if wrench is None else wrench.id,
        wrench_name=name,
        with_adapter=adapter,
        low=band.low if band else None,
        high=band.high if band else None,
        notes=setting.notes,
    )


def _facts(rack: Rack, dials: tuple[Dial, ...]) -> tuple[WrenchFacts, ...]:
    used = {dial.wrench for dial in dials}
    return tuple(
        WrenchFacts(
            id=wrench.id,
            name=wrench.name,
            serial=wrench.serial,
            calibration_due=wrench.calibration_due.isoformat() if wrench.calibration_due else "",
        )
        for wrench in rack.wrenches
        if wrench.id in used
    )
