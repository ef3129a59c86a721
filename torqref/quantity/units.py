"""The table of units: symbol, kind, exact definition, spellings, and where the definition comes from.

Nothing else in torqref knows a factor. A new unit is a row here. In this field lb, kg and oz always
mean forces; the spellings are a closed list and no text is ever given to a parser of expressions. What
people write for a torque follows from the spellings of its force and its length, in either order.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["torque", "length", "force", "angle"]

YARD_AND_POUND = "International yard and pound agreement, 1959: 1 lb = 0.45359237 kg, 1 in = 25.4 mm, exact"
GRAVITY = "3rd CGPM, 1901: standard acceleration 9.80665 m/s², exact"
SI = "SI Brochure, 9th edition, 2019"
CGS = "CGS system, 1 dyn = 1 g·cm/s²; NIST SP 811 (2008), appendix B.8, exact"
CIRCLE = "a full turn is 360 degrees, by definition"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit.

    Args:
        symbol: how torqref writes it.
        kind: what it measures.
        definition: the unit in terms of units further up in the table, exact.
        word: how a person says one of it.
        words: how a person says it, plural.
        source: where the definition comes from.
        spellings: what people write for it beside the symbol, in small letters, with a hyphen where a blank
            may stand. A torque needs only those that do not follow from its force and its length.
    """

    symbol: str
    kind: Kind
    definition: str
    word: str
    words: str
    source: str
    spellings: tuple[str, ...] = ()


def _unit(symbol: str, kind: Kind, definition: str, names: str, source: str, spellings: str = "") -> Unit:
    word, _, words = names.partition(", ")
    return Unit(
        symbol=symbol,
        kind=kind,
        definition=definition,
        word=word,
        words=words or f"{word}s",
        source=source,
        spellings=tuple(spellings.split()),
    )


# A hyphen stands where people leave a blank or nothing. Pages of other countries print their own words.
_KG = (
    "kg kgs kg-f kp kilogram kilograms kilogramme kilogrammes "
    "kilogram-force kilograms-force kilopond kiloponds кгс"
)
_POUND = (
    "lb lbs lb-f lbs-f lbfs pound pounds pound-force pounds-force # #-f "
    "libra libras libra-fuerza libras-fuerza livre livres libbra libbre"
)
_METRE = "metre meter metres meters mtr mètre mètres metro metros metri м 米 メートル"
_INCH = 'inch inches ins " pulg pulgada pulgadas po pouce pouces pol polegada polegadas pollice pollici zoll'
_FOOT = "foot feet ' pie pies pi pied pieds pé pés piede piedi"
_DEGREE = "deg degs degree degrees dgr degré degrés grado grados gradi grau graus"
_OUNCE = "oz ozs oz-f ounce ounces ounce-force ounces-force"
_GRAM = "g g-f gr gram grams gramme grammes gram-force grams-force"

# Base units have an empty definition: newton, metre and degree.
UNITS: tuple[Unit, ...] = (
    _unit("N", "force", "", "newton", SI, "newton newtons н 牛 牛顿 ニュートン"),
    _unit("kN", "force", "1000 * N", "kilonewton", SI, "kilo-newton kilo-newtons кн"),
    _unit(
        "daN", "force", "10 * N", "decanewton", SI, "deca-newton deca-newtons deka-newton deka-newtons дан"
    ),
    _unit("dN", "force", "0.1 * N", "decinewton", SI, "deci-newton deci-newtons"),
    _unit("cN", "force", "0.01 * N", "centinewton", SI, "centi-newton centi-newtons"),
    _unit("mN", "force", "0.001 * N", "millinewton", SI, "milli-newton milli-newtons"),
    _unit("dyn", "force", "0.00001 * N", "dyne", CGS, "dyne dynes"),
    _unit("kgf", "force", "9.80665 * N", "kilogram-force, kilograms-force", GRAVITY, _KG),
    _unit("gf", "force", "0.001 * kgf", "gram-force, grams-force", GRAVITY, _GRAM),
    _unit("lbf", "force", "0.45359237 * kgf", "pound-force, pounds-force", YARD_AND_POUND, _POUND),
    _unit("ozf", "force", "lbf / 16", "ounce-force, ounces-force", YARD_AND_POUND, _OUNCE),
    _unit("m", "length", "", "metre", SI, _METRE),
    _unit("mm", "length", "0.001 * m", "millimetre", SI, "millimetre millimeter millimetres millimeters мм"),
    _unit("cm", "length", "0.01 * m", "centimetre", SI, "centimetre centimeter centimetres centimeters см"),
    _unit("in", "length", "0.0254 * m", "inch, inches", YARD_AND_POUND, _INCH),
    _unit("ft", "length", "12 * in", "foot, feet", YARD_AND_POUND, _FOOT),
    _unit("°", "angle", "", "degree", CIRCLE, _DEGREE),
    _unit("turn", "angle", "360 * °", "turn", CIRCLE, "turns rev revs revolution revolutions"),
    _unit(
        "flat", "angle", "60 * °", "flat of a hexagon, flats of a hexagon", CIRCLE, "flats hex-flat hex-flats"
    ),
    _unit(
        "point",
        "angle",
        "30 * °",
        "point of a twelve-point, points of a twelve-point",
        CIRCLE,
        "points pt pts",
    ),
    _unit("N·m", "torque", "N * m", "newton metre", SI, "nms newton-metern"),
    _unit("kN·m", "torque", "kN * m", "kilonewton metre", SI),
    _unit("daN·m", "torque", "daN * m", "decanewton metre", SI),
    _unit("dN·m", "torque", "dN * m", "decinewton metre", SI),
    _unit("cN·m", "torque", "cN * m", "centinewton metre", SI),
    _unit("mN·m", "torque", "mN * m", "millinewton metre", SI),
    _unit("N·cm", "torque", "N * cm", "newton centimetre", SI),
    _unit("N·mm", "torque", "N * mm", "newton millimetre", SI),
    _unit("ft-lb", "torque", "lbf * ft", "foot-pound", YARD_AND_POUND),
    _unit("in-lb", "torque", "lbf * in", "inch-pound", YARD_AND_POUND),
    _unit("ozf·in", "torque", "ozf * in", "ounce-inch, ounce-inches", YARD_AND_POUND),
    _unit("kgf·m", "torque", "kgf * m", "kilogram metre", GRAVITY, "kilopond-metern"),
    _unit("kgf·cm", "torque", "kgf * cm", "kilogram centimetre", GRAVITY),
    _unit("kgf·mm", "torque", "kgf * mm", "kilogram millimetre", GRAVITY),
    _unit("gf·cm", "torque", "gf * cm", "gram centimetre", GRAVITY),
    _unit("dyn·cm", "torque", "dyn * cm", "dyne centimetre", CGS),
)

BY_SYMBOL: dict[str, Unit] = {unit.symbol: unit for unit in UNITS}
TORQUE_SYMBOLS: tuple[str, ...] = tuple(unit.symbol for unit in UNITS if unit.kind == "torque")

# The units that pages and tapes print most, in newton metres or metres, exact. They follow from the
# definitions above and a test holds each pair of them against the registry; what is written down here
# spares a reading the tenth of a second that the import of the registry's library takes.
WORKED_OUT: dict[str, str] = {
    "N·m": "1",
    "ft-lb": "1.3558179483314004",
    "in-lb": "0.1129848290276167",
    "kgf·m": "9.80665",
    "kgf·cm": "0.0980665",
    "m": "1",
    "cm": "0.01",
    "mm": "0.001",
    "in": "0.0254",
    "ft": "0.3048",
}
