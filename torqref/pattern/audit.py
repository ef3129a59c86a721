"""Looks at a tightening order for what is impossible and for what is unusual on such a pattern."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import groupby, pairwise

from torqref.pattern.diagram import look_alike
from torqref.pattern.fault import Fault
from torqref.pattern.geometry import is_line, is_rows, ring, vectors
from torqref.pattern.imbalance import imbalance
from torqref.pattern.layout import Layout, Order, labels_text, runs_text
from torqref.pattern.order import AS_LISTED, by_place, generic_order
from torqref.pattern.star import apart

_COMPARE = "Compare it with the page."
_MOST_NAMED = 16
_FEWEST_ROUND = 4
# On four bolts a cross has neighbours too: only going all the way round is told.
_FEWEST_WITHOUT_NEIGHBOURS = 5
_FEWEST_IN_ROWS = 6
_MANY_IN_ROWS = 8
# A rail of a few clamps is tightened from one end without a thought; a long line is not.
_FEWEST_IN_A_LINE = 7
_FEWEST_A_SIDE = 3
# Runs of neighbours up to this share of a large ring are groups that count as one bolt.
_LARGE_RING = 24
_GROUP_SHARE = 6
# Shares of the largest distance from the middle, and of the bolts of a side.
_AT_THE_EDGE = 0.95
_NEAR_THE_MIDDLE = 0.05
_HARDLY_BEGUN = 0.25
_BETTER = 0.7


@lru_cache(maxsize=512)
def audit(order: Order, layout: Layout) -> tuple[Fault, ...]:
    """Everything to be said about a tightening order on a layout.

    Errors: positions missing, doubled or unknown. Warnings and hints: what differs from the usual cross,
    or from the way from the centre outward. The page is always right: these ask to look at it again.
    A short single row is never told that it starts at an edge.

    Args:
        order: the order of tightening, not of removal.
        layout: where the bolts are; of a part of a pattern only that part.

    Returns:
        The faults, errors first; empty if there is nothing to say.
    """
    impossible = (
        *_missing(order, layout),
        *_doubled(order),
        *_unknown(order, layout),
        *_skipped(order, layout),
    )
    if impossible:
        return (*impossible, *_look_alikes(layout))
    return (*_look_alikes(layout), *_unusual(order, layout))


def _unusual(order: Order, layout: Layout) -> Iterator[Fault]:
    if layout.basis == "count":
        return
    if round_the_ring := ring(layout):
        found = tuple(_round_faults(order, layout, round_the_ring)) or tuple(_side_faults(order, layout))
        yield from found
        yield from _meaning_faults(order, layout)
        return
    yield from _edge_faults(order, layout)
    if not is_line(layout):
        yield from _side_faults(order, layout)


def _missing(order: Order, layout: Layout) -> Iterator[Fault]:
    missing = sorted(set(layout.labels) - set(order.labels))
    if missing:
        yield Fault(
            message=f"the order leaves out {_named(missing)}",
            mend="Add what is missing, or take it off the diagram.",
            labels=tuple(missing),
        )


def _doubled(order: Order) -> Iterator[Fault]:
    for label, times in sorted(Counter(order.labels).items()):
        if times > 1:
            yield Fault(
                message=f"the order visits {label} {times} times",
                mend="Visit each position once in a round; a stage may say revisit = true.",
                labels=(label,),
            )


def _unknown(order: Order, layout: Layout) -> Iterator[Fault]:
    unknown = sorted(set(order.labels) - set(layout.labels))
    if unknown:
        yield Fault(
            message=f"the order visits {_named(unknown)}, which the pattern does not have",
            mend=f"The pattern has {len(layout.positions)} positions, {runs_text(layout.labels)}.",
            labels=tuple(unknown),
        )


def _skipped(order: Order, layout: Layout) -> Iterator[Fault]:
    """A number left out where the numbers of the page are the order themselves: a bolt may be missing."""
    if order.basis != AS_LISTED:
        return
    labels = layout.labels
    skipped = sorted(set(range(labels[0], labels[-1])) - set(labels))
    if skipped:
        missing = _shortened([str(label) for label in skipped], ", ")
        yield Fault(
            message=f"the numbers run from {labels[0]} to {labels[-1]} without {missing}",
            mend="Add what is missing, number without a gap, or write the order itself.",
            labels=tuple(skipped),
        )
    if labels[0] > 1:
        yield Fault(
            message=f"the numbers begin with {labels[0]}, not with 1",
            mend="If bolts of the page are missing in the picture, add them.",
            severity="hint",
            labels=(labels[0],),
        )


def _look_alikes(layout: Layout) -> Iterator[Fault]:
    """Words such as `(7)` or `7,`: taken for landmarks, but likely meant as bolts."""
    for word in (word for landmark in layout.landmarks for word in landmark.text.split()):
        if bare := look_alike(word):
            yield Fault(
                message=f'"{word}" is read as a word and not as a bolt',
                mend=f"If it is a bolt, write {bare} with blanks around it.",
                severity="warning",
            )


def _round_faults(order: Order, layout: Layout, around: Sequence[int]) -> Iterator[Fault]:
    """An order that goes round a ring, or has neighbours in succession."""
    steps = [_is_beside(one, other, around) for one, other in pairwise(order.visits)]
    if len(order.visits) < _FEWEST_ROUND or not any(steps) or _is_grouped(steps, len(around)):
        return
    if len(steps) + 1 < _FEWEST_WITHOUT_NEIGHBOURS and not all(steps):
        return
    if 2 * sum(steps) >= len(steps):
        yield Fault(
            message=f"the order goes from neighbour to neighbour in {sum(steps)} of {len(steps)} steps",
            mend=f"The usual cross here would be {_usual(layout)}. {_COMPARE}",
            severity="warning",
        )
        return
    pairs = [
        f"{labels_text(one)} then {labels_text(other)}"
        for (one, other), beside in zip(pairwise(order.visits), steps, strict=True)
        if beside
    ]
    yield Fault(
        message=f"the order tightens neighbours one after the other: {_shortened(pairs, ', ')}",
        mend=_COMPARE,
        severity="hint",
    )


def _is_beside(one: Sequence[int], other: Sequence[int], around: Sequence[int]) -> bool:
    """Whether each bolt of a visit is the neighbour of one of the visit before."""
    place = {label: number for number, label in enumerate(around)}
    return all(any(apart(place[label], place[before], len(around)) == 1 for before in one) for label in other)


def _is_grouped(steps: Sequence[bool], bolts: int) -> bool:
    """Whether the neighbours are groups of a large ring, each worked as one bolt, and the groups cross."""
    if bolts < _LARGE_RING:
        return False
    longest = max((len(list(run)) for beside, run in groupby(steps) if beside), default=0)
    return longest + 1 <= bolts / _GROUP_SHARE


def _meaning_faults(order: Order, layout: Layout) -> Iterator[Fault]:
    """A list that may be meant as numbers stamped at the places: a poor cross, or starting elsewhere."""
    if layout.basis != "circle" or len(order.visits) < len(order.labels):
        return
    stamped = by_place(order.labels)
    better = sum(imbalance(stamped, layout)) < _BETTER * sum(imbalance(order, layout))
    if stamped.labels != order.labels and (better or order.labels[0] != layout.labels[0]):
        why = "makes a poor cross" if better else f"starts at {order.labels[0]}"
        yield Fault(
            message=f"the list {why}; it may be the numbers stamped at the places, clockwise from the top",
            mend=f"If so, write the places in the order of visiting: {_listed(stamped)}.",
            severity="hint",
        )


def _edge_faults(order: Order, layout: Layout) -> Iterator[Fault]:
    """An order of rows that starts at an end, or of a long line."""
    fewest = _FEWEST_IN_A_LINE if is_line(layout) else _FEWEST_IN_ROWS
    if not is_rows(layout) or len(layout.positions) < fewest:
        return
    places = vectors(layout)
    along = 0 if _spread(layout, 0) >= _spread(layout, 1) else 1
    farthest = _spread(layout, along)
    if min(abs(places[label][along]) for label in order.visits[0]) >= _AT_THE_EDGE * farthest:
        yield Fault(
            message=f"the order starts at an edge, with {labels_text(order.visits[0])}",
            mend=f"From the centre outward would be {_usual(layout)}. {_COMPARE}",
            severity="hint" if is_line(layout) or len(layout.positions) < _MANY_IN_ROWS else "warning",
        )


def _spread(layout: Layout, axis: int) -> float:
    return max(abs(place[axis]) for place in vectors(layout).values())


def _side_faults(order: Order, layout: Layout) -> Iterator[Fault]:
    """One half finished while the opposite one is hardly begun."""
    for axis, names in enumerate((("left", "right"), ("upper", "lower"))):
        sides = _sides(layout, axis)
        if min(len(side) for side in sides) < _FEWEST_A_SIDE:
            continue
        for first, other in ((0, 1), (1, 0)):
            begun = _begun_when_finished(order, sides[first], sides[other])
            if begun <= _HARDLY_BEGUN * len(sides[other]):
                yield Fault(
                    message=(
                        f"the {names[first]} side is finished when {begun} of {len(sides[other])} "
                        f"on the {names[other]} side are tightened"
                    ),
                    mend=f"Alternating sides would be {_usual(layout)}. {_COMPARE}",
                    severity="warning",
                )


def _sides(layout: Layout, axis: int) -> tuple[frozenset[int], frozenset[int]]:
    """The labels clearly on either side of the middle."""
    places, middle = vectors(layout), _NEAR_THE_MIDDLE * _spread(layout, axis)
    low = frozenset(label for label, place in places.items() if place[axis] < -middle)
    high = frozenset(label for label, place in places.items() if place[axis] > middle)
    return low, high


def _begun_when_finished(order: Order, side: frozenset[int], other: frozenset[int]) -> int:
    """How many of the other side are tightened when the last of this side is."""
    last = max(number for number, visit in enumerate(order.visits) if side.intersection(visit))
    done = {label for visit in order.visits[: last + 1] for label in visit}
    return len(done & other)


def _usual(layout: Layout) -> str:
    return _listed(generic_order(layout))


def _listed(order: Order) -> str:
    return _shortened([labels_text(visit) for visit in order.visits], " ")


def _shortened(parts: Sequence[str], between: str) -> str:
    return between.join([*parts[:_MOST_NAMED], "…"] if len(parts) > _MOST_NAMED else parts)


def _named(labels: Sequence[int]) -> str:
    words = "position" if len(labels) == 1 else "positions"
    return f"{words} {_shortened([str(label) for label in labels], ', ')}"
