"""Ready-made passes: `passes = "flange"` turns the one final value of a group into a row of stages."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from torqref.document.nearest import nearest
from torqref.document.table import Table
from torqref.library.stage import Due, Stage
from torqref.pattern.layout import Layout
from torqref.pattern.order import round_of
from torqref.pattern.scheme import SCHEMES, Scheme, Step
from torqref.quantity.showing import show_number
from torqref.quantity.term import Torque

_WAIT_MINUTES = 60


def read_passes(table: Table, stages: tuple[Stage, ...], layout: Layout) -> tuple[Stage, ...]:
    """The stages of the scheme a group names; its own stages where it names none."""
    name = table.text("passes")
    if not name:
        return stages
    scheme = SCHEMES.get(name)
    if scheme is None:
        near = nearest(name, SCHEMES)
        mend = f'Did you mean "{near}"?' if near else f"Known passes: {', '.join(SCHEMES)}."
        table.tell("passes", f'"{name}" is not a ready-made scheme', mend)
        return stages
    finals = [stage for stage in stages if stage.kind == "torque"]
    if len(stages) != 1 or not finals:
        table.tell(
            "passes",
            f"passes makes the stages, and {len(stages)} are written",
            'Write one [[group.stage]] with the final value: torque = "140 N·m".',
        )
        return stages
    return expanded(scheme, finals[0], layout)


def expanded(scheme: Scheme, final: Stage, layout: Layout) -> tuple[Stage, ...]:
    """The stages of a scheme for one final value, in order, numbered from 1."""
    if final.torque is None:
        raise ValueError("the final stage holds a torque")
    stages: list[Stage] = []
    for step in scheme.steps:
        stage = _MADE[step.kind](replace(final, number=len(stages) + 1), step)
        if step.order == "circular":
            stage = replace(stage, order=round_of(layout))
        stages.append(stage)
    return tuple(stages)


def share_of(torque: Torque, share: Fraction) -> Torque:
    """A share of a final value: the value itself for all of it, else a bare number that says whose it is.

    One digit more than printed is kept where the share needs it; no window is made up.

    >>> from torqref.quantity.reading import read_torque
    >>> share_of(read_torque("140 N·m"), Fraction(3, 10)).text
    '42 N·m, 30 % of 140 N·m'
    """
    if share == 1:
        return torque
    exact = torque.aim * share
    decimals = torque.decimals if round(exact, torque.decimals) == exact else torque.decimals + 1
    value = round(exact, decimals)
    shown = f"{show_number(value, decimals)} {torque.unit}"
    return Torque(
        low=None,
        target=value,
        high=None,
        unit=torque.unit,
        decimals=decimals,
        text=f"{shown}, {show_number(share * 100, 0)} % of {torque.text}",
    )


def _pulled(stage: Stage, step: Step) -> Stage:
    """A torque stage at the share of the step."""
    torque = share_of(stage.torque, step.share) if stage.torque and step.share else stage.torque
    text = stage.text if torque is stage.torque or torque is None else torque.text
    return replace(stage, kind="torque", torque=torque, text=text)


def _snug(stage: Stage, step: Step) -> Stage:
    """The share of a snug round is the most it may take, and no value to pull to."""
    pulled = _pulled(stage, step)
    if pulled.torque is None:
        return pulled
    text = f"max {pulled.text}"
    most = replace(pulled.torque, target=None, high=pulled.torque.target, text=text)
    return replace(pulled, torque=most, text=text)


def _until_still(stage: Stage, step: Step) -> Stage:
    return replace(_pulled(stage, step), until_still=True)


def _recheck(stage: Stage, step: Step) -> Stage:
    return replace(_pulled(stage, step), recheck=True)


def _wheels_in_the_air(stage: Stage, step: Step) -> Stage:
    return replace(_pulled(stage, step), state="wheel off the ground")


def _weight_on_wheels(stage: Stage, step: Step) -> Stage:
    return replace(_pulled(stage, step), state="weight on the wheels")


def _by_hand(stage: Stage, step: Step) -> Stage:
    return Stage(kind="hand", number=stage.number, text=step.words)


def _wait(stage: Stage, step: Step) -> Stage:
    due = None
    if step.hours is not None:
        due = Due(minutes=step.hours * _WAIT_MINUTES, text=f"{show_number(step.hours, 0)} hours")
    return Stage(kind="wait", number=stage.number, text=step.words, due=due)


_MADE: dict[str, Callable[[Stage, Step], Stage]] = {
    "hand": _by_hand,
    "snug": _snug,
    "share": _pulled,
    "circular-until-still": _until_still,
    "recheck": _recheck,
    "wheels-in-the-air": _wheels_in_the_air,
    "weight-on-wheels": _weight_on_wheels,
    "wait": _wait,
}
