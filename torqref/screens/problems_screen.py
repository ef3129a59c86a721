"""Everything wrong with the files of library and records, with file, line and mend; any key goes back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from torqref.document.problem import Problem
from torqref.screens.help_screen import HelpScreen
from torqref.screens.line import Line, line, shown, wrapped

_TONES = {"error": "trouble", "warning": "later", "hint": "quiet"}


class ProblemsScreen(HelpScreen):
    """Problems page by page, errors first."""

    name_shown = "problems"
    heading = "problems of files"

    def __init__(self, *, problems: Sequence[Problem]) -> None:
        """Show these problems."""
        super().__init__()
        order = tuple(_TONES)
        self.problems = sorted(problems, key=lambda problem: order.index(problem.severity))

    def _all(self, width: int) -> Iterator[Line]:
        ascii_only = self.look.ascii_only
        for problem in self.problems:
            yield line((f" {problem.severity} ", _TONES[problem.severity]))
            sentence = shown(problem.sentence(), ascii_only=ascii_only)
            yield from wrapped(sentence, width - 1, indent=2)
        if not self.problems:
            yield line("No problems.")
