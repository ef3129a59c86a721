"""Which library files can hold what is looked for, seen from their bytes without reading them as TOML.

A file that may hold it is read, and only then is it known. A file that cannot is left alone: that is what
keeps the search of ten thousand groups as fast as the look through one.
"""

from __future__ import annotations

from collections.abc import Iterable

_DROPPED = bytes(set(range(256)) - set(b"abcdefghijklmnopqrstuvwxyz0123456789"))
# The letters beyond ASCII whose folding has letters of ASCII in it, such as ß: a file with one of them is
# always read. The multiplication sign is written as often as x and stands for it.
ODD_LETTERS = (
    "\u00df\u0130\u0149\u017f\u01f0\u1e96\u1e97\u1e98\u1e99\u1e9a\u1e9e\u212a"
    "\ufb00\ufb01\ufb02\ufb03\ufb04\ufb05\ufb06"
)
_ODD = tuple(letter.encode() for letter in ODD_LETTERS)
_TIMES = "×".encode()
_TABLE = b"table"


def may_hold_words(data: bytes, words: Iterable[str]) -> bool:
    r"""Whether each of these words may stand in the texts of a file, whatever signs are between the letters.

    Args:
        data: the bytes of the file.
        words: folded words, of small letters and digits only.

    >>> may_hold_words("torque = '24 N·m'".encode(), ["24nm"])
    True
    >>> may_hold_words("torque = '24 N·m'".encode(), ["m8"])
    False
    """
    # The texts of a reference table are put together from its cells.
    if _says_more(data) or _TABLE in data or any(letter in data for letter in _ODD):
        return True
    plain = _plain(data)
    return all(_plain(word.encode()) in plain for word in words)


def may_hold_id(data: bytes, identity: str) -> bool:
    """Whether a file may hold the group of this id, by itself or as a row of a reference table.

    The id of a row is the id of its table and more, put together with dashes.

    >>> may_hold_id(b'id = "water-pump"', "water-pump")
    True
    >>> may_hold_id(b"[[table]] id = 'nuts'", "nuts-m8-oiled")
    True
    """
    if identity.encode() in data or _says_more(data):
        return True
    parts = identity.split("-") if _TABLE in data else ()
    return any("-".join(parts[:count]).encode() in data for count in range(1, len(parts)))


def _says_more(data: bytes) -> bool:
    """An escape of TOML can write any letter in another way."""
    return b"\\" in data


def _plain(data: bytes) -> bytes:
    """The small letters and digits of ASCII alone; what two texts share they share without the others."""
    return data.replace(_TIMES, b"x").lower().translate(None, _DROPPED)
