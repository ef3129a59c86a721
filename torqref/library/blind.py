"""The second, blind entry: every value of a file is typed again by another person, who does not see it.

What agrees is marked as verified, in the file itself. What differs is told with both values: only the page
decides which of them is right.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from torqref.document.problem import Problem
from torqref.document.quoting import quoted
from torqref.document.refusal import Refusal
from torqref.document.table import Table
from torqref.document.toml import Document, parse_document
from torqref.document.writer import with_keys
from torqref.fastener.thread import Thread, read_thread
from torqref.library.order import order_at
from torqref.library.rows import read_rows
from torqref.pattern.diagram import read_diagram
from torqref.pattern.layout import Layout, Order
from torqref.pattern.order import read_order
from torqref.quantity.measure import read_measure
from torqref.quantity.reading import read_term
from torqref.quantity.term import Angle, Measure, Stage, Term, Torque

_TERMS = ("torque", "angle", "back_off", "chain", "window", "up_to", "back_at_most")
_MEASURES = ("band",)
_FACTS = ("thread", "class")
_PICTURE = "numbers in the picture, row by row from the top left"
# Words before a class that one page prints and another leaves out.
_BEFORE_CLASS = re.compile(r"\b(?:property|class|grade|sae|iso)\b", re.IGNORECASE)
_ROWS = ("torque", "angle", "band", "most")


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """One value to be typed again.

    Args:
        asked: where it stands, in words; never the value.
        name: the key it stands under.
        text: the value as the file has it.
        optional: the page need not print it, so that leaving it out keeps nothing from being verified.
    """

    asked: str
    name: str
    text: str
    optional: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The values of one group or one reference table.

    Args:
        id: of the group or table.
        key: its table in the file, such as `group[2]`.
        name: its name on the page.
        entered_by: who typed the values first.
        verified_by: who has typed them again already; empty while nobody has.
        blanks: the values, in the order of the page.
    """

    id: str
    key: str
    name: str
    entered_by: str
    verified_by: str
    blanks: tuple[Blank, ...]


def sheets_of(document: Document) -> tuple[Sheet, ...]:
    """Every group and reference table of a file with the values to be typed again."""
    top = Table.of(document)
    shared = top.values.get("source")
    source = shared if isinstance(shared, dict) else {}
    sheets = [_sheet(table, source, _group_blanks(table)) for table in top.tables("group")]
    sheets += [_sheet(table, source, _row_blanks(table)) for table in top.tables("table")]
    return tuple(sheet for sheet in sheets if sheet.blanks)


def _sheet(table: Table, shared: Mapping[str, object], blanks: Iterator[Blank]) -> Sheet:
    own = table.values.get("source")
    source = own if isinstance(own, dict) else {}
    return Sheet(
        id=table.text("id"),
        key=table.key,
        name=table.text("name") or table.text("id"),
        entered_by=str(source.get("entered_by", shared.get("entered_by", ""))),
        verified_by=str(source.get("verified_by", shared.get("verified_by", ""))),
        blanks=tuple(blanks),
    )


def _group_blanks(table: Table) -> Iterator[Blank]:
    for number, stage in enumerate(table.tables("stage"), start=1):
        for name in (*_TERMS, *_MEASURES):
            if text := stage.text(name):
                yield Blank(asked=f"stage {number}, {name.replace('_', ' ')}", name=name, text=text)
    for fastener in table.tables("fastener"):
        where = _where(fastener).rstrip(", ")
        torques = fastener.texts("torque")
        for number, text in enumerate(torques, start=1):
            which = f", torque {number} of {len(torques)}" if len(torques) > 1 else ", torque"
            yield Blank(asked=f"{where}{which}", name="torque", text=text)
        if text := fastener.text("angle"):
            yield Blank(asked=f"{where}, angle", name="angle", text=text)
    yield from _fact_blanks(table)


def _fact_blanks(table: Table) -> Iterator[Blank]:
    """What decides with the values whether a walk is right: threads, classes, and the order of the bolts."""
    for part, where in ((table, ""), *((each, _where(each)) for each in table.tables("fastener"))):
        for name in _FACTS:
            if text := part.text(name):
                yield Blank(asked=f"{where}{name}", name=name, text=text, optional=True)
    diagram = read_diagram(table.text("diagram")) if table.text("diagram") else ()
    if isinstance(diagram, Layout):
        placed = sorted(diagram.positions, key=lambda position: (position.y, position.x))
        rows = " ".join(str(position.label) for position in placed)
        yield Blank(asked=_PICTURE, name="order", text=rows, optional=True)
    order = order_at(table, "order")
    if order is not None:
        listed = order.text
        yield Blank(asked="order of the bolts, by their numbers", name="order", text=listed, optional=True)


def _where(fastener: Table) -> str:
    return f"positions {fastener.values.get('at', '')}, "


