"""Reads thread designations as the trade writes them: M8, M8x1, 3/8-16 UNC, 1/4-28, #10-24, LH.

What is not a thread is refused with the nearest one; the number on a spanner is noticed as such.
The series are in `series`, the hexagons in `hexagon`, diameters and areas in `geometry`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache

from torqref.document.escape import escape
from torqref.document.refusal import Refusal
from torqref.fastener import inch_thread, metric_thread, pipe_thread
from torqref.fastener.geometry import Thread
from torqref.fastener.hexagon import SPANNER, refuse_spanner
from torqref.quantity.folding import fold

__all__ = ["Thread", "read_thread"]

LONGEST = 60
_LEFT = re.compile(r"[\s,;-]*\(?\b(?:reversed?|left(?:[\s-]*hand(?:ed)?)?|l\.?h\.?t?\.?)\)?(?:\s+thread)?$")
_GLUED_LEFT = re.compile(r"(?<=[\da-z])-?lh$")
_LEFT_FIRST = re.compile(r"^(?:left(?:[\s-]*hand(?:ed)?)?|l\.?h\.?)[\s,:-]+")
_RIGHT = re.compile(r"[\s,;-]*\(?\b(?:right(?:[\s-]*hand(?:ed)?)?|r\.?h\.?)\)?(?:\s+thread)?$")
_NUMBERS = re.compile(r"\d+(?:\.\d+)?")
_NOUN = re.compile(r"\s+(?:bolts?|nuts?|studs?|(?:cap)?screws?|threads?)$")
# Tolerance classes of ISO 965-1 and ASME B1.1 say nothing about strength or size.
_FIT = re.compile(r"[\s-]+(?:\d[efgh](?:\s?\d[efgh])?|[123][ab])$")

Reader = Callable[[str], "Thread | Refusal | None"]
_READERS: tuple[Reader, ...] = (metric_thread.read, pipe_thread.read, inch_thread.read)


def read_thread(text: str) -> Thread | Refusal:
    """A thread designation as a thread, or why it is none and what may have been meant.

    Args:
        text: what a person wrote; capitals, blanks and the kind of multiplication sign do not matter.

    Returns:
        The thread, with notes about what was read in an unusual way; or a refusal whose readings can be
        typed as they are. A bare size has the coarse pitch, an inch size with a note. A pitch of no
        series is accepted with a note and computed.

    >>> read_thread("M8").designation
    'M8x1.25'
    >>> read_thread('3/8"-24 LH').designation
    '3/8-24 UNF LH'
    >>> read_thread("13 mm").readings
    ('M8',)
    """
    if len(text) > LONGEST or not text.strip():
        return _unknown(text[:LONGEST], "")
    return _known(text)


@lru_cache(maxsize=1024)
def _known(text: str) -> Thread | Refusal:
    """Read once: a whole library has a few dozen threads."""
    folded = fold(text)
    return folded if isinstance(folded, Refusal) else _read(_plain(folded.text), text)


def _read(plain: str, text: str) -> Thread | Refusal:
    if spanner := SPANNER.fullmatch(plain):
        return refuse_spanner(text, spanner)
    body, left_hand = _hand(plain)
    body = _FIT.sub("", _NOUN.sub("", body))
    for reader in _READERS:
        found = reader(body)
        if isinstance(found, Thread):
            return _turned(found) if left_hand else found
        if found is not None:
            return Refusal(text=text, message=found.message, readings=_all_turned(found.readings, left_hand))
    return _unknown(text, body)


def _plain(folded: str) -> str:
    """Small letters, one blank, `x` for every multiplication sign, `"` for every inch mark."""
    plain = folded.lower().replace("\N{FRACTION SLASH}", "/").replace("×", "x").replace("*", "x")
    plain = re.sub(r"''|\binch(?:es)?\b|(?<=\d)\s*in\b\.?", '"', plain)
    return " ".join(plain.split())


def _hand(plain: str) -> tuple[str, bool]:
    """The text without its word for the hand, and whether it was the left one."""
    for pattern in (_LEFT, _GLUED_LEFT, _LEFT_FIRST):
        body, count = pattern.subn("", plain)
        if count:
            return body, True
    return _RIGHT.sub("", plain), False


def _turned(thread: Thread) -> Thread:
    from dataclasses import replace

    return replace(thread, designation=f"{thread.designation} LH", left_hand=True)


def _all_turned(readings: tuple[str, ...], left_hand: bool) -> tuple[str, ...]:
    return tuple(f"{reading} LH" for reading in readings) if left_hand else readings


def _unknown(text: str, body: str) -> Refusal:
    if text.strip():
        message = f'"{escape(text)}" is no thread known here; M8, M10x1.25, 3/8-16 or #10-24 would be one'
    else:
        message = "no thread is written here; a thread is expected, such as M8, M10x1.25 or 3/8-16"
    return Refusal(text=text, message=message, readings=_nearest(body))


def _nearest(body: str) -> tuple[str, ...]:
    """What a text with a number in it may have meant; a bare number may be metric or a screw number."""
    if body.isdecimal():
        screw = tuple(name for name in inch_thread.designations() if name.startswith(f"#{int(body)}-"))
        return tuple(name for name in metric_thread.designations() if name == f"M{int(body)}") + screw
    number = re.search(r"\d+", body)
    if number is None:
        return ()

    from torqref.document.nearest import nearest

    # A letter may have slipped, or a digit more at the end: with other numbers it is another thread.
    numbers = _NUMBERS.findall(body.replace(",", "."))
    known = [
        name
        for name in (*metric_thread.designations(), *inch_thread.designations())
        for own in [_NUMBERS.findall(name)]
        if own == numbers or (len(own) > 1 and own[:-1] == numbers[:-1] and numbers[-1].startswith(own[-1]))
    ]
    near = nearest(body, known) or next(iter(known), None)
    return (near,) if near else ()
