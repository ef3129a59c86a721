"""The table of units: symbol, kind, exact definition, spellings, and where the definition comes from.

Nothing else in torqref knows a factor. A new unit is a row here. In this field lb, kg and oz always
mean forces; the spellings are a closed list and no text is ever given to a parser of expressions.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["torque", "length", "force", "angle"]

YARD_AND_POUND = "International yard and pound agreement, 1959: 1 lb = 0.45359237 kg, 1 in = 25.4 mm, exact"
GRAVITY = "3rd CGPM, 1901: standard acceleration 9.80665 m/s², exact"
SI = "SI Brochure, 9th edition, 2019"
CIRCLE = "a full turn is 360 degrees, by definition"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit.

    Args:
        symbol: how torqref writes it.
        kind: what it measures.
        definition: the unit in terms of units further up in the table, exact.
        words: how a person says it, plural.
        source: where the definition comes from.
        spellings: what people write for it beside the symbol, as the reading compares it: small letters,
            no dots, dashes or blanks.
    """

    symbol: str
    kind: Kind
    definition: str
    words: str
    source: str
    spellings: tuple[str, ...] = ()


def _unit(symbol: str, kind: Kind, definition: str, words: str, source: str, spellings: str) -> Unit:
    return Unit(
        symbol=symbol,
        kind=kind,
        definition=definition,
        words=words,
        source=source,
        spellings=tuple(spellings.split()),
    )


# Base units have an empty definition: newton, metre and degree.
UNITS: tuple[Unit, ...] = (
    _unit("N", "force", "", "newtons", SI, "newton newtons"),
    _unit("kgf", "force", "9.80665 * N", "kilograms-force", GRAVITY, "kp kilopond"),
    _unit("gf", "force", "0.001 * kgf", "grams-force", GRAVITY, "pond"),
    _unit("lbf", "force", "0.45359237 * kgf", "pounds-force", YARD_AND_POUND, "lb lbs pound pounds"),
    _unit("ozf", "force", "lbf / 16", "ounces-force", YARD_AND_POUND, "oz ounce ounces"),
    _unit("m", "length", "", "metres", SI, "metre meter metres meters"),
    _unit("mm", "length", "0.001 * m", "millimetres", SI, "millimetre millimeter millimetres millimeters"),
    _unit("cm", "length", "0.01 * m", "centimetres", SI, "centimetre centimeter centimetres centimeters"),
    _unit("in", "length", "0.0254 * m", "inches", YARD_AND_POUND, "inch inches ins"),
    _unit("ft", "length", "12 * in", "feet", YARD_AND_POUND, "foot feet"),
    _unit("°", "angle", "", "degrees", CIRCLE, "deg degree degrees"),
    _unit("turn", "angle", "360 * °", "turns", CIRCLE, "turns rev revs revolution revolutions"),
    _unit("flat", "angle", "60 * °", "flats of a hexagon", CIRCLE, "flats"),
    _unit("point", "angle", "30 * °", "points of a twelve-point", CIRCLE, "points"),
    _unit("N·m", "torque", "N * m", "newton metres", SI, "nm newtonmetre newtonmetres newtonmeters"),
    _unit("kN·m", "torque", "1000 * N * m", "kilonewton metres", SI, "knm"),
    _unit("daN·m", "torque", "10 * N * m", "decanewton metres", SI, "danm"),
    _unit("dN·m", "torque", "0.1 * N * m", "decinewton metres", SI, "dnm"),
    _unit("cN·m", "torque", "0.01 * N * m", "centinewton metres", SI, "cnm"),
    _unit("mN·m", "torque", "0.001 * N * m", "millinewton metres", SI, "mnm"),
    _unit("N·cm", "torque", "N * cm", "newton centimetres", SI, "ncm"),
    _unit("ft-lb", "torque", "lbf * ft", "foot-pounds", YARD_AND_POUND, "ftlb ftlbs lbft lbsft ftlbf lbfft"),
    _unit("in-lb", "torque", "lbf * in", "inch-pounds", YARD_AND_POUND, "inlb inlbs lbin lbsin inlbf lbfin"),
    _unit("ozf·in", "torque", "ozf * in", "ounce-inches", YARD_AND_POUND, "ozin inoz ozfin inozf"),
    _unit("kgf·m", "torque", "kgf * m", "kilogram metres", GRAVITY, "kgfm kgm mkg mkgf kpm mkp"),
    _unit("kgf·cm", "torque", "kgf * cm", "kilogram centimetres", GRAVITY, "kgfcm kgcm cmkg kpcm"),
    _unit("gf·cm", "torque", "gf * cm", "gram centimetres", GRAVITY, "gfcm gcm"),
)

BY_SYMBOL: dict[str, Unit] = {unit.symbol: unit for unit in UNITS}
TORQUE_SYMBOLS: tuple[str, ...] = tuple(unit.symbol for unit in UNITS if unit.kind == "torque")
