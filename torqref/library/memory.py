"""The index of a large library: what was read of its files before, by the SHA-256 of their bytes.

Every file is read whenever something is looked for; what was made of the very same bytes before is not worked
out anew. So nothing can be out of date, whatever a clock or a time stamp says: other bytes have another key,
and another program, Python or parser of TOML leaves the index aside, as it does any that is damaged.

The file is text: a line that says what it is, then three lines a library file: key, listing and groups.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path

from torqref import __version__
from torqref.document.problem import Problem
from torqref.document.toml import parser_name, read_file
from torqref.library.entry import KEPT, NEEDED, Facts
from torqref.library.listing import MOST, Item, Listing, read_listing

FORMAT = 1
_PACKAGE = Path(__file__).parent.parent
# The code of these rooms decides what is read of a file.
_ROOMS = ("document", "library")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What is kept of one library file, as two lines of JSON."""

    listing: bytes
    groups: bytes


def listings_by(index: Path, files: Iterable[tuple[str, bytes | Problem]]) -> Iterator[Listing | Problem]:
    """The listing of each file, from the index where it knows these bytes; then the index is as they are.

    Args:
        index: the file of the index; it may be missing, damaged, or where nothing can be written.
        files: the name of each library file as the user knows it, and its bytes.
    """
    known = _recalled(index)
    used: dict[bytes, Kept] = {}
    for file, data in files:
        if isinstance(data, Problem):
            yield data
            continue
        key = sha256(data).hexdigest().encode()
        listing = _unpacked(known[key], data, file) if key in known else None
        if listing is not None:
            used[key] = known[key]
            yield listing
            continue
        read = read_listing(data, file)
        if isinstance(read, Listing):
            used[key] = _packed(read)
        yield read
    # Files that were not seen this time are dropped; where nothing changed, nothing is written.
    if used != known:
        _keep(used, index)


def _recalled(path: Path) -> dict[bytes, Kept]:
    """What an index holds, by key."""
    data = read_file(path, limit=4 * MOST)
    first, _, body = (b"" if isinstance(data, Problem) else data).partition(b"\n")
    if not first or first != _heading(body):
        return {}
    lines = body.split(b"\n")
    return {
        key: Kept(listing=listing, groups=groups)
        for key, listing, groups in zip(lines[::3], lines[1::3], lines[2::3], strict=False)
    }


def _keep(used: Mapping[bytes, Kept], path: Path) -> None:
    """Put what was used into the index, whole or not at all; where that cannot be, it goes without."""
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    with suppress(OSError, ValueError):
        if os.path.lexists(path) and not os.path.isfile(path):
            return  # a device or a pipe would be replaced, too
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        try:
            with open(beside, "wb") as file:
                body = b"".join(
                    b"%s\n%s\n%s\n" % (key, each.listing, each.groups) for key, each in used.items()
                )
                file.write(_heading(body) + b"\n" + body)
            os.replace(beside, path)
        finally:
            with suppress(OSError):
                beside.unlink()


def _heading(body: bytes) -> bytes:
    """The first line: the format, what made the index, and the sum of all that follows."""
    return _json({"format": FORMAT, "made_by": made_by(), "sum": sha256(body).hexdigest()})


@cache
def made_by() -> str:
    """The sum of version, code, Python and parser of TOML; never twice the same where they cannot be seen."""
    try:
        parts = [__version__.encode(), sys.version.encode(), parser_name().encode()]
        for room in _ROOMS:
            parts += [path.read_bytes() for path in sorted((_PACKAGE / room).glob("*.py"))]
    except OSError:
        return os.urandom(16).hex()
    return sha256(b"\0".join(parts)).hexdigest()


def _json(value: object) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()


def _packed(listing: Listing) -> Kept:
    return Kept(listing=_json([listing.ids, listing.words, listing.values]), groups=_json(listing.items()))


def _unpacked(kept: Kept, data: bytes, file: str) -> Listing | None:
    """The listing that was kept, or None where it is none."""
    try:
        ids, words, values = json.loads(kept.listing)
        printed = tuple((text, lowered) for text, lowered in values)
        if not _are_texts([*ids, words, *(text for pair in printed for text in pair)]):
            return None
    except (ValueError, TypeError, RecursionError):
        return None

    def items() -> Sequence[Item]:
        """The groups; where they are none, the file itself says what it holds."""
        found = _items(kept.groups, ids)
        read = read_listing(data, file) if found is None else None
        return read.items() if isinstance(read, Listing) else found or ()

    return Listing(file=file, ids=tuple(ids), words=words, values=printed, items=items)


def _items(groups: bytes, ids: Sequence[str]) -> tuple[Item, ...] | None:
    """The groups that were kept, or None where they are not those of these ids."""
    try:
        items = tuple([(words, _facts(facts)) for words, facts in json.loads(groups)])
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None
    are_whole = _are_texts(words for words, _ in items) and [facts["id"] for _, facts in items] == ids
    return items if are_whole else None


def _facts(held: dict[str, object]) -> Facts:
    """The fields of an entry; JSON has lists where those have tuples."""
    facts: dict[str, object] = {}
    for name, value in held.items():
        kind = KEPT[name]
        if kind is tuple and isinstance(value, list) and _are_texts(value):
            facts[name] = tuple(value)
        elif kind is str and isinstance(value, str):
            facts[name] = value
        else:
            raise TypeError(name)
    if not facts.keys() >= NEEDED:
        raise KeyError
    return facts


def _are_texts(values: Iterable[object]) -> bool:
    return set(map(type, values)) <= {str}
