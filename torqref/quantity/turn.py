"""A turn as the hand counts it: quarters, flats of a hexagon, points of a twelve-point."""

from __future__ import annotations

from fractions import Fraction

from torqref.quantity.words import whole_in_words

_TURN, _FLAT, _POINT = 360, 60, 30
_SHARES = {
    Fraction(1, 4): "a quarter turn",
    Fraction(1, 2): "half a turn",
    Fraction(3, 4): "three quarters of a turn",
    Fraction(1, 3): "a third of a turn",
    Fraction(2, 3): "two thirds of a turn",
    Fraction(1, 6): "a sixth of a turn",
    Fraction(1, 8): "an eighth of a turn",
    Fraction(1): "one turn",
}


def turn_in_words(degrees: Fraction) -> str:
    """What a turn is in turns, flats and points, as far as they come out even; empty if none does.

    Args:
        degrees: the turn; the sign does not matter.

    >>> turn_in_words(Fraction(90))
    'a quarter turn, one and a half flats of a hexagon, three points of a twelve-point'
    """
    size = abs(degrees)
    parts = (
        _turns(Fraction(size, _TURN)),
        _count(Fraction(size, _FLAT), "flat", "flats", "of a hexagon"),
        _count(Fraction(size, _POINT), "point", "points", "of a twelve-point"),
    )
    return ", ".join(part for part in parts if part)


def _turns(turns: Fraction) -> str:
    if turns in _SHARES:
        return _SHARES[turns]
    return _count(turns, "turn", "turns", "") if turns > 1 else ""


def _count(number: Fraction, one: str, many: str, behind: str) -> str:
    """`one flat of a hexagon`; nothing where not even a half comes out."""
    whole, rest = divmod(number, 1)
    if rest not in (0, Fraction(1, 2)):
        return ""
    noun = one if number == 1 else many
    said = whole_in_words(int(whole))
    if rest:
        said, noun = (f"{said} and a half", many) if whole else (f"half a {one}", "")
    return " ".join(part for part in (said, noun, behind) if part)
