"""Torque and clamp load: the short form T = K · F · d, and the long form from friction and geometry."""

from __future__ import annotations

import math

from torqref.fastener.geometry import Thread

# Half the flank angle of metric and unified threads.
_FLANK = math.radians(30)


def torque_Nm(clamp_kN: float, k: float, diameter_mm: float) -> float:
    """Torque for a clamp load, short form: T = K · F · d.

    Args:
        clamp_kN: clamp load in kN.
        k: torque factor, dimensionless.
        diameter_mm: nominal diameter in mm.

    Returns:
        Torque in N·m.

    Limits: K holds everything that is not known, friction above all; below yield only.
    Source: Shigley's Mechanical Engineering Design, 9th ed., eq. 8-27.

    >>> round(torque_Nm(15.9, 0.20, 8), 1)
    25.4
    """
    return k * clamp_kN * diameter_mm


def clamp_load_kN(torque_Nm: float, k: float, diameter_mm: float) -> float:
    """Clamp load from a torque, short form: F = T / (K · d).

    Args:
        torque_Nm: torque in N·m.
        k: torque factor, dimensionless.
        diameter_mm: nominal diameter in mm.

    Returns:
        Clamp load in kN.

    >>> clamp_load_kN(24, 0.20, 8)
    15.0
    """
    return torque_Nm / (k * diameter_mm)


def torque_factor(
    thread: Thread, *, thread_friction: float, bearing_friction: float, bearing_diameter_mm: float
) -> float:
    """Torque factor K of the long form: everything that turns torque into clamp load, over d.

    K · d = d2/2 · (tan φ + μ sec α) / (1 − μ tan φ sec α) + μb · Db/2, with tan φ = P / (π d2), α = 30°.

    Args:
        thread: the thread; 60° threads only.
        thread_friction: coefficient of friction in the thread, μ.
        bearing_friction: coefficient of friction under the turning head or nut, μb.
        bearing_diameter_mm: mean diameter of the bearing face in mm, Db.

    Returns:
        K, dimensionless: T = K · F · d.

    Limits: plain flat bearing face, no prevailing torque, below yield.
    Source: Shigley's Mechanical Engineering Design, 9th ed., eq. 8-25 and 8-26 with d2 as mean diameter.

    >>> from torqref.fastener.thread import read_thread
    >>> k = torque_factor(read_thread("3/4-16"), thread_friction=0.15, bearing_friction=0.15,
    ...                   bearing_diameter_mm=1.25 * 19.05)
    >>> round(k, 3)
    0.189
    """
    slope = math.tan(thread.lead_angle)
    rub = thread_friction / math.cos(_FLANK)
    in_thread = thread.pitch_diameter_mm / 2 * (slope + rub) / (1 - rub * slope)
    under_head = bearing_friction * bearing_diameter_mm / 2
    return (in_thread + under_head) / float(thread.diameter_mm)


def assembly_load_kN(
    thread: Thread, *, yield_MPa: float, thread_friction: float, utilisation: float = 0.9
) -> float:
    """Clamp load at which tension and torsion together use a share of yield.

    F = ν · Rp · As / √(1 + 3 · [1.5 · d2/d0 · (P / (π d2) + 1.155 μ)]²), with d0 = (d2 + d3)/2.

    Args:
        thread: the thread; metric in the source.
        yield_MPa: yield or 0.2 % proof stress in MPa, Rp.
        thread_friction: coefficient of friction in the thread, μ.
        utilisation: share of yield used while tightening, ν; 0.9 in the tables of the source.

    Returns:
        Clamp load in kN.

    Limits: shank at least as thick as the stress diameter; torque-controlled tightening below yield.
    Source: VDI 2230 Part 1 (2003), eq. R8/1 and table A1.

    >>> from torqref.fastener.thread import read_thread
    >>> round(assembly_load_kN(read_thread("M8x1"), yield_MPa=640, thread_friction=0.10), 1)
    20.7
    """
    d2, d3 = thread.pitch_diameter_mm, thread.root_diameter_mm
    torsion = 1.5 * d2 / ((d2 + d3) / 2) * (math.tan(thread.lead_angle) + 1.155 * thread_friction)
    return utilisation * yield_MPa * thread.stress_area_mm2 / math.sqrt(1 + 3 * torsion**2) / 1000
