"""One library file: good groups load beside bad ones, and every fault is told at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.table import Table
from torqref.document.toml import parse_document, read_file
from torqref.library.group import Group, read_faulty
from torqref.library.source import Source, read_source

FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class LibraryFile:
    """What one file holds.

    Args:
        file: its name as the user knows it.
        assembly: the machine or vehicle it is about.
        groups: the groups that can be walked.
        faulty: the others, as far as they could be read; only for the checks of what is left.
        problems: everything wrong with it, and what deserves a second look.
    """

    file: str
    assembly: str = ""
    groups: tuple[Group, ...] = ()
    faulty: tuple[Group, ...] = ()
    problems: tuple[Problem, ...] = ()


def read_library_file(path: Path) -> LibraryFile:
    """A library file from its place on disk."""
    data = read_file(path)
    name = escape(str(path))
    return (
        LibraryFile(file=name, problems=(data,)) if isinstance(data, Problem) else parse_library(data, name)
    )


def parse_library(data: bytes, file: str, only: str = "") -> LibraryFile:
    """The same from bytes already read.

    Args:
        data: the bytes of the file.
        file: its name as the user knows it.
        only: the id of the one group to read, or of a row of a table; empty for all.
    """
    document = parse_document(data, file)
    if isinstance(document, Problem):
        return LibraryFile(file=file, problems=(document,))
    return read_library(Table.of(document), only)


def read_library(table: Table, only: str = "") -> LibraryFile:
    """The same from the top table of a document."""
    _read_format(table)
    assembly = table.text("assembly")
    source = read_source(table.table("source"))
    tables, references = table.tables("group"), table.tables("table")
    if not tables and not references and not table.problems:
        table.tell("", "the file holds no [[group]]", 'Write [[group]] and id = "cover".')
    whole = [read_faulty(inner, assembly, source) for inner in tables if _is(inner, only)]
    read = [group for group, sound in whole if sound]
    for inner in references:
        read += _rows(inner, assembly, source) if _is(inner, only, row=True) else ()
    groups = {group.id: group for group in reversed(read)}
    table.close()
    _tell_doubled(table, tables)
    return LibraryFile(
        file=table.findings.document.file,
        assembly=assembly,
        groups=tuple(reversed(groups.values())),
        faulty=tuple(group for group, sound in whole if not sound),
        problems=table.problems,
    )


def _rows(table: Table, assembly: str, source: Source) -> Iterable[Group]:
    """The rows of a reference table; few files have one."""
    from torqref.library.reference import read_reference

    return read_reference(table, assembly, source)


def _is(table: Table, only: str, *, row: bool = False) -> bool:
    """Whether a table is the group asked for, or holds it as a row."""
    identity = str(table.values.get("id", ""))
    return not only or identity == only or (row and only.startswith(f"{identity}-"))


def _read_format(table: Table) -> None:
    number = table.whole("format")
    if "format" not in table.values:
        table.tell("", "the file does not say which format it has", f"Write format = {FORMAT} at the top.")
    elif number is not None and number != FORMAT:
        table.tell(
            "format", f"format {number} is not known, this torqref reads {FORMAT}", "Look for a newer one."
        )


def _tell_doubled(table: Table, tables: tuple[Table, ...]) -> None:
    """The same id twice in a file is an error: which one was meant cannot be known."""
    seen: dict[str, str] = {}
    for inner in tables:
        identity = str(inner.values.get("id", ""))
        if identity and identity in seen:
            inner.tell(
                "id", f'id "{escape(identity)}" is already used by {seen[identity]}', "Give it another id."
            )
        seen.setdefault(identity, inner.key)
