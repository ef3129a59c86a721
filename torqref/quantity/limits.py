"""Limits that a page gives apart from a value: what the text of the value alone does not say."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from torqref.quantity.reading import read_angle, read_torque
from torqref.quantity.showing import show_angle, show_torque
from torqref.quantity.term import Angle, Torque


def show_limits(torque: Torque) -> str:
    """The limits of a torque alone, in its own unit; empty where it has none.

    >>> torque = read_torque("57 ± 6 in-lb")
    >>> isinstance(torque, Torque) and show_limits(torque)
    '51–63 in-lb'
    """
    if torque.low is None and torque.high is None:
        return ""
    return show_torque(replace(torque, target=None, is_nominal=False))


def limits_apart(torque: Torque) -> str:
    """The limits of a torque where its own text does not print them; else empty.

    >>> torque = read_torque("22 N·m")
    >>> isinstance(torque, Torque) and limits_apart(replace(torque, low=Fraction(20), high=Fraction(24)))
    '20–24 N·m'
    """
    limits = torque.low, torque.high
    printed = read_torque(torque.text)
    said = isinstance(printed, Torque) and (printed.low, printed.high) == limits
    return "" if said else show_limits(torque)


def turn_limits_apart(text: str, low: Fraction | None, high: Fraction | None) -> str:
    """The limits of a turn where its text is one turn that does not print them; else empty.

    >>> turn_limits_apart("90°", Fraction(85), Fraction(95)), turn_limits_apart("90 ± 5°", None, None)
    ('85–95°', '')
    """
    printed = read_angle(text)
    if (low, high) == (None, None) or not isinstance(printed, Angle):
        return ""
    # A back-off may be written without its sign.
    said, wanted = (
        sorted(map(abs, filter(None, pair))) for pair in ((printed.low, printed.high), (low, high))
    )
    if said == wanted:
        return ""
    return show_angle(Angle(degrees=None, low=low, high=high, text=text))
