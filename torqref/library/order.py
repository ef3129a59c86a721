"""The order of visiting as a library file writes it: a list, or text such as "1+9 5+13" for pairs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from torqref.document.table import Table
from torqref.pattern.audit import audit
from torqref.pattern.fault import Fault
from torqref.pattern.layout import Layout, Order
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


def impossible(order: Order, layout: Layout, *, revisit: bool = False) -> Iterator[Fault]:
    """What keeps an order from being walked on a layout: positions missing, doubled or unknown.

    Args:
        order: the order.
        layout: the positions that it has to visit.
        revisit: whether a position may come twice.
    """
    doubled = len(set(order.labels)) < len(order.labels)
    if revisit and doubled:
        order = replace(order, visits=tuple((label,) for label in dict.fromkeys(order.labels)))
    yield from (fault for fault in audit(order, layout) if fault.severity == "error")
