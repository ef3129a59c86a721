"""Reads the plain numbers an estimate is asked with: torque factor, friction, share of proof load."""

from __future__ import annotations

import re
from dataclasses import dataclass

from torqref.document.escape import escape
from torqref.document.refusal import Refusal

_NUMBER = re.compile(r"(?P<sign>[-−–+]?)\s*(?P<value>\d{0,6}(?:[.,]\d{1,6})?)\s*(?P<percent>%|percent)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Range:
    """What a number may be, and how to say that it is not."""

    words: str
    low: float
    high: float
    example: str


# 75 is meant in percent; 1.2 is not, it is too much.
_LEAST_PERCENT = 10

_K = _Range(words="torque factor K", low=0.03, high=0.6, example="0.20")
_FRICTION = _Range(words="coefficient of friction", low=0.02, high=0.6, example="0.14")
_UTILISATION = _Range(words="share of proof load", low=0.01, high=1.0, example="0.75")


def read_k(text: str) -> float | Refusal:
    """A torque factor K such as `0.20`.

    >>> read_k("0,2")
    0.2
    """
    return _read(text, _K)


def read_friction(text: str) -> float | Refusal:
    """A coefficient of friction such as `0.14`."""
    return _read(text, _FRICTION)


def read_utilisation(text: str) -> float | Refusal:
    """A share of proof load such as `0.75` or `75 %`.

    >>> read_utilisation("75 %")
    0.75
    """
    return _read(text, _UTILISATION)


def _read(text: str, within: _Range) -> float | Refusal:
    shape = _NUMBER.fullmatch(text[:40].strip().lower())
    if shape is None or not re.search(r"\d", shape["value"]):
        return _refuse(text, within, "is no number")
    value = float(shape["value"].replace(",", "."))
    if shape["percent"]:
        value /= 100
    if shape["sign"] in ("-", "−", "–") or value == 0:
        return _refuse(text, within, "is not above zero")
    if within.low <= value <= within.high:
        return value
    as_percent = f"{value:g} %" if within is _UTILISATION and _LEAST_PERCENT <= value <= 100 else ""
    return _refuse(text, within, f"is not between {within.low:g} and {within.high:g}", as_percent)


def _refuse(text: str, within: _Range, why: str, reading: str = "") -> Refusal:
    message = f'"{escape(text[:40])}" {why}; a {within.words} is expected, such as {within.example}'
    return Refusal(text=text, message=message, readings=(reading,) if reading else ())
