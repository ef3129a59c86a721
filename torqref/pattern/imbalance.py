"""How one-sided a pattern is pulled after each step of an order, and a small plot of it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from torqref.pattern.geometry import vectors
from torqref.pattern.layout import Layout, Order

_PLOT_LINES = 5
_GIVEN, _USUAL, _BOTH = "#", "o", "8"


def imbalance(order: Order, layout: Layout) -> tuple[float, ...]:
    """The pull to one side after each visit, in bolts at the rim that have nothing opposite.

    Imbalance = |sum of the places tightened so far, from the middle of all| / (distance of the outermost
    bolt). 0 is even; 1 is one bolt at the rim alone. Every bolt counts the same, whatever its clamp load:
    a picture of the order, no calculation of the joint.

    Args:
        order: the visits; labels that are not in the layout count nothing.
        layout: where the bolts are.

    Returns:
        One number a visit.

    >>> from torqref.pattern.order import star
    >>> from torqref.pattern.shape import circle
    >>> imbalance(star(4), circle(4))
    (1.0, 0.0, 1.0, 0.0)
    """
    places = vectors(layout)
    rim = max(math.hypot(*place) for place in places.values()) or 1.0
    x = y = 0.0
    pulls = []
    for visit in order.visits:
        for label in visit:
            across, down = places.get(label, (0.0, 0.0))
            x, y = x + across, y + down
        pulls.append(round(math.hypot(x, y) / rim, 6) + 0.0)
    return tuple(pulls)


def plot(given: Sequence[float], usual: Sequence[float] = (), *, width: int) -> tuple[str, ...]:
    """The imbalance after each step as a small plot in ASCII.

    Args:
        given: of the order looked at.
        usual: of the order to compare with; empty for none.
        width: cells there are; where steps are more than columns, a column shows the worst of several.

    Returns:
        Lines of text: the scale at the left, `#` the order given, `o` the usual one, `8` both.
    """
    top = max([*given, *usual, 1.0])
    scale = [top * line / (_PLOT_LINES - 1) for line in range(_PLOT_LINES)]
    labels = [f"{value:.1f}" for value in scale]
    gutter = max(len(label) for label in labels)
    room = max(1, width - gutter - 2)
    columns = max(len(given), len(usual), 1)
    step = max(1, min(3, room // columns))
    marks = [_heights(values, min(columns, room), top) for values in (given, usual)]
    rows = []
    for line in reversed(range(_PLOT_LINES)):
        row = "".join(_mark(line, *pair).ljust(step) for pair in zip(*marks, strict=True))
        rows.append(f"{labels[line].rjust(gutter)} |{row}".rstrip())
    return tuple(rows)


def _heights(values: Sequence[float], columns: int, top: float) -> list[int]:
    """The line on which each column has its mark, -1 for none."""
    heights = [-1] * columns
    for number, value in enumerate(values):
        column = number * columns // max(len(values), columns)
        heights[column] = max(heights[column], round(value / top * (_PLOT_LINES - 1)))
    return heights


def _mark(line: int, given: int, usual: int) -> str:
    if given == line and usual == line:
        return _BOTH
    return _GIVEN if given == line else _USUAL if usual == line else " "
