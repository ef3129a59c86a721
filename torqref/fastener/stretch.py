"""What a turn does to a bolt: stretch as a fact, never a torque."""

from __future__ import annotations

from torqref.fastener.geometry import Thread

STEEL_MODULUS_MPa = 205_000.0  # Young's modulus of bolt steel at room temperature


def added_stretch_mm(thread: Thread, degrees: float) -> float:
    """How far head and nut move towards each other in a turn: P · angle / 360.

    Bolt and joint share it; the bolt takes the larger part in a stiff joint.

    Args:
        thread: the thread.
        degrees: the turn in degrees.

    Returns:
        The travel in mm.

    >>> from torqref.fastener.thread import read_thread
    >>> added_stretch_mm(read_thread("M12"), 180)
    0.875
    """
    return float(thread.pitch_mm) * degrees / 360


def elastic_stretch_mm(stress_MPa: float, length_mm: float, modulus_MPa: float = STEEL_MODULUS_MPa) -> float:
    """Stretch of a bolt under a stress: σ · L / E, below yield.

    Args:
        stress_MPa: tensile stress in MPa.
        length_mm: stretched length in mm, about the clamped length.
        modulus_MPa: Young's modulus in MPa.

    Returns:
        Stretch in mm.

    >>> round(elastic_stretch_mm(830, 120), 2)
    0.49
    """
    return stress_MPa * length_mm / modulus_MPa
