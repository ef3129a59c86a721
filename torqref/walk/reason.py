"""Why it is done so: what an apprentice asks at the vehicle, answered from the plan and only when asked.

The sentences about rounds are common practice, no source, but for the turn by degrees: tightening by torque
scatters more in clamp load than tightening by angle (VDI 2230 Part 1, 2003, Table A8, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from torqref.library.source import DEFER
from torqref.pattern.order import GENERIC
from torqref.walk.moment import Moment, goal
from torqref.walk.plan import Dial, Plan, Round
from torqref.walk.state import Progress
from torqref.wrench.figure import figures

_LOOSENING = "In rounds: the last tight bolt would carry everything, and a part free at one side only warps."
_STEPS = (
    "In rounds: each bolt that is pulled takes load from its neighbours, so the joint is closed in steps."
)
_RECHECK = "Never loosened first: gaskets and paint settle, and a bolt that moves now had lost load."
_STILL = "Round and round until nothing moves: only then has no bolt lost load to its neighbours."
_EACH = "One bolt through all of it before the next: the page wants it so here."
_KINDS = {
    "place": "Each length in its own hole: too long clamps nothing, too short strips the thread.",
    "hand": "By fingers first: a thread that does not run by hand is crossed or dirty; a wrench hides that.",
    "angle": "Degrees after a torque: friction takes most of a torque and differs from bolt to bolt; "
    "a turn stretches every bolt alike.",
    "back_off": "Loosened once more: the parts have settled, and every bolt begins from the same place.",
    "align": "On to the slot, within what the page allows: a nut between two slots cannot be locked.",
    "measure": "A reading decides whether the work before it was right; it is no matter of feel.",
    "wait": "The joint settles meanwhile; what is pulled too early is pulled at the wrong moment.",
}


def reasons(progress: Progress, moment: Moment) -> tuple[str, ...]:
    """Why this is asked now, one sentence each: the round, the number, the order, the source.

    Args:
        progress: the walk so far.
        moment: what it asks for.

    Returns:
        Sentences, the nearest first; the last two say where the values come from and who comes first.

    Limits:
        What only the page can know, such as why a value is what it is, is not guessed.
    """
    plan = progress.plan
    round_, place = goal(progress, moment)
    step = round_.steps[place] if round_ and 0 <= place < len(round_.steps) else None
    return (
        *_round_reasons(plan, round_ or progress.current),
        *_number_reasons(progress, progress.dial(step) if step else None),
        *_order_reasons(plan),
        *(f"{words[:1].upper()}{words[1:]}." for words in plan.provisos),
        f"From: {plan.source or 'no source is given'}.",
        DEFER,
    )


def _round_reasons(plan: Plan, round_: Round | None) -> Iterator[str]:
    if plan.action == "loosen":
        yield _LOOSENING
        return
    if round_ is None:
        return
    said = (
        (round_.kind in _KINDS and not round_.recheck, _KINDS.get(round_.kind, "")),
        (round_.kind == "torque" and not round_.recheck and _is_in_steps(plan, round_), _STEPS),
        (round_.recheck, _RECHECK),
        (round_.until_still, _STILL),
        (round_.each_bolt, _EACH),
    )
    yield from (words for holds, words in said if holds)


def _is_in_steps(plan: Plan, round_: Round) -> bool:
    """Whether the same bolts are pulled to a torque in more stages than this one."""
    pulled = {other.stage for other in plan.rounds if other.kind == "torque" and not other.recheck}
    return plan.bolts > 1 and len(pulled | {round_.stage}) > 1


def _number_reasons(progress: Progress, dial: Dial | None) -> Iterator[str]:
    """Why this number: the page's value, the lever, the drag, and what arrives."""
    if dial is None:
        return
    target, drag = dial.target, progress.drag
    if dial.unit != target.unit:
        yield f"The page says {target.text}; {dial.shown} {dial.unit} is the same torque on this scale."
    if drag is not None:
        yield f"The drag of {drag.text} only turns the nut; it is added, so that the joint gets its torque."
    if dial.with_adapter:
        yield f"Set for {dial.with_adapter}: what is on the drive changes the lever of the wrench."
    if target.low is None and target.target is None:
        yield "The page gives a maximum only: the aim is below it, by what the wrench may be off."
    if dial.low is not None and dial.high is not None:
        yield _arrival(dial, dial.low, dial.high)
    yield from dial.notes


def _arrival(dial: Dial, low: Fraction, high: Fraction) -> str:
    """What arrives, and what the page allows where it gives limits."""
    least, most = dial.target.low, dial.target.high
    allowed = ""
    if least is not None and most is not None:
        allowed = f"; the page allows {figures(least)} to {figures(most)} {dial.target.unit}"
    return (
        f"Set to {dial.shown}, the fastener may get {figures(low)} to {figures(high)} {dial.unit}: "
        f"tolerance, half a mark and lengths at their worst{allowed}."
    )


def _order_reasons(plan: Plan) -> Iterator[str]:
    if plan.bolts < 2 or not plan.order_basis:
        return
    if plan.generic and plan.action == "tighten":
        told = "" if GENERIC in plan.order_basis else f" ({GENERIC})"
        yield f"Order: {plan.order_basis}{told}. It keeps the parts level while they come together."
    else:
        yield f"Order: {plan.order_basis}."
