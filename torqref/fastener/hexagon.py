"""Width across flats of usual hexagons: the number on the spanner, which is not the thread."""

from __future__ import annotations

import re
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.fastener.series import METRIC_COARSE

SOURCE = "ISO 272 and ASME B18.2.1 widths across flats (from memory); older and small hexagons: shop habit"

# width across flats in mm: threads it usually sits on, the most usual first
THREADS_BY_MM: dict[Fraction, tuple[str, ...]] = {
    Fraction(width): tuple(threads.split())
    for width, threads in (
        ("5.5", "M3"),
        ("7", "M4"),
        ("8", "M5"),
        ("10", "M6"),
        ("11", "M7"),
        ("12", "M8"),
        ("13", "M8"),
        ("14", "M10 M8"),
        ("15", "M10"),
        ("16", "M10"),
        ("17", "M10 M12"),
        ("18", "M12"),
        ("19", "M12"),
        ("21", "M14"),
        ("22", "M14"),
        ("24", "M16"),
        ("27", "M18"),
        ("30", "M20"),
        ("32", "M22"),
        ("34", "M22"),
        ("36", "M24"),
        ("41", "M27"),
        ("46", "M30"),
        ("50", "M33"),
        ("55", "M36"),
    )
}
# width across flats in inches: thread size
THREADS_BY_INCH: dict[Fraction, tuple[str, ...]] = {
    Fraction(width): (thread,)
    for width, thread in (
        ("11/32", "#8-32"),
        ("3/8", "#10-24"),
        ("7/16", "1/4-20"),
        ("1/2", "5/16-18"),
        ("9/16", "3/8-16"),
        ("5/8", "7/16-14"),
        ("3/4", "1/2-13"),
        ("13/16", "9/16-12"),
        ("15/16", "5/8-11"),
        ("9/8", "3/4-10"),
        ("21/16", "7/8-9"),
        ("3/2", "1-8"),
    )
}


def threads_on(width_mm: Fraction) -> tuple[str, ...]:
    """Threads that usually carry a hexagon of this width in mm; empty for a width nobody makes.

    >>> threads_on(Fraction(13))
    ('M8',)
    """
    return THREADS_BY_MM.get(width_mm, ())


_WORD = r"(?:hex(?:agon)?(?:\s+head)?|head|socket|spanner|wrench|ring|af|a/f|across flats|bi-?hex|sw|key|bit)"
SPANNER = re.compile(
    rf"(?:(?:sw|af|hex|socket|spanner|wrench)\s*(?P<before>[\d.,/]+)\s*(?:mm|\")?"
    rf"|(?P<mm>[\d.,]+)\s*(?:mm|{_WORD})(?:\s*(?:{_WORD}|bolt|nut|screw))*"
    rf"|(?P<inch>(?:\d[\s-])?\d+/\d+|\d)\s*\"?\s*-?\s*{_WORD}(?:\s*{_WORD})*)"
)


def refuse_spanner(text: str, found: re.Match[str]) -> Refusal:
    """The refusal of a size that names a hexagon, with the threads that usually carry it."""
    width = found["mm"] or found["before"] or found["inch"]
    if "/" in width or found["inch"]:
        return _refuse_inches(text, width)
    value = _number(width)
    on_hexagon = threads_on(value)
    # A bare "10 mm" may also be the diameter of the thread itself.
    itself = (f"M{width}",) if value in METRIC_COARSE else ()
    return _refuse(text, f"{width} mm", on_hexagon, itself)


def _refuse_inches(text: str, width: str) -> Refusal:
    parts = re.split(r"[\s-]+", width)
    on_hexagon = THREADS_BY_INCH.get(sum((_number(part) for part in parts), Fraction(0)), ())
    return _refuse(text, f"{width} in", on_hexagon, ())


def _refuse(text: str, width: str, on_hexagon: tuple[str, ...], itself: tuple[str, ...]) -> Refusal:
    seat = f"usually sits on {on_hexagon[0]}" if on_hexagon else "says nothing sure about the thread"
    message = f"{width} names a hexagon, not a thread; a hexagon of that width {seat}; measure the thread"
    return Refusal(text=text, message=message, readings=on_hexagon + itself)


def _number(text: str) -> Fraction:
    try:
        return Fraction(text.replace(",", ".").strip("."))
    except (ValueError, ZeroDivisionError):
        return Fraction(0)
