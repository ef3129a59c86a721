"""The rack: the technician's own wrenches, and adapters measured once and named."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Literal, TypeVar

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.refusal import Refusal
from torqref.quantity.term import Length
from torqref.wrench.adapter import Part
from torqref.wrench.scale import Scale

Kind = Literal["click", "dial", "beam", "electronic", "preset"]
Direction = Literal["clockwise", "anticlockwise"]

# Accuracy of an ordinary wrench, from a fifth of full scale up:
# TM 1-1500-204-23-9 (US Army, 1992), table 8-1 and its note 1.
ORDINARY_TOLERANCE = Fraction(4, 100)
ORDINARY_CERTIFIED_FROM = Fraction(1, 5)

# How each kind is pulled: common practice, no source.
PULLS: dict[Kind, str] = {
    "click": "Pull slowly. Stop at the first click and do not pull again: the click only signals.",
    "dial": "Pull slowly and read the dial from straight in front.",
    "beam": "Pull slowly at the grip, pointer clear of the beam, and read it from straight above.",
    "electronic": "Set the display to zero first, pull slowly, and stop at the signal.",
    "preset": "Pull slowly. Stop at the first signal and do not pull again.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrench:
    """One torque wrench as its owner describes it.

    Args:
        id: short name for the command line, such as `W3`.
        name: what people call it.
        mark: what tells it from its look-alikes, such as `yellow tape`.
        kind: click, dial, beam, electronic or preset.
        drive: size of the drive square, such as `3/8 in`.
        scales: one or more, each with its own marks.
        tolerance: share of the reading, clockwise, from the lowest certified value up.
        tolerance_anticlockwise: the same anticlockwise; None where it is no other.
        certified_from: lowest certified share of full scale.
        length: drive centre to grip mark or pivot pin; None if it was never measured.
        length_to: whether the length ends at the mark on the grip or at the pivot pin of the handle.
        directions: the ways it measures.
        calibration_due: the day the calibration runs out, or None.
        serial: number on the tool, for the record.
    """

    id: str
    name: str
    kind: Kind
    scales: tuple[Scale, ...]
    mark: str = ""
    drive: str = ""
    tolerance: Fraction = ORDINARY_TOLERANCE
    tolerance_anticlockwise: Fraction | None = None
    certified_from: Fraction = ORDINARY_CERTIFIED_FROM
    length: Length | None = None
    length_to: Literal["grip", "pivot"] = "grip"
    directions: tuple[Direction, ...] = ("clockwise",)
    calibration_due: date | None = None
    serial: str = ""

    @property
    def called(self) -> str:
        """The wrench in words that find it in the drawer: `W3, yellow tape`."""
        return f"{self.id}, {self.mark}" if self.mark else self.id

    @property
    def pull(self) -> str:
        """How to pull this kind of wrench."""
        return PULLS[self.kind]

    def scale_for(self, *units: str | None) -> Scale:
        """The scale in the first of these units that the wrench has, else its first scale."""
        by_unit = {scale.unit: scale for scale in self.scales}
        return next((by_unit[unit] for unit in units if unit in by_unit), self.scales[0])

    def measures(self, direction: str) -> bool:
        """Whether it measures in this direction."""
        return direction in self.directions

    def tolerance_in(self, direction: str) -> Fraction:
        """Tolerance as a share of the reading in this direction."""
        other = self.tolerance_anticlockwise
        return other if direction == "anticlockwise" and other is not None else self.tolerance

    def days_overdue(self, today: date) -> int:
        """Days since the calibration ran out; 0 while it is in date or has no date."""
        return max((today - self.calibration_due).days, 0) if self.calibration_due else 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Adapter:
    """An adapter of the rack: measured once with a calliper, then known by its name.

    Args:
        id: short name for the command line, such as `flare-17`.
        name: what people call it.
        pieces: what it does to the lever or the torque.
        measured_by: who measured it.
        measured_on: when.
        jaw: size of the jaw, such as `17 mm`, or None.
        drive: size of its square, or empty.
    """

    id: str
    name: str
    pieces: tuple[Part, ...]
    measured_by: str = ""
    measured_on: date | None = None
    jaw: Length | None = None
    drive: str = ""


_Tool = TypeVar("_Tool", Wrench, Adapter)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """All wrenches and adapters of one technician or bay."""

    wrenches: tuple[Wrench, ...] = ()
    adapters: tuple[Adapter, ...] = ()

    def wrench(self, id_: str) -> Wrench | None:
        """The wrench with this id, capitals or not."""
        return _named(id_, self.wrenches)

    def adapter(self, id_: str) -> Adapter | None:
        """The adapter with this id, capitals or not."""
        return _named(id_, self.adapters)

    def lacking(self, id_: str) -> Refusal:
        """Why there is no wrench of this id, with those that there are."""
        known = tuple(each.id for each in self.wrenches)
        mend = f"there are: {', '.join(known)}" if known else "it is empty; name your own with --rack FILE"
        return Refusal(text=id_, message=f'no wrench "{escape(id_)}" in the rack; {mend}', readings=known)


def _named(id_: str, tools: Iterable[_Tool]) -> _Tool | None:
    return next((tool for tool in tools if tool.id.casefold() == id_.strip().casefold()), None)


def read_rack(path: Path, *, thorough: bool = False) -> tuple[Rack, tuple[Problem, ...]]:
    """The rack in a file, with everything that is wrong with it; good wrenches load beside bad ones.

    Args:
        path: the rack file.
        thorough: also compare the scales of each wrench, which takes conversions and so a moment longer.
    """
    # The reader brings the document room with it: a rack made by hand does not need it.
    from torqref.wrench.rack_file import read

    return read(path, thorough=thorough)
