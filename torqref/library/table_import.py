"""Rows of a table of values (CSV) as a library file: one message for each bad row, and nothing lost.

Every good row becomes a group. A bad row stands at the end of the file as a comment with its message, and
columns that are not known stand as comments beside their group.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.document.problem import Problem
from torqref.document.quoting import quoted
from torqref.library.file import parse_library
from torqref.library.starter import identity

# Columns, and other words people write over them.
COLUMNS: Mapping[str, tuple[str, ...]] = {
    "name": ("group", "description", "joint", "what", "bolt"),
    "thread": ("size", "fastener"),
    "class": ("grade", "property class", "strength"),
    "value": ("torque", "setting", "tightening torque"),
    "unit": ("units", "torque unit"),
    "count": ("qty", "quantity", "number", "bolts", "pcs"),
    "condition": ("lubrication", "threads"),
    "source": ("document", "title", "manual"),
    "reference": ("page", "sheet", "table"),
    "id": (),
    "socket": ("tool", "hex"),
    "purpose": (),
}
NEEDED = ("name", "value")
_SPELLED = {word: name for name, words in COLUMNS.items() for word in (name, *words)}
_PLAIN = ("thread", "class", "socket", "condition", "purpose")
_SIGNS = ",;\t|"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One row of the table.

    Args:
        number: the line of the file it begins on.
        cells: what stands in the columns that are known.
        others: what stands in the others, by the word over them.
        raw: the row as it was written.
        extra: how many cells it has beyond the columns of the first row.
    """

    number: int
    cells: Mapping[str, str]
    others: Mapping[str, str] = field(default_factory=dict)
    raw: str = ""
    extra: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """What became of a table.

    Args:
        text: the library file, empty where the table could not be read at all.
        groups: how many rows became groups.
        problems: one for each bad row, and for columns that are not known.
    """

    text: str = ""
    groups: int = 0
    problems: tuple[Problem, ...] = ()


def import_table(text: str, file: str, assembly: str = "", entered_by: str = "") -> Imported:
    """The table as a library file.

    Args:
        text: the CSV text, with names of columns in its first row.
        file: name of the table, for messages and as its source.
        assembly: the vehicle or machine.
        entered_by: who imports it.
    """
    read = _read(text, file)
    if isinstance(read, Problem):
        return Imported(problems=(read,))
    lines, problems = read
    groups: list[str] = []
    aside: list[str] = []
    told = list(problems)
    taken: set[str] = set()
    for line in lines:
        group = _group(line, taken)
        problem = _fault(group, line, file)
        if problem is None:
            groups.append(group)
        else:
            told.append(problem)
            aside.append(_set_aside(line, problem))
    if not groups:
        return Imported(problems=tuple(told))
    whole = "\n".join((*_head(file, assembly, entered_by), *groups, *_tail(aside))) + "\n"
    return Imported(text=whole, groups=len(groups), problems=tuple(told))


# --- reading --------------------------------------------------------------------------------------


def _read(text: str, file: str) -> tuple[list[Line], list[Problem]] | Problem:
    sign = max(_SIGNS, key=lambda one: text.partition("\n")[0].count(one))
    reader = csv.reader(io.StringIO(text), delimiter=sign)
    try:
        rows = _numbered(reader)
    except csv.Error as error:
        return Problem(
            file=file, line=reader.line_num, message=f"not a table ({error})", mend="Look at its quotes."
        )
    if not rows:
        return Problem(file=file, message="the table is empty", mend="Its first row names the columns.")
    names = [_column(cell) for cell in rows[0][1]]
    missing = [name for name in NEEDED if name not in names]
    if missing:
        known = f"{_misspelt(rows[0][1], missing)}Columns: {', '.join(COLUMNS)}."
        return Problem(file=file, line=1, message=f"no column is named {' or '.join(missing)}", mend=known)
    heads = [cell.strip() for cell in rows[0][1]]
    lines = [_line(number, cells, names, heads, sign) for number, cells in rows[1:]]
    if not lines:
        return Problem(
            file=file, message="the table has no row below its first", mend="Write a row for each value."
        )
    return lines, list(_unknown(heads, names, file))


def _misspelt(heads: Sequence[str], missing: Sequence[str]) -> str:
    """`nam`: the word that may have been meant as a column that is missing."""
    slips = ((head.strip(), nearest(head, _SPELLED)) for head in heads if not _column(head))
    found = next(((head, near) for head, near in slips if near and _SPELLED[near] in missing), None)
    return f'Did you mean "{found[1]}" and not "{escape(found[0])}"? ' if found else ""


def _numbered(reader: Iterator[list[str]]) -> list[tuple[int, list[str]]]:
    """The rows that are not blank, with the line each begins on."""
    rows: list[tuple[int, list[str]]] = []
    begins = 1
    for cells in reader:
        if any(cell.strip() for cell in cells):
            rows.append((begins, cells))
        begins = getattr(reader, "line_num", begins) + 1
    return rows


