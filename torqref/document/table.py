"""Typed access to one TOML table: what is wrong is collected as problems, never raised."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from torqref.document.escape import escape, escape_lines, shortened
from torqref.document.lines import line_at
from torqref.document.nearest import nearest
from torqref.document.problem import Problem, Severity
from torqref.document.quoting import quoted
from torqref.document.refusal import Refusal
from torqref.document.toml import Document

Read = TypeVar("Read")

_LONGEST_QUOTE = 40
_NUMBERS = re.compile(r"\[\d+\]")
_NOWHERE: Mapping[str, str] = {}
# What each kind is called, and how one is written.
_KINDS = {
    str: ("text in quotes", '"…"'),
    bool: ("true or false", "true"),
    int: ("a whole number", "4"),
    list: ("a list", '["…"]'),
    dict: ("a table", '{ … = "…" }'),
}


@dataclass(slots=True)
class Findings:
    """The problems found in one document so far; lines are looked up when the first one is told."""

    document: Document
    problems: list[Problem] = field(default_factory=list)
    keys: set[str] = field(default_factory=set)
    _known: set[Problem] = field(default_factory=set)
    _lines: Mapping[str, int] | None = None

    def tell(self, key: str, message: str, mend: str, severity: Severity = "error") -> None:
        """Add a problem at a key path, once however often the key is read."""
        problem = Problem(
            file=self.document.file,
            line=self.line(key),
            key=shortened(escape(key)),
            message=shortened(escape(message)),
            mend=shortened(escape(mend)),
            severity=severity,
        )
        if problem not in self._known:
            self._known.add(problem)
            self.keys.add(problem.key)
            self.problems.append(problem)

    def line(self, key: str) -> int | None:
        """The line of a key path, or of the nearest table around it."""
        if self._lines is None:
            self._lines = self.document.lines()
        return line_at(self._lines, key)


@dataclass(slots=True)
class Table:
    """One table of a document; every key that is read counts as known, `close` refuses the others."""

    values: Mapping[str, object]
    findings: Findings
    key: str = ""
    known: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, document: Document) -> Table:
        """The top table of a document, with a fresh list of findings."""
        return cls(document.values, Findings(document))

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Everything told so far about the whole document, in the order of its lines."""
        return tuple(sorted(self.findings.problems, key=lambda problem: problem.line or 0))

    def path(self, name: str) -> str:
        """The key path of a key of this table."""
        return f"{self.key}.{name}" if self.key else name

    def tell(self, name: str, message: str, mend: str, severity: Severity = "error") -> None:
        """Add a problem at a key of this table; an empty name means the table itself."""
        self.findings.tell(self.path(name) if name else self.key, message, mend, severity)

    def has(self, name: str) -> bool:
        """Whether the table holds the key; asking makes the key known."""
        self.known.add(name)
        return name in self.values

    def text(self, name: str, default: str = "") -> str:
        """A string, with hidden characters made visible."""
        value = self._typed(name, str)
        return default if value is None else escape_lines(str(value))

    def required(self, name: str, example: str) -> str:
        """A string that must be there and not be empty."""
        value = self.text(name)
        if not value.strip() and not self.told(name):
            self.tell(name, f"{name} is missing", f'Write {name} = "{example}".')
        return value

    def read(self, name: str, reader: Callable[[str], Read | Refusal], example: str) -> Read | None:
        """A value that a grammar reads from its text, or None; a refusal is told.

        Args:
            name: its key.
            reader: the grammar.
            example: a text that it reads, for who gets no nearer help.
        """
        text = self.text(name)
        if not text.strip():
            return None
        found = reader(text)
        if isinstance(found, Refusal):
            self.refuse(name, found, example)
            return None
        return found

    def refuse(self, name: str, refusal: Refusal, example: str) -> None:
        """A refused text as a problem at its key, with what it may have meant or else an example."""
        readings = refusal.readings
        if len(readings) > 1:
            mend = f"Write one of: {'; '.join(readings)}."
        elif readings:
            mend = f"Write {name} = {quoted(readings[0])}."
        else:
            mend = f"Write it like this: {name} = {quoted(example)}."
        self.tell(name, f'"{refusal.text}": {refusal.message}', mend)

    def flag(self, name: str) -> bool:
        """True or false; false when it is not there."""
        return bool(self._typed(name, bool))

    def whole(self, name: str) -> int | None:
        """A whole number, or None."""
        value = self._typed(name, int)
        return value if isinstance(value, int) else None

    def texts(self, name: str) -> tuple[str, ...]:
        """A list of strings; one string alone counts as a list of one."""
        value = self.values.get(name)
        self.known.add(name)
        if value is None:
            return ()
        entries = value if isinstance(value, list) else [value]
        strings = tuple(escape_lines(entry) for entry in entries if isinstance(entry, str))
        if len(strings) == len(entries):
            return tuple(entry for entry in strings if entry.strip())
        self._wrong(name, value, "text in quotes, or a list of such texts", '["…"]')
        return ()

    def entries(self, name: str) -> tuple[object, ...]:
        """A list of anything, for a reader that looks at each entry itself."""
        value = self._typed(name, list)
        return tuple(value) if isinstance(value, list) else ()

    def table(self, name: str) -> Table | None:
        """An inner table, or None."""
        value = self._typed(name, dict)
        if not isinstance(value, dict):
            return None
        return self.inner(name, value)

    def inner(self, name: str, values: Mapping[str, object], number: int = 0) -> Table:
        """A table below this one with values that a reader has in hand.

        Args:
            name: its key; empty for these values in the place of the table's own.
            values: what it holds.
            number: its number in an array, from 1; 0 where it is in none.
        """
        key = self.path(name) if name else self.key
        return Table(values, self.findings, f"{key}[{number}]" if number else key)

    def tables(self, name: str) -> tuple[Table, ...]:
        """An array of tables; one table alone counts as an array of one."""
        value = self.values.get(name)
        self.known.add(name)
        if value is None:
            return ()
        entries = [value] if isinstance(value, dict) else value
        if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
            found = f"found {_describe(value)}, expected tables, each under [[{name}]]"
            self.tell(name, found, f"Write [[{self._array(name)}]] on a line above its keys.")
            return ()
        return tuple(self.inner(name, entry, number) for number, entry in enumerate(entries, start=1))

    def _array(self, name: str) -> str:
        """The header of an array of tables below this one, without the numbers of the tables around it."""
        return _NUMBERS.sub("", self.path(name))

    def word(self, name: str, allowed: Iterable[str], default: str = "") -> str:
        """One word of a closed list."""
        value, words = self.text(name, default), tuple(allowed)
        if value == default or value in words:
            return value
        near = nearest(value, words)
        mend = f'Did you mean "{near}"?' if near else f"Write one of: {', '.join(words)}."
        self.tell(name, f'"{escape(value)}" is not known here', mend)
        return default

    def close(self, elsewhere: Mapping[str, str] = _NOWHERE) -> None:
        """Refuse every key that nobody asked for, with the nearest known one.

        Args:
            elsewhere: keys that belong in another table, and which.
        """
        for name, value in self.values.items():
            if name not in self.known:
                self.tell(name, f'unknown key "{escape(name)}"', self._mend(name, elsewhere))
            elif not self.told(name) and _hides(value):
                self.tell(name, *_HIDDEN, "warning")

    def _mend(self, name: str, elsewhere: Mapping[str, str]) -> str:
        near = nearest(name, (*self.known, *elsewhere))
        if near is not None and near in elsewhere and near not in self.known:
            return f'"{near}" belongs under {elsewhere[near]}.'
        return f'Did you mean "{near}"?' if near else f"Known keys here: {', '.join(sorted(self.known))}."

    def _typed(self, name: str, kind: type) -> object | None:
        value = self.values.get(name)
        self.known.add(name)
        # A truth value is a whole number to Python, and never to a person.
        if value is None or (isinstance(value, kind) and isinstance(value, bool) == (kind is bool)):
            return value
        self._wrong(name, value, *_KINDS[kind])
        return None

    def _wrong(self, name: str, value: object, expected: str, example: str) -> None:
        number = isinstance(value, int | float) and not isinstance(value, bool)
        if number and "text" in expected:
            mend = (
                f'Put it in quotes, as printed, with its unit: {name} = "{_describe(value, bare=False)} …".'
            )
        elif isinstance(value, str) and _is_bare(value, expected):
            mend = f"Take it out of its quotes: {name} = {value.strip()}."
        else:
            mend = f"Write it {'in quotes' if 'quotes' in expected else 'like this'}: {name} = {example}."
        self.tell(name, f"found {_describe(value)}, expected {expected}", mend)

    def told(self, name: str) -> bool:
        """Whether something was told already at a key: one fault has one message."""
        return shortened(escape(self.path(name))) in self.findings.keys


_HIDDEN = (
    "the text holds a character that no screen shows",
    "Type it anew: something was copied along with it.",
)


def _hides(value: object) -> bool:
    """Whether a text, or one of a list, holds what a terminal would hide or obey."""
    entries = value if isinstance(value, list) else [value]
    return any(isinstance(entry, str) and escape_lines(entry) != entry for entry in entries)


def _is_bare(text: str, expected: str) -> bool:
    """A number or a truth value that was put in quotes."""
    plain = text.strip()
    number = plain.isascii() and plain.isdigit() and plain == str(int(plain or "0"))
    return (number and "number" in expected) or (plain in ("true", "false") and plain in expected)


def _describe(value: object, *, bare: bool = True) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        shown = str(value) if not isinstance(value, int) or value.bit_length() < 60 else "a very long number"
        return f"the bare number {shown}" if bare else shown
    if isinstance(value, str):
        return f'the text "{shortened(value, _LONGEST_QUOTE)}"'
    kinds = {list: "a list", dict: "a table"}
    return next((word for kind, word in kinds.items() if isinstance(value, kind)), "a date or time")
