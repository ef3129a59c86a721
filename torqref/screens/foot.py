"""The last line of a screen: its keys, as many as fit; the main key and the help are never dropped."""

from __future__ import annotations

from collections.abc import Sequence

from torqref.screens.key import Key
from torqref.screens.line import Line, Piece, width_of

HELP = "help"


def key_line(main: str, keys: Sequence[Key], width: int) -> Line:
    """The keys on one line; those in front stay longest.

    A second key for the same thing, or for what enter does, is left to the help.

    Args:
        main: what enter does, empty where it does nothing.
        keys: the keys of the screen.
        width: cells of the line.
    """
    pieces = (Piece(" enter ", "key"), Piece(f" {main} ", "quiet")) if main else ()
    told = tuple({key.word: key for key in reversed(keys) if key.word != main}.values())[::-1]
    kept = {key.letter for key in told if key.act == HELP}
    left = width - width_of(pieces) - sum(width_of(_pieces(key)) for key in told if key.act == HELP)
    for key in told:
        wide = width_of(_pieces(key))
        if key.letter not in kept and wide <= left:
            kept.add(key.letter)
            left -= wide
    return (*pieces, *(piece for key in told if key.letter in kept for piece in _pieces(key)))


def _pieces(key: Key) -> Line:
    return (Piece(f" {key.letter} ", "key"), Piece(f" {key.word} ", "quiet"))
