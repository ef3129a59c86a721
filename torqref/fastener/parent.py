"""What a bolt is screwed into: a parent that may strip before the bolt is tight."""

from __future__ import annotations

from dataclasses import dataclass

from torqref.document.refusal import Refusal
from torqref.fastener.clamp import clamp_load_kN
from torqref.fastener.friction import DRY, condition_in
from torqref.fastener.geometry import Thread
from torqref.fastener.stripping import Material, read_material, stripping_load_kN
from torqref.quantity.conversion import convert
from torqref.quantity.length import read_length
from torqref.quantity.term import Torque

# The most loaded bolt of a band may use this share of the load that strips the parent (judgement).
STRIPPING_SHARE = 0.8
# A printed value that takes more than this at the middle of the friction was hardly meant for this hole.
_NEAR_STRIPPING = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """What the bolt is screwed into.

    Args:
        material: parent material.
        engagement_mm: engagement of full thread in mm.
    """

    material: Material
    engagement_mm: float


def read_hole(parent: str, engagement: str, thread: Thread) -> Hole | Refusal:
    """Parent material and engagement as a person writes them; one without the other is refused."""
    material = read_material(parent) if parent.strip() else None
    if isinstance(material, Refusal):
        return material
    length = read_length(engagement) if engagement.strip() else None
    if isinstance(length, Refusal):
        return length
    if material is None or length is None:
        return _half_a_hole(material, engagement, thread)
    return Hole(material=material, engagement_mm=float(convert(length.value, length.unit, "mm")))


def _half_a_hole(material: Material | None, engagement: str, thread: Thread) -> Refusal:
    if material is None:
        readings = tuple(
            f"--parent {name} --engagement {engagement}" for name in ("steel", '"cast aluminium"')
        )
        message = "an engagement without its parent material says nothing about stripping"
        return Refusal(text=engagement, message=message, readings=readings)
    usual = f"{material.engagement * float(thread.diameter_mm):.3g}mm"
    message = (
        f"{thread.designation} in {material.name} may strip before it is tight, so the engagement is needed; "
        f"{material.engagement:g} times the diameter ({usual}) is usual"
    )
    return Refusal(
        text=material.name, message=message, readings=(f'--parent "{material.name}" --engagement {usual}',)
    )


def parent_warning(torque: Torque, thread: Thread, hole: Hole, condition: str = "") -> str:
    """One sentence if a torque brings the parent near stripping, as a steel-chart value may; else nothing.

    Args:
        torque: the torque as printed.
        thread: the thread.
        hole: parent material and engagement.
        condition: the condition of the value as its page words it.

    >>> from fractions import Fraction
    >>> from torqref.fastener.stripping import BY_NAME
    >>> from torqref.fastener.thread import read_thread
    >>> torque = Torque(low=None, target=Fraction(24), high=None, unit="N·m", decimals=0, text="24 N·m")
    >>> parent_warning(torque, read_thread("M8"), Hole(material=BY_NAME["cast aluminium"], engagement_mm=9))
    '24 N·m loads 9 mm of cast aluminium to about 78 % of stripping: look for a value made for this hole.'
    """
    known = condition_in(condition) or DRY
    newton_metres = float(convert(torque.aim, torque.unit, "N·m"))
    clamp = clamp_load_kN(newton_metres, known.k, float(thread.diameter_mm))
    strips = stripping_load_kN(thread, hole.material, hole.engagement_mm)
    if clamp <= _NEAR_STRIPPING * strips:
        return ""
    share = f"to about {clamp / strips * 100:.0f} % of stripping" if clamp < strips else "beyond stripping"
    where = f"{hole.engagement_mm:g} mm of {hole.material.name}"
    return f"{torque.text.strip()} loads {where} {share}: look for a value made for this hole."
