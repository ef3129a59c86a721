"""Reads what is measured beside torque: gaps, pressures, temperatures, distances, volumes, times.

Values stay in the unit they are written in; nothing is converted here.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

from torqref.document.refusal import Refusal
from torqref.quantity.bounds import Bounds
from torqref.quantity.doubt import fraction_or_range
from torqref.quantity.folding import Folded, fold
from torqref.quantity.mend import refusal
from torqref.quantity.number import Amount, amount
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import symbols, variants
from torqref.quantity.term import Measure
from torqref.quantity.value import read_value

# Symbol and what people write for it, beside the units of torque, angle, length and force.
MEASURES: dict[str, str] = {
    "µm": "um µm μm micron microns micrometre micrometres micrometer micrometers",
    "km": "km kilometre kilometres kilometer kilometers",
    "mile": "mi mile miles",
    "°C": "°-c deg-c celsius",
    "°F": "°-f deg-f fahrenheit",
    "K": "k kelvin",
    "Pa": "pa pascal pascals",
    "kPa": "kpa kilopascal kilopascals",
    "MPa": "mpa megapascal megapascals",
    "bar": "bar bars",
    "mbar": "mbar millibar",
    "psi": "psi",
    "L": "l litre litres liter liters",
    "mL": "ml millilitre millilitres milliliter milliliters cc",
    "gal": "gal gallon gallons",
    "qt": "qt quart quarts",
    "kg": "kg kilogram kilograms",
    "g": "g gram grams",
    "V": "v volt volts",
    "mV": "mv millivolt millivolts",
    "A": "a amp amps ampere amperes",
    "Ω": "ohm ohms Ω ω",
    "kΩ": "kohm kω",
    "rpm": "rpm r-min",
    "Hz": "hz hertz",
    "kN": "kn",
    "s": "s sec secs second seconds",
    "min": "min mins minute minutes",
    "h": "h hr hrs hour hours",
    "day": "d day days",
    "%": "% percent",
    "turn": "turn turns rev revs revolution revolutions",
}
_WITH_FRACTIONS = frozenset(("in", "ft", "turn", "flat", "point", "gal", "qt", "mile"))
_MINUTES = {"s": Fraction(1, 60), "min": Fraction(1), "h": Fraction(60), "day": Fraction(1440)}
_LONGEST_MINUTES = 1440 * 3660
_SHARES_OF_TIME = frozenset(("1/2", "1/4", "3/4", "1/3", "2/3"))
# Of all that is measured beside torque: gaps first, then heat and pressure.
_USUAL = ("mm", "°C", "bar")
_EXAMPLE = "a reading with its unit is expected, such as 0.03–0.13 mm or 90 °C"


def read_measure(text: str) -> Measure | Refusal:
    """Any reading with its unit and limits.

    Args:
        text: such as `0.03–0.13 mm`, `<= 0.05 mm`, `90 °C`, `-0.3 L` or `13.8 V`.

    Returns:
        The reading in the unit it is written in, or a refusal.

    >>> measure = read_measure("0.03-0.13 mm")
    >>> isinstance(measure, Measure) and (measure.low, measure.high, measure.unit)
    (Fraction(3, 100), Fraction(13, 100), 'mm')
    """
    folded = fold(text)
    if isinstance(folded, Refusal):
        return folded
    try:
        return _measure(folded)
    except Unread as unread:
        return refusal(folded, unread, _measure)


def read_duration(text: str) -> Fraction | Refusal:
    """A time in minutes.

    Args:
        text: such as `10 min`, `4 h`, `1 h 30 min` or `2 days`.

    Returns:
        Minutes, exact; or a refusal.

    >>> read_duration("1 h 30 min")
    Fraction(90, 1)
    """
    folded = fold(text)
    if isinstance(folded, Refusal):
        return folded
    try:
        return _duration(folded)
    except Unread as unread:
        return refusal(folded, unread, _duration)


def _measure(folded: Folded) -> Measure:
    scan = Scan(folded, _known())
    bounds = read_value(scan, signed=True)
    if bounds is None:
        raise Unread(_EXAMPLE, at=scan.token.start)
    if bounds.unit is None:
        raise _without_unit("this reading has no unit", bounds.numbers[-1], _USUAL)
    if not scan.is_done():
        raise scan.left_over("one reading is expected and nothing after it")
    for number in bounds.numbers:
        if number.is_slashed and bounds.unit.symbol not in _WITH_FRACTIONS:
            raise fraction_or_range(scan, bounds, bounds.unit, number)
    return Measure(
        low=bounds.low,
        target=_target(bounds),
        high=bounds.high,
        unit=bounds.unit.symbol,
        decimals=bounds.decimals,
        text=folded.source.strip(),
    )


def _without_unit(message: str, number: Amount, units: tuple[str, ...]) -> Unread:
    """A number with nothing behind it, and units that it could have."""
    options = tuple(f" {unit}" for unit in units)
    return Unread(message, at=number.end, options=options, span=(number.end, number.end))


def _target(bounds: Bounds) -> Fraction | None:
    return bounds.target if bounds.is_printed else None


def _duration(folded: Folded) -> Fraction:
    scan = Scan(folded, _known())
    total, smallest = Fraction(0), None
    while not scan.is_done():
        start = scan.token.start
        number = amount(scan)
        unit = scan.unit() if number else None
        if number is not None and unit is None and scan.is_done():
            raise _without_unit("this time has no unit", number, ("min", "h"))
        if number is None and smallest is not None:
            raise scan.left_over("one time is expected and nothing after it")
        if number is None or unit is None or unit.symbol not in _MINUTES:
            raise Unread("a time is expected, such as 10 min, 4 h or 1 h 30 min", at=start)
        size = _MINUTES[unit.symbol]
        if number.is_slashed and scan.written(number) not in _SHARES_OF_TIME:
            raise Unread("a time is one number, and no range", at=start)
        if smallest is not None and size >= smallest:
            raise Unread("write the larger unit of time first", at=start)
        total, smallest = total + number.value * size, size
        scan.accept(",", "and")
    if not 0 < total <= _LONGEST_MINUTES:
        raise Unread("a time above zero is expected, such as 10 min or 4 h", at=0)
    return total


@cache
def _known() -> Mapping[str, str]:
    """Measures come first: kg and g are masses on a scale, and never torques."""
    known = {
        written: symbol
        for symbol, words in MEASURES.items()
        for word in words.split()
        for written in variants(word)
    }
    return {**symbols(), **known}
