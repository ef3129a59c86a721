"""What a rack says that cannot be, or hardly: told at its place; only an error keeps the tool away."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from torqref.document.table import Table
from torqref.quantity.conversion import convert
from torqref.wrench.adapter import Piece, crowfeet
from torqref.wrench.doubt import is_jaw, is_short
from torqref.wrench.figure import figures
from torqref.wrench.iso6789 import FINEST_DIGIT, INTERVAL_MONTHS, INTERVAL_PULLS
from torqref.wrench.rack import Adapter, Wrench

# Two scales of one wrench end at the same torque, within what two sets of round marks can differ.
_SAME_END = Fraction(1, 5)

# Two people on one handle pull about this much, in N: common practice, no source.
_HARDEST_PULL = 1500


def check_wrench(wrench: Wrench, table: Table) -> None:
    """Tell what looks wrong with a wrench."""
    for check in WRENCH_CHECKS:
        check(wrench, table)


def check_adapter(adapter: Adapter, table: Table) -> None:
    """Tell what looks wrong with an adapter."""
    for check in ADAPTER_CHECKS:
        check(adapter, table)


def _tolerance_given(wrench: Wrench, table: Table) -> None:
    if not table.has("tolerance") and not table.has("iso"):
        table.tell(
            "tolerance",
            "no tolerance is given; ±4 % is taken",
            'Write tolerance = "4 %" from the certificate.',
            "warning",
        )


def _length_given(wrench: Wrench, table: Table) -> None:
    if wrench.length is None:
        table.tell(
            "length",
            "no effective length is given: no crowfoot sum without it",
            'Measure from the centre of the drive square to the mark on the grip: length = "290 mm".',
            "hint",
        )


def _length_fits(wrench: Wrench, table: Table) -> None:
    """The pull at the grip that the end of the scale takes: nobody has more, so the unit may be wrong."""
    if wrench.length is None:
        return
    metres = convert(wrench.length.value, wrench.length.unit, "m")
    pull = max(convert(scale.high, scale.unit, "N·m") for scale in wrench.scales) / metres
    if pull > _HARDEST_PULL:
        table.tell(
            "length",
            f"{wrench.length.text} is short: the end of the scale would take {figures(pull)} N at the grip",
            "Measure from the centre of the drive square to the mark on the grip, and look at the unit.",
            "warning",
        )


def _calibration_given(wrench: Wrench, table: Table) -> None:
    if wrench.calibration_due is None:
        table.tell(
            "calibration_due",
            "no calibration date is given",
            f"Write calibration_due = 2027-11-30; ISO 6789 asks for one every {INTERVAL_MONTHS} months "
            f"or {INTERVAL_PULLS} pulls.",
            "hint",
        )


def compare_scales(wrenches: tuple[Wrench, ...], top: Table) -> None:
    """Tell where two scales of one wrench do not end at the same torque: the unit of one is wrong."""
    for wrench in wrenches:
        first = wrench.scales[0]
        for scale in wrench.scales[1:]:
            end = convert(scale.high, scale.unit, first.unit)
            if abs(end / first.high - 1) > _SAME_END:
                top.tell(
                    "wrench",
                    f"{wrench.id}: {figures(scale.high)} {scale.unit} is {figures(end)} {first.unit}, "
                    f"but its first scale ends at {figures(first.high)} {first.unit}",
                    "Look at the unit of each scale.",
                    "warning",
                )


def _digits_fine(wrench: Wrench, table: Table) -> None:
    if wrench.kind != "electronic":
        return
    for number, scale in enumerate(wrench.scales, start=1):
        lowest = max(wrench.certified_from * scale.high, scale.low)
        if scale.graduation > FINEST_DIGIT * wrench.tolerance * lowest:
            table.tell(
                f"scale[{number}].graduation",
                f"the last digit ({scale.shown(scale.graduation)} {scale.unit}) is more than a quarter of "
                f"what the wrench may be off at {figures(lowest)} {scale.unit}",
                "Look at the display and at the certificate (ISO 6789).",
                "warning",
            )


def _offset_is_no_jaw(adapter: Adapter, table: Table) -> None:
    for piece in crowfeet(adapter.pieces):
        if adapter.jaw is not None and is_jaw(piece.offset, adapter.jaw):
            table.tell(
                "offset",
                f"{piece.offset.text} is the jaw",
                "Measure from the centre of the drive square to the centre of the jaw.",
            )
        elif is_short(piece.offset, adapter.drive):
            table.tell(
                "offset",
                f"{piece.offset.text} is short for a crowfoot",
                "Measure from the centre of the drive square to the centre of the jaw.",
                "warning",
            )


def _measured(adapter: Adapter, table: Table) -> None:
    is_offset = any(isinstance(part, Piece) for part in adapter.pieces)
    if is_offset and not (adapter.measured_by and adapter.measured_on):
        table.tell(
            "measured_by",
            "nobody says who measured it and when",
            'Write measured_by = "NAME" and measured_on = 2027-01-31.',
            "hint",
        )


WRENCH_CHECKS: tuple[Callable[[Wrench, Table], None], ...] = (
    _tolerance_given,
    _length_given,
    _length_fits,
    _calibration_given,
    _digits_fine,
)
ADAPTER_CHECKS: tuple[Callable[[Adapter, Table], None], ...] = (_offset_is_no_jaw, _measured)
