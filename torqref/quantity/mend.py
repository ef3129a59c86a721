"""From what the grammar could not read to a refusal whose readings can be typed as they are."""

from __future__ import annotations

from collections.abc import Callable

from torqref.document.refusal import Refusal
from torqref.quantity.folding import Folded, fold
from torqref.quantity.scan import Unread

Read = Callable[[Folded], object]
_DEEPEST = 4


def refusal(folded: Folded, unread: Unread, read: Read) -> Refusal:
    """The refusal of a text.

    Args:
        folded: the text.
        unread: why it was not read.
        read: the reading that failed; only what it can read is offered.
    """
    found = (_resolved(folded.text, unread, read, which, _DEEPEST) for which in range(len(unread.options)))
    readings = tuple(dict.fromkeys(text for text in found if text))
    caret = None if unread.at is None else folded.place(unread.at)
    return Refusal(text=folded.source, message=unread.message, readings=readings, caret=caret)


def _resolved(text: str, unread: Unread, read: Read, which: int, depth: int) -> str:
    """The text with one option chosen, and the same choice wherever the rest asks again; empty if in vain."""
    start, end = unread.span or (0, len(text))
    option = unread.options[min(which, len(unread.options) - 1)]
    candidate = fold(f"{text[:start]}{option}{text[end:]}".strip())
    if isinstance(candidate, Refusal):
        return ""
    try:
        read(candidate)
    except Unread as again:
        is_same = bool(unread.topic) and again.topic == unread.topic and depth > 0
        return _resolved(candidate.text, again, read, which, depth - 1) if is_same else ""
    return candidate.source
