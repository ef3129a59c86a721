"""Makes control, zero-width and bidirectional characters visible, so that text from a file stays text."""

from __future__ import annotations

import unicodedata

_KEPT = frozenset({"\n", "\t"})
_HIDDEN_CATEGORIES = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def escape(text: str, *, keep: frozenset[str] = frozenset()) -> str:
    r"""Text with every control, format, surrogate or unassigned character written as its code.

    Args:
        text: any text, from a file, a key or another program.
        keep: control characters to leave alone, such as the newline of a diagram.

    Returns:
        The same text when it is clean; otherwise with `<U+001B>` in the place of ESC and so on.

    >>> escape("24 N·m\x1b[2J")
    '24 N·m<U+001B>[2J'
    """
    # What Python calls printable holds none of the categories below; most text of a file is.
    if text.isprintable():
        return text
    return "".join(char if char in keep or not is_hidden(char) else f"<U+{ord(char):04X}>" for char in text)


def escape_lines(text: str) -> str:
    """The same for text of several lines: newlines and tabs stay."""
    clean = text.isprintable() or text.replace("\n", "").replace("\t", "").isprintable()
    return text if clean else escape(text, keep=_KEPT)


def shortened(text: str, longest: int = 400) -> str:
    """A text for a message: of one that would fill the screen only its beginning and its end.

    >>> shortened("9" * 1000, 10)
    '99999 … 99999'
    """
    return text if len(text) <= longest else f"{text[: longest // 2]} … {text[-longest // 2 :]}"


def is_hidden(char: str) -> bool:
    """True for a character that a terminal would obey or hide and not show."""
    return unicodedata.category(char) in _HIDDEN_CATEGORIES
