"""The one widget of a screen: it shows lines of pieces, and paints only the lines that changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from torqref.screens.line import EMPTY, Line, fitted, width_of
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
        width = self.size.width
        changed = [
            Region(0, row, width, 1)
            for row, (old, new) in enumerate(zip(before, self.lines, strict=True))
            if old != new
        ]
        if changed:
            self.refresh(*changed)

    def render_line(self, y: int) -> Strip:
        """One row of cells in their styles."""
        width = self.size.width
        painted = self.lines[y] if y < len(self.lines) else EMPTY
        styles = styles_of(self.theme or "one colour")
        if width_of(painted) != width:
            painted = fitted(painted, width)
        return Strip([Segment(text, styles[tone]) for text, tone in painted if text], width)
