"""The picture of a group: a diagram as the page prints it, or a layout without one, and the order."""

from __future__ import annotations

from torqref.document.table import Table
from torqref.library.order import impossible, order_at, tell_faults
from torqref.pattern.audit import audit
from torqref.pattern.diagram import read_diagram
from torqref.pattern.fault import Faults
from torqref.pattern.layout import Layout, Order
from torqref.pattern.order import generic_order, listed
from torqref.pattern.shape import circle, count, points, rows

Picture = tuple[Layout, Order, Order | None]

_NO_LAYOUT = Layout(positions=(), basis="none")
_NO_ORDER = Order(visits=(), basis="none")
_EXAMPLE = "Draw diagram = '''…''', or write layout = { circle = 8 } or count = 3."


def read_picture(table: Table) -> Picture:
    """Layout, order of tightening and, where the page gives one, order of loosening."""
    layout = _read_layout(table)
    order, removal = order_at(table, "order"), _removal(table)
    if layout is None:
        return _NO_LAYOUT, _NO_ORDER, None
    if order is None:
        order = listed(layout) if layout.basis in ("diagram", "count") else generic_order(layout)
    else:
        tell_faults(table, "order", audit(order, layout))
    if removal is not None:
        tell_faults(table, "removal_order", tuple(impossible(removal, layout)))
    return layout, order, removal


def _read_layout(table: Table) -> Layout | None:
    """Exactly one of diagram, layout and count; one bolt where there is none of them."""
    given = [name for name in ("diagram", "layout", "count") if table.has(name)]
    if len(given) > 1:
        table.tell(given[1], f"both {given[0]} and {given[1]} say where the bolts are", "Keep one of them.")
        return None
    name = given[0] if given else "count"
    found = _READERS[name](table)
    if found is None or isinstance(found, Layout):
        return found
    tell_faults(table, name, found)
    return None


def _diagram(table: Table) -> Layout | Faults | None:
    text = table.text("diagram")
    return read_diagram(text) if text else None


def _count(table: Table) -> Layout | Faults | None:
    number = table.whole("count")
    return count(1) if number is None and "count" not in table.values else _counted(number)


def _counted(number: int | None) -> Layout | Faults | None:
    return None if number is None else count(number)


def _layout(table: Table) -> Layout | Faults | None:
    inner = table.table("layout")
    if inner is None:
        return None
    shapes = [name for name in ("circle", "rows", "points") if inner.has(name)]
    inner.close()
    if len(shapes) != 1:
        table.tell("layout", "a layout is one of circle, rows and points", "Write layout = { circle = 8 }.")
        return None
    return _SHAPES[shapes[0]](inner)


def _circle(inner: Table) -> Layout | Faults | None:
    number = inner.whole("circle")
    return None if number is None else circle(number)


def _rows(inner: Table) -> Layout | Faults | None:
    counts = [entry for entry in inner.entries("rows") if isinstance(entry, int)]
    if len(counts) != len(inner.entries("rows")):
        inner.tell("rows", "rows are whole numbers of bolts", "Write rows = [5, 5].")
        return None
    return rows(counts)


def _points(inner: Table) -> Layout | Faults | None:
    pairs = [_pair(entry) for entry in inner.entries("points")]
    places = [pair for pair in pairs if pair is not None]
    if len(places) != len(pairs):
        inner.tell("points", "points are pairs of numbers", "Write points = [[0, 0], [120, 40]].")
        return None
    return points(places)


def _pair(entry: object) -> tuple[float, float] | None:
    if not isinstance(entry, list) or len(entry) != 2:
        return None
    x, y = entry
    return (float(x), float(y)) if isinstance(x, int | float) and isinstance(y, int | float) else None


_READERS = {"diagram": _diagram, "layout": _layout, "count": _count}
_SHAPES = {"circle": _circle, "rows": _rows, "points": _points}


def _removal(table: Table) -> Order | None:
    """`removal_order` is `reverse`, which is the rule anyway, or an order of its own."""
    if table.values.get("removal_order") == "reverse":
        table.known.add("removal_order")
        return None
    return order_at(table, "removal_order")
