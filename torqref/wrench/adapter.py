"""What stands between wrench and fastener: crowfoot pieces, extensions, universal joints, multipliers.

The lever is counted along the handle. L runs from the centre of the drive square to the mark on the grip
(or to the pivot pin of the handle), E from the centre of the drive square to the centre of the fastener,
and the angle from straight out: 0° points away from the hand, 90° across, 180° back towards it. The hand
pulls square to the handle. `read_pieces` of `piece_text` makes these from what a person types.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import convert
from torqref.quantity.term import Length

# Cosines that are fractions; every other angle goes through the floating-point cosine once.
_EXACT_COSINES = {
    0: Fraction(1),
    60: Fraction(1, 2),
    90: Fraction(0),
    120: Fraction(-1, 2),
    180: Fraction(-1),
}
# An angle judged by eye: common practice, no source.
JUDGED_ANGLE = Fraction(10)
# A hand that far from the mark on the grip: common practice, no source.
STRAY_HAND = Length(value=Fraction(30), unit="mm", decimals=0, text="30 mm")
# A length read from a rule is no worse than 3 mm or an eighth of an inch, however few digits were written:
# common practice, no source.
_WORST_RULE = {
    "mm": Fraction(3),
    "cm": Fraction(3, 10),
    "m": Fraction(3, 1000),
    "in": Fraction(1, 8),
    "ft": Fraction(1, 96),
}
# From here on a universal joint is refused: its swing passes a half either way. Our own limit.
WORST_BEND = 45
# Below this share of the handle the lever is too short to be trusted: our own limit.
SHORTEST_LEVER = Fraction(1, 10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece that moves the fastener away from the drive square, such as a crowfoot or a dog-bone.

    Args:
        offset: from the centre of the drive square to the centre of the fastener (or of the next square).
        angle: degrees from straight out along the handle, 0 to 180.
    """

    offset: Length
    angle: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Extension:
    """A straight extension under the drive square: it turns about the same axis and changes nothing."""

    text: str = "straight extension"


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A universal joint, bent by so many degrees, or by an angle that nobody knows."""

    bend: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Multiplier:
    """A torque multiplier with a reaction arm.

    Args:
        ratio: turns in for one turn out, such as 4.
        efficiency: share of the torque that arrives, best measured for this very box; None where nobody
            said it, and then all of it is taken to arrive, which is the best case.
    """

    ratio: Fraction
    efficiency: Fraction | None = None

    @property
    def gain(self) -> Fraction:
        """Torque out for one unit of torque in."""
        return self.ratio * (1 if self.efficiency is None else self.efficiency)


Part = Piece | Extension | Joint | Multiplier


def cosine(angle: Fraction) -> Fraction:
    """Cosine of an angle in degrees: exact where it is a fraction, otherwise as exact as a float.

    >>> cosine(Fraction(120))
    Fraction(-1, 2)
    """
    exact = _EXACT_COSINES.get(int(angle)) if angle.denominator == 1 else None
    return exact if exact is not None else Fraction(math.cos(math.radians(angle)))


def crowfeet(parts: tuple[Part, ...]) -> tuple[Piece, ...]:
    """The parts that have an offset."""
    return tuple(part for part in parts if isinstance(part, Piece))


def needs_length(parts: tuple[Part, ...]) -> bool:
    """Whether the lever changes, so that the length of the wrench must be known."""
    return any(piece.offset.value * cosine(piece.angle) for piece in crowfeet(parts))


def reach(parts: tuple[Part, ...], unit: str) -> Fraction:
    """What the parts add to the lever along the handle, in `unit`: ΣE·cos θ, negative when folded back.

    >>> inch = Length(value=Fraction(6), unit="in", decimals=0, text="6 in")
    >>> reach((Piece(offset=inch), Piece(offset=inch, angle=Fraction(90))), "in")
    Fraction(6, 1)
    """
    lengths = (
        convert(piece.offset.value, piece.offset.unit, unit) * cosine(piece.angle)
        for piece in crowfeet(parts)
        if cosine(piece.angle)
    )
    return sum(lengths, Fraction(0))


def factor(length: Length | None, parts: tuple[Part, ...]) -> Fraction | Refusal:
    """Setting of the wrench for one unit of torque at the fastener.

    setting / target = L / (L + ΣE·cos θ) / (ratio · efficiency)

    Args:
        length: effective length of the wrench, drive centre to grip mark or pivot pin; None if unknown.
        parts: what is put on the drive square, from the wrench outwards.

    Returns:
        The factor, exact for 0°, 60°, 90°, 120° and 180°; or the refusal of an impossible geometry.

    Valid for a hand that pulls square to the handle at the mark. The angle is to the handle for every
    piece, not to the piece before it. Source: moment balance; TM 9-254 (US Army), figures 4-5 and 4-6;
    NAVEDTRA 14315 (US Navy), figures 3-43 to 3-45. Multiplier: T_in = T_out / (ratio · efficiency).

    >>> mm = lambda number: Length(value=Fraction(number), unit="mm", decimals=0, text=f"{number} mm")
    >>> factor(mm(300), (Piece(offset=mm(100)),))
    Fraction(3, 4)
    """
    share = arrival(length, parts)
    return share if isinstance(share, Refusal) else 1 / share


def arrival(length: Length | None, parts: tuple[Part, ...]) -> Fraction | Refusal:
    """Torque at the fastener for one unit of setting, the inverse of `factor`."""
    gain = _gain(parts)
    if isinstance(gain, Refusal) or not needs_length(parts):
        return gain
    if length is None:
        return _length_unknown()
    share = 1 + reach(parts, length.unit) / length.value
    if share < SHORTEST_LEVER:
        return _no_lever(length, parts)
    return share * gain


def arrival_span(length: Length | None, parts: tuple[Part, ...]) -> tuple[Fraction, Fraction]:
    """Least and most that can arrive for one unit of setting, with lengths and angles as well as known.

    Worst case, not statistics: each offset and the handle off by half of the last digit written (at most
    3 mm or ⅛ in), each angle by 10°, a bent universal joint by its swing. Only for parts that `arrival`
    accepts.
    """
    gain = _gain(parts)
    assert not isinstance(gain, Refusal), "asked only for parts that arrival accepted"
    low, high = swing(parts)
    if length is None or not crowfeet(parts):
        return gain * low, gain * high
    shortest, longest = _reach_span(parts, length.unit)
    slack = _slack(length)
    least = 1 + shortest / (length.value + (slack if shortest > 0 else -slack))
    most = 1 + longest / (length.value - (slack if longest > 0 else -slack))
    return gain * max(least, Fraction(0)) * low, gain * most * high


def swing(parts: tuple[Part, ...]) -> tuple[Fraction, Fraction]:
    """Least and most that a bent universal joint passes on as it turns: cos β and 1/cos β for each joint.

    Source: kinematics of the single cardan (Hooke) joint, whose speed ratio swings between cos β and
    1/cos β; without loss the torque does the inverse.
    """
    low = math.prod(
        (cosine(part.bend) for part in parts if isinstance(part, Joint) and part.bend), start=Fraction(1)
    )
    return low, 1 / low


def turned(parts: tuple[Part, ...], angle: Fraction) -> tuple[Part, ...]:
    """The same parts with every offset piece at this angle."""
    return tuple(
        Piece(offset=part.offset, angle=angle) if isinstance(part, Piece) else part for part in parts
    )


def _gain(parts: tuple[Part, ...]) -> Fraction | Refusal:
    """Ratio times efficiency of the multipliers; refused where an offset follows a multiplier."""
    gain, seen = Fraction(1), False
    for part in parts:
        if isinstance(part, Multiplier):
            gain, seen = gain * part.gain, True
        elif isinstance(part, Piece) and seen and part.offset.value:
            return Refusal(
                text=part.offset.text,
                message="a crowfoot after the multiplier cannot be worked out: its reaction arm sets the "
                "lever, not your hand; put the crowfoot between wrench and multiplier, or do without",
            )
        elif isinstance(part, Joint) and part.bend is not None and not 0 <= part.bend < WORST_BEND:
            return Refusal(
                text=f"{float(part.bend):g}°",
                message=f"a universal joint bent by {float(part.bend):g}° passes no steady torque; "
                f"bend it less than {WORST_BEND}°, the less the better",
            )
    return gain


def _reach_span(parts: tuple[Part, ...], unit: str) -> tuple[Fraction, Fraction]:
    low = high = Fraction(0)
    for piece in crowfeet(parts):
        slack = _slack(piece.offset)
        lengths = [
            convert(value, piece.offset.unit, unit)
            for value in (max(piece.offset.value - slack, Fraction(0)), piece.offset.value + slack)
            if piece.offset.value
        ] or [Fraction(0)]
        cosines = [cosine(angle) for angle in (_opened(piece.angle), _folded(piece.angle))]
        products = [length * cos for length in lengths for cos in cosines]
        low, high = low + min(products), high + max(products)
    return low, high


def _opened(angle: Fraction) -> Fraction:
    return max(angle - JUDGED_ANGLE, Fraction(0))


def _folded(angle: Fraction) -> Fraction:
    return min(angle + JUDGED_ANGLE, Fraction(180))


def _slack(length: Length) -> Fraction:
    """Half of the last digit written, at most what a rule may be misread by, in the unit of the length."""
    return min(Fraction(1, 2 * 10**length.decimals), _WORST_RULE[length.unit])


def _length_unknown() -> Refusal:
    return Refusal(
        text="",
        message="the effective length of the wrench is not known, and the crowfoot changes the lever: "
        "measure from the centre of the drive square to the mark on the grip, or turn the crowfoot to 90°",
    )


def _no_lever(length: Length, parts: tuple[Part, ...]) -> Refusal:
    offsets = " + ".join(f"{piece.offset.text} at {float(piece.angle):g}°" for piece in crowfeet(parts))
    return Refusal(
        text=offsets,
        message=f"{offsets} on a handle of {length.text} leaves no lever: no torque reaches the fastener; "
        "turn the crowfoot to 90° or point it away from your hand",
    )
