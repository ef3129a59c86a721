"""Reads a rack file: every wrench and adapter that is right, and a problem for everything that is not."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.document.problem import Problem
from torqref.document.table import Table
from torqref.document.toml import Document, read_document
from torqref.quantity.conversion import convert
from torqref.wrench.adapter import Extension, Joint, Multiplier, Part, Piece
from torqref.wrench.figure import figures
from torqref.wrench.iso6789 import INTERVAL_MONTHS, tolerance_of
from torqref.wrench.rack import (
    ORDINARY_CERTIFIED_FROM,
    ORDINARY_TOLERANCE,
    PULLS,
    Adapter,
    Direction,
    Kind,
    Rack,
    Wrench,
)
from torqref.wrench.rack_check import check_adapter, check_wrench, compare_scales
from torqref.wrench.rack_value import (
    angle_at,
    date_at,
    handle_at,
    length_at,
    ratio_at,
    share_at,
    torque_at,
)
from torqref.wrench.scale import Scale

FORMAT = 1
LOWEST_MARK = "lowest mark"
_FROM_NOUGHT = re.compile(r"^\s*0+(?:[.,]0+)?\s*(?:[^\d.,]|$)")
_ID = re.compile(r"^[\w.-]{1,40}$")
_KINDS: Mapping[str, Kind] = {kind: kind for kind in PULLS}
_DIRECTIONS: Mapping[str, Direction] = {"clockwise": "clockwise", "anticlockwise": "anticlockwise"}
_WIDEST_TOLERANCE = Fraction(1, 4)
Tool = TypeVar("Tool", Wrench, Adapter)


def read(path: Path, *, thorough: bool = False) -> tuple[Rack, tuple[Problem, ...]]:
    """The rack in a file and every problem with it; one wrong wrench does not keep the others away."""
    document = read_document(path)
    return (Rack(), (document,)) if isinstance(document, Problem) else rack_of(document, thorough=thorough)


def rack_of(document: Document, *, thorough: bool = False) -> tuple[Rack, tuple[Problem, ...]]:
    """The same from a document that was already read."""
    return read_tools(Table.of(document), thorough=thorough)


def read_tools(top: Table, *, thorough: bool = False) -> tuple[Rack, tuple[Problem, ...]]:
    """The same from the top table of a document."""
    _check_format(top)
    wrenches, adapters = _sound(top, "wrench", _wrench), _sound(top, "adapter", _adapter)
    top.close()
    if thorough:
        compare_scales(wrenches, top)
    if not top.has("wrench") and not top.problems:
        top.tell("", "no wrench in this file", "Write a table [[wrench]] for each.", "warning")
    problems = sorted(top.problems, key=lambda problem: problem.line or 0)
    return Rack(wrenches=wrenches, adapters=adapters), tuple(problems)


def _check_format(top: Table) -> None:
    found = top.whole("format")
    if "format" not in top.values:
        top.tell("format", "format is missing", f"Write format = {FORMAT} at the top.")
    elif found is not None and found != FORMAT:
        top.tell(
            "format", f"format {found} is not known here", f"Write format = {FORMAT}, or use a newer torqref."
        )


def _sound(top: Table, name: str, reader: Callable[[Table], Tool | None]) -> tuple[Tool, ...]:
    """The tools of one kind that can be used: those without an error, and each id once."""
    found: dict[str, Tool] = {}
    for table in top.tables(name):
        before = _errors(table)
        tool = reader(table)
        table.close()
        if tool is not None and tool.id.casefold() in found:
            table.tell("id", f'"{tool.id}" stands here twice', "Give every tool an id of its own.")
        if tool is not None and _errors(table) == before:
            found[tool.id.casefold()] = tool
    return tuple(found.values())


def _errors(table: Table) -> int:
    return sum(problem.severity == "error" for problem in table.problems)


def _wrench(table: Table) -> Wrench | None:
    before = _errors(table)
    id_, kind = _id(table), table.word("kind", _KINDS)
    if not table.has("kind"):
        table.tell("kind", "kind is missing", f"Write one of: {', '.join(_KINDS)}.")
    scales = _scales(table, preset=kind == "preset")
    wrench = Wrench(
        id=id_,
        name=table.text("name") or id_,
        kind=_KINDS.get(kind, "click"),
        scales=scales,
        mark=table.text("mark"),
        drive=table.text("drive"),
        tolerance=_tolerance(table, scales),
        tolerance_anticlockwise=share_at(table, "tolerance_anticlockwise", _WIDEST_TOLERANCE),
        certified_from=_certified_from(table, scales),
        length=handle_at(table, "length"),
        length_to="pivot" if table.word("length_to", ("grip", "pivot"), "grip") == "pivot" else "grip",
        directions=_directions(table),
        calibration_due=_due(table),
        serial=table.text("serial"),
    )
    if _errors(table) == before:
        check_wrench(wrench, table)
    return wrench


def _id(table: Table) -> str:
    id_ = table.required("id", "W1").strip()
    if id_ and not _ID.match(id_):
        table.tell("id", f'"{id_}" is not an id', "Write letters, digits, dots and dashes without blanks.")
    return id_


def _scales(table: Table, *, preset: bool) -> tuple[Scale, ...]:
    tables = table.tables("scale")
    if not tables:
        table.tell("scale", "the wrench has no scale", 'Write [[wrench.scale]] with range = "10–60 N·m".')
    scales: list[Scale] = []
    for inner in tables:
        scale = _preset_scale(inner) if preset else _scale(inner)
        inner.close()
        if scale is not None and any(scale.unit == other.unit for other in scales):
            inner.tell("", f"a second scale in {scale.unit}", "Give each scale of a wrench its own unit.")
        elif scale is not None:
            scales.append(scale)
    return tuple(scales)


def _scale(table: Table) -> Scale | None:
    written = table.required("range", "10–60 N·m")
    table.required("graduation", "0.5 N·m")
    step = torque_at(table, "graduation")
    if _FROM_NOUGHT.match(written):
        table.tell("range", f'"{written}" begins at nothing', 'Begin at the first mark: range = "5–150 N·m".')
        return None
    whole = torque_at(table, "range")
    if whole is None or step is None:
        return None
    if whole.low is None or whole.high is None or whole.low >= whole.high:
        table.tell(
            "range", f'"{whole.text}" is not a range', 'Write both ends of the scale: range = "10–60 N·m".'
        )
        return None
    graduation = convert(step.aim, step.unit, whole.unit)
    steps = (whole.high - whole.low) / graduation
    if step.unit != whole.unit or steps < 1:
        table.tell(
            "graduation",
            f'"{step.text}" is not a step of the scale {whole.text}',
            f'Write the torque from mark to mark in {whole.unit}: graduation = "1 {whole.unit}".',
        )
        return None
    if steps.denominator != 1:
        table.tell(
            "graduation",
            f"steps of {step.text} from {figures(whole.low)} miss the end at {figures(whole.high)}",
            "Look at the marks of the scale.",
            "warning",
        )
    return Scale(unit=whole.unit, low=whole.low, high=whole.high, graduation=graduation)


def _preset_scale(table: Table) -> Scale | None:
    table.required("value", "24 N·m")
    value = torque_at(table, "value")
    if value is None:
        return None
    return Scale(unit=value.unit, low=value.aim, high=value.aim, graduation=Fraction(0))


def _tolerance(table: Table, scales: tuple[Scale, ...]) -> Fraction:
    """The tolerance as given, by certificate or by ISO 6789; the ordinary one where nothing is given."""
    given = share_at(table, "tolerance", _WIDEST_TOLERANCE)
    if not table.text("iso").strip():
        return given or ORDINARY_TOLERANCE
    largest = _largest(scales)
    of_class = table.read("iso", lambda text: tolerance_of(text, largest), "II A")
    return given or of_class or ORDINARY_TOLERANCE


def _largest(scales: tuple[Scale, ...]) -> Fraction:
    """The largest value of the tool in N·m, from the scale in that unit if there is one."""
    own = next((scale.high for scale in scales if scale.unit == "N·m"), None)
    if own is not None or not scales:
        return own or Fraction(0)
    return convert(scales[0].high, scales[0].unit, "N·m")


def _certified_from(table: Table, scales: tuple[Scale, ...]) -> Fraction:
    if table.text("certified_from").strip() == LOWEST_MARK:
        return scales[0].low / scales[0].high if scales else ORDINARY_CERTIFIED_FROM
    return share_at(table, "certified_from", Fraction(1)) or ORDINARY_CERTIFIED_FROM


def _directions(table: Table) -> tuple[Direction, ...]:
    words = table.texts("directions")
    for word in words:
        if word not in _DIRECTIONS:
            near = nearest(word, _DIRECTIONS)
            mend = f'Did you mean "{near}"?' if near else f"Write one or both of: {', '.join(_DIRECTIONS)}."
            table.tell("directions", f'"{escape(word)}" is not a direction', mend)
    return tuple(_DIRECTIONS[word] for word in words if word in _DIRECTIONS) or ("clockwise",)


def _due(table: Table) -> date | None:
    """The day the calibration runs out; a year after it was made where only that is known."""
    due, made = date_at(table, "calibration_due"), date_at(table, "calibrated")
    if due is not None or made is None:
        return due
    years, month = divmod(made.month - 1 + INTERVAL_MONTHS, 12)
    # A wrench calibrated on 29 February runs out on the 28th.
    last = 28 if (made.month, made.day) == (2, 29) else made.day
    return date(made.year + years, month + 1, last)


def _adapter(table: Table) -> Adapter | None:
    before = _errors(table)
    id_ = _id(table)
    kind = table.word("kind", ADAPTER_KINDS, "crowfoot")
    pieces = ADAPTER_KINDS[kind](table)
    adapter = Adapter(
        id=id_,
        name=table.text("name") or id_,
        pieces=pieces,
        measured_by=table.text("measured_by"),
        measured_on=date_at(table, "measured_on"),
        jaw=length_at(table, "jaw"),
        drive=table.text("drive"),
    )
    if _errors(table) == before:
        check_adapter(adapter, table)
    return adapter


def _crowfoot(table: Table) -> tuple[Part, ...]:
    """One offset, or several pieces in a row under [[adapter.piece]]."""
    rows = table.tables("piece") or (table,)
    pieces = tuple(_piece(row) for row in rows)
    for row in rows:
        if row is not table:
            row.close()
    return tuple(piece for piece in pieces if piece is not None)


def _piece(table: Table) -> Piece | None:
    table.required("offset", "32 mm")
    offset, angle = length_at(table, "offset"), angle_at(table, "angle")
    if offset is None:
        return None
    return Piece(offset=offset, angle=angle or Fraction(0))


def _multiplier(table: Table) -> tuple[Part, ...]:
    """Ratio, and either the share that arrives or the loss that is allowed for on top of the target."""
    table.required("ratio", "4:1")
    ratio, loss = ratio_at(table, "ratio"), share_at(table, "loss", Fraction(1))
    efficiency = share_at(table, "efficiency", Fraction(1)) or (None if loss is None else 1 / (1 + loss))
    return () if ratio is None else (Multiplier(ratio=ratio, efficiency=efficiency),)


def _joint(table: Table) -> tuple[Part, ...]:
    return (Joint(bend=angle_at(table, "bend")),)


def _extension(table: Table) -> tuple[Part, ...]:
    return (Extension(text=table.text("name") or "straight extension"),)


ADAPTER_KINDS: Mapping[str, Callable[[Table], tuple[Part, ...]]] = {
    "crowfoot": _crowfoot,
    "extension": _extension,
    "universal joint": _joint,
    "multiplier": _multiplier,
}
