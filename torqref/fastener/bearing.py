"""The face that turns under a head or nut: washer-face and hole diameters of usual hexagons."""

from __future__ import annotations

from fractions import Fraction

from torqref.fastener.geometry import Thread

SOURCE = "ISO 4014 washer-face and ISO 273 medium hole diameters (from memory); else 1.25 d (Shigley, p. 437)"

# nominal diameter in mm: smallest washer-face diameter, medium clearance hole, both in mm
_FACES: dict[Fraction, tuple[float, float]] = {
    Fraction(4): (5.88, 4.5),
    Fraction(5): (6.88, 5.5),
    Fraction(6): (8.88, 6.6),
    Fraction(8): (11.63, 9.0),
    Fraction(10): (14.63, 11.0),
    Fraction(12): (16.63, 13.5),
    Fraction(14): (19.64, 15.5),
    Fraction(16): (22.49, 17.5),
    Fraction(18): (25.34, 20.0),
    Fraction(20): (28.19, 22.0),
    Fraction(22): (31.71, 24.0),
    Fraction(24): (33.61, 26.0),
}
_COLLAR = 1.25


def bearing_diameter_mm(thread: Thread) -> float:
    """Mean diameter of the bearing face in mm: (washer face + hole) / 2, or 1.25 d for other threads.

    Limits: hexagon heads and nuts without a flange.

    >>> from torqref.fastener.thread import read_thread
    >>> round(bearing_diameter_mm(read_thread("M10")), 3)
    12.815
    """
    faces = _FACES.get(thread.diameter_mm) if thread.system == "metric" else None
    return _COLLAR * float(thread.diameter_mm) if faces is None else sum(faces) / 2
