"""The bench: what the technician brings to a group, and what is to be done with it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from torqref.quantity.term import Torque
from torqref.wrench.adapter import Part
from torqref.wrench.rack import Rack

EMPTY_RACK = Rack()
TIGHTEN, LOOSEN = "tighten", "loosen"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What the technician brings to a group.

    Args:
        rack: the wrenches and adapters at hand; empty where no rack was named.
        today: for calibration dates.
        wrench: id of the wrench asked for, empty for the best of the rack.
        parts: adapter pieces between drive and fastener; `adapter` says them in words.
        unit: the unit asked for on the dial, empty for the printed one.
        place: the one place asked for, empty for all.
        action: `tighten` or `loosen`.
        drag: measured drag of a locking nut, added to the value.
        provisos: what to know of the entry itself: its variant and the others, a hole it may strip.
        doubt: why the value cannot be right, as plausibility says; empty for none.
    """

    today: date
    rack: Rack = EMPTY_RACK
    wrench: str = ""
    parts: tuple[Part, ...] = ()
    adapter: str = ""
    unit: str = ""
    place: str = ""
    action: str = TIGHTEN
    drag: Torque | None = None
    provisos: tuple[str, ...] = ()
    doubt: str = ""
