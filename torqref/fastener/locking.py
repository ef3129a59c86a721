"""What keeps a fastener from turning by itself: the drag of a self-locking nut, and threadlocker."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from torqref.quantity.term import Torque

THREADLOCKER = (
    r"thread[\s-]*lock|lock(?:ing)? (?:compound|fluid)|retaining compound|adhesive|micro-?encapsulated"
)
_LOCKED = re.compile(THREADLOCKER, re.IGNORECASE)
_DENIED = re.compile(
    r"\b(?:no|not|never|without|old|residues?|remains|remov\w*|scrape\w*"
    r"|(?:free|clean\w*|rid) (?:of|from|off))\b",
    re.IGNORECASE,
)
# One clause denies or removes, another one may apply: "old threadlocker off, fresh threadlocker on".
_CLAUSES = re.compile(r"[,;.:]|\b(?:and|then|but)\b", re.IGNORECASE)


def is_threadlocked(condition: str) -> bool:
    """Whether a condition says that the threads are set in threadlocker; no, where it is denied or taken off.

    Limits: the words of English pages; a condition in other words needs `threadlocker = true`.

    >>> is_threadlocked("threadlocker on the threads"), is_threadlocked("no threadlocker")
    (True, False)
    >>> is_threadlocked("remove old threadlocker, then fresh threadlocker")
    True
    """
    clauses = _CLAUSES.split(condition)
    return any(_LOCKED.search(clause) and not _DENIED.search(clause) for clause in clauses)


def with_drag(torque: Torque, drag: Fraction) -> Torque:
    """The torque to pull when a locking nut drags: every limit plus the measured drag.

    Args:
        torque: the torque as printed.
        drag: measured run-down torque in the same unit, not scaled by anything.

    Returns:
        The torque with low, target and high raised by the drag.

    Source: FAA AC 43.13-1B, para. 7-40 c and d; definition of final torque in TM 55-1560-307.

    >>> printed = Torque(low=Fraction(50), target=Fraction(60), high=Fraction(70), unit="in-lb",
    ...                  decimals=0, text="50–70 in-lb")
    >>> pulled = with_drag(printed, Fraction(7))
    >>> (int(pulled.low), int(pulled.high))
    (57, 77)
    """
    low, target, high = (
        None if value is None else value + drag for value in (torque.low, torque.target, torque.high)
    )
    return replace(torque, low=low, target=target, high=high)
