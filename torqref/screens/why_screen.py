"""Why it is done so: the reasons of the core, page by page like the help."""

from __future__ import annotations

from collections.abc import Iterator

from torqref.screens.help_screen import HelpScreen
from torqref.screens.line import Line, shown, wrapped


class WhyScreen(HelpScreen):
    """Sentences alone; any key goes back."""

    name_shown = "why"
    heading = "why it is done so"

    def _all(self, width: int) -> Iterator[Line]:
        """Each reason with an empty line behind it."""
        for sentence in self.told_lines:
            yield from wrapped(shown(sentence, ascii_only=self.look.ascii_only), width - 2, indent=2)
            yield ()
