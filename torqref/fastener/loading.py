"""The bounds of a torque for one thread, grade, purpose and condition: which state a number falls into."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from torqref.fastener.clamp import clamp_load_kN
from torqref.fastener.friction import Condition, condition_in
from torqref.fastener.geometry import Thread
from torqref.fastener.grade import BY_NAME, Grade, Strength

State = Literal["usual", "low", "high", "beyond-yield", "cannot-be-right"]

# Share of proof load, T = K · F · d. The bounds are a factor below ten apart, so a point moved or
# inch-pounds pulled as foot-pounds never leads from one usual value to another. Published tables of
# 1/4 to 1-1/4 in shear nuts begin at 0.16, dry makers' values end near 1.05.
LOWEST_SHARE = 0.112
HIGHEST_SHARE = 1.10
# A torque before an angle only has to seat the joint.
LOWEST_SHARE_BEFORE_ANGLE = 0.03
# Without a grade: the stress of a clamp load that is little for even the weakest class, 4.6.
LOWEST_STRESS_MPa = 40.0
LOWEST_STRESS_BEFORE_ANGLE_MPa = 10.0
TYPICAL_SHARE = 0.7
TYPICAL_PROOF_MPa = 580.0

_K = 0.20
_K_OILED = 0.15
# Dry threads without plating (Shigley, Table 8-15): whoever says "it yields" at the vehicle says it
# even for these.
_K_ROUGH = 0.30
_STRONGEST = BY_NAME["12.9"]

# Seals, sensors, drives and adjusters do not aim at a clamp load. Their values lie along the square of
# the diameter: torque in N·m over diameter in mm squared, lowest and highest (common practice, no source).
# purpose: rows of (largest diameter in mm, lowest, highest)
_BANDS: dict[str, tuple[tuple[float, float, float], ...]] = {
    "seal": ((math.inf, 0.03, 0.50),),
    "sensor": ((math.inf, 0.03, 0.50),),
    "drive": ((math.inf, 0.01, 1.10),),
    "adjust": ((14, 0.004, 0.45), (math.inf, 0.003, 0.17)),
}
_NOUNS = {"seal": "a seal", "sensor": "a sensor", "drive": "a drive nut", "adjust": "an adjuster"}
_ALARM = 2.0  # how far above the highest usual value the vehicle has to hear of it


@dataclass(frozen=True, slots=True, kw_only=True)
class Loading:
    """Everything a torque is held against.

    Args:
        thread: the thread.
        grade: the grade, or None.
        purpose: what the fastener is for.
        condition: the condition of the value, or None where it is not known.
        then_angle: whether an angle stage follows.
    """

    thread: Thread
    grade: Grade | None
    purpose: str
    condition: Condition | None
    then_angle: bool

    @property
    def clamps(self) -> bool:
        """Whether the value is judged by its clamp load."""
        return self.purpose not in _BANDS

    @property
    def name(self) -> str:
        """The fastener in words."""
        grade = "" if self.grade is None or not self.clamps else f" {self.grade.name}"
        purpose = "" if self.clamps else f" as {_NOUNS[self.purpose]}"
        return f"{self.thread.designation}{grade}{purpose}"

    def on(self, thread: Thread) -> Loading:
        """The same on another thread."""
        return replace(self, thread=thread)

    def state(self, newton_metres: float) -> State:
        """The state of a torque in N·m."""
        return self._clamp_state(newton_metres) if self.clamps else self._band_state(newton_metres)

    def shares(self, newton_metres: float) -> tuple[float | None, float | None]:
        """Share of proof load at the roughest and at the smoothest friction; None where not judged so."""
        if self.grade is None or not self.clamps:
            return None, None
        smooth = _K_OILED if self.condition is None else self.condition.k_low
        rough = _K_ROUGH if self.condition is None else self.condition.k_high
        proof = self.grade.proof_load_kN(self.thread)
        return self._load(newton_metres, rough) / proof, self._load(newton_metres, smooth) / proof

    def nominal_share(self, newton_metres: float) -> float | None:
        """Share of proof load at the middle of the friction; None where not judged so."""
        if self.grade is None or not self.clamps:
            return None
        k = _K if self.condition is None else self.condition.k
        return self._load(newton_metres, k) / self.grade.proof_load_kN(self.thread)

    def closeness(self, newton_metres: float) -> float:
        """How far a torque lies from a typical one: 0 for typical, 1 for a factor of e."""
        if not newton_metres > 0:
            return math.inf
        if not self.clamps:
            lowest, highest = self._band()
            return abs(math.log(self._relative(newton_metres) / math.sqrt(lowest * highest)))
        proof = TYPICAL_PROOF_MPa if self.grade is None else self.grade.proof_MPa(self.thread)
        return abs(math.log(self._stress(newton_metres) / proof / TYPICAL_SHARE))

    def _clamp_state(self, newton_metres: float) -> State:
        strength = (self.grade or _STRONGEST).strength(self.thread)
        rough = max(_K_ROUGH, 0.0 if self.condition is None else self.condition.k_high)
        least = self._load(newton_metres, rough) * 1000 / self.thread.stress_area_mm2
        if least > strength.yield_MPa:
            return "cannot-be-right" if least > strength.tensile_MPa else "beyond-yield"
        stress = self._stress(newton_metres)
        if stress > HIGHEST_SHARE * strength.proof_MPa:
            return "high"
        return "low" if stress < self._lowest_stress(strength) else "usual"

    def _lowest_stress(self, strength: Strength) -> float:
        if self.grade is None:
            return LOWEST_STRESS_BEFORE_ANGLE_MPa if self.then_angle else LOWEST_STRESS_MPa
        return strength.proof_MPa * (LOWEST_SHARE_BEFORE_ANGLE if self.then_angle else LOWEST_SHARE)

    def _band_state(self, newton_metres: float) -> State:
        lowest, highest = self._band()
        relative = self._relative(newton_metres)
        if relative > highest:
            return "cannot-be-right" if relative > _ALARM * highest else "high"
        return "low" if relative < lowest else "usual"

    def _band(self) -> tuple[float, float]:
        rows = (row for row in _BANDS[self.purpose] if float(self.thread.diameter_mm) <= row[0])
        _, lowest, highest = next(rows)
        return lowest, highest

    def _relative(self, newton_metres: float) -> float:
        return newton_metres / float(self.thread.diameter_mm) ** 2

    def _stress(self, newton_metres: float) -> float:
        """Stress in MPa at the friction a value is judged by: that of dry threads, or rougher if it says so.

        A value for lubricated threads gets the benefit of the rough end of its scatter.
        """
        condition = self.condition
        k = _K if condition is None else max(condition.k, min(_K, condition.k_high))
        return self._load(newton_metres, k) * 1000 / self.thread.stress_area_mm2

    def _load(self, newton_metres: float, k: float) -> float:
        return clamp_load_kN(newton_metres, k, float(self.thread.diameter_mm))


def loading(
    thread: Thread,
    grade: Grade | None,
    *,
    purpose: str = "clamp",
    condition: str = "",
    then_angle: bool = False,
) -> Loading:
    """What a torque is held against; a pipe thread seals whatever the purpose says."""
    return Loading(
        thread=thread,
        grade=grade,
        purpose="seal" if thread.system == "other" and purpose == "clamp" else purpose,
        condition=condition_in(condition) if condition.strip() else None,
        then_angle=then_angle,
    )
