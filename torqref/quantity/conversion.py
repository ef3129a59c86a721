"""Exact conversion between units: the only user of pint, with one small registry of our own.

Base dimensions are force, length and angle, so a torque is neither an energy nor a mass times a length,
and an angle is not a bare number. Only symbols of the unit table reach the registry, never text that a
person typed. Factors are exact fractions, worked out once for each pair of units; those of the units
that pages print most are written down in the table, so that they are there at once.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from torqref.quantity.units import BY_SYMBOL, UNITS, WORKED_OUT, Unit

if TYPE_CHECKING:
    from torqref.quantity.term import Torque

_BASES = {"N": "[force]", "m": "[length]", "°": "[angle]"}


def convert(value: Fraction, unit: str, to: str) -> Fraction:
    """A number of one unit as the number of another of the same kind, exact.

    Args:
        value: number of `unit`.
        unit: symbol to convert from.
        to: symbol to convert to.

    Returns:
        The exact number of `to`.

    Raises:
        ValueError: the units measure different things.

    >>> convert(Fraction(96), "in-lb", "ft-lb")
    Fraction(8, 1)
    """
    return value if unit == to else value * factor(unit, to)


@cache
def factor(unit: str, to: str) -> Fraction:
    """How many of `to` one of `unit` is, exact.

    >>> factor("kgf·m", "N·m")
    Fraction(196133, 20000)
    """
    source, target = BY_SYMBOL[unit], BY_SYMBOL[to]
    if source.kind != target.kind:
        raise ValueError(f"{unit} measures a {source.kind} and {to} a {target.kind}")
    if unit in WORKED_OUT and to in WORKED_OUT:
        return Fraction(WORKED_OUT[unit]) / Fraction(WORKED_OUT[to])
    return factor_by_registry(unit, to)


def factor_by_registry(unit: str, to: str) -> Fraction:
    """The same from the definitions alone, as the registry works it out.

    >>> factor_by_registry("dyn·cm", "mN·m")
    Fraction(1, 10000)
    """
    quantity = _registry().Quantity(Fraction(1), _defined(unit)).to(_defined(to))
    return Fraction(quantity.magnitude)


def torque_in(torque: Torque, unit: str) -> tuple[Fraction | None, Fraction | None, Fraction | None]:
    """Low, target and high of a torque in another unit; what is not given stays None."""
    low, target, high = (
        None if value is None else convert(value, torque.unit, unit)
        for value in (torque.low, torque.target, torque.high)
    )
    return low, target, high


@cache
def _registry() -> Any:  # pint's registry class is made at run time and has no usable static type
    # pint costs a tenth of a second: it is imported with the first conversion and never before.
    import pint

    return pint.UnitRegistry(None, non_int_type=Fraction, cache_folder=None)


@cache
def _defined(symbol: str) -> str:
    """The registry's name of a unit, which it learns with the units it is defined by when first asked.

    All of them would take as long as a dozen conversions.
    """
    unit = BY_SYMBOL[symbol]
    _registry().define(f"{_name(unit)} = {_expression(unit)}")
    return _name(unit)


def _expression(unit: Unit) -> str:
    """The definition in the registry's own names; a base unit is its dimension."""
    if unit.symbol in _BASES:
        return _BASES[unit.symbol]
    return " ".join(_defined(word) if word in BY_SYMBOL else word for word in unit.definition.split())


def _name(unit: Unit) -> str:
    """A name that no prefix or expression can disturb: `torqref_` and the place in the table."""
    return f"torqref_unit_{UNITS.index(unit)}"
