"""The help of a screen: its keys and what they do, then a few sentences; any key goes back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from torqref.library.source import DEFER
from torqref.screens.key import Key, Move
from torqref.screens.line import Line, Piece, block, line, shown, wrapped
from torqref.screens.painted import PaintedScreen

_ALWAYS = (
    ("ctrl+l", "paint everything again"),
    ("ctrl+z", "put the program aside (on Linux and macOS); `fg` brings it back"),
    ("ctrl+c", "leave; every tick that was shown is on disk"),
)


class HelpScreen(PaintedScreen):
    """Keys and sentences of the screen below; page by page where the room is short."""

    name_shown = "help"
    heading = "keys and help"

    def __init__(
        self,
        *,
        keys: Sequence[Key] = (),
        moves: Sequence[Move] = (),
        lines: Sequence[str] = (),
        main: str = PaintedScreen.main_help,
    ) -> None:
        """The help of one screen.

        Args:
            keys: the keys of that screen.
            moves: the keys without a character that work there.
            lines: what else there is to say.
            main: what enter does there.
        """
        super().__init__()
        self.told_moves = tuple(moves)
        self.told_main = main
        self.told_keys = tuple(keys)
        self.told_lines = (*lines, DEFER)
        self.page = 0

    def keys(self) -> Sequence[Key]:
        """One key goes back; every other key does as well, the main key after the last page."""
        return (Key(letter="q", word="back", meaning="go back", act="leave"),)

    def main(self) -> None:
        """The next page; back after the last one."""
        if self._rows(self.size.width)[(self.page + 1) * self._room() :]:
            self.page += 1
        else:
            self.leave()

    def typed(self, character: str) -> bool:
        """Any letter goes back."""
        self.leave()
        return True

    def digit(self, character: str) -> None:
        """A digit goes back too."""
        self.leave()

    def special(self, name: str) -> bool:
        """So does Escape."""
        if name == "escape":
            self.leave()
        return name == "escape"

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The page that is open."""
        rows = self._rows(width)
        room = self._room()
        more = len(rows) > (self.page + 1) * room
        page = rows[self.page * room : (self.page + 1) * room]
        foot = block((self._foot(width, more=more),), width, 1)
        return (*block((self._head(width), *page), width, height - 1), *foot)

    def _head(self, width: int) -> Line:
        """What this is."""
        return line((f" {shown(self.heading)} ", "title"))

    def _foot(self, width: int, *, more: bool) -> Line:
        """What the main key does, and how to go back before the last page."""
        return line((f" {'enter = more, q = back' if more else 'enter = back'} ", "key"))

    def _room(self) -> int:
        return max(1, self.size.height - 2)

    def _rows(self, width: int) -> tuple[Line, ...]:
        return tuple(self._all(width))

    def _all(self, width: int) -> Iterator[Line]:
        ascii_only = self.look.ascii_only
        yield from _row("enter", self.told_main, width, ascii_only)
        for key in self.told_keys:
            yield from _row(key.letter, f"{key.word}: {key.meaning}", width, ascii_only)
        for name, meaning in (*((move.shown, move.meaning) for move in self.told_moves), *_ALWAYS):
            yield from _row(name, meaning, width, ascii_only)
        for sentence in self.told_lines:
            yield from wrapped(shown(sentence, ascii_only=ascii_only), width - 1, indent=2)


def _row(key: str, meaning: str, width: int, ascii_only: bool) -> Iterator[Line]:
    first = True
    for part in wrapped(shown(meaning, ascii_only=ascii_only), max(10, width - max(9, len(key) + 3))):
        yield (Piece(f" {key:<6} " if first else " " * 8, "key" if first else "plain"), Piece(" "), *part)
        first = False
