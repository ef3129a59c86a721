"""An honest estimate where no value exists: clamp load and torque with a band, and what they are for.

It never stands in for the manufacturer's value, and it is refused where the parent may strip first and
nobody said what the parent is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from torqref.document.refusal import Refusal
from torqref.fastener.bearing import bearing_diameter_mm
from torqref.fastener.clamp import torque_factor, torque_Nm
from torqref.fastener.friction import ANTI_SEIZE, DRY, OILED, Condition, friction_classes
from torqref.fastener.geometry import Thread
from torqref.fastener.grade import Grade
from torqref.fastener.parent import STRIPPING_SHARE, Hole
from torqref.fastener.stripping import least_engagement_mm, stripping_load_kN

# Preload of a joint that is taken apart again (Shigley, 9th ed., eq. 8-31); 0.9 for a permanent one.
USUAL_UTILISATION = 0.75


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A number with the range it may have."""

    low: float
    target: float
    high: float

    def as_mapping(self) -> Mapping[str, float]:
        """The three numbers by name."""
        return {"low": self.low, "target": self.target, "high": self.high}


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """An estimate for one fastener.

    Args:
        thread: the thread.
        grade: the grade.
        stress_area_mm2: tensile stress area in mm².
        proof_load_kN: proof load in kN.
        clamp_load_kN: clamp load at the target torque, over the scatter of the condition, in kN.
        torque_Nm: torque for the target clamp load, over the scatter of the condition, in N·m.
        k: torque factor of the target.
        utilisation: share of proof load of the target clamp load.
        condition: the condition it is for, in words.
        basis: what it rests on, one sentence.
        stripping_load_kN: load that strips the parent, or None for a nut or hole of full strength.
        limited: whether the parent and not the bolt sets the target.
    """

    thread: Thread
    grade: Grade
    stress_area_mm2: float
    proof_load_kN: float
    clamp_load_kN: Band
    torque_Nm: Band
    k: float
    utilisation: float
    condition: str
    basis: str
    stripping_load_kN: float | None
    limited: bool

    def clamp_load_in(self, condition: Condition) -> float:
        """Clamp load in kN that the target torque would give in another condition: F · K / K'.

        A fact about the same torque, no new torque.
        """
        return self.clamp_load_kN.target * self.k / condition.k

    @property
    def other_conditions(self) -> tuple[tuple[Condition, float], ...]:
        """Dry, oiled and anti-seize, each with the clamp load in kN the target torque would give."""
        return tuple((other, self.clamp_load_in(other)) for other in (DRY, OILED, ANTI_SEIZE))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Factor:
    """The torque factor of an estimate with its scatter, and where it comes from."""

    k: float
    scatter: float
    condition: str
    source: str


def estimate(
    thread: Thread,
    grade: Grade,
    *,
    k: float | None = None,
    friction: float | None = None,
    condition: Condition | None = None,
    utilisation: float = USUAL_UTILISATION,
    hole: Hole | None = None,
) -> Estimate | Refusal:
    """Clamp load and torque for a thread and grade: F = u · Sp · As, T = K · F · d.

    Args:
        thread: the thread, metric or unified.
        grade: property class or grade.
        k: torque factor, if known; then the band is a single value unless a condition is named too.
        friction: coefficient of friction of thread and bearing face, if known; K then follows from the
            long form, as a single value unless a condition is named too.
        condition: condition of the threads; dry with K = 0.20 if nothing is said.
        utilisation: share of proof load wanted as clamp load.
        hole: parent material and engagement; None for a nut or hole of full strength.

    Returns:
        The estimate, or a refusal where nothing honest can be said.

    Limits: hexagon head or nut without locking drag, ambient temperature, stiff joint, below yield.

    >>> from torqref.fastener.thread import read_thread
    >>> from torqref.fastener.grade import BY_NAME
    >>> found = estimate(read_thread("M8"), BY_NAME["8.8"])
    >>> (round(found.clamp_load_kN.target, 1), round(found.torque_Nm.target, 1))
    (15.9, 25.5)
    """
    if refusal := _refusal(thread, hole):
        return refusal
    factor = _factor(thread, k, friction, condition)
    proof = grade.proof_load_kN(thread)
    strips = None if hole is None else stripping_load_kN(thread, hole.material, hole.engagement_mm)
    wanted = utilisation * proof
    allowed = wanted if strips is None else min(wanted, STRIPPING_SHARE * strips / (1 + factor.scatter))
    return Estimate(
        thread=thread,
        grade=grade,
        stress_area_mm2=thread.stress_area_mm2,
        proof_load_kN=proof,
        clamp_load_kN=_clamp_band(allowed, factor),
        torque_Nm=_torque_band(allowed, factor, thread),
        k=factor.k,
        utilisation=allowed / proof if allowed < wanted else utilisation,
        condition=factor.condition,
        basis=_basis(thread, grade, factor, allowed / proof, hole if allowed < wanted else None),
        stripping_load_kN=strips,
        limited=allowed < wanted,
    )


