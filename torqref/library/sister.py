"""Which variant an entry is for, and the entries of the same name for the other ones."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.nearest import folded
from torqref.document.problem import Problem
from torqref.document.toml import parse_document, read_file
from torqref.library.brief import applies_text
from torqref.library.entry import Entry, entry_with, facts_in
from torqref.library.folder import library_files
from torqref.library.group import Group


def variant_of(group: Group) -> str:
    """What an entry is for only, and where the value of another variant stands; empty where it is for all."""
    if not group.applies:
        return ""
    others = (f"; for {facts} see {entry.id}: {', '.join(entry.values)}" for facts, entry in sisters(group))
    return f"this entry is for {applies_text(group)}{''.join(others)}"


def sisters(group: Group) -> Iterator[tuple[str, Entry]]:
    """Entries of the same name and vehicle for another fact of it, each with what it is for.

    They are looked for in the folder of the group's own file, in files that hold its name at all.
    """
    for entry in _entries(group):
        facts = _other_facts(group, entry)
        same = folded(entry.name) == folded(group.name) and _vehicle(entry) == _vehicle(group)
        if facts and same and entry.id != group.id and entry.values:
            yield facts, entry


def _entries(group: Group) -> Iterator[Entry]:
    """The entries of each file that may hold a sister; it is read once."""
    own = Path(group.file)
    if not group.file or not os.path.isfile(own):
        return
    for path in library_files(own.parent):
        data = read_file(path)
        if isinstance(data, Problem) or not _may_hold(data, group.name, alone=path != own):
            continue
        document = parse_document(data, str(path))
        if not isinstance(document, Problem):
            yield from (entry_with(facts, escape(str(path))) for facts in facts_in(document))


def _may_hold(data: bytes, name: str, *, alone: bool) -> bool:
    """Seen from its bytes: another group of this name that is for something; in its own file the second."""
    small = data.lower()
    wanted = 1 if alone else 2
    return small.count(b"applies") >= wanted and small.count(name.lower().encode()) >= wanted


def _other_facts(group: Group, entry: Entry) -> str:
    """The facts of a sister that the group is not for; empty where no fact tells them apart."""
    found = []
    for name, words in group.applies:
        start = f"{name} "
        theirs = [fact.removeprefix(start) for fact in entry.applies if fact.startswith(start)]
        if theirs and not set(theirs) & set(words):
            found.append(" or ".join(theirs))
    return " and ".join(found)


def _vehicle(thing: Group | Entry) -> str:
    """The vehicle alone: what follows a comma, such as its engine, is what tells sisters apart."""
    return folded(thing.assembly.partition(",")[0])
