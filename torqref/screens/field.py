"""Fields to type on: one after the other, each a label and what was typed so far."""

from __future__ import annotations

from dataclasses import dataclass, replace

from torqref.pattern.cells import cells
from torqref.screens.line import Line, Piece, shown, width_of

MOST = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A field of a screen.

    Args:
        name: the word under which the screen reads it.
        label: what is asked.
        hint: an example, shown while nothing is typed.
        text: what was typed so far.
    """

    name: str
    label: str
    hint: str = ""
    text: str = ""

    def typed(self, characters: str) -> Field:
        """The same with more typed at its end; what cannot be shown is left out."""
        clean = "".join(char for char in characters if char.isprintable())
        return replace(self, text=(self.text + clean)[:MOST])

    def erased(self) -> Field:
        """The same without its last character."""
        return replace(self, text=self.text[:-1])

    def painted(self, width: int, label_width: int, *, active: bool, ascii_only: bool = False) -> Line:
        """Label and text; where the room is short the end of the text stays in sight."""
        label = f" {shown(self.label, ascii_only=ascii_only).ljust(label_width)} "
        room = max(4, width - width_of((Piece(label),)) - 1)
        if not active:
            text = self.text or "-"
            return (Piece(label, "quiet"), Piece(shown(text, ascii_only=ascii_only), "strong"))
        typed = end_of(shown(self.text, ascii_only=ascii_only), room - 1) + "_"
        hint = f"  {shown(self.hint, ascii_only=ascii_only)}" if not self.text else ""
        return (Piece(label, "strong"), Piece(typed, "typed"), Piece(hint, "quiet"))


def end_of(text: str, width: int) -> str:
    """The end of a text that fits into so many cells.

    >>> end_of("M8 10.9 24 N·m", 6)
    '24 N·m'
    """
    start, used = len(text), 0
    while start and used + cells(text[start - 1]) <= width:
        start -= 1
        used += cells(text[start])
    return text[start:]
