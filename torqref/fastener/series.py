"""Standard thread series as tables: diameters, their coarse and fine pitches, and where they come from.

A new thread size is a row here. Reading what people write is the work of `thread`.
"""

from __future__ import annotations

from fractions import Fraction

ISO_261 = "ISO 261:1998, general plan of ISO metric threads (from memory)"
ASME_B1_1 = "ASME B1.1, unified inch screw threads"
ISO_228 = "ISO 228-1 and ISO 7-1, pipe threads (from memory)"
ASME_B1_20 = "ASME B1.20.1, pipe threads (from memory)"
WHITWORTH_SOURCE = "BS 84, Whitworth form threads (from memory)"

INCH = Fraction(254, 10)


def _fractions(text: str) -> tuple[Fraction, ...]:
    return tuple(Fraction(word) for word in text.split())


# diameter and coarse pitch in mm
_COARSE_ROWS = """
    1 0.25, 1.1 0.25, 1.2 0.25, 1.4 0.3, 1.6 0.35, 1.8 0.35, 2 0.4, 2.2 0.45, 2.5 0.45, 3 0.5, 3.5 0.6,
    4 0.7, 4.5 0.75, 5 0.8, 6 1, 7 1, 8 1.25, 9 1.25, 10 1.5, 11 1.5, 12 1.75, 14 2, 16 2, 18 2.5,
    20 2.5, 22 2.5, 24 3, 27 3, 30 3.5, 33 3.5, 36 4, 39 4, 42 4.5, 45 4.5, 48 5, 52 5, 56 5.5, 60 5.5,
    64 6, 68 6
"""
METRIC_COARSE: dict[Fraction, Fraction] = {
    Fraction(diameter): Fraction(pitch)
    for diameter, pitch in (row.split() for row in _COARSE_ROWS.split(","))
}

# diameters: fine pitches, in mm; the first one is the usual one
METRIC_FINE: dict[Fraction, tuple[Fraction, ...]] = {
    diameter: _fractions(pitches)
    for diameters, pitches in (
        ("2 2.2", "0.25"),
        ("2.5 3 3.5", "0.35"),
        ("4 4.5 5 5.5", "0.5"),
        ("6 7", "0.75"),
        ("8 9", "1 0.75"),
        ("10", "1.25 1 0.75"),
        ("11", "1 0.75"),
        ("12", "1.25 1.5 1"),
        ("14", "1.5 1.25 1"),
        ("15 16 17", "1.5 1"),
        ("18 20 22 24 25 27 28", "1.5 2 1"),
        ("26 35 38", "1.5"),
        ("30 33", "2 1.5 3 1"),
        ("32", "2 1.5"),
        ("36 39 40 50", "3 2 1.5"),
        ("42 45 48 52 55 56 58 60 62 64 65", "2 3 4 1.5"),
        ("68 70 72 75 76 80 85 90 95 100 105 110 115 120", "2 3 4 6"),
    )
    for diameter in _fractions(diameters)
}

# The sizes that stand next to each other in a torque table: where an eye slips into the wrong row.
METRIC_ROWS = _fractions("3 4 5 6 8 10 12 14 16 18 20 22 24 27 30 33 36 39")

