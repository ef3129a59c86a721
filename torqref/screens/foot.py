"""The foot of a screen: answers of a question, what became of the last key, and the line of keys."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from torqref.screens.key import Key
from torqref.screens.line import Line, Piece, fitted, shown, width_of, wrapped
from torqref.screens.prompt import Prompt

HELP = "help"


@lru_cache(maxsize=64)
def key_line(main: str, keys: tuple[Key, ...], width: int) -> Line:
    """The keys on one line; those in front stay longest, the main key and the help are never dropped.

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


def option_lines(options: Sequence[tuple[int, str]], width: int, *, ascii_only: bool) -> Iterator[Line]:
    """Each answer of a question with its digit, wrapped."""
    for digit, text in options:
        for place, part in enumerate(wrapped(shown(text, ascii_only=ascii_only), width - 6, "strong")):
            head = (Piece(" "), Piece(f" {digit} ", "key"), Piece(" ")) if not place else (Piece("     "),)
            yield (*head, *part)


def say_lines(
    message: str, prompt: Prompt | None, width: int, *, refused: bool, ascii_only: bool
) -> Iterator[Line]:
    """What became of the last key, and the line being typed."""
    tone = "trouble" if refused else "strong"
    if message:
        for part in wrapped(shown(message, ascii_only=ascii_only), width - 2, tone):
            yield (Piece(" ", tone), *part, Piece(" ", tone))
    if prompt is not None:
        yield fitted(prompt.painted(width, ascii_only=ascii_only), width)
