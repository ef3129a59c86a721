"""Whether a line of a journal makes sense: places that exist, times, units and numbers in their bounds.

The checksums notice every slip of a disk. This notices a line that fits its checksum and still cannot have
been written by a walk, so that everything behind it may take the plan and its events at their word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from torqref.pattern.geometry import straightened
from torqref.quantity.term import Measure, Torque
from torqref.quantity.units import TORQUE_SYMBOLS
from torqref.walk.event import Event
from torqref.walk.job_plan import JobPlan
from torqref.walk.plan import Dial, Plan, Round

_MOST_BOLTS = 1000
_MOST_DECIMALS = 20
_FARTHEST = 1e6
_TURN = re.compile(r"(-?\d{1,9}(/\d{1,9})?)?")
# What a name of a file may not hold: it would lead out of the folder of records.
_LEADING_OUT = frozenset("/\\\0")


def check_plan(plan: Plan) -> None:
    """Whether a walk can be walked by this plan.

    Raises:
        ValueError: it cannot; the words are for whoever mends the program.
    """
    _check_places(plan)
    labels = {position.label for position in plan.layout.positions}
    for round_ in plan.rounds:
        _check_round(round_, plan, labels)
    for dial in plan.dials:
        _check_dial(dial)
    _check_torques((plan.drag,))
    check_day(plan)


def check_day(plan: Plan) -> None:
    """Whether what a plan holds of its day makes sense: when its wrenches were left.

    Raises:
        ValueError: it does not.
    """
    _check_times(time for _, _, time in plan.stood)


def check_job(job: JobPlan) -> None:
    """Whether a job can be done by this plan.

    Raises:
        ValueError: it cannot.
    """
    _demand([step.number for step in job.steps] == list(range(1, len(job.steps) + 1)), "numbers of steps")
    _demand(all(0 < number <= len(job.steps) for step in job.steps for number in step.needs), "needs")
    _demand(job.signatures > 0, "nobody signs")
    _check_measures([step.band for step in job.steps] + [recheck.band for recheck in job.rechecks])


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """What the events of a walk can name; put together once a walk, as it has thousands of events.

    Args:
        rounds: how many rounds its plan has; none in a job.
        bolts: the labels of its bolts.
        dials: how many settings it has.
    """

    rounds: int
    bolts: frozenset[int]
    dials: int


def bounds_of(plan: Plan) -> Bounds:
    """What the events of a walk of this plan can name."""
    bolts = frozenset(position.label for position in plan.layout.positions)
    return Bounds(rounds=len(plan.rounds), bolts=bolts, dials=len(plan.dials))


def check_event(event: Event, bounds: Bounds) -> None:
    """Whether an event can have happened in a walk with these bounds; one without rounds is that of a job.

    Raises:
        ValueError: it cannot.
    """
    _demand(bool(event.time), "no time")
    _check_times((event.time, event.due, *(time for _, _, time in event.stood)))
    _demand(event.press <= event.number and 0 <= event.undoes < event.number, "numbers of a press")
    # Most events are ticks, and have nothing of this.
    for turn in (event.degrees, *event.limits) if event.degrees or event.limits else ():
        _demand(_TURN.fullmatch(turn) is not None, "degrees")
    _demand(_LEADING_OUT.isdisjoint(event.gate), "a name that leads out of the folder")
    if bounds.rounds:
        _demand(0 <= event.round <= bounds.rounds, "a round that is not there")
        _demand(-1 <= event.back_to < bounds.rounds, "a way back to nowhere")
        _demand(bounds.bolts.issuperset(event.bolts), "a bolt")
        _demand(len(event.dials) in (0, bounds.dials), "settings for other values")
    for dial in event.dials:
        _check_dial(dial)
    if event.drag is not None:
        _check_torques((event.drag,))


def _demand(holds: bool, what: str) -> None:
    if not holds:
        raise ValueError(what)


def _check_times(times: Iterable[str]) -> None:
    for time in times:
        _demand(not time or datetime.fromisoformat(time).tzinfo is not None, "a time without its zone")


def _check_places(plan: Plan) -> None:
    positions = plan.layout.positions
    _demand(0 < len(positions) <= _MOST_BOLTS, "number of bolts")
    _demand(len({position.label for position in positions}) == len(positions), "a label twice")
    _demand(all(position.label > 0 for position in positions), "a label below one")
    far = max(max(abs(position.x), abs(position.y)) for position in positions)
    _demand(far < _FARTHEST, "a bolt out of the picture")
    drawn = {(round(spot.x, 3), round(spot.y, 3)) for spot in straightened(plan.layout).positions}
    _demand(len(drawn) == len(positions), "two bolts in one place")
    _demand(bool(plan.rounds), "nothing to do")


def _check_round(round_: Round, plan: Plan, labels: set[int]) -> None:
    _demand(-1 <= round_.otherwise < len(plan.rounds), "a way back to nowhere")
    _check_measures((round_.band,))
    for step in round_.steps:
        _demand(set(step.labels) <= labels, "a bolt that is not in the picture")
        _demand(bool(step.labels) or step.kind == "measure", "a step without a bolt")
        _demand(-1 <= step.dial < len(plan.dials) and -1 <= step.spec < len(plan.dials), "a setting")
        _demand(step.degrees is not None or step.kind not in ("angle", "back_off"), "a turn without degrees")


def _check_dial(dial: Dial) -> None:
    _demand(dial.unit in TORQUE_SYMBOLS, "a unit")
    _check_torques((dial.target,))


def _check_torques(torques: Iterable[Torque | None]) -> None:
    for torque in torques:
        if torque is not None:
            _demand(torque.unit in TORQUE_SYMBOLS and 0 <= torque.decimals <= _MOST_DECIMALS, "a torque")
            _demand(any(value is not None for value in (torque.low, torque.target, torque.high)), "a torque")


def _check_measures(measures: Iterable[Measure | None]) -> None:
    for measure in measures:
        if measure is not None:
            _demand(0 <= measure.decimals <= _MOST_DECIMALS, "a measure")
