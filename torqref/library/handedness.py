"""Which way a thread tightens, as it is written: a left-hand one says so at its end or in words."""

from __future__ import annotations

import re

_LEFT = re.compile(r"(?i)\bleft\b|lh\s*$")


def is_left_hand(thread: str) -> bool:
    """Whether a thread is written as a left-hand one (ISO 965-1: `LH` behind it).

    >>> [is_left_hand(thread) for thread in ("M24x1.5 LH", "M10x1-LH", "1/2-20 left hand", "M10")]
    [True, True, True, False]
    """
    return bool(_LEFT.search(thread))