def _refusal(thread: Thread, hole: Hole | None) -> Refusal | None:
    if thread.system == "other":
        message = f"{thread.designation} is no bolt thread with a property class, so nothing can be estimated"
        return Refusal(text=thread.designation, message=message)
    if hole is not None and hole.engagement_mm < least_engagement_mm(thread):
        least = least_engagement_mm(thread)
        message = f"{hole.engagement_mm:g} mm of thread is too little to hold {thread.designation}"
        return Refusal(
            text=f"{hole.engagement_mm:g} mm", message=f"{message}; from {least:g} mm on there is an estimate"
        )
    return None


def _factor(thread: Thread, k: float | None, friction: float | None, condition: Condition | None) -> _Factor:
    words = condition.words if condition is not None else "the friction as given"
    scatter = 0.0 if condition is None else condition.scatter
    if k is not None:
        return _Factor(k=k, scatter=scatter, condition=words, source="K as given")
    if friction is not None:
        found = torque_factor(
            thread,
            thread_friction=friction,
            bearing_friction=friction,
            bearing_diameter_mm=bearing_diameter_mm(thread),
        )
        return _Factor(k=found, scatter=scatter, condition=words, source=_friction_source(friction))
    known = condition or DRY
    return _Factor(k=known.k, scatter=known.scatter, condition=known.words, source=known.source)


def _friction_source(friction: float) -> str:
    classes = " or ".join(found.words for found in friction_classes(friction))
    usual = f", usual for {classes}" if classes else ""
    return f"long form with friction {friction:g} in thread and under head{usual}"


def _clamp_band(target: float, factor: _Factor) -> Band:
    return Band(low=target * (1 - factor.scatter), target=target, high=target * (1 + factor.scatter))


def _torque_band(clamp: float, factor: _Factor, thread: Thread) -> Band:
    diameter = float(thread.diameter_mm)
    return Band(
        low=torque_Nm(clamp, factor.k / (1 + factor.scatter), diameter),
        target=torque_Nm(clamp, factor.k, diameter),
        high=torque_Nm(clamp, factor.k / (1 - factor.scatter), diameter),
    )


def k_figure(k: float) -> str:
    """A torque factor as the trade writes it.

    >>> k_figure(0.2), k_figure(0.1652)
    ('0.20', '0.165')
    """
    return f"{k:.3f}".removesuffix("0")


def _basis(thread: Thread, grade: Grade, factor: _Factor, share: float, hole: Hole | None) -> str:
    limit = ""
    if hole is not None:
        limit = f", held down by {hole.engagement_mm:g} mm of thread in {hole.material.name}"
    name = f"{thread.designation} {grade.name}"
    return (
        f"{share * 100:.0f} % of the proof load of {name} ({grade.source}){limit}; "
        f"T = K · F · d with K = {k_figure(factor.k)} for {factor.condition} ({factor.source})"
    )
