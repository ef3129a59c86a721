"""In which order the bolts are visited: as listed, as typed, or generic, which is not the manufacturer's."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from torqref.document.escape import escape
from torqref.pattern.diagram import MOST_DIGITS
from torqref.pattern.fault import Faults, refused
from torqref.pattern.geometry import is_rows, ring, vectors
from torqref.pattern.layout import Layout, Order
from torqref.pattern.star import cross, groups

GENERIC = "generic, not the manufacturer's"
AS_LISTED = "as the page numbers the positions"
_REVERSED = "the reverse of: "
_LOOSENING = (
    "a quarter turn each",
    "until the clamp load is gone",
    "out by hand",
)
MOST_VISITS = 1000
_MEND = 'Write the labels in the order of visiting: "1 5 3 7", or "1+5 3+7" for bolts pulled together.'
_DASH = r"[-\N{HYPHEN}\N{NON-BREAKING HYPHEN}\N{EN DASH}\N{EM DASH}\N{MINUS SIGN}]"
_BETWEEN = re.compile(rf"\s*(?:->|=>|\N{{RIGHTWARDS ARROW}}|>|{_DASH})\s*")
_PLUS = re.compile(r"\s*\+\s*")
_APART = re.compile(r"[\s,;]+")
_LABEL = re.compile(rf"[1-9][0-9]{{0,{MOST_DIGITS - 1}}}")


def listed(layout: Layout) -> Order:
    """The numbers of the page as they stand: smallest label first."""
    return Order(visits=_singly(layout.labels), basis=AS_LISTED)


def read_order(value: str | Sequence[object]) -> Order | Faults:
    """The order a text or a list gives, or why it gives none.

    Args:
        value: labels apart by blanks, commas, dashes or arrows, bolts pulled together joined by `+`; or a
            list of numbers, of such texts, and of lists of bolts pulled together.

    Returns:
        The order as given, not generic, or its faults. Whether it fits a layout is for the audit.

    >>> read_order("1+9 5+13").visits
    ((1, 9), (5, 13))
    >>> read_order([1, "3+4", 2]).labels
    (1, 3, 4, 2)
    """
    read = _text_visits(value) if isinstance(value, str) else _list_visits(value)
    if isinstance(read, str):
        return refused(read, _MEND)
    if not read:
        return refused("the order is empty", _MEND)
    if len(read) > MOST_VISITS:
        return refused(f"the order has {len(read)} visits, at most {MOST_VISITS} are read", _MEND)
    return Order(visits=read, basis="as given")


def _text_visits(text: str) -> tuple[tuple[int, ...], ...] | str:
    """The visits of a text, or what is wrong with it."""
    joined = _PLUS.sub("+", _BETWEEN.sub("-", text.strip(" \t\r\n,;")))
    parts = [part for part in _APART.split(joined) if part]
    if len(parts) <= 1 and joined.count("-") != 1:
        parts = joined.split("-") if joined else []
    visits = []
    for part in parts:
        visit = _visit(part)
        if isinstance(visit, str):
            return visit
        visits.append(visit)
    return tuple(visits)


def _list_visits(values: Sequence[object]) -> tuple[tuple[int, ...], ...] | str:
    visits = []
    for value in values:
        visit = _listed_visit(value)
        if isinstance(visit, str):
            return visit
        visits.append(visit)
    return tuple(visits)


def _listed_visit(value: object) -> tuple[int, ...] | str:
    if isinstance(value, list | tuple) and value and not any(isinstance(one, list | tuple) for one in value):
        return _visit("+".join(str(one) for one in value))
    if isinstance(value, str):
        return _visit(_PLUS.sub("+", value.strip()))
    if isinstance(value, int) and not isinstance(value, bool):
        return _visit(str(value)) if abs(value) < 10**9 else "the order holds a number that is far too large"
    kind = "true or false" if isinstance(value, bool) else f"a {type(value).__name__}"
    return f"the order holds {kind} where a label is expected"


def _visit(part: str) -> tuple[int, ...] | str:
    """The labels of one visit, or what is wrong with them."""
    if re.fullmatch(r"[0-9]+-[0-9]+", part):
        first, last = part.split("-")
        return f'"{part}" can mean {first} to {last}, or {first} and then {last}'
    for label in part.split("+"):
        if not _LABEL.fullmatch(label):
            shown = escape(label[:40])
            return f'"{shown}" in the order is no label; a whole number from 1 on is expected'
    labels = tuple(int(label) for label in part.split("+"))
    return labels if len(set(labels)) == len(labels) else f'"{part}" pulls the same bolt twice at once'


def star(bolts: int, *, pairs: bool = False) -> Order:
    """The usual cross for a circle numbered clockwise: opposite bolts, each new pair halving the gaps.

    Args:
        bolts: how many, 1 or more.
        pairs: whether two people pull opposite bolts together; an odd circle has no opposites.

    Returns:
        A generic order that starts at 1.

    Source: opposite pairs that halve the angle left, a gasket maker's questions and answers citing the
    Fluid Sealing Association; five by every other nut, US Army TM 10-4320-344-24, para. 2.23.1, p. 2-378.

    >>> star(8).labels
    (1, 5, 3, 7, 2, 6, 4, 8)
    >>> star(5).labels
    (1, 3, 5, 2, 4)
    """
    return _star_on(tuple(range(1, bolts + 1)), pairs=pairs)


def _star_on(labels: tuple[int, ...], *, pairs: bool = False) -> Order:
    visits = _singly(tuple(labels[place] for place in cross(len(labels))))
    if len(labels) % 2:
        words = "star: each next bolt where the gap is widest, across from the last"
    else:
        words = "cross: opposite pairs, each new pair halving the gaps"
        if pairs:
            visits = tuple(first + second for first, second in zip(visits[::2], visits[1::2], strict=True))
    return _generic(visits, words)


def grouped(bolts: int, size: int = 4) -> Order:
    """The cross for a circle of many bolts: groups of neighbours count as one bolt, worked in a run.

    Args:
        bolts: how many, numbered clockwise.
        size: neighbours to a group; the groups are made an even number, equal but for one bolt.

    Source: a bolting-service article on ASME PCC-1-2019 (48 bolts, 12 groups of 4); standard not seen.

    >>> grouped(48).labels[:8]
    (1, 2, 3, 4, 25, 26, 27, 28)
    """
    runs = groups(bolts, size)
    labels = tuple(place + 1 for run in cross(len(runs)) for place in runs[run])
    return _generic(_singly(labels), f"cross in {len(runs)} groups of neighbours, each group worked as one")


def circular(bolts: int) -> Order:
    """Once round the circle, clockwise."""
    return _generic(_singly(tuple(range(1, bolts + 1))), "once round, clockwise")


def round_of(layout: Layout) -> Order:
    """Once round the layout, clockwise; where nothing is round, as the page numbers the positions."""
    if not (labels := ring(layout)):
        return listed(layout)
    return _generic(_singly(labels), "once round, clockwise")


def centre_outward(layout: Layout) -> Order:
    """From the middle to the ends, alternating sides, for lines and rows.

    Never a bolt nearer to the middle after one farther out. Of bolts equally far the one across from the
    last comes first; from the very middle the way goes right.

    Source: US Army "Torque Limits" work package, e.g. TM 5-3805-298-23-2 WP 0176, straight pattern of nine;
    for several rows common practice, no source.
    """
    places = vectors(layout)
    spread_x, spread_y = (max(abs(place[axis]) for place in places.values()) for axis in (0, 1))
    along = 0 if spread_x >= spread_y else 1
    rank = {label: (_distance(place), abs(place[along])) for label, place in places.items()}
    left, labels, last = set(places), list[int](), (0.0, 0.0)
    while left:
        nearest = min(rank[label] for label in left)
        equals = [label for label in left if rank[label] == nearest]
        labels.append(min(equals, key=lambda label: _across(places[label], last, label)))
        last = places[labels[-1]]
        left.remove(labels[-1])
    return _generic(_singly(tuple(labels)), "from the centre outward, alternating sides")


def _across(place: tuple[float, float], last: tuple[float, float], label: int) -> tuple[float, float, int]:
    """The smaller, the more this place is across from the last one."""
    from_the_middle = last == (0.0, 0.0) and place != (0.0, 0.0)
    return round(place[0] * last[0] + place[1] * last[1], 6), -place[0] * from_the_middle, label


def spiral(layout: Layout) -> Order:
    """From the bolt nearest to the middle outward, ring by ring, each clockwise from where the last ended."""
    places = vectors(layout)
    width = _ring_width(layout)
    distances = {label: _distance(place) for label, place in places.items()}
    first = min(sorted(places), key=lambda label: distances[label])
    rings = {label: int((distances[label] - distances[first]) / width + 1e-6) for label in places}
    labels = [first]
    for number in sorted(set(rings.values())):
        right, down = places[labels[-1]]
        angle = math.atan2(down, right)
        members = [label for label in sorted(places) if rings[label] == number and label != first]
        labels += sorted(members, key=lambda label: _turn_from(angle, places[label]))
    return _generic(_singly(tuple(labels)), "in a spiral from the centre outward")


def _ring_width(layout: Layout) -> float:
    """About the distance of neighbours: the side of the square that each bolt has to itself."""
    places = vectors(layout).values()
    width, height = (max(p[axis] for p in places) - min(p[axis] for p in places) for axis in (0, 1))
    longest = max(width, height)
    area = max(width, longest / len(places)) * max(height, longest / len(places))
    return math.sqrt(area / len(places)) or 1.0


def _turn_from(angle: float, place: tuple[float, float]) -> float:
    return round((math.atan2(place[1], place[0]) - angle) % (2 * math.pi), 6)


def _distance(place: tuple[float, float]) -> float:
    return round(math.hypot(*place), 6)


def generic_order(layout: Layout) -> Order:
    """The order to propose where the page gives none: by what the layout is.

    A circle or closed ring gets the cross, rows and lines go from the centre outward, other patterns in a
    spiral; bolts without a picture are taken as they are numbered.

    >>> from torqref.pattern.shape import circle
    >>> generic_order(circle(4)).labels
    (1, 3, 2, 4)
    """
    if layout.basis == "count":
        return _generic(_singly(layout.labels), "as counted, since no picture says where the bolts are")
    if labels := ring(layout):
        return _star_on(labels)
    return centre_outward(layout) if is_rows(layout) else spiral(layout)


def reverse(order: Order) -> Order:
    """The same visits backwards; the reverse of a reverse is the order itself."""
    basis = order.basis
    twice = basis.startswith(_REVERSED)
    return Order(
        visits=order.visits[::-1],
        basis=basis.removeprefix(_REVERSED) if twice else _REVERSED + basis,
        generic=order.generic,
    )


def removal_rounds(order: Order) -> tuple[tuple[str, Order], ...]:
    """Loosening: the reverse of the tightening order, in rounds, with what to do in each.

    Source: common practice, no source.
    """
    backwards = reverse(order)
    return tuple((words, backwards) for words in _LOOSENING)


def by_place(stamped: Sequence[int]) -> Order:
    """The visiting order that a list of stamped numbers means: place 1 carries the first number, and so on.

    A page may print, clockwise, which number each place carries; that is not the order of the places.

    >>> by_place((9, 5, 1, 3, 7, 11, 12, 8, 4, 2, 6, 10)).labels
    (3, 10, 4, 9, 2, 11, 5, 8, 1, 12, 6, 7)
    """
    places = sorted(range(1, len(stamped) + 1), key=lambda place: stamped[place - 1])
    return Order(visits=_singly(tuple(places)), basis="numbers stamped at the places, clockwise")


def _singly(labels: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    return tuple((label,) for label in labels)


def _generic(visits: tuple[tuple[int, ...], ...], words: str) -> Order:
    return Order(visits=visits, basis=f"{words} ({GENERIC})", generic=True)
