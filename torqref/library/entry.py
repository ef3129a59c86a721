"""What is known of a group for finding it: read lightly, without looking at its stages and its picture.

Ten thousand groups take seconds to read with all their values. To find one of them their texts are enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.table import Table
from torqref.document.toml import read_document
from torqref.library.rows import GROUP_COLUMNS, VALUE_COLUMNS, read_rows, slug

if TYPE_CHECKING:
    from torqref.library.group import Group

_VALUES = ("torque", "angle", "back_off", "chain")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """The texts of a group by which a person remembers it.

    Args:
        id, name, assembly, file, aliases, thread, grade, socket, condition: as in the group.
        values: its torques and angles as printed.
        lowered: the share by which a rule of the page lowers these values, such as `10 %`; empty for none.
        applies: facts of the vehicle in words, such as `engine Q`.
        source: title, edition and page.
        kind: `published`, `shop` or `invented`.
        verified_by: who typed the values a second time, empty while nobody has.
        table: id of the reference table whose row it is; empty for a group of its own.
        group: the group, where it was read in full.
    """

    id: str
    name: str
    assembly: str
    file: str
    aliases: tuple[str, ...] = ()
    thread: str = ""
    grade: str = ""
    socket: str = ""
    condition: str = ""
    values: tuple[str, ...] = ()
    lowered: str = ""
    applies: tuple[str, ...] = ()
    source: str = ""
    kind: str = ""
    verified_by: str = ""
    table: str = ""
    group: Group | None = None


def entry_of(group: Group) -> Entry:
    """The entry of a group that was read in full."""
    named = (group.thread, *(fastener.thread for fastener in group.fasteners))
    threads = dict.fromkeys(thread for thread in named if thread)
    own = tuple(torque.text for fastener in group.fasteners for torque in fastener.torques)
    stages = tuple(stage.text for stage in group.stages if stage.kind in _VALUES)
    bands = tuple(stage.band.text for stage in group.stages if stage.band is not None)
    return Entry(
        id=group.id,
        name=group.name,
        assembly=group.assembly,
        file=group.file,
        aliases=group.aliases,
        thread=" ".join(threads),
        grade=group.grade,
        socket=group.socket,
        condition=group.condition,
        values=(*stages, *own, *bands),
        applies=tuple(f"{name} {word}" for name, words in group.applies for word in words),
        source=" ".join((group.source.title, group.source.edition, group.source.reference)),
        kind=group.source.kind,
        verified_by=group.source.verified_by,
        table=group.table,
        group=group,
    )


def read_entries(paths: Sequence[Path]) -> tuple[tuple[Entry, ...], tuple[Problem, ...]]:
    """The entries of files, later ones in place of earlier ones of the same id; and what is no TOML."""
    found: dict[str, Entry] = {}
    problems: list[Problem] = []
    for path in paths:
        document = read_document(path)
        if isinstance(document, Problem):
            problems.append(document)
            continue
        for entry in _entries(Table.of(document), escape(str(path))):
            found[entry.id] = entry
    return tuple(found.values()), tuple(problems)


def _entries(top: Table, file: str) -> Iterator[Entry]:
    assembly, source = _text(top.values, "assembly"), _tables(top.values, "source")
    shared = source[0] if source else {}
    for values in _tables(top.values, "group"):
        if identity := _text(values, "id"):
            yield _entry(values, identity, assembly, shared, file)
    for table in top.tables("table") if "table" in top.values else ():
        yield from _rows(table, assembly, shared, file)


def _entry(
    values: Mapping[str, object], identity: str, assembly: str, shared: Mapping[str, object], file: str
) -> Entry:
    sources = _tables(values, "source")
    source = {**shared, **(sources[0] if sources else {})}
    fasteners = _tables(values, "fastener")
    threads = dict.fromkeys(thread for part in (values, *fasteners) if (thread := _text(part, "thread")))
    return Entry(
        id=identity,
        name=_text(values, "name") or identity,
        assembly=assembly,
        file=file,
        aliases=_texts(values, "aliases"),
        thread=" ".join(threads),
        grade=_text(values, "class"),
        socket=_text(values, "socket"),
        condition=_text(values, "condition"),
        values=tuple(_values(values, fasteners)),
        applies=tuple(_facts(values)),
        source=" ".join(_text(source, name) for name in ("title", "edition", "reference")),
        kind=_text(source, "kind"),
        verified_by=_text(source, "verified_by"),
    )


def _values(values: Mapping[str, object], fasteners: Sequence[Mapping[str, object]]) -> Iterator[str]:
    for stage in _tables(values, "stage"):
        yield from (text for name in _VALUES if (text := _text(stage, name)))
    for fastener in fasteners:
        yield from _texts(fastener, "torque")


def _facts(values: Mapping[str, object]) -> Iterator[str]:
    for facts in _tables(values, "applies"):
        yield from (f"{name} {word}" for name in facts for word in _texts(facts, name))


def _rows(table: Table, assembly: str, shared: Mapping[str, object], file: str) -> Iterator[Entry]:
    """The rows of a reference table, with the variants of each."""
    from dataclasses import replace

    identity = _text(table.values, "id")
    base = _entry(table.values, identity, assembly, shared, file)
    variants = [
        (_text(variant, "id"), _text(variant, "less")) for variant in _tables(table.values, "variant")
    ]
    for row in read_rows(table) if identity else ():
        cells = {field: row.cells[name] for name, field in GROUP_COLUMNS.items() if name in row.cells}
        entry = replace(
            base,
            id=f"{identity}-{slug(row.name)}",
            name=f"{base.name}, {row.name}",
            thread=cells.get("thread", base.thread),
            grade=cells.get("grade", base.grade),
            socket=cells.get("socket", base.socket),
            values=tuple(row.cells[name] for name in VALUE_COLUMNS if name in row.cells),
            table=identity,
        )
        yield entry
        for variant, less in variants:
            # The value of a variant is computed, but not before somebody looks for a value.
            yield replace(entry, id=f"{entry.id}-{variant}", name=f"{entry.name}, {variant}", lowered=less)


def _text(values: Mapping[str, object], name: str) -> str:
    value = values.get(name)
    return escape(value) if isinstance(value, str) else ""


def _texts(values: Mapping[str, object], name: str) -> tuple[str, ...]:
    value = values.get(name)
    entries = value if isinstance(value, list) else [value]
    return tuple(escape(entry) for entry in entries if isinstance(entry, str))


def _tables(values: Mapping[str, object], name: str) -> list[Mapping[str, object]]:
    value = values.get(name)
    entries = value if isinstance(value, list) else [value]
    return [entry for entry in entries if isinstance(entry, dict)]
