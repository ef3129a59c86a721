"""From what the grammar could not read to a refusal whose readings can be typed as they are."""

from __future__ import annotations

from collections.abc import Callable

from torqref.document.refusal import Refusal
from torqref.quantity.folding import Folded, fold
from torqref.quantity.misprint import digits_for_letters
from torqref.quantity.scan import Unread

Read = Callable[[Folded], object]
_DEEPEST = 4
# Where a reason says what is expected, or what is wrong with the number, nothing needs to be added.
_SAYING_MORE = ("expected", "write", ";", "too large", "more than")


def refusal(folded: Folded, unread: Unread, read: Read, expected: str = "") -> Refusal:
    """The refusal of a text.

    Args:
        folded: the text.
        unread: why it was not read.
        read: the reading that failed; only what it can read is offered.
        expected: what is told where nothing can be offered and the reason alone does not say it.
    """
    found = (_resolved(folded.text, unread, read, which, _DEEPEST) for which in range(len(unread.options)))
    readings = tuple(dict.fromkeys(text for text in found if text)) or _with_digits(folded.text, read)
    caret = None if unread.at is None else folded.place(unread.at)
    message = unread.message
    if expected and not readings and not any(word in message for word in _SAYING_MORE):
        message = f"{message}; {expected}"
    return Refusal(text=folded.source, message=message, readings=readings, caret=caret)


def _with_digits(text: str, read: Read) -> tuple[str, ...]:
    """The text with digits for the letters that look like them, where that can be read: `1S Nm`."""
    candidate = fold(digits_for_letters(text))
    if isinstance(candidate, Refusal) or not candidate.text:
        return ()
    try:
        read(candidate)
    except Unread:
        return ()
    return (candidate.source,)


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
        is_same = bool(unread.topic and again.options) and again.topic == unread.topic and depth > 0
        return _resolved(candidate.text, again, read, which, depth - 1) if is_same else ""
    return candidate.source
