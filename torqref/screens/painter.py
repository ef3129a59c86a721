"""The one widget of a screen: it shows lines of pieces, and paints only the lines that changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from torqref.screens.line import EMPTY, Line, Piece, cells, fitted, width_of
from torqref.screens.theme import THEMES, Ink


@cache
def styles_of(theme: str) -> Mapping[str, Style]:
    """The styles of a theme by tone; each is a real style, because NO_COLOR breaks on a missing one."""
    return {tone: _style(ink) for tone, ink in THEMES[theme].items()}


def _style(ink: Ink) -> Style:
    return Style(
        color=Color.parse(ink.fore) if ink.fore else None,
        bgcolor=Color.parse(ink.back) if ink.back else None,
        bold=ink.bold or None,
        reverse=ink.reverse or None,
        underline=ink.underline or None,
    )


def _changed(row: int, old: Line, new: Line) -> Region:
    """The cells of a row from the first to the last piece that is not what it was.

    Over a slow link only they are sent.
    """
    pairs = list(zip(old, new, strict=False))
    same = next((place for place, (one, two) in enumerate(pairs) if one != two), len(pairs))
    first = sum(cells(piece.text) for piece in new[:same])
    tail = 0
    for one, two in zip(reversed(old[same:]), reversed(new[same:]), strict=False):
        if one != two:
            tail += _common_end(one, two)
            break
        tail += cells(two.text)
    last = max(width_of(old), width_of(new)) - tail
    return Region(first, row, max(1, last - first), 1)


def _common_end(one: Piece, two: Piece) -> int:
    """Cells at the end of two pieces that are the same."""
    if one.tone != two.tone:
        return 0
    count = 0
    for first, second in zip(reversed(one.text), reversed(two.text), strict=False):
        if first != second:
            break
        count += cells(second)
    return count


def joined(painted: Line, theme: str) -> Iterator[Piece]:
    """The same line in fewer pieces: blanks look alike in all tones with the same ground.

    Each change of tone costs some forty bytes, which a slow link feels.
    """
    text, tone = "", ""
    for piece in painted:
        if not piece.text:
            continue
        if not text or piece.tone == tone or _alike(piece, tone, theme):
            text, tone = text + piece.text, tone or piece.tone
        elif _alike(Piece(text, tone), piece.tone, theme):
            text, tone = text + piece.text, piece.tone
        else:
            yield Piece(text, tone)
            text, tone = piece.text, piece.tone
    if text:
        yield Piece(text, tone)


def _alike(piece: Piece, tone: str, theme: str) -> bool:
    """Whether a piece of blanks could as well be in another tone."""
    if piece.text.strip(" "):
        return False
    one, two = THEMES[theme][piece.tone], THEMES[theme][tone]
    return (one.back, one.reverse, one.underline) == (two.back, two.reverse, two.underline)


class Painter(Widget, inherit_css=False):
    """Shows lines; a line that stays the same is not painted again."""

    DEFAULT_CSS = "Painter { width: 100%; height: 100%; }"

    def __init__(self) -> None:
        """A painter with nothing to show yet."""
        super().__init__()
        self.lines: tuple[Line, ...] = ()
        self.theme = ""

    def show(self, lines: Sequence[Line], theme: str) -> None:
        """Show these lines in place of those before."""
        before, self.lines = self.lines, tuple(lines)
        repaint_all = theme != self.theme or len(before) != len(self.lines)
        self.theme = theme
        if repaint_all:
            self.refresh()
            return
        rows = enumerate(zip(before, self.lines, strict=True))
        changed = [_changed(row, old, new) for row, (old, new) in rows if old != new]
        if changed:
            self.refresh(*changed)

    def render_line(self, y: int) -> Strip:
        """One row of cells in their styles."""
        width = self.size.width
        painted = self.lines[y] if y < len(self.lines) else EMPTY
        theme = self.theme or "one colour"
        styles = styles_of(theme)
        if width_of(painted) != width:
            painted = fitted(painted, width)
        return Strip([Segment(text, styles[tone]) for text, tone in joined(painted, theme)], width)
