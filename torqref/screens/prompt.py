"""A line to type on: one question, one answer, on the same screen."""

from __future__ import annotations

from dataclasses import dataclass, replace

from torqref.screens.line import Line, Piece, line, shown, width_of

MOST = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Prompt:
    """A line being typed.

    Args:
        label: what is asked, with an example.
        word: what the answer is for; the screen acts on it.
        text: what was typed so far.
        is_kept: whether this text was entered and refused, and nothing was typed since.
    """

    label: str
    word: str
    text: str = ""
    is_kept: bool = False

    def typed(self, characters: str) -> Prompt:
        """The same with more typed at its end; what cannot be shown is left out."""
        clean = "".join(char for char in characters if char.isprintable())
        return replace(self, text=(self.text + clean)[:MOST], is_kept=False)

    def erased(self) -> Prompt:
        """The same without its last character."""
        return replace(self, text=self.text[:-1], is_kept=False)

    def painted(self, width: int, *, ascii_only: bool = False) -> Line:
        """The question and what was typed; where the room is short the end of it stays in sight."""
        label = f" {shown(self.label, ascii_only=ascii_only)} "
        typed = shown(self.text, ascii_only=ascii_only) + "_"
        room = width - width_of(line(label))
        if room < min(len(typed), 12):
            return (Piece(typed[-max(1, width) :], "typed"),)
        return (Piece(label, "strong"), Piece(typed[-room:], "typed"))
