"""What a plan made today would ask that an older one did not: values, stages, order and conditions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import zip_longest

from torqref.pattern.layout import labels_text
from torqref.quantity.term import Torque
from torqref.walk.plan import Plan, Round, Step

# Facts that change what is done, and how they are called.
_FACTS: Mapping[str, str] = {
    "thread": "thread",
    "grade": "class",
    "condition": "condition",
    "one_time": "used once only",
    "uses": "times a set may be tightened",
    "left_hand": "left-hand thread",
    "after_trouble": "after trouble",
    "second_check": "second check",
    "threadlocker": "threadlocker",
    "value_is": "what the value means",
    "cautions": "cautions",
    "alone": "cautions",
}


def differences(old: Plan, new: Plan) -> tuple[str, ...]:
    """What has changed from one plan to the other, a few words each; the tools do not count."""
    return (*_stages(old, new), *_facts(old, new))


def _stages(old: Plan, new: Plan) -> Iterator[str]:
    for before, after in zip_longest(_by_stage(old).values(), _by_stage(new).values()):
        if before is None:
            yield f"stage {after.stage} is new: {after.text}"
        elif after is None:
            yield f"stage {before.stage} is gone: {before.text}"
        else:
            yield from _stage(old, new, before, after)


def _by_stage(plan: Plan) -> dict[tuple[int, int], Round]:
    """The rounds of the first place; the other places ask the same."""
    first = next((round_.place for round_ in plan.rounds if round_.place), "")
    rounds = [round_ for round_ in plan.rounds if round_.place in ("", first)]
    return {(round_.stage, number): round_ for number, round_ in enumerate(rounds)}


def _stage(old: Plan, new: Plan, before: Round, after: Round) -> Iterator[str]:
    where = f"stage {after.stage}"
    if before.kind != after.kind or (before.text != after.text and not before.steps):
        yield f"{where}: {before.text} is now {after.text}"
        return
    values = tuple(_values(old, new, before, after))
    yield from (f"{where}{bolts}: {words}" for bolts, words in _grouped(values, len(after.steps)))
    if [step.labels for step in before.steps] != [step.labels for step in after.steps]:
        yield f"{where}: the order or the bolts have changed"
    if _modifiers(before) != _modifiers(after):
        yield f"{where}: what goes with it has changed"
    elif not values and before.text != after.text:
        yield f"{where}: {before.text} is now {after.text}"


def _modifiers(round_: Round) -> tuple[object, ...]:
    band = (round_.band.low, round_.band.high, round_.band.unit) if round_.band else None
    flags = (round_.recheck, round_.until_still, round_.each_bolt)
    return (*flags, round_.due_minutes, round_.due, round_.within, band, round_.words)


def _values(old: Plan, new: Plan, before: Round, after: Round) -> Iterator[tuple[tuple[int, ...], str]]:
    """Bolts whose value has changed, each with the words for it."""
    known = {step.labels: step for step in before.steps}
    for step in after.steps:
        earlier = known.get(step.labels)
        if earlier is not None and _said(old, earlier) != _said(new, step):
            yield step.labels, f"{_text(old, earlier)} is now {_text(new, step)}"


def _said(plan: Plan, step: Step) -> tuple[object, ...]:
    target = _target(plan, step)
    torque = (target.low, target.target, target.high, target.unit) if target else None
    return (torque, step.degrees, step.low, step.high, step.kind, step.note)


def _target(plan: Plan, step: Step) -> Torque | None:
    return plan.dials[step.dial].target if step.dial >= 0 else None


def _text(plan: Plan, step: Step) -> str:
    target = _target(plan, step)
    text = target.text if target else f"{step.degrees}°" if step.degrees is not None else step.kind
    return f"{text} ({step.note})" if step.note else text


def _grouped(values: tuple[tuple[tuple[int, ...], str], ...], steps: int) -> Iterator[tuple[str, str]]:
    """The same change at several bolts said once; at all bolts without their numbers."""
    together: dict[str, list[str]] = {}
    for labels, words in values:
        together.setdefault(words, []).append(labels_text(labels))
    for words, bolts in together.items():
        yield ("" if len(bolts) == steps else f", bolt {' '.join(bolts)}"), words


def _facts(old: Plan, new: Plan) -> Iterator[str]:
    told = set()
    for name, called in _FACTS.items():
        before, after = getattr(old, name), getattr(new, name)
        if before != after and called not in told:
            told.add(called)
            yield f"{called}: {_shown(before)} is now {_shown(after)}"


def _shown(value: object) -> str:
    if isinstance(value, tuple):
        return "; ".join(str(part) for part in value) or "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value) or "nothing"
