"""Keys: one letter, the word it stands for, and what it does; letters, digits, space and enter do it all.

Nothing depends on Escape or a function key, which a slow link tears or delays.
"""

from __future__ import annotations

from dataclasses import dataclass

from textual.events import Key as KeyEvent

# The end of a typed line; a wrench that types may end it with a line feed.
ENTER = ("enter", "ctrl+j")
MAIN = ("enter", "space")
LEAVE = ("ctrl+c", "ctrl+q", "ctrl+d")


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """A key of a screen.

    Args:
        letter: the character to press.
        word: the word it stands for, as plain mode writes it.
        meaning: what it does, for the help.
        act: name of the method of the screen that does it, without `do_`.
    """

    letter: str
    word: str
    meaning: str
    act: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Keys without a character that a screen takes; each of them has another way beside it.

    Args:
        shown: how the help calls them.
        names: how the terminal calls them.
        meaning: what they do, for the help.
    """

    shown: str
    names: tuple[str, ...]
    meaning: str


# What moves a mark through a list, or through pages.
ARROWS = ("up", "down", "pageup", "pagedown", "home", "end")


def letter_of(event: KeyEvent) -> str:
    """The character of a key press in small letters, so that a stuck caps lock does no harm; else empty."""
    character = event.character or ""
    return character.lower() if len(character) == 1 and character.isprintable() else ""
