"""A screw thread and the diameters and areas that follow from it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

System = Literal["metric", "unified", "other"]

# Tensile stress area: how many pitches the effective diameter lies below the nominal one.
# ISO 898-1 takes the mean of d2 and d3, which is 0.9382 P; ASME B1.1 prints 0.9743 p.
_STRESS_DEPTH: dict[System, float] = {"metric": 0.9382, "unified": 0.9743, "other": 0.9743}
# Root of the external thread: ISO 724 d3 with rounded root; for inch threads the root of the thread
# strength tables, twice 0.649519 p below the nominal diameter.
_ROOT_DEPTH: dict[System, float] = {"metric": 1.226869, "unified": 1.299038, "other": 1.299038}
_PITCH_DEPTH = 0.649519


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """An external screw thread.

    Args:
        designation: how torqref writes it, such as `M8x1.25` or `3/8-16 UNC`.
        system: `metric` (ISO 68-1), `unified` (ASME B1.1) or `other` (pipe threads, Whitworth form).
        diameter_mm: nominal (outside) diameter in mm, exact.
        pitch_mm: pitch in mm, exact.
        coarse: whether the pitch is the coarse one of its size.
        left_hand: whether it tightens anticlockwise.
        notes: what was read in an unusual way, one sentence each.
    """

    designation: str
    system: System
    diameter_mm: Fraction
    pitch_mm: Fraction
    coarse: bool
    left_hand: bool = False
    notes: tuple[str, ...] = ()

    @property
    def stress_area_mm2(self) -> float:
        """Tensile stress area in mm².

        As = π/4 · (d − 0.9382 P)² for metric threads (ISO 898-1), π/4 · (d − 0.9743 p)² for unified
        threads (ASME B1.1). Only indicative for other threads, which no tensile standard covers.

        >>> thread = Thread(designation="M8x1.25", system="metric", diameter_mm=Fraction(8),
        ...                 pitch_mm=Fraction("1.25"), coarse=True)
        >>> round(thread.stress_area_mm2, 1)
        36.6
        """
        return _area(self._below(_STRESS_DEPTH[self.system]))

    @property
    def pitch_diameter_mm(self) -> float:
        """Pitch diameter in mm: d2 = d − 0.649519 P (ISO 724, ASME B1.1)."""
        return self._below(_PITCH_DEPTH)

    @property
    def root_diameter_mm(self) -> float:
        """Root diameter in mm: d3 = d − 1.226869 P (ISO 724); d − 1.299038 p for inch threads."""
        return self._below(_ROOT_DEPTH[self.system])

    @property
    def root_area_mm2(self) -> float:
        """Area of the root circle in mm²."""
        return _area(self.root_diameter_mm)

    @property
    def lead_angle(self) -> float:
        """Slope of the thread at the pitch diameter in radians: tan φ = P / (π d2)."""
        return math.atan2(float(self.pitch_mm), math.pi * self.pitch_diameter_mm)

    def _below(self, pitches: float) -> float:
        return float(self.diameter_mm) - pitches * float(self.pitch_mm)


def _area(diameter: float) -> float:
    return math.pi / 4 * diameter**2
