"""When the thread in the parent strips before the bolt: parent materials and thread engagement."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from torqref.document.escape import escape
from torqref.document.refusal import Refusal
from torqref.fastener.geometry import Thread

VDI_A9 = "VDI 2230 Part 1 (2003), Table A9, shear strengths (from memory)"
# Threads at the ends of an engagement carry little: VDI 2230 takes 0.8 pitch off (from memory).
_IDLE_PITCHES = 0.8
_FEWEST_PITCHES = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """What the hole is tapped in.

    Args:
        name: how torqref writes it.
        shear_MPa: least shear strength in MPa.
        engagement: usual engagement in diameters for a full-strength joint.
        source: where the shear strength comes from.
    """

    name: str
    shear_MPa: float
    engagement: float
    source: str = VDI_A9


MATERIALS: tuple[Material, ...] = (
    Material(name="steel", shear_MPa=300, engagement=1.0),
    Material(name="cast iron", shear_MPa=230, engagement=1.5),
    Material(name="cast aluminium", shear_MPa=110, engagement=2.0),
    Material(name="wrought aluminium", shear_MPa=170, engagement=2.0),
    Material(name="magnesium", shear_MPa=90, engagement=2.5),
    Material(name="brass", shear_MPa=150, engagement=1.5, source="from memory"),
)
BY_NAME: dict[str, Material] = {material.name: material for material in MATERIALS}
# First match wins.
_WORDS: tuple[tuple[str, str], ...] = (
    (r"magnesium", "magnesium"),
    (r"(wrought|extruded|billet|forged|606\d|7075|2024).*|.*\b(6061|6082|7075)\b", "wrought aluminium"),
    (r"al\b|alu\w*", "cast aluminium"),
    (r"brass|bronze", "brass"),
    (r"iron", "cast iron"),
    (r"steel", "steel"),
)

# Their strength goes with kind, filling and heat, and sleeves carry the clamp: common practice, no source.
_NO_ESTIMATE = re.compile(
    r"plastic|nylon|polyamid|\bpa ?\d|polypropylen|resin|composite|phenolic|rubber|wood", re.IGNORECASE
)


def is_without_estimate(text: str) -> bool:
    """Whether a parent is a material that is well known, and for which nobody can estimate stripping.

    >>> is_without_estimate("glass-filled plastic"), is_without_estimate("alumnium")
    (True, False)
    """
    return _NO_ESTIMATE.search(text) is not None


def read_material(text: str) -> Material | Refusal:
    """The parent material a person names; bare "aluminium" is read as cast, the weaker one.

    >>> read_material("aluminum").name
    'cast aluminium'
    """
    plain = " ".join(text.lower().split())
    name = next((name for pattern, name in _WORDS if re.search(pattern, plain)), None)
    if name is not None:
        return BY_NAME[name]
    return Refusal(
        text=text,
        message=f'no shear strength is known here for "{escape(text[:40])}", so no estimate can be made',
        readings=tuple(BY_NAME),
    )


def least_engagement_mm(thread: Thread) -> float:
    """The least engagement in mm for which stripping can be estimated: three pitches."""
    return _FEWEST_PITCHES * float(thread.pitch_mm)


def stripping_load_kN(thread: Thread, material: Material, engagement_mm: float) -> float:
    """Load in kN at which the tapped thread strips.

    F = τ · π · d · Le · (1/2 + (d − d2)/P · tan 30°), with Le = L − 0.8 P.

    Args:
        thread: the thread, 60° flanks.
        material: the parent, with its shear strength τ.
        engagement_mm: length of full thread in the hole that the bolt fills, L, in mm.

    Returns:
        Load in kN.

    Limits: the hole is the weaker side; full thread without damage, repair or coating.
    Source: VDI 2230 Part 1 (2003), section 5.5.5, without its corrections for tolerances (from memory).

    >>> from torqref.fastener.thread import read_thread
    >>> round(stripping_load_kN(read_thread("M8"), BY_NAME["cast aluminium"], 9))
    19
    """
    pitch, diameter = float(thread.pitch_mm), float(thread.diameter_mm)
    depth = (diameter - thread.pitch_diameter_mm) / pitch
    bearing = max(engagement_mm - _IDLE_PITCHES * pitch, 0.0)
    area = math.pi * diameter * bearing * (0.5 + depth * math.tan(math.radians(30)))
    return material.shear_MPa * area / 1000
