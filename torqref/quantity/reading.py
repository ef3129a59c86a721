"""Reads what people write: a closed grammar that refuses what has no one meaning and guesses nothing."""

from __future__ import annotations

from torqref.document.refusal import Refusal
from torqref.quantity.chain import read_chain
from torqref.quantity.folding import Folded, fold
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import symbols
from torqref.quantity.term import Angle, Term, Torque


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
    >>> refusal = read_term("15 lbs")
    >>> isinstance(refusal, Refusal) and refusal.readings
    ('15 ft-lb', '15 in-lb')
    """
    folded = fold(text)
    if isinstance(folded, Refusal):
        return folded
    try:
        return read_chain(Scan(folded, symbols()), text)
    except Unread as unread:
        return _refusal(folded, unread)


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
        return term
    stage = term.stages[0]
    if len(term.stages) == 1 and isinstance(stage, Angle):
        return stage
    angles = tuple(stage.text for stage in term.stages if isinstance(stage, Angle))
    return Refusal(text=text, message="one angle is expected, such as 90° or 1/4 turn", readings=angles)


def _refusal(folded: Folded, unread: Unread) -> Refusal:
    caret = None if unread.at is None else folded.place(unread.at)
    return Refusal(
        text=folded.source, message=unread.message, readings=_readings(folded, unread), caret=caret
    )


def _readings(folded: Folded, unread: Unread) -> tuple[str, ...]:
    """The options put into the text they stand for; only those that can be read are offered."""
    start, end = unread.span or (0, len(folded.text))
    whole = [f"{folded.text[:start]}{option}{folded.text[end:]}" for option in unread.options]
    readable = [text for text in whole if _is_read(text)]
    if not readable:
        readable = [option for option in unread.options if _is_read(option)]
    return tuple(dict.fromkeys(readable))


def _is_read(text: str) -> bool:
    folded = fold(text)
    if isinstance(folded, Refusal):
        return False
    try:
        read_chain(Scan(folded, symbols()), text)
    except Unread:
        return False
    return True
