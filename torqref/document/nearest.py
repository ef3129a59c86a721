"""Words that are alike: the known one nearest to a mistyped one, and names that differ in nothing."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like this one, or None if nothing is near.

    >>> nearest("tourque", ["torque", "angle", "hand"])
    'torque'
    """
    # difflib is loaded only for a message: the usual start never pays for it.
    from difflib import get_close_matches

    folded = {candidate.casefold(): candidate for candidate in known}
    found = get_close_matches(word.casefold(), list(folded), n=1, cutoff=0.6)
    return folded[found[0]] if found else None


def folded(text: str) -> str:
    """A name as it is compared with another: capitals and blanks make no difference.

    >>> folded(" Water  Pump") == folded("water pump")
    True
    """
    return " ".join(text.casefold().split())
