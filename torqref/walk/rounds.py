"""The rounds of a plan: the stages of the page as trips round the pattern, and the way back for loosening."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from torqref.library.fastener import Fastener
from torqref.library.group import Group
from torqref.library.stage import Stage
from torqref.pattern.layout import Order
from torqref.quantity.term import Torque
from torqref.walk.bench import Bench
from torqref.walk.plan import Round, Step

# Loosening in small turns, in reverse and in rounds: common practice, no source.
_LOOSENING = (("a quarter turn each", Fraction(-90)), ("half a turn more", Fraction(-180)))
# So few bolts do not pull anything crooked on their way out.
_AT_ONCE = 3
_OUT = "out by hand"


def tightening(group: Group, bench: Bench) -> tuple[tuple[Torque, ...], tuple[Round, ...]]:
    """All distinct printed values, and the rounds that point to them."""
    targets: dict[Torque, int] = {}
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
    """Place after place; stage after stage where a stage needs the vehicle in another state.

    A wait is waited once for all places, so everything before it comes first at every place.
    """
    for waits, members in groupby(bundles, key=lambda bundle: bundle[0][1].kind == "wait"):
        segment = tuple(members)
        if waits:
            yield from (("", bundle) for bundle in segment)
        elif by_stage:
            yield from ((place, bundle) for bundle in segment for place in places)
        else:
            yield from ((place, bundle) for place in places for bundle in segment)


def _round(group: Group, bundle: Bundle, place: str, targets: dict[Torque, int]) -> Round:
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
        yield f"FIRST: {stage.state}"
    if stage.hold:
        yield f"hold {stage.hold}"
    if stage.turn:
        yield f"turn {stage.turn}"
    if stage.meanwhile:
        yield f"while {stage.meanwhile}"


def _steps(group: Group, bundle: Bundle, targets: dict[Torque, int]) -> Iterator[Step]:
    _, first = bundle[0]
    if first.kind == "wait":
        return
    if first.kind == "measure" and not first.at:
        yield Step(labels=(), kind="measure")
        return
    again = first.revisit and len(set(first.at)) < len(first.at)
    in_turn = first.order is None and (first.kind == "measure" or again)
    visits = ((label,) for label in first.at) if in_turn else visits_of(first.order or group.order, first.at)
    for labels in visits:
        for place, stage in bundle:
            yield _fitted(_step(group, place, stage, labels, targets), group, stage)


def visits_of(order: Order, at: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """The visits of an order, only those at the named positions where any are named."""
    for visit in order.visits:
        kept = tuple(label for label in visit if not at or label in at)
        if kept:
            yield kept


def _step(
    group: Group, place: int, stage: Stage, labels: tuple[int, ...], targets: dict[Torque, int]
) -> Step:
    fastener = group.fastener(labels[0])
    note = _note(group, labels[0], stage)
    if group.threadlocker and stage.recheck:
        # Pulling breaks the bond of a cured threadlocker and proves nothing: its mark is looked at.
        return Step(labels=labels, kind="look", note=note)
    if stage.kind == "torque" or (stage.kind == "align" and stage.torque is not None):
        torque = _torque_at(group, place, stage, labels[0])
        return Step(labels=labels, kind=stage.kind, dial=_index(torque, targets), note=note)
    angle = fastener.angle if stage.kind == "angle" and fastener.angle else stage.angle
    if angle is None:
        return Step(labels=labels, kind=stage.kind, note=note)
    return Step(labels=labels, kind=stage.kind, degrees=angle.aim, low=angle.low, high=angle.high, note=note)


def _fitted(step: Step, group: Group, stage: Stage) -> Step:
    """The step with what is fitted at its position."""
    fastener = group.fastener(step.labels[0])
    thread = fastener.thread if fastener.thread != group.thread else ""
    grade = fastener.grade if fastener.grade != group.grade else ""
    return replace(step, thread=thread, grade=grade, length=_length(fastener, stage))


def _length(fastener: Fastener, stage: Stage) -> str:
    """The length matters while the bolts go into their holes; later it would only be in the way."""
    return fastener.length if stage.kind in ("place", "hand") else ""


def _torque_at(group: Group, place: int, stage: Stage, label: int) -> Torque:
    """The value at a position: the stage's, or the one of the subset it belongs to."""
    own = group.fastener(label).torques
    if stage.torque is None:
        raise ValueError("a torque stage holds a torque")
    if not own or stage.kind != "torque":
        return stage.torque
    before = sum(other.kind == "torque" and not other.recheck for other in group.stages[:place])
    return own[min(before, len(own) - 1)]


def _index(torque: Torque, targets: dict[Torque, int]) -> int:
    return targets.setdefault(torque, len(targets))


def _note(group: Group, label: int, stage: Stage) -> str:
    """What differs at a position: thread, length, socket, and the words of its subset."""
    fastener = group.fastener(label)
    differs = (
        fastener.thread if fastener.thread != group.thread else "",
        _length(fastener, stage),
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


def removal_of(group: Group) -> Order:
    """The order of loosening: the page's own, else the reverse of tightening."""
    if group.removal is not None:
        return group.removal
    visits = tuple(reversed(group.order.visits))
    return Order(visits=visits, basis=f"reverse of {group.order.basis}", generic=True)


def loosening(group: Group, bench: Bench) -> tuple[tuple[Torque, ...], tuple[Round, ...]]:
    """The values that the fasteners must have had, and the rounds in which they are taken out."""
    places = (bench.place,) if bench.place else (group.places or ("",))
    visits, targets = removal_of(group).visits, dict[Torque, int]()
    specs = {labels: _spec(group, labels, targets) for labels in visits}
    turns = () if len(group.layout.positions) <= _AT_ONCE else _LOOSENING
    rounds = []
    for place in places:
        for number, (text, degrees) in enumerate(turns, start=1):
            steps = tuple(
                Step(labels=labels, kind="loosen", degrees=degrees, spec=specs[labels]) for labels in visits
            )
            rounds.append(Round(stage=number, kind="loosen", text=text, steps=steps, place=place))
        out = tuple(Step(labels=labels, kind="hand", spec=specs[labels]) for labels in visits)
        text = _OUT if turns else f"loosen, then {_OUT}"
        rounds.append(Round(stage=len(turns) + 1, kind="hand", text=text, steps=out, place=place))
    return tuple(targets), tuple(rounds)


def _spec(group: Group, labels: tuple[int, ...], targets: dict[Torque, int]) -> int:
    """The last torque that the page asks for at these bolts; -1 where it asks for none."""
    pulled = [(place, stage) for place, stage in enumerate(group.stages) if stage.kind == "torque"]
    if not pulled or pulled[-1][1].torque is None:
        return -1
    return _index(_torque_at(group, *pulled[-1], labels[0]), targets)
