"""Writes text as a TOML string, so that what a person typed comes back exactly as it was."""

from __future__ import annotations

from torqref.document.escape import escape, is_hidden

_SHORT = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}
_LARGEST_SHORT_CODE = 0xFFFF


def quoted(text: str) -> str:
    r"""Text as a TOML basic string on one line; what a terminal would hide or obey is written as its code.

    Args:
        text: any text; a lone surrogate, which TOML cannot hold, is spelled out as `escape` does.

    >>> print(quoted('say "24 N·m"\x1b'))
    "say \"24 N·m\"\u001B"
    """
    return f'"{"".join(_written(char) for char in text)}"'


def _written(char: str) -> str:
    if char in _SHORT:
        return _SHORT[char]
    if not is_hidden(char):
        return char
    code = ord(char)
    if 0xD800 <= code <= 0xDFFF:
        return escape(char)
    return f"\\u{code:04X}" if code <= _LARGEST_SHORT_CODE else f"\\U{code:08X}"
