"""What is known of a group for finding it: read lightly, without looking at its stages and its picture.

Ten thousand groups take seconds to read with all their values. To find one of them their texts are enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

from torqref.document.escape import escape
from torqref.document.table import Table
from torqref.document.toml import Document
from torqref.library.handedness import is_left_hand
from torqref.library.rows import GROUP_COLUMNS, VALUE_COLUMNS, read_rows, slug

if TYPE_CHECKING:
    from torqref.library.group import Group

# Fields of an `Entry` by name; texts and tuples of texts only, so that they can be kept as JSON.
Facts = Mapping[str, Any]

_VALUES = ("torque", "angle", "back_off", "chain")
_TEXTS = (("class", "grade"), ("socket", "socket"), ("condition", "condition"))
_CELLS = tuple(
    (name, field) for name, field in GROUP_COLUMNS.items() if field in ("thread", "grade", "socket")
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """The texts of a group by which a person remembers it.

    Args:
        id, name, assembly, file, aliases, grade, socket, condition: as in the group.
        thread: of the group and of its fasteners, and that it is left-hand.
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


# The fields of a group that are kept for finding it, and which of them a group cannot be without.
KEPT = {
    each.name: tuple if each.default == () else str
    for each in fields(Entry)
    if each.name not in ("file", "group")
}
NEEDED = {"id", "name", "assembly"}


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
        thread=" ".join((*threads, *_hand(group.left_hand))),
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


def facts_in(document: Document) -> Iterator[Facts]:
    """What the groups of a library file say of themselves, as fields of an `Entry` without its file.

    A field that a group leaves out is left out here, too. What is wrong with a group is not told.
    """
    top = document.values
    assembly, sources = _text(top, "assembly"), _tables(top, "source")
    shared = sources[0] if sources else {}
    common = {"assembly": assembly, **_source(shared)}
    for values in _tables(top, "group"):
        if identity := _text(values, "id"):
            yield _facts(values, identity, common, shared)
    for table in Table.of(document).tables("table") if "table" in top else ():
        if identity := _text(table.values, "id"):
            yield from _rows(table, _facts(table.values, identity, common, shared))


def entry_with(facts: Facts, file: str) -> Entry:
    """The entry of a group of this file."""
    return Entry(file=file, **facts)


def _facts(
    values: Mapping[str, object], identity: str, common: Facts, shared: Mapping[str, object]
) -> dict[str, Any]:
    own = _tables(values, "source")
    fasteners = _tables(values, "fastener")
    threads = [thread for part in (values, *fasteners) if (thread := _text(part, "thread"))]
    facts = {
        "id": identity,
        **common,
        **(_source({**shared, **own[0]}) if own else {}),
        "name": _text(values, "name") or identity,
        "thread": " ".join(
            (
                *dict.fromkeys(threads),
                *_hand(values.get("left_hand") is True or is_left_hand(_text(values, "thread"))),
            )
        ),
        "values": tuple(_values(values, fasteners)),
    }
    for name, field in _TEXTS:
        if name in values:
            facts[field] = _text(values, name)
    if "aliases" in values:
        facts["aliases"] = _texts(values, "aliases")
    if "applies" in values:
        facts["applies"] = tuple(_applies(values))
    return facts


def _hand(is_left: bool) -> tuple[str, ...]:
    """A thread that turns the unusual way is looked for by that."""
    return ("left-hand",) if is_left else ()


def _source(source: Mapping[str, object]) -> Facts:
    return {
        "source": " ".join([_text(source, name) for name in ("title", "edition", "reference")]),
        "kind": _text(source, "kind"),
        "verified_by": _text(source, "verified_by"),
    }


def _values(values: Mapping[str, object], fasteners: Sequence[Mapping[str, object]]) -> Iterator[str]:
    for stage in _tables(values, "stage"):
        for name in _VALUES:
            if name in stage and (text := _text(stage, name)):
                yield text
    for fastener in fasteners:
        yield from _texts(fastener, "torque")


def _applies(values: Mapping[str, object]) -> Iterator[str]:
    for facts in _tables(values, "applies"):
        yield from (f"{name} {word}" for name in facts for word in _texts(facts, name))


def _rows(table: Table, base: Facts) -> Iterator[Facts]:
    """The rows of a reference table, with the variants of each."""
    variants = [
        (_text(variant, "id"), _text(variant, "less")) for variant in _tables(table.values, "variant")
    ]
    for row in read_rows(table):
        facts = {
            **base,
            **{field: row.cells[name] for name, field in _CELLS if name in row.cells},
            "id": f"{base['id']}-{slug(row.name)}",
            "name": f"{base['name']}, {row.name}",
            "values": tuple(row.cells[name] for name in VALUE_COLUMNS if name in row.cells),
            "table": base["id"],
        }
        yield facts
        for variant, less in variants:
            # The value of a variant is computed, but not before somebody looks for a value.
            named = {name: f"{facts[name]}{apart}{variant}" for name, apart in (("id", "-"), ("name", ", "))}
            yield {**facts, **named, "lowered": less}


def _text(values: Mapping[str, object], name: str) -> str:
    value = values.get(name)
    return escape(value) if isinstance(value, str) else ""


def _texts(values: Mapping[str, object], name: str) -> tuple[str, ...]:
    value = values.get(name)
    entries = value if isinstance(value, list) else [value]
    return tuple([escape(entry) for entry in entries if isinstance(entry, str)])


def _tables(values: Mapping[str, object], name: str) -> list[Mapping[str, object]]:
    value = values.get(name)
    if value is None:
        return []
    entries = value if isinstance(value, list) else [value]
    return [entry for entry in entries if isinstance(entry, dict)]
