"""What is taken in the hand, and what is to be minded with it: the words of a stop about its tool."""

from __future__ import annotations

from torqref.walk.attempt import NOT_IN_RACK
from torqref.walk.condition import joined
from torqref.walk.plan import Dial


def tool_lines(dial: Dial | None, words: str) -> list[str]:
    """What is taken in the hand, what is to be minded with it, and the words of the stage.

    A crowfoot has more to say than fits beside the rest: then every line is filled.
    """
    if dial is None:
        return [words]
    # a walk that an earlier version began has its notes in full only
    short = [_aside(note) for note in dial.short or dial.notes[:1]]
    if dial.beyond:
        return ["; ".join((NOT_IN_RACK, *short)), words]
    take = f"take {dial.wrench_name}" if dial.wrench_name else ""
    if dial.with_adapter:
        return list(joined(part for part in (take, words, *short) if part))
    return ["; ".join(part for part in (take, *short) if part), words]


def _aside(sentence: str) -> str:
    """A sentence as it stands behind a semicolon.

    >>> _aside("Stay within 23.5 to 24.5."), _aside("NO LOSS COUNTED"), _aside("AWAY 20, BACK 30")
    ('stay within 23.5 to 24.5', 'NO LOSS COUNTED', 'AWAY 20, BACK 30')
    """
    bare = sentence.removesuffix(".")
    return bare[:1].lower() + bare[1:] if bare[1:2].islower() else bare
