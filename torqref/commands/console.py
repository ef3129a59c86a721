"""Where a command says things: results on stdout, messages on stderr, one JSON object with --json."""

from __future__ import annotations

from torqref.document.escape import escape_lines, is_hidden

# As `typing` has it, without the two milliseconds that its import costs.
TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from typing import IO, TextIO

    from torqref.document.problem import Problem
    from torqref.document.refusal import Refusal


class OutputLost(Exception):
    """The result could not be written, for another reason than that its reader has gone."""


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
        self._write(fitting(text, self.out))

    def tell(self, text: str) -> None:
        """A line beside the result."""
        self.out.flush()
        self.err.write(f"{fitting(text, self.err)}\n")

    def answer(self, payload: Mapping[str, object]) -> None:
        """The result as one JSON object; exact fractions become plain numbers."""
        self._write(self._json(payload))

    def answer_lists(self, payload: Mapping[str, Iterable[object]]) -> None:
        """The same of an object that holds only lists, entry by entry, so that long ones need little room."""
        import json

        before = "{"
        for name, entries in payload.items():
            self._put(f"{before}{json.dumps(name)}: [")
            between = ""
            for entry in entries:
                self._put(between + self._json(entry))
                between = ", "
            before = "], "
        self._write("]}" if payload else "{}")

    def _json(self, value: object) -> str:
        import json

        # A stream that knows only ASCII gets the other characters as JSON writes them: \\u00b7.
        return _steady(json.dumps(value, ensure_ascii=not _knows_signs(self.out), default=_plain))

    def _write(self, text: str) -> None:
        self._put(f"{text}\n", at_once=True)

    def _put(self, text: str, *, at_once: bool = False) -> None:
        try:
            self.out.write(text)
            if at_once:
                self.out.flush()
        except BrokenPipeError:
            raise
        except OSError as error:
            raise OutputLost(error.strerror) from error

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


# How the signs of the trade are written where the terminal knows only ASCII; the readings take them, too.
_ASCII = str.maketrans(
    {"·": "-", "–": "-", "−": "-", "°": " deg", "±": "+/-", "×": "x", "→": "->", "²": "2", "½": "1/2"}
)


def _knows_signs(stream: IO[str]) -> bool:
    """Whether a stream can carry every character; in-memory streams have no encoding and can."""
    return (getattr(stream, "encoding", None) or "utf-8").replace("-", "").casefold().startswith("utf")


def fitting(text: str, stream: IO[str]) -> str:
    """A text as the stream can carry it, where no character of it steers the terminal."""
    shown = escape_lines(text)
    if not _knows_signs(stream):
        encoding = getattr(stream, "encoding", None) or "ascii"
        shown = shown.translate(_ASCII).encode(encoding, "backslashreplace").decode(encoding)
    return shown


def _steady(text: str) -> str:
    """JSON whose hidden characters are written as their codes: they mean the same and steer nothing."""
    if text.isprintable():
        return text
    import json

    return "".join(json.dumps(char)[1:-1] if is_hidden(char) else char for char in text)


def _plain(value: object) -> object:
    from fractions import Fraction

    if isinstance(value, Fraction):
        return int(value) if value.denominator == 1 else float(value)
    raise TypeError(f"{type(value).__name__} has no JSON form here")
