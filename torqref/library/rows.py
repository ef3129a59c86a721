"""The rows of a reference table, drawn as the page prints them: cells apart by two blanks or more."""

from __future__ import annotations

import re
from dataclasses import dataclass

from torqref.document.nearest import nearest
from torqref.document.table import Table

# Columns and the key of the group or of its stage that each one fills.
GROUP_COLUMNS = {"thread": "thread", "class": "grade", "length": "length", "socket": "socket"}
VALUE_COLUMNS = ("torque", "angle", "band")
COLUMNS = ("size", *GROUP_COLUMNS, *VALUE_COLUMNS, "most", "passes", "note")
NOTHING = "-"
_APART = re.compile(r"\s{2,}|\s*\|\s*|\t+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: its number in the text, from 1 for the names of the columns, and its cells by column."""

    number: int
    cells: dict[str, str]

    @property
    def name(self) -> str:
        """What tells the row from the others."""
        return " ".join(part for part in (self.cells.get(name, "") for name in _NAMING) if part)


_NAMING = ("size", "thread", "class", "length")


def slug(text: str) -> str:
    """A row in letters that an id may have.

    >>> slug("1-1/8-12")
    '1-1-8-12'
    """
    return re.sub(r"[^a-z0-9.]+", "-", text.casefold()).strip("-")


def read_rows(table: Table) -> tuple[Row, ...]:
    """The rows of the text, each with as many cells as there are columns."""
    lines = table.required("rows", "thread   torque").splitlines()
    filled = [(number, line.strip()) for number, line in enumerate(lines, start=1) if line.strip()]
    if len(filled) < 2:
        table.tell(
            "rows", "a table needs a line of column names and a row", f"Columns: {', '.join(COLUMNS)}."
        )
        return ()
    names = _APART.split(filled[0][1].strip("| "))
    if not _are_known(table, names):
        return ()
    rows = []
    for number, line in filled[1:]:
        cells = _APART.split(line.strip("| "))
        if len(cells) != len(names):
            table.tell(
                f"rows[{number}]",
                f'"{line}" has {len(cells)} cells, there are {len(names)} columns',
                f'Put two blanks between cells, and "{NOTHING}" where the page has none.',
            )
            continue
        found = {name: cell for name, cell in zip(names, cells, strict=True) if cell != NOTHING}
        rows.append(Row(number=number, cells=found))
    return tuple(rows)


def _are_known(table: Table, names: list[str]) -> bool:
    for name in names:
        if name not in COLUMNS:
            near = nearest(name, COLUMNS)
            mend = f'Did you mean "{near}"?' if near else f"Columns: {', '.join(COLUMNS)}."
            table.tell("rows[1]", f'"{name}" is not a column', mend)
            return False
    if not set(names) & set(VALUE_COLUMNS):
        table.tell(
            "rows[1]", "no column holds a value", f"Write one of the columns: {', '.join(VALUE_COLUMNS)}."
        )
        return False
    return True
