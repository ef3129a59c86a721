"""A reference table: one page of a standard or handbook, each row of it a group of its own.

The rows are drawn as the page prints them, like a diagram: a line of column names, then one line a row,
columns apart by two blanks or more. What all rows share stands beside them as in any group.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from torqref.document.table import Table
from torqref.fastener.locking import is_threadlocked
from torqref.library.group import Group, read_group
from torqref.library.rows import GROUP_COLUMNS, VALUE_COLUMNS, Row, read_rows, slug
from torqref.library.source import NO_SOURCE, Source
from torqref.library.stage import Stage, read_stages
from torqref.quantity.precision import decimals_of
from torqref.quantity.showing import show_torque
from torqref.quantity.term import Torque

_SHARE = re.compile(r"(\d{1,2})\s*%")


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """A rule of the page that lowers every value of the table under another condition.

    Args:
        id: what is put behind the id of the row, such as `oiled`.
        condition: the condition in words.
        less: the share by which the value is lowered.
        before: what else has to be so.
    """

    id: str
    condition: str
    less: Fraction
    before: str = ""


def read_reference(table: Table, assembly: str, inherited: Source = NO_SOURCE) -> tuple[Group, ...]:
    """The groups of a `[[table]]`, one a row and one more for each variant of it."""
    rows = read_rows(table)
    variants = tuple(_variant(inner) for inner in table.tables("variant"))
    base = _base(table, assembly, inherited)
    if base is None or not rows:
        return ()
    groups = [group for row in rows for group in _row_groups(table, base, row, variants)]
    _tell_doubled(table, groups)
    return tuple(groups)


def _variant(table: Table) -> Variant:
    less = _SHARE.fullmatch(table.required("less", "10 %").strip())
    if less is None:
        table.tell("less", f'"{table.text("less")}" is not a share', 'Write less = "10 %".')
    variant = Variant(
        id=table.required("id", "oiled"),
        condition=table.required("condition", "engine oil on the threads"),
        less=Fraction(int(less[1]), 100) if less else Fraction(0),
        before=table.text("before"),
    )
    table.close()
    return variant


def _base(table: Table, assembly: str, inherited: Source) -> Group | None:
    """The group that all rows share, read as any other with a stage that no row keeps."""
    ours = {"rows", "variant", "stage"}
    shared = {name: value for name, value in table.values.items() if name not in ours}
    stages = [{"hand": "each row has its own"}]
    one = {} if "layout" in shared or "diagram" in shared else {"count": 1}
    inner = table.inner("", {**one, **shared, "stage": stages})
    group = read_group(inner, assembly, inherited)
    table.known.update(table.values)
    return group


def _stage_values(table: Table, row: Row) -> dict[str, object]:
    """The stage of a row: what the table says of all stages, and the value of the row."""
    shared = table.values.get("stage", {})
    values = {name: row.cells[name] for name in VALUE_COLUMNS if name in row.cells}
    return {**(shared if isinstance(shared, dict) else {}), **values}


def _row_groups(table: Table, base: Group, row: Row, variants: tuple[Variant, ...]) -> Iterator[Group]:
    inner = table.inner("rows", _stage_values(table, row), row.number)
    stages = read_stages(inner, 1)
    if len(stages) != 1:
        return
    group = _row_group(base, row, stages[0], f"{table.key}.rows[{row.number}]")
    yield _passed(table, group, row)
    yield from (_passed(table, _lowered(group, variant), row) for variant in variants)


def _row_group(base: Group, row: Row, stage: Stage, key: str) -> Group:
    said = {field: row.cells[name] for name, field in GROUP_COLUMNS.items() if name in row.cells}
    most, note = row.cells.get("most", ""), row.cells.get("note", "")
    never = f"never beyond {most}, the largest torque allowed" if most else ""
    return replace(
        base,
        id=f"{base.id}-{slug(row.name)}",
        name=f"{base.name}, {row.name}",
        key=key,
        table=base.id,
        stages=(stage,),
        before=(*base.before, *(words for words in (never, note) if words)),
        thread=said.get("thread", base.thread),
        grade=said.get("grade", base.grade),
        length=said.get("length", base.length),
        socket=said.get("socket", base.socket),
    )


def _lowered(group: Group, variant: Variant) -> Group:
    """The row under another condition; its value is computed, and says from what."""
    stage = group.stages[0]
    if stage.torque is None:
        return group
    torque = _less(stage.torque, variant.less)
    percent = f"{variant.less.numerator * 100 // variant.less.denominator} %"
    computed = f"computed: {percent} less than the {show_torque(stage.torque)} of the table"
    return replace(
        group,
        id=f"{group.id}-{variant.id}",
        name=f"{group.name}, {variant.id}",
        stages=(replace(stage, text=torque.text, torque=torque),),
        condition=variant.condition,
        threadlocker=group.threadlocker or is_threadlocked(variant.condition),
        before=(*(part for part in (computed, variant.before) if part), *group.before),
    )


def _less(torque: Torque, share: Fraction) -> Torque:
    """A torque lowered by a share, exact, with the digits that it then has."""
    low, target, high = (
        None if value is None else value * (1 - share) for value in (torque.low, torque.target, torque.high)
    )
    numbers = [value for value in (low, target, high) if value is not None]
    decimals = max(torque.decimals, *(decimals_of(value) for value in numbers))
    lowered = replace(torque, low=low, target=target, high=high, decimals=decimals)
    return replace(lowered, text=show_torque(lowered))


def _passed(table: Table, group: Group, row: Row) -> Group:
    """The row with the passes that it names: the final value is not pulled in one go."""
    from torqref.library.passes import expanded
    from torqref.pattern.scheme import SCHEMES

    name = row.cells.get("passes", "")
    if not name:
        return group
    if name not in SCHEMES or group.stages[0].torque is None:
        table.tell(
            f"rows[{row.number}]",
            f'"{name}" is not a ready-made scheme',
            f"Known passes: {', '.join(SCHEMES)}.",
        )
        return group
    return replace(group, passes=name, stages=expanded(SCHEMES[name], group.stages[0], group.layout))


def _tell_doubled(table: Table, groups: list[Group]) -> None:
    seen: set[str] = set()
    for group in groups:
        if group.id in seen:
            key = group.key.removeprefix(f"{table.key}.")
            table.tell(key, f'"{group.id}" comes from two rows', "Add a column that tells them apart.")
        seen.add(group.id)