def _column(head: str) -> str:
    """The column a word over it means, or an empty text."""
    word = " ".join(head.casefold().replace("_", " ").strip("\ufeff \t").split())
    return _SPELLED.get(word, "")


def _unknown(heads: Sequence[str], names: Sequence[str], file: str) -> Iterator[Problem]:
    for place, (head, name) in enumerate(zip(heads, names, strict=True), start=1):
        if name and names.index(name) == place - 1:
            continue
        near = nearest(head, _SPELLED)
        what = f"a second column for {name}" if name else f'column {place}, "{escape(head)}", is not known'
        mend = f'Did you mean "{near}"? It' if near and not name else "It"
        mend = f"{mend} stands as a comment beside each group."
        yield Problem(file=file, line=1, message=what, mend=mend, severity="warning")


def _line(number: int, cells: list[str], names: list[str], heads: list[str], sign: str) -> Line:
    found: dict[str, str] = {}
    others: dict[str, str] = {}
    for place, cell in enumerate(cells):
        text = " ".join(cell.split())
        name = names[place] if place < len(names) else ""
        if name and name not in found:
            found[name] = text
        elif text:
            others[heads[place] if place < len(heads) and heads[place] else f"cell {place + 1}"] = text
    written = io.StringIO()
    csv.writer(written, delimiter=sign, lineterminator="").writerow(cells)
    extra = sum(bool(cell.strip()) for cell in cells[len(heads) :])
    raw = " ".join(written.getvalue().split("\n"))
    return Line(number=number, cells=found, others=others, raw=raw, extra=extra)


# --- writing --------------------------------------------------------------------------------------


def _head(file: str, assembly: str, entered_by: str) -> Iterator[str]:
    yield f"# Imported from {escape(file)}. Hold every value against its page, then: torqref check FILE."
    yield "format = 1"
    yield f"assembly = {quoted(assembly)}" if assembly else '# assembly = "vehicle or machine"'
    yield from ("", "[source]", 'kind = "shop"', f"title = {quoted(f'imported from {file}')}")
    yield from (f"entered_by = {quoted(entered_by)}",) if entered_by else ()


def _tail(aside: Sequence[str]) -> Iterator[str]:
    if aside:
        yield from (
            "",
            "# --- rows that could not be read; nothing of them is lost ---",
        )
        yield from aside


def _group(line: Line, taken: set[str]) -> str:
    """The row as a group; its id is made from its name, with a number where that is taken."""
    cells = line.cells
    base = cells.get("id") or identity(cells.get("name", ""))
    name = next(one for one in _numbered_ids(base) if one not in taken)
    taken.add(name)
    lines = ["", "[[group]]", f"id = {quoted(name)}", f"name = {quoted(cells.get('name', ''))}"]
    lines += [f"{key} = {quoted(cells[key])}" for key in _PLAIN if cells.get(key)]
    if cells.get("count"):
        count = cells["count"]
        lines.append(f"count = {count if count.isascii() and count.isdigit() else quoted(count)}")
    source = {"title": cells.get("source", ""), "reference": cells.get("reference", "")}
    given = ", ".join(f"{key} = {quoted(text)}" for key, text in source.items() if text)
    lines += [f"source = {{ {given} }}"] if given else []
    lines += [f"# {escape(head)}: {escape(text)}" for head, text in line.others.items()]
    value = f"{cells.get('value', '')} {cells.get('unit', '')}".strip()
    kind = "chain" if _is_chain(value) else "torque"
    return "\n".join((*lines, "[[group.stage]]", f"{kind} = {quoted(value)}"))


def _numbered_ids(base: str) -> Iterator[str]:
    yield base
    number = 2
    while True:
        yield f"{base}-{number}"
        number += 1


def _is_chain(value: str) -> bool:
    return any(sign in value for sign in ("°", "+", " then "))


def _fault(group: str, line: Line, file: str) -> Problem | None:
    """What is wrong with a row, in one message."""
    if not line.cells.get("name"):
        return _told(line, file, "the row has no name", "Name the joint.")
    if not line.cells.get("value"):
        return _told(line, file, "the row has no value", "Write the torque as printed, with its unit.")
    read = parse_library(f"format = 1\n{group}\n".encode(), file)
    errors = [problem for problem in read.problems if problem.severity == "error"]
    if not errors:
        return None
    if line.extra:
        # `Lid,24,5 N·m`: the comma of the number has parted it.
        message = "the row has more cells than the first row names, and its value cannot be read"
        return _told(line, file, message, "Put a value that holds a comma in quotes.")
    more = f" ({len(errors) - 1} more)" if len(errors) > 1 else ""
    return _told(line, file, f"{errors[0].message}{more}", errors[0].mend)


def _told(line: Line, file: str, message: str, mend: str) -> Problem:
    name = escape(line.cells.get("name", ""))[:40]
    return Problem(file=file, line=line.number, key=name, message=message, mend=mend)


def _set_aside(line: Line, problem: Problem) -> str:
    return f"# line {line.number}: {problem.message}. {problem.mend}\n#   {escape(line.raw)}"
