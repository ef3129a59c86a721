"""What is to be read on the screen that is shown now; each kind of test presses keys in a way of its own."""

from __future__ import annotations

from dataclasses import dataclass

from textual.pilot import Pilot

from torqref.screens.app import TorqrefApp
from torqref.screens.line import text_of
from torqref.screens.painted import PaintedScreen


@dataclass(slots=True)
class Sight:
    """The program in a terminal of a test."""

    pilot: Pilot[int]
    app: TorqrefApp

    @property
    def screen(self) -> PaintedScreen:
        screen = self.app.screen
        assert isinstance(screen, PaintedScreen)
        return screen

    @property
    def name(self) -> str:
        return type(self.screen).__name__

    @property
    def lines(self) -> list[str]:
        """The lines on the screen, as one would read them."""
        return [text_of(painted) for painted in self.screen.painter.lines]

    @property
    def text(self) -> str:
        return "\n".join(self.lines)

    @property
    def flat(self) -> str:
        """The text without line breaks, for sentences that were wrapped; read it on a narrow screen."""
        return " ".join(self.text.split())
