"""Where a command says things: results on stdout, messages on stderr, one JSON object with --json."""

from __future__ import annotations

from torqref.document.escape import escape_lines

# As `typing` has it, without the two milliseconds that its import costs.
TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import TextIO

    from torqref.document.problem import Problem
    from torqref.document.refusal import Refusal


class Console:
    """The two streams of a process and whether a script is reading.

    The help needs a console and nothing else, so this is no dataclass: the import of those costs as much
    as the rest of the help.
    """

    __slots__ = ("as_json", "err", "out")

    def __init__(self, out: TextIO, err: TextIO, as_json: bool = False) -> None:
        """A console on two streams."""
        self.out = out
        self.err = err
        self.as_json = as_json

    def say(self, text: str = "") -> None:
        """A line of the result; nothing from a file can steer the terminal."""
        self.out.write(f"{escape_lines(text)}\n")
        self.out.flush()

    def tell(self, text: str) -> None:
        """A line beside the result."""
        self.out.flush()
        self.err.write(f"{escape_lines(text)}\n")

    def answer(self, payload: Mapping[str, object]) -> None:
        """The result as one JSON object; exact fractions become plain numbers."""
        import json

        self.out.write(json.dumps(payload, ensure_ascii=False, default=_plain) + "\n")
        self.out.flush()

    def problems(self, problems: Sequence[Problem]) -> None:
        """Each problem as a line of its own beside the result."""
        for problem in problems:
            self.tell(f"{problem.severity}: {problem.sentence()}")

    def refuse(self, refusal: Refusal) -> int:
        """Say no to a text, with the readings it could have; returns exit code 1."""
        if self.as_json:
            self.answer({"refused": refusal.message, "readings": refusal.readings})
            return 1
        if pointed := refusal.pointed():
            self.tell(pointed)
        self.tell(refusal.message + ".")
        for reading in refusal.readings:
            self.tell(f"  write: {reading}")
        return 1

    def deny(self, message: str) -> int:
        """Say no to anything else; returns exit code 1."""
        return self._no(message, 1)

    def misuse(self, message: str) -> int:
        """Say that the command line itself is wrong; returns exit code 2."""
        return self._no(message, 2)

    def _no(self, message: str, code: int) -> int:
        if self.as_json:
            self.answer({"refused": message, "readings": []})
        else:
            self.tell(message)
        return code


def _plain(value: object) -> object:
    from fractions import Fraction

    if isinstance(value, Fraction):
        return int(value) if value.denominator == 1 else float(value)
    raise TypeError(f"{type(value).__name__} has no JSON form here")
