"""Lines in words for a walk or job by lines, as a speech program reads them well."""

from __future__ import annotations

from argparse import Namespace

from torqref.commands.console import Console


class Worded(Console):
    """A console whose lines are in words, as a speech program reads them well."""

    __slots__ = ()

    def say(self, text: str = "") -> None:
        """The line as it should be read out."""
        from torqref.walk.speech import in_speech

        super().say(in_speech(text))


def lines_of(options: Namespace, console: Console) -> Console:
    """The console for a walk or job by lines: in words where that was asked for."""
    return Worded(console.out, console.err, console.as_json) if options.words else console
