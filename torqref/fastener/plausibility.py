"""Whether a torque is plausible for a thread, a grade and a purpose, and which slip would explain it.

A false alarm costs as much as a miss. So the bounds are generous, "low" and "high" are for the person
who keeps the library, and only what stretches or breaks the bolt under any friction is for the vehicle.
The loads behind a state are in `loading`, the slips in `slip`.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from torqref.fastener.geometry import Thread
from torqref.fastener.grade import Grade
from torqref.fastener.loading import Loading, State, loading
from torqref.fastener.slip import likely_slip
from torqref.quantity.conversion import convert
from torqref.quantity.term import Torque

__all__ = ["PURPOSES", "Plausibility", "State", "judge"]

PURPOSES = ("clamp", "seal", "adjust", "drive", "sensor")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plausibility:
    """What is to be thought of a torque.

    Args:
        state: `usual`, `low`, `high`, `beyond-yield` or `cannot-be-right`.
        share_low: share of proof load at the roughest friction of the condition; None if not judged so.
        share_high: share of proof load at the smoothest friction of the condition; None if not judged so.
        likely_slip: what would have been usual instead, in words; empty if nothing is near.
        sentence: the finding as one sentence for the technician.
        at_vehicle: whether the person with the wrench has to hear it.
    """

    state: State
    share_low: Fraction | None
    share_high: Fraction | None
    likely_slip: str
    sentence: str
    at_vehicle: bool


def judge(
    torque: Torque,
    thread: Thread,
    grade: Grade | None,
    *,
    purpose: str = "clamp",
    condition: str = "",
    then_angle: bool = False,
) -> Plausibility:
    """Judge a torque: clamp values by share of proof load, others by the slips of ten and twelve only.

    Args:
        torque: the torque as printed; its target counts, else its only limit.
        thread: the thread.
        grade: property class or grade; without one only what no class could carry is told.
        purpose: `clamp`, `seal`, `adjust`, `drive` or `sensor`; empty where nobody said it: then a clamp is
            supposed, and a value that is odd for one is told with that "if".
        condition: the condition of the value as its page words it, such as "threads oiled".
        then_angle: whether an angle stage follows, as with bolts tightened to yield.

    Returns:
        The state, the share of proof load over the friction of the condition, and the likely slip.

    Limits: T = K · F · d with K between 0.15 and 0.30 where no condition is known; the bounds are
    judgement, held against published torque tables. Pipe threads are judged as seals.

    >>> from torqref.fastener.thread import read_thread
    >>> from torqref.fastener.grade import BY_NAME
    >>> value = Fraction(96)
    >>> torque = Torque(low=None, target=value, high=None, unit="ft-lb", decimals=0, text="96 ft-lb")
    >>> judge(torque, read_thread("M6"), BY_NAME["8.8"]).likely_slip
    '96 in-lb or 9.6 ft-lb'
    """
    frame = loading(thread, grade, purpose=purpose or "clamp", condition=condition, then_angle=then_angle)
    newton_metres = float(convert(torque.aim, torque.unit, "N·m"))
    state = frame.state(newton_metres)
    slip = "" if state == "usual" else likely_slip(torque, frame)
    low, high = frame.shares(newton_metres)
    sentence = _sentence(torque, state, frame, newton_metres, slip)
    return Plausibility(
        state=state,
        share_low=None if low is None else Fraction(low),
        share_high=None if high is None else Fraction(high),
        likely_slip=slip,
        sentence=sentence if purpose or not frame.clamps else _supposed(sentence, state),
        at_vehicle=state in ("beyond-yield", "cannot-be-right"),
    )


_VERDICTS: dict[State, str] = {
    "usual": "is usual for {name}",
    "low": "is far too little for {name}",
    "high": "is more than is usual for {name}",
    "beyond-yield": "would stretch {name} for good",
    "cannot-be-right": "would break {name}",
}
_FAR_TOO_MUCH = "is far too much for {name}"


def _sentence(torque: Torque, state: State, frame: Loading, newton_metres: float, slip: str) -> str:
    verdict = _VERDICTS[state] if frame.clamps or state != "cannot-be-right" else _FAR_TOO_MUCH
    share = frame.nominal_share(newton_metres)
    of_proof = "" if share is None else f", about {_percent(share)} of its proof load"
    then = ", before the angle" if frame.then_angle else ""
    would_fit = f"; {slip} would fit" if slip else ""
    return f"{torque.text.strip()} {verdict.format(name=frame.name)}{of_proof}{then}{would_fit}."


def _supposed(sentence: str, state: State) -> str:
    """A value that is odd for a clamp may be right where nothing is clamped, and nobody said which it is."""
    if state not in ("low", "high"):
        return sentence
    return f"If it clamps, {sentence.rstrip('.')}. An adjusting nut, plug, drive or sensor may well have it."


def _percent(share: float) -> str:
    return f"{share * 100:.0f} %" if share >= 0.015 else f"{share * 100:.1g} %"
