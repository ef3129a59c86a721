"""What goes where on the walk screen, and what is dropped first: one table, read by everything that paints.

From the top of the table to its end a part gives way later the lower its number; the first three are never
dropped: the bolt, the number to set with its unit, and the direction.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from typing import NamedTuple

# From this width the picture stands beside the facts, below it under them.
WIDE = 72


class Part(NamedTuple):
    """A part of the walk screen.

    Args:
        name: what it is called here.
        keep: 1 is dropped last.
        least: lines it gets, as far as it wants them, before anything grows; without them it is left out,
            or cut if it is text that may be cut.
        what: what it shows.
    """

    name: str
    keep: int
    least: int
    what: str


# In reading order.
PARTS = (
    Part("title", 5, 1, "the group, the place, and what its values are worth: for practice, or unverified"),
    Part("round", 9, 1, "stage and value, recheck, how many are done"),
    Part("bar", 2, 2, "what to do in a few words, and the direction"),
    Part("band", 1, 1, "the bolt, SET with its unit, and where the wrench stood before"),
    Part("figures", 6, 5, "the bolt and SET in block figures; where there is no number, what to do"),
    Part("spec", 8, 1, "the value as printed"),
    Part("second", 13, 1, "the value in the second unit; an angle in parts of a turn"),
    Part("lines", 7, 8, "what a stop or a bolt says besides"),
    Part("options", 3, 9, "the answers of a question"),
    Part("wrench", 14, 1, "which wrench to take"),
    Part("condition", 15, 1, "dry or oiled"),
    Part("held", 10, 1, "that the picture is turned or mirrored"),
    Part("picture", 11, 3, "where the bolts are"),
    Part("legend", 17, 1, "what the marks in the picture mean, and from where it is seen"),
    Part("strip", 12, 1, "all stages with their values"),
    Part("keys", 16, 1, "the keys"),
    Part("say", 4, 3, "what became of the last key, or the line being typed; else the keys"),
)
ROWS = {part.name: part for part in PARTS}
# Facts that stand beside the picture where there is the width for it.
BESIDE = ("spec", "second", "lines", "options", "wrench", "condition")
# Text that is cut, with a sign that it is, rather than left out.
CUT = ("options", "say", "lines")
# A short word for everything: bolt, SET and unit, direction, and how to leave.
BIG = ("bar", "band", "figures", "say")


def allot(
    height: int,
    wants: Mapping[str, int],
    among: Iterable[str] = ROWS,
    *,
    table: Mapping[str, Part] = ROWS,
    cut: Container[str] = CUT,
) -> dict[str, int]:
    """How many lines each part gets.

    First each part gets its least in the order of keeping, or nothing; then what is left goes round in the
    same order, up to what each wants.

    Args:
        height: lines there are.
        wants: lines each part would fill; parts that are not named want none.
        among: the parts to look at.
        table: the parts there are, by name.
        cut: those that are cut rather than left out.

    >>> allot(3, {"title": 1, "bar": 1, "band": 1, "strip": 1})
    {'band': 1, 'bar': 1, 'title': 1, 'strip': 0}
    """
    parts = sorted((table[name] for name in among if wants.get(name, 0) > 0), key=lambda part: part.keep)
    rows = dict.fromkeys((part.name for part in parts), 0)
    left = height
    for part in parts:
        least = min(part.least, wants[part.name])
        if part.name in cut:
            least = min(least, left)
        if least <= left:
            rows[part.name] = least
            left -= least
    for part in parts:
        if rows[part.name]:
            more = min(wants[part.name] - rows[part.name], left)
            rows[part.name] += more
            left -= more
    return rows
