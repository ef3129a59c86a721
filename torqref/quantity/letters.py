"""Capitals, plurals and slashes: written in an unusual way, read all the same, and said so."""

from __future__ import annotations

import re

from torqref.quantity.spelling import Spelled
from torqref.quantity.units import BY_SYMBOL

_NO_LETTER = re.compile(r"[\W_]+")


def notes_on(unit: Spelled) -> tuple[str, ...]:
    """What was unusual in the way a unit is written, one sentence each.

    >>> notes_on(Spelled("ft-lb", 0, "lbsft", "lbs/ft", True))
    ('"lbs/ft" is written as one unit per the other; a torque is their product, read as ft-lb.',)
    """
    notes = []
    if unit.is_ratio:
        ratio = "is written as one unit per the other; a torque is their product"
        notes.append(f'"{unit.written}" {ratio}, read as {unit.symbol}.')
    elif _is_unusual(unit):
        plural = ", a plural" if unit.key == "nms" else ""
        notes.append(
            f'"{unit.written}" is an unusual way to write {unit.symbol}{plural}; read as {unit.symbol}.'
        )
    return tuple(notes)


def _is_unusual(unit: Spelled) -> bool:
    letters = BY_SYMBOL[unit.symbol].symbol.replace("·", "")
    if unit.key == "nms":
        return True
    if unit.key.replace(" ", "") == letters.casefold() and "N" in letters:
        # Capitals carry the meaning here: nm is a nanometre and NM a nautical mile to others.
        return "".join(_NO_LETTER.split(unit.written)) != letters
    words = [word for word in _NO_LETTER.split(unit.written) if word]
    return not all(word.islower() or word.isupper() or word.istitle() for word in words)
