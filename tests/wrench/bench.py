"""Wrenches, lengths and torques for the tests, in few words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from torqref.document.refusal import Refusal
from torqref.quantity.length import read_length
from torqref.quantity.reading import read_torque
from torqref.quantity.term import Length, Torque
from torqref.wrench.adapter import Part, Piece
from torqref.wrench.rack import Wrench
from torqref.wrench.scale import Scale
from torqref.wrench.setting import Setting, setting_for


def length(text: str) -> Length:
    """A length as a person writes it."""
    found = read_length(text)
    assert isinstance(found, Length), found
    return found


def exact_length(value: Fraction, unit: str = "mm") -> Length:
    """A length of any exact value, written with a tenth."""
    return Length(value=value, unit=unit, decimals=1, text=f"{float(value):g} {unit}")


def torque(text: str) -> Torque:
    """A torque as a page prints it."""
    found = read_torque(text)
    assert isinstance(found, Torque), found
    return found


def piece(offset: str, angle: str | int = 0) -> Piece:
    """A crowfoot."""
    return Piece(offset=length(offset), angle=Fraction(angle))


def scale(low: str, high: str, step: str, unit: str = "N·m") -> Scale:
    """A scale of a wrench."""
    return Scale(unit=unit, low=Fraction(low), high=Fraction(high), graduation=Fraction(step))


def wrench(low: str = "10", high: str = "60", step: str = "0.5", unit: str = "N·m", **more: Any) -> Wrench:
    """A click wrench of one scale; everything else by keyword."""
    facts: dict[str, Any] = {
        "id": "W2",
        "name": "test wrench",
        "kind": "click",
        "scales": (scale(low, high, step, unit),),
        "length": length("290 mm"),
    }
    return Wrench(**{**facts, **more})


def setting(target: str, tool: Wrench | None = None, *parts: Part, **more: Any) -> Setting:
    """The setting for a target, which must not be refused."""
    found = setting_for(torque(target), tool, parts, **more)
    assert isinstance(found, Setting), found
    return found


def refused(target: str, tool: Wrench | None = None, *parts: Part, **more: Any) -> str:
    """The message of the refusal of a target, which must be refused."""
    found = setting_for(torque(target), tool, parts, **more)
    assert isinstance(found, Refusal), found
    return found.message


def said(found: Setting) -> str:
    """Every note of a setting, a line each."""
    return "\n".join(found.notes)
