"""What a misjudged angle and a hand off the mark cost at the fastener, while the setting stays."""

from __future__ import annotations

from fractions import Fraction

from torqref.quantity.conversion import convert
from torqref.quantity.term import Length
from torqref.wrench.adapter import JUDGED_ANGLE, STRAY_HAND, Part, cosine, crowfeet, reach


def angle_cost(
    length: Length, parts: tuple[Part, ...], slack: Fraction = JUDGED_ANGLE
) -> tuple[Fraction, Fraction]:
    """Least and most change at the fastener, as shares, when every angle is off by up to `slack` degrees.

    (L + ΣE·cos(θ ± slack)) / (L + ΣE·cos θ) - 1

    >>> inch = lambda number: Length(value=Fraction(number), unit="in", decimals=0, text=f"{number} in")
    >>> from torqref.wrench.adapter import Piece
    >>> low, high = angle_cost(inch(16), (Piece(offset=inch(2), angle=Fraction(90)),))
    >>> round(float(low), 4), round(float(high), 4)
    (-0.0217, 0.0217)
    """
    unit = length.unit
    low = high = Fraction(0)
    for piece in crowfeet(parts):
        offset = convert(piece.offset.value, piece.offset.unit, unit)
        nominal = cosine(piece.angle)
        near, far = max(piece.angle - slack, Fraction(0)), min(piece.angle + slack, Fraction(180))
        low += offset * (cosine(far) - nominal)
        high += offset * (cosine(near) - nominal)
    lever = length.value + reach(parts, unit)
    # Straight out or straight back the angle can only err to one side, and either way of it is the same.
    return low / lever, high / lever


def hand_cost(
    length: Length, parts: tuple[Part, ...], stray: Length = STRAY_HAND
) -> tuple[Fraction, Fraction]:
    """Change at the fastener, as shares, for a hand nearer to the drive and for one nearer to the end.

    The wrench signals at its setting wherever the hand is; the fastener gets (L' + ΣE·cos θ) / L' of it.

    >>> mm = lambda number: Length(value=Fraction(number), unit="mm", decimals=0, text=f"{number} mm")
    >>> from torqref.wrench.adapter import Piece
    >>> [round(float(share), 4) for share in hand_cost(mm(290), (Piece(offset=mm(32)),))]
    [0.0115, -0.0093]
    """
    off = convert(stray.value, stray.unit, length.unit)
    more = reach(parts, length.unit)
    nominal = 1 + more / length.value
    # A handle no longer than the stray is held at its very end at most: half of it is taken.
    inner = max(length.value - off, length.value / 2)
    return (1 + more / inner) / nominal - 1, (1 + more / (length.value + off)) / nominal - 1
