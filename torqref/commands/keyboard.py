"""Lines as they are typed; at a terminal a press that came before it could be meant is left out, and told."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from select import select
from time import monotonic
from typing import TextIO

from torqref.commands.console import Console
from torqref.walk.bounce import AHEAD, BOUNCE


@dataclass(slots=True)
class Keyboard:
    """Where lines come from.

    A pipe or a file is read line by line as it is, since scripts answer ahead. At a terminal nobody reads
    what is asked and answers within a fifth of a second: such a press is the bounce of a foot switch, a key
    held down, or meant for what was asked before. Words are taken whenever they come.

    Args:
        lines: what is typed.
        console: where it is answered.
        clock: seconds that only go forward.
    """

    lines: TextIO
    console: Console
    clock: Callable[[], float] = monotonic

    def read(self) -> str:
        """The next line that was meant for what stands on the screen; empty at the end of input."""
        if not self.lines.isatty():
            return self.lines.readline()
        told = False
        while True:
            shown, ahead = self.clock(), _is_typed_ahead(self.lines)
            line = self.lines.readline()
            if not is_press(line) or not (ahead or self.clock() - shown < BOUNCE.total_seconds()):
                return line
            if not told:
                self.console.say(AHEAD)
            told = True


def _is_typed_ahead(lines: TextIO) -> bool:
    """Whether a line waits already; False where the system cannot tell."""
    try:
        return bool(select([lines.fileno()], [], [], 0)[0])
    except (OSError, ValueError):
        return False


def is_press(line: str) -> bool:
    r"""Whether a line is the main key or a digit; the end of input is neither.

    >>> [is_press(line) for line in ("\n", "2\n", "undo\n", "23.8 Nm\n", "")]
    [True, True, False, False, False]
    """
    text = line.strip()
    return bool(line) and (not text or text.isdigit())