# size, diameter in inches, threads per inch of the coarse, fine and extra-fine series (0: there is none)
_UNIFIED_ROWS = """
    #0 0.060 0 80 0, #1 0.073 64 72 0, #2 0.086 56 64 0, #3 0.099 48 56 0, #4 0.112 40 48 0,
    #5 0.125 40 44 0, #6 0.138 32 40 0, #8 0.164 32 36 0, #10 0.190 24 32 0, #12 0.216 24 28 32,
    1/4 1/4 20 28 32, 5/16 5/16 18 24 32, 3/8 3/8 16 24 32, 7/16 7/16 14 20 28, 1/2 1/2 13 20 28,
    9/16 9/16 12 18 24, 5/8 5/8 11 18 24, 11/16 11/16 0 0 24, 3/4 3/4 10 16 20, 13/16 13/16 0 0 20,
    7/8 7/8 9 14 20, 15/16 15/16 0 0 20, 1 1 8 12 20, 1-1/16 17/16 0 0 18, 1-1/8 9/8 7 12 18,
    1-3/16 19/16 0 0 18, 1-1/4 5/4 7 12 18, 1-5/16 21/16 0 0 18, 1-3/8 11/8 6 12 18, 1-7/16 23/16 0 0 18,
    1-1/2 3/2 6 12 18, 1-9/16 25/16 0 0 18, 1-5/8 13/8 0 0 18, 1-11/16 27/16 0 0 18, 1-3/4 7/4 5 0 0,
    1-13/16 29/16 0 0 0, 1-7/8 15/8 0 0 0, 1-15/16 31/16 0 0 0,
    2 2 4.5 0 0, 2-1/8 17/8 0 0 0, 2-1/4 9/4 4.5 0 0, 2-3/8 19/8 0 0 0,
    2-1/2 5/2 4 0 0, 2-3/4 11/4 4 0 0, 3 3 4 0 0, 3-1/4 13/4 4 0 0,
    3-1/2 7/2 4 0 0, 3-3/4 15/4 4 0 0, 4 4 4 0 0
"""
UNIFIED: dict[str, tuple[Fraction, Fraction, Fraction, Fraction]] = {
    size: (Fraction(diameter), Fraction(coarse), Fraction(fine), Fraction(extra))
    for size, diameter, coarse, fine, extra in (row.split() for row in _UNIFIED_ROWS.split(","))
}
UNIFIED_BY_DIAMETER: dict[Fraction, str] = {row[0]: size for size, row in UNIFIED.items() if size != "#5"}
# Threads per inch of the constant-pitch series, UN without a further letter.
UNIFIED_CONSTANT = _fractions("4 6 8 12 16 20 28 32")
UNIFIED_ROWS = (
    "#8", "#10", "1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "3/4", "7/8", "1",
    "1-1/8", "1-1/4", "1-3/8", "1-1/2",
)  # fmt: skip

# nominal size: outside diameter in mm, threads per inch
PIPE_55: dict[str, tuple[Fraction, Fraction]] = {
    "1/16": (Fraction("7.723"), Fraction(28)),
    "1/8": (Fraction("9.728"), Fraction(28)),
    "1/4": (Fraction("13.157"), Fraction(19)),
    "3/8": (Fraction("16.662"), Fraction(19)),
    "1/2": (Fraction("20.955"), Fraction(14)),
    "3/4": (Fraction("26.441"), Fraction(14)),
    "1": (Fraction("33.249"), Fraction(11)),
    "1-1/4": (Fraction("41.910"), Fraction(11)),
    "1-1/2": (Fraction("47.803"), Fraction(11)),
    "2": (Fraction("59.614"), Fraction(11)),
}
PIPE_60: dict[str, tuple[Fraction, Fraction]] = {
    size: (Fraction(diameter) * INCH, Fraction(threads))
    for size, diameter, threads in (
        ("1/16", "0.3125", "27"),
        ("1/8", "0.405", "27"),
        ("1/4", "0.540", "18"),
        ("3/8", "0.675", "18"),
        ("1/2", "0.840", "14"),
        ("3/4", "1.050", "14"),
        ("1", "1.315", "11.5"),
        ("1-1/4", "1.660", "11.5"),
        ("1-1/2", "1.900", "11.5"),
        ("2", "2.375", "11.5"),
    )
}
# size: threads per inch, coarse and fine
WHITWORTH: dict[str, tuple[Fraction, Fraction]] = {
    "1/4": (Fraction(20), Fraction(26)),
    "5/16": (Fraction(18), Fraction(22)),
    "3/8": (Fraction(16), Fraction(20)),
    "7/16": (Fraction(14), Fraction(18)),
    "1/2": (Fraction(12), Fraction(16)),
    "9/16": (Fraction(12), Fraction(16)),
    "5/8": (Fraction(11), Fraction(14)),
    "3/4": (Fraction(10), Fraction(12)),
    "7/8": (Fraction(9), Fraction(11)),
    "1": (Fraction(8), Fraction(10)),
}
