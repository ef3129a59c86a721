"""A screen that is typed on: letters, digits and blanks go into a field, and the answer moves with them.

What a screen can do beside that has a sign for its key, because every letter is text here. Enter is the
main key; nothing depends on Escape, Tab or an arrow, though they work.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from textual import events

from torqref.screens.field import Field
from torqref.screens.foot import key_line
from torqref.screens.key import LEAVE, Key, Move
from torqref.screens.line import Line, Piece, fitted, shown, wrapped
from torqref.screens.painted import PaintedScreen

BARS = ("warn", "stop", "trouble")
HELP_KEY = Key(letter="?", word="help", meaning="all keys", act="help")
TYPE = Move(shown="letters", names=(), meaning="digits and blanks too: typed into the line")
EDITS = (
    Move(shown="backspace", names=("backspace", "ctrl+h", "delete"), meaning="erase the last sign"),
    Move(shown="ctrl+u", names=("ctrl+u",), meaning="empty the line"),
    Move(shown="escape", names=("escape",), meaning="go back"),
)
BETWEEN = Move(
    shown="arrows", names=("tab", "down", "shift+tab", "up"), meaning="up and down, tab too: another line"
)


class FieldsScreen(PaintedScreen):
    """A screen with fields; subclasses give `fields`, `picture`, `keys` and `main`."""

    main_help = "the main key, and a foot switch"

    def __init__(self, fields: Sequence[Field]) -> None:
        """A screen whose first field is typed on.

        Args:
            fields: the fields in reading order.
        """
        super().__init__()
        self.fields = tuple(fields)
        self.active = 0

    def text(self, name: str) -> str:
        """What was typed in a field."""
        return next(field.text for field in self.fields if field.name == name)

    def changed(self) -> None:
        """A field has other text now."""

    def keys(self) -> Sequence[Key]:
        """The signs that work beside typing."""
        return (HELP_KEY,)

    def moves(self) -> Sequence[Move]:
        """Keys that edit, and keys that go from field to field."""
        return (TYPE, *EDITS[:-1], *((BETWEEN,) if len(self.fields) > 1 else ()), EDITS[-1])

    # --- typing ---------------------------------------------------------------------------------

    def take(self, event: events.Key) -> None:
        """One key press: a key of the screen, or text."""
        if event.key in ("ctrl+l", "ctrl+z") or self.prompt is not None or event.key in LEAVE:
            super().take(event)
            return
        self.message = ""
        acts: Mapping[str, Key] = {key.letter: key for key in self.keys()}
        if event.key == "enter":
            self.main()
        elif (event.character or "") in acts:
            getattr(self, f"do_{acts[event.character or ''].act}")()
        elif event.character and event.is_printable:
            self.write(event.character)
        else:
            self.special(event.key)

    def special(self, name: str) -> bool:
        """Editing and moving."""
        if name in EDITS[0].names:
            self._set(self.fields[self.active].erased())
        elif name == "ctrl+u":
            self._set(replace(self.fields[self.active], text=""))
        elif len(self.fields) > 1 and name in BETWEEN.names:
            self.move(1 if name in ("tab", "down") else -1)
        elif name == "escape":
            self.leave()
        else:
            return False
        return True

    def write(self, characters: str) -> None:
        """Text for the field that is typed on."""
        self._set(self.fields[self.active].typed(characters))

    def move(self, by: int) -> None:
        """To the next field or the one before, round and round."""
        self.active = (self.active + by) % len(self.fields)

    def on_paste(self, event: events.Paste) -> None:
        """A paste is typed text, and its first line only."""
        event.stop()
        self.write((event.text.splitlines() or [""])[0])
        self.repaint()

    def _set(self, field: Field) -> None:
        place = self.active
        if field != self.fields[place]:
            self.fields = (*self.fields[:place], field, *self.fields[place + 1 :])
            self.changed()

    # --- painting -------------------------------------------------------------------------------

    def field_lines(self, width: int) -> tuple[Line, ...]:
        """The fields, a line each."""
        label_width = max(len(field.label) for field in self.fields)
        return tuple(
            field.painted(width, label_width, active=place == self.active, ascii_only=self.look.ascii_only)
            for place, field in enumerate(self.fields)
        )

    def key_line(self, width: int, main: str) -> Line:
        """The keys on one line, as many as fit; the main key and the help always."""
        return key_line(main, tuple(self.keys()), width)

    def say(self, text: str, width: int, tone: str = "plain") -> tuple[Line, ...]:
        """A sentence on as many lines as it takes, one blank from the edge; a bar fills its lines."""
        safe = shown(text, ascii_only=self.look.ascii_only)
        lines = ((Piece(" ", tone), *part) for part in wrapped(safe, width - 2, tone))
        return tuple(fitted(said, width, tone) if tone in BARS else said for said in lines)
