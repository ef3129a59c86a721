"""Reads what people write: a closed grammar that refuses what has no one meaning and guesses nothing."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from torqref.document.refusal import Refusal
from torqref.quantity.chain import read_chain
from torqref.quantity.folding import Folded, fold
from torqref.quantity.mend import refusal
from torqref.quantity.misprint import nearest_unit
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import spelled, symbols
from torqref.quantity.term import Angle, Term, Torque
from torqref.quantity.units import BY_SYMBOL, TORQUE_SYMBOLS

# Marks of no width and no direction of their own: they change nothing of what is seen.
_NO_WIDTH = dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufeff"))
_EXPECTED = "a value such as 24 N·m or 30 N·m + 90° is expected"


def read_term(text: str) -> Term | Refusal:
    """A torque, an angle, a hand turn, or a chain of them, as text says it.

    Args:
        text: what stands on the page or was typed.

    Returns:
        What it says, with a note for everything read in an unusual way; or a refusal with the readings it
        could have.

    >>> term = read_term("30 N·m + 90° + 90°")
    >>> isinstance(term, Term) and [stage.kind for stage in term.stages]
    ['torque', 'angle', 'angle']
    >>> refused = read_term("15 lbs")
    >>> isinstance(refused, Refusal) and refused.readings
    ('15 ft-lb', '15 in-lb')
    """
    return _term(text)


@lru_cache(maxsize=4096)
def _term(text: str) -> Term | Refusal:
    """Read once: a library prints the same values again and again, and its checks read them once more."""
    folded = fold(text)
    if isinstance(folded, Refusal):
        return _without_marks(text, folded)
    try:
        return _chain(folded)
    except Unread as unread:
        return refusal(folded, unread, _chain, _EXPECTED)


def _without_marks(text: str, refused: Refusal) -> Refusal:
    """What is left without the marks of no width that a copied value brings along."""
    bare = text.translate(_NO_WIDTH)
    if bare == text or isinstance(fold(bare), Refusal) or isinstance(read_term(bare), Refusal):
        return refused
    return replace(refused, readings=(bare.strip(),))


def read_torque(text: str) -> Torque | Refusal:
    """Exactly one torque.

    >>> torque = read_torque("22-26 Nm")
    >>> isinstance(torque, Torque) and (torque.low, torque.target, torque.high, torque.unit)
    (Fraction(22, 1), Fraction(24, 1), Fraction(26, 1), 'N·m')
    """
    term = read_term(text)
    if isinstance(term, Refusal):
        return term
    stage = term.stages[0]
    if len(term.stages) == 1 and isinstance(stage, Torque):
        return stage
    torques = tuple(stage.text for stage in term.stages if isinstance(stage, Torque))
    return Refusal(
        text=text, message="one torque is expected, and nothing before or after it", readings=torques
    )


def read_angle(text: str) -> Angle | Refusal:
    """Exactly one turn.

    >>> angle = read_angle("2 flats back")
    >>> isinstance(angle, Angle) and angle.degrees
    Fraction(-120, 1)
    """
    term = read_term(text)
    if isinstance(term, Refusal):
        return _turned(text) or term
    stage = term.stages[0]
    if len(term.stages) == 1 and isinstance(stage, Angle):
        return stage
    angles = tuple(stage.text for stage in term.stages if isinstance(stage, Angle))
    return Refusal(text=text, message="one angle is expected, such as 90° or 1/4 turn", readings=angles)


def _turned(text: str) -> Refusal | None:
    """A bare number where a turn is expected: degrees, or a share of a turn."""
    bare = text.strip()
    readings = tuple(f"{bare}{unit}" for unit in ("°", " turn", " flats"))
    if not bare.replace(",", ".").replace(".", "", 1).isdecimal():
        readings = readings[1:]
    found = tuple(reading for reading in readings if not isinstance(read_term(reading), Refusal))
    if not found or not bare[:1].isdecimal() or not bare[-1:].isdecimal():
        return None
    return Refusal(text=text, message=f'"{bare}" has no unit; an angle is expected', readings=found)


def read_unit(text: str) -> str | Refusal:
    """The symbol of a torque unit, in any spelling.

    >>> read_unit("lbs ft"), read_unit("Nm")
    ('ft-lb', 'N·m')
    """
    folded = fold(text)
    if isinstance(folded, Refusal):
        return folded
    scan = Scan(folded, symbols())
    match = spelled(scan.found, 0, folded.text, symbols())
    if match and match.symbol in TORQUE_SYMBOLS:
        scan.at = match.after
        scan.skip_stop()
        if scan.is_done():
            return match.symbol
    return _no_unit(text)


def _no_unit(text: str) -> Refusal:
    from torqref.document.escape import escape

    letters = "".join(char for char in text.casefold() if char.isalpha())[:20]
    half = symbols().get(text.strip().casefold(), "")
    whole = tuple(unit for unit in TORQUE_SYMBOLS if half in BY_SYMBOL[unit].definition.split(" * "))
    near = "" if whole else nearest_unit(letters)
    known = whole or ((near,) if near else TORQUE_SYMBOLS)
    return Refusal(
        text=text, message=f'"{escape(text)}" is no unit of torque that is known here', readings=known
    )


def _chain(folded: Folded) -> Term:
    return read_chain(Scan(folded, symbols()), folded.source)
