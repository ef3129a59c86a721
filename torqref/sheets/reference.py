"""A reference table as a page of text: every row with the id that walks it, the conditions and the source."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from torqref.library.group import Group
from torqref.library.source import DEFER, REFERENCE


def reference(groups: Sequence[Group]) -> str:
    """The rows of one reference table; all of them have the same table, source and assembly."""
    return "\n".join(line.rstrip() for line in _lines(groups)) + "\n"


def _lines(groups: Sequence[Group]) -> Iterator[str]:
    first = groups[0]
    yield f"{first.name.rpartition(', ')[0]}  [{first.table}]"
    yield first.assembly
    if first.source.kind == "published":
        yield REFERENCE.upper()
    yield ""
    width = max(len(group.id) for group in groups)
    value_width = max(len(_value(group)) for group in groups)
    shared = _shared(groups)
    for group in groups:
        own = "; ".join(words for words in _words(group) if words not in shared)
        yield f"  {group.id.ljust(width)}  {_value(group).ljust(value_width)}  {own}"
    yield ""
    yield from (f"- {words}" for words in shared)
    yield from (f"CAUTION: {caution.text}" for caution in first.cautions)
    yield from (f"After: {words}" for words in first.after)
    yield f"Source: {first.source.sentence()}"
    if first.source.seen:
        yield f"Seen: {first.source.seen}"
    yield DEFER


def _value(group: Group) -> str:
    """The value of the row; of several passes the last one."""
    stage = group.stages[-1]
    return stage.band.text if stage.band is not None else stage.text


def _words(group: Group) -> tuple[str, ...]:
    return tuple(words for words in (group.condition, *group.before) if words)


def _shared(groups: Sequence[Group]) -> tuple[str, ...]:
    """What every row says, said once below them."""
    return tuple(words for words in _words(groups[0]) if all(words in _words(group) for group in groups))
