"""Offsets that look like something else: the size of the jaw, or a length no adapter of that drive has."""

from __future__ import annotations

from fractions import Fraction

from torqref.quantity.conversion import convert
from torqref.quantity.term import Length
from torqref.wrench.adapter import Part, crowfeet

# Shortest believable offset of a crowfoot by its drive square, in mm: common practice, no source.
SHORTEST_OFFSET_MM = {
    "1/4": Fraction(14),
    "3/8": Fraction(20),
    "1/2": Fraction(26),
    "3/4": Fraction(38),
    "1": Fraction(50),
}
# Where the drive is not known the commonest one is taken.
_USUAL_DRIVE = "3/8"


def doubts(parts: tuple[Part, ...], drive: str = "", length: Length | None = None) -> tuple[str, ...]:
    """A sentence for each offset that is hardly one, and for one that is longer than the handle."""
    found = []
    for piece in crowfeet(parts):
        if is_short(piece.offset, drive):
            found.append(
                f"{piece.offset.text} is short for a crowfoot: is it the jaw? "
                "Measure square centre to jaw centre."
            )
        elif length is not None and _longer(piece.offset, length):
            found.append(f"{piece.offset.text} is longer than the handle ({length.text}): are they swapped?")
    return tuple(found)


def is_short(offset: Length, drive: str) -> bool:
    """Whether an offset is shorter than any crowfoot of that drive; no offset at all is not short."""
    shortest = SHORTEST_OFFSET_MM.get(square(drive), SHORTEST_OFFSET_MM[_USUAL_DRIVE])
    return 0 < convert(offset.value, offset.unit, "mm") < shortest


def is_jaw(offset: Length, jaw: Length) -> bool:
    """Whether an offset is the size of the jaw, to a tenth of a millimetre."""
    return abs(convert(offset.value, offset.unit, "mm") - convert(jaw.value, jaw.unit, "mm")) < Fraction(
        1, 10
    )


def square(drive: str) -> str:
    """The bare size of a drive square: `3/8` of `3/8 in drive`.

    >>> square("3/8 in"), square('1/2"')
    ('3/8', '1/2')
    """
    words = drive.replace('"', " ").replace("″", " ").split()
    return words[0] if words else ""


def _longer(offset: Length, length: Length) -> bool:
    return convert(offset.value, offset.unit, length.unit) > length.value
