"""Makes a JSON Schema from the readers themselves: whatever a reader asks a table for is a key of its format.

A reader is run over a `Sketch` in the place of a table. It answers like an empty table, or like a few
samples that lead the reader into every branch, and keeps what it was asked for. So the schema cannot
forget a key that the reader knows, nor know one that the reader refuses.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TypeVar

from torqref.document.refusal import Refusal
from torqref.document.table import Findings, Table
from torqref.document.toml import Document

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_NOWHERE: Mapping[str, str] = MappingProxyType({})
TEXT: Mapping[str, object] = {"type": "string"}
TEXTS: Mapping[str, object] = {"anyOf": [TEXT, {"type": "array", "items": TEXT}]}
Read = TypeVar("Read")
Reader = Callable[[Table], object]


@dataclass(slots=True)
class Node:
    """One table of a format as far as a reader has asked for it.

    Args:
        keys: schema of each key that is no table.
        inner: the tables below it.
        arrays: names of those that may stand several times.
        required: keys that must be there, whatever else stands in the table; None before it was read.
        closed: whether the reader refuses every other key.
    """

    keys: dict[str, Mapping[str, object]] = field(default_factory=dict)
    inner: dict[str, Node] = field(default_factory=dict)
    arrays: set[str] = field(default_factory=set)
    required: frozenset[str] | None = None
    closed: bool = False

    def child(self, name: str) -> Node:
        """The table below under a key."""
        return self.inner.setdefault(name, Node())


@dataclass(slots=True)
class Sketch(Table):
    """A table that keeps what it is asked for."""

    node: Node = field(default_factory=Node)
    wanted: set[str] = field(default_factory=set)

    def has(self, name: str) -> bool:
        """Note the key; what it holds is told by a later question."""
        self.node.keys.setdefault(name, {})
        return Table.has(self, name)

    def _kept(self, name: str, schema: Mapping[str, object]) -> None:
        if not self.node.keys.get(name) or self.node.keys[name] == TEXT:
            self.node.keys[name] = schema

    def text(self, name: str, default: str = "") -> str:
        """A string."""
        self._kept(name, TEXT)
        return Table.text(self, name, default)

    def required(self, name: str, example: str) -> str:
        """A string that must be there."""
        self.wanted.add(name)
        return Table.required(self, name, example)

    def read(self, name: str, reader: Callable[[str], Read | Refusal], example: str) -> Read | None:
        """A string that a grammar reads."""
        self._kept(name, TEXT)
        return Table.read(self, name, reader, example)

    def flag(self, name: str) -> bool:
        """True or false."""
        self._kept(name, {"type": "boolean"})
        return Table.flag(self, name)

    def whole(self, name: str) -> int | None:
        """A whole number."""
        self._kept(name, {"type": "integer"})
        return Table.whole(self, name)

    def texts(self, name: str) -> tuple[str, ...]:
        """One string, or several."""
        self._kept(name, TEXTS)
        return Table.texts(self, name)

    def entries(self, name: str) -> tuple[object, ...]:
        """A list of anything."""
        self._kept(name, {"type": "array"})
        return Table.entries(self, name)

    def word(self, name: str, allowed: Iterable[str], default: str = "") -> str:
        """One word of a closed list; the empty default may be written too."""
        words = tuple(allowed)
        self._kept(name, {"enum": [*(("",) if not default else ()), *words]})
        return Table.word(self, name, words, default)

    def inner(self, name: str, values: Mapping[str, object], number: int = 0) -> Table:
        """A table below, kept under its key."""
        table = Table.inner(self, name, values, number)
        node = self.node.child(name) if name else self.node
        return Sketch(table.values, self.findings, table.key, node=node)

    def table(self, name: str) -> Table | None:
        """An inner table, there or not."""
        value = self.values.get(name)
        return self.inner(name, value if isinstance(value, dict) else {})

    def tables(self, name: str) -> tuple[Table, ...]:
        """An array of tables; one empty table where the sample says nothing of it, none where it is empty."""
        self.node.arrays.add(name)
        value = self.values.get(name)
        entries = [entry for entry in value if isinstance(entry, dict)] if isinstance(value, list) else []
        self.known.add(name)
        if name not in self.values:
            entries = [{}]
        return tuple(self.inner(name, entry, number) for number, entry in enumerate(entries, start=1))

    def close(self, elsewhere: Mapping[str, str] = _NOWHERE) -> None:
        """The reader refuses other keys here; keys it only looked at in passing are noted."""
        before = self.node.required
        self.node.required = frozenset(self.wanted) if before is None else before & self.wanted
        self.node.closed = True
        for name in self.known:
            if name not in self.node.inner:
                self.node.keys.setdefault(name, {})


def sketched(reader: Reader, samples: Iterable[Mapping[str, object]]) -> Node:
    """What a reader of whole documents asks for.

    Args:
        reader: reads the top table of a document.
        samples: documents that lead it into its branches; an empty one comes first.
    """
    node = Node()
    for values in ({}, *samples):
        document = Document(file="", values=values, text="")
        top = Sketch(values, Findings(document), node=node)
        reader(top)
    return node


def described(cls: type) -> Mapping[str, str]:
    """What the docstring of a dataclass says of each of its fields.

    >>> described(Node)["inner"]
    'the tables below it'
    """
    text = inspect.cleandoc(cls.__doc__ or "").partition("Args:\n")[2]
    found: dict[str, str] = {}
    for entry in re.split(r"\n(?=    \S)", text.split("\n\n")[0]):
        names, _, words = " ".join(entry.split()).partition(": ")
        found.update({name.strip(): words.rstrip(".") for name in names.split(",")})
    return found


@dataclass(slots=True)
class Builder:
    """Turns what was asked for into a JSON Schema; each table stands once, under `$defs`.

    Args:
        described: words about each key, by key path such as `group.stage.within`.
        overrides: schema of keys that a reader looks at without saying what they may hold.
        defs: the tables so far, by their key path.
    """

    described: Mapping[str, str]
    overrides: Mapping[str, Mapping[str, object]]
    defs: dict[str, object] = field(default_factory=dict)

    def document(self, node: Node, title: str, identity: str) -> dict[str, object]:
        """The schema of a whole file."""
        top = self.table(node, "")
        defs = {name: self.defs[name] for name in sorted(self.defs)}
        return {"$schema": DIALECT, "$id": identity, "title": title, **top, "$defs": defs}

    def table(self, node: Node, path: str) -> dict[str, object]:
        """The schema of one table."""
        names = sorted({*node.keys, *node.inner})
        schema: dict[str, object] = {
            "type": "object",
            "properties": {name: self._key(node, name, f"{path}.{name}".strip(".")) for name in names},
        }
        if node.required:
            schema["required"] = sorted(node.required)
        if node.closed:
            schema["additionalProperties"] = False
        return {**schema, **self.overrides.get(f"{path}.", {})}

    def _key(self, node: Node, name: str, path: str) -> dict[str, object]:
        words = self.described.get(path, "")
        about = {"description": words} if words else {}
        if path in self.overrides:
            if f"#/$defs/{path}'" in str(self.overrides[path]):
                self.defs[path] = self.table(node.inner[name], path)
            return {**self.overrides[path], **about}
        if name not in node.inner:
            return {**node.keys[name], **about}
        self.defs[path] = self.table(node.inner[name], path)
        one = {"$ref": f"#/$defs/{path}"}
        if name not in node.arrays:
            return {**one, **about}
        return {"anyOf": [one, {"type": "array", "items": one}], **about}
