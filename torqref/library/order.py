"""The order of visiting as a library file writes it: a list, or text such as "1+9 5+13" for pairs."""

from __future__ import annotations

from torqref.document.table import Table
from torqref.pattern.fault import Fault
from torqref.pattern.layout import Order
from torqref.pattern.order import read_order


def order_at(table: Table, name: str) -> Order | None:
    """The order under a key, or None where there is none or it could not be read."""
    if not table.has(name):
        return None
    value = table.values[name]
    if not isinstance(value, str | list):
        table.tell(name, "an order is a list of positions", f'Write {name} = "1 5 3 7" or "1+9 5+13".')
        return None
    found = read_order(value)
    if isinstance(found, Order):
        return found
    tell_faults(table, name, found)
    return None


def tell_faults(table: Table, name: str, faults: tuple[Fault, ...]) -> None:
    """Faults of a drawing or an order as problems at their key."""
    for fault in faults:
        table.tell(name, fault.message, fault.mend, fault.severity)
