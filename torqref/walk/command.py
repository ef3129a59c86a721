"""What a person can say during a walk, and the events it makes; a rule that forbids it comes back as words.

Each command looks at the progress and the moment and returns events, or a `No` with the reason and what
would do. Nothing is changed here: the session writes the events and only then shows them.
"""

from __future__ import annotations

from collections.abc import Callable

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.walk import correction, reading, swap, verification, word
from torqref.walk.attempt import Act, Answer, No
from torqref.walk.press import digit_answer, done

COMMANDS: dict[str, Callable[[Act], Answer]] = {
    "done": done,
    "undo": word.undo,
    "moved": word.moved,
    "later": word.later,
    "skip": word.skip,
    "trouble": word.trouble,
    "note": word.note,
    "found": reading.found,
    "actual": reading.actual,
    "page": correction.page,
    "drag": reading.drag,
    "old": word.old,
    "afterwards": word.afterwards,
    "measure": reading.measure,
    "round": word.tick_rest,
    "wrench": swap.wrench,
    "unit": swap.unit,
    "sign": word.sign,
    "verify": verification.verify,
    "pause": word.pause,
    "abandon": word.abandon,
}

_MOST_DIGITS = 4


def act(name: str, attempt: Act) -> Answer:
    """The events of one command, or why not; a digit answers the question that is open."""
    if name.isascii() and name.isdigit() and len(name) < _MOST_DIGITS:
        return digit_answer(int(name), attempt)
    command = COMMANDS.get(name.casefold())
    if command is None:
        near = nearest(name, COMMANDS)
        mend = f'Did you mean "{near}"?' if near else f"Known: {', '.join(COMMANDS)}."
        return No(message=f'"{escape(name)}" is not known here. {mend}')
    return command(attempt)
