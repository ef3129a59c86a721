"""`torqref find`: groups by what one remembers of them."""

from __future__ import annotations

import os
from argparse import Namespace
from collections.abc import Iterator, Sequence
from itertools import groupby

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.commands.desk import library_folders
from torqref.commands.home import own_home
from torqref.library.entry import Entry
from torqref.library.folder import library_files, missing_folders
from torqref.library.listing import find_in, read_listings
from torqref.library.search import Match

_EPILOG = """\
Words in any order, cut short or with a slip; a thread, a value with its unit, a source:
  torqref find manifold
  torqref find exaust manifodl
  torqref find m8 "24 N·m"
  torqref find 1/2-13 grade 8 oiled
"""
_MARKS = {"invented": "practice values", "published": "reference value"}


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("words", metavar="WORD", nargs="*", help="words in any order; none lists all groups")
    add_shared(parser, "specs")


def run(options: Namespace, console: Console) -> int:
    """List the groups that fit, best first; exit code 1 where none does."""
    folders = library_folders(options)
    paths = [path for folder in folders if os.path.isdir(folder) for path in library_files(folder)]
    listings, problems = read_listings(paths, own_home().index)
    if not console.as_json:
        console.problems((*missing_folders(folders), *problems))
    found = find_in(listings, " ".join(options.words))
    if console.as_json:
        console.answer({"groups": [_values(match) for match in found]})
    elif not found:
        return console.deny("Nothing fits. `torqref find` without words lists every group.")
    else:
        for line in _lines(found) if options.words else _overview(found):
            console.say(line)
    return 0 if found else 1


def _lines(found: Sequence[Match]) -> Iterator[str]:
    """Each group on a line, with what was found where it is not to be seen anyway."""
    width = max(len(match.entry.id) for match in found)
    for match in found:
        seen = (f"id: {match.entry.id}", f"name: {match.entry.name}")
        unseen = [said for said in match.matched if said not in seen]
        why = f"  [{'; '.join(unseen)}]" if unseen else ""
        yield f"{match.entry.id.ljust(width)}  {_title(match.entry)}{why}"


def _overview(found: Sequence[Match]) -> Iterator[str]:
    """Every group; of a reference table one line for all its rows."""
    width = max(len(match.entry.table or match.entry.id) for match in found)
    for table, matches in groupby(found, key=lambda match: match.entry.table):
        if not table:
            yield from (f"{match.entry.id.ljust(width)}  {_title(match.entry)}" for match in matches)
            continue
        rows = tuple(matches)
        first = rows[0].entry
        name = first.name.partition(",")[0]
        line = f"{table.ljust(width)}  {name}, {first.assembly}: {len(rows)} rows"
        yield f"{line} (reference table; torqref show {table})"


def _title(entry: Entry) -> str:
    """Name and assembly, and the word that keeps its values from being trusted blindly."""
    mark = _MARKS.get(entry.kind, "" if entry.verified_by else "unverified")
    title = ", ".join(part for part in (entry.name, entry.assembly) if part)
    return f"{title}  ({mark})" if mark else title


def _values(match: Match) -> dict[str, object]:
    entry = match.entry
    return {
        "id": entry.id,
        "name": entry.name,
        "assembly": entry.assembly,
        "file": entry.file,
        "matched": list(match.matched),
    }