def _row_blanks(table: Table) -> Iterator[Blank]:
    for row in read_rows(table):
        for name in _ROWS:
            if text := row.cells.get(name):
                yield Blank(asked=f"row {row.name}, {name}", name=name, text=text)


# --- comparing ------------------------------------------------------------------------------------


def refusal_of(blank: Blank, typed: str) -> Refusal | None:
    """Why a typed text is no value of this kind, so that it is asked again; None where it is one.

    A limit such as `±5°` is no value alone and is compared as text.
    """
    if _plain(typed) == _plain(blank.text) or blank.name in ("window", "class"):
        return None
    if blank.name == "order":
        order = read_order(typed)
        return None if isinstance(order, Order) else Refusal(text=typed, message=order[0].message)
    if blank.name == "thread":
        thread = read_thread(typed)
        return thread if isinstance(thread, Refusal) else None
    found = read_measure(typed) if blank.name in _MEASURES else read_term(typed)
    return found if isinstance(found, Refusal) else None


def agrees(blank: Blank, typed: str) -> bool:
    """Whether a typed value is the one of the file: the same numbers in the same unit, however written.

    >>> agrees(Blank(asked="", name="torque", text="22–26 N·m (16–19 ft-lb)"), "22-26 Nm")
    True
    >>> agrees(Blank(asked="", name="torque", text="34 N·m"), "43 N·m")
    False
    """
    if _plain(typed) == _plain(blank.text):
        return True
    if blank.name in _SAME_FACT:
        return _SAME_FACT[blank.name](blank.text, typed)
    if blank.name in _MEASURES:
        one, two = read_measure(blank.text), read_measure(typed)
        return isinstance(one, Measure) and isinstance(two, Measure) and _limits(one) == _limits(two)
    file, page = read_term(blank.text), read_term(typed)
    if isinstance(file, Refusal) or isinstance(page, Refusal):
        return False
    return _says(page) in (_says(file), *(((_stage(other)),) for other in file.equivalents))


def _same_thread(one: str, two: str) -> bool:
    mine, theirs = read_thread(one), read_thread(two)
    return isinstance(mine, Thread) and isinstance(theirs, Thread) and mine.designation == theirs.designation


def _same_class(one: str, two: str) -> bool:
    return _plain(_BEFORE_CLASS.sub("", one)) == _plain(_BEFORE_CLASS.sub("", two))


def _same_order(one: str, two: str) -> bool:
    mine, theirs = read_order(one), read_order(two)
    return isinstance(mine, Order) and isinstance(theirs, Order) and mine.visits == theirs.visits


_SAME_FACT: Mapping[str, Callable[[str, str], bool]] = {
    "thread": _same_thread,
    "class": _same_class,
    "order": _same_order,
}


def _plain(text: str) -> str:
    dashes = str.maketrans({"–": "-", "—": "-", "−": "-", "×": "x", "·": None, " ": None, "\t": None})
    return text.casefold().translate(dashes)


def _says(term: Term) -> tuple[tuple[object, ...], ...]:
    return tuple(_stage(stage) for stage in term.stages)


def _stage(stage: Stage) -> tuple[object, ...]:
    if isinstance(stage, Torque):
        return ("torque", stage.low, stage.target, stage.high, stage.unit)
    if isinstance(stage, Angle):
        # A back-off is written with or without its sign.
        return (
            "angle",
            *(None if value is None else abs(value) for value in (stage.degrees, stage.low, stage.high)),
        )
    return ("hand",)


def _limits(measure: Measure) -> tuple[Fraction | str | None, ...]:
    return (measure.low, measure.target, measure.high, measure.unit)


# --- writing --------------------------------------------------------------------------------------


def verified_text(document: Document, sheet: Sheet, by: str, on: date) -> str | None:
    """The file with one group marked as verified and nothing else changed; None where that cannot be done.

    Args:
        document: the file as it was read.
        sheet: the group.
        by: who typed the values.
        on: the day.
    """
    values = {"verified_by": quoted(by), "verified_on": on.isoformat()}
    return checked(document, with_keys(document.text, f"{sheet.key}.source", values), _without_verification)


def checked(
    document: Document, text: str | None, kept: Callable[[Mapping[str, object]], object]
) -> str | None:
    """A changed text, if what has to be kept is read from it just as before."""
    again = None if text is None else parse_document(text.encode(), document.file)
    if again is None or isinstance(again, Problem) or kept(again.values) != kept(document.values):
        return None
    return text


def _without_verification(values: object) -> object:
    """Everything but who verified it; a source with nothing else in it counts as none."""
    if isinstance(values, list):
        return [_without_verification(entry) for entry in values]
    if not isinstance(values, dict):
        return values
    kept = {
        name: _without_verification(value)
        for name, value in values.items()
        if name not in ("verified_by", "verified_on")
    }
    return {name: value for name, value in kept.items() if name != "source" or value}
