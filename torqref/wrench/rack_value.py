"""Values of a rack table: text as printed, read or told as a problem with its place."""

from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction

from torqref.document.table import Table
from torqref.quantity.reading import read_torque
from torqref.quantity.term import Length, Torque
from torqref.wrench.fitting import read_angle, read_handle, read_offset, read_ratio, read_share


def torque_at(table: Table, name: str) -> Torque | None:
    """A torque, or None."""
    return table.read(name, read_torque, "24 N·m")


def length_at(table: Table, name: str) -> Length | None:
    """A length, or None."""
    return table.read(name, read_offset, "38 mm")


def handle_at(table: Table, name: str) -> Length | None:
    """The effective length of a wrench, or None."""
    return table.read(name, read_handle, "290 mm")


def angle_at(table: Table, name: str) -> Fraction | None:
    """An angle in degrees, or None."""
    return table.read(name, read_angle, "45°")


def ratio_at(table: Table, name: str) -> Fraction | None:
    """The ratio of a multiplier, or None."""
    return table.read(name, read_ratio, "4:1")


def share_at(table: Table, name: str, most: Fraction) -> Fraction | None:
    """A percentage above 0 and up to `most`, or None."""
    share = table.read(name, read_share, "4 %")
    if share is None or 0 < share <= most:
        return share
    table.tell(
        name,
        f'"{table.text(name)}" is not between 0 % and {float(most * 100):g} %',
        f"Look at the certificate of the tool and write {name} in percent.",
    )
    return None


def date_at(table: Table, name: str) -> date | None:
    """A date of TOML, or the same as text (`2027-11-30`), or None."""
    if not table.has(name):
        return None
    value = table.values[name]
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, date):
        return value
    try:
        return date.fromisoformat(str(value).strip())
    except ValueError:
        found = table.text(name) if isinstance(value, str) else str(value)
        table.tell(
            name, f'"{found}" is not a date; year-month-day is expected', f"Write {name} = 2027-11-30."
        )
        return None
