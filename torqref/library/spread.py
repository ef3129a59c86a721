"""A row of a reference table on the bolts of a job: its page draws no pattern, so the person says it."""

from __future__ import annotations

from dataclasses import replace

from torqref.document.refusal import Refusal
from torqref.library.arrangement import Arrangement, read_arrangement
from torqref.library.group import Group
from torqref.library.shelf import AT
from torqref.library.stage import Stage
from torqref.pattern.layout import Layout
from torqref.pattern.order import generic_order


def spread(row: Group, arrangement: str) -> Group | Refusal:
    """A row for so many bolts, in a generic order; its id says how they stand, as `ROW@2x5`.

    Args:
        row: a group that is a row of a reference table, and so has one bolt.
        arrangement: such as `2x5`, `circle 8` or `3`, see `read_arrangement`.

    Returns:
        The group, the row itself for one bolt, or why there is none.
    """
    arranged = read_arrangement(arrangement)
    if isinstance(arranged, Refusal):
        return arranged
    if not row.table or len(row.layout.positions) != 1:
        return Refusal(
            text=arrangement,
            message=f"{row.id} has its own picture; only a quick walk or a row of a table has none",
        )
    if len(arranged.layout.positions) == 1:
        return row
    return replace(
        row,
        id=f"{row.id}{AT}{_short(arranged)}",
        name=f"{row.name}, {arranged.words}",
        layout=arranged.layout,
        order=generic_order(arranged.layout),
        stages=_stages(row, arranged.layout),
    )


def parts_of(identity: str) -> tuple[str, str]:
    """The row and the arrangement that an id names; the second is empty where it names none.

    >>> parts_of("ac43-tension-3-8-24@2x5")
    ('ac43-tension-3-8-24', '2x5')
    """
    row, at, arrangement = identity.rpartition(AT)
    return (row, arrangement) if at else (identity, "")


def _short(arranged: Arrangement) -> str:
    """The arrangement in as few letters as it can be read from again.

    >>> from torqref.library.arrangement import read_arrangement
    >>> [_short(read_arrangement(text)) for text in ("circle 8", "5/4", "rows 2x5", "3")]
    ['c8', '5+4', '2x5', '3']
    """
    return arranged.slug.replace("circle-", "c").replace("-", "+")


def _stages(row: Group, layout: Layout) -> tuple[Stage, ...]:
    """The stages of the row; ready-made passes are laid out anew, as some go round the pattern."""
    from torqref.library.passes import expanded
    from torqref.pattern.scheme import SCHEMES

    final = next((stage for stage in reversed(row.stages) if stage.torque is not None), None)
    if not row.passes or final is None:
        return row.stages
    plain = replace(final, recheck=False, until_still=False, state="", order=None)
    return expanded(SCHEMES[row.passes], plain, layout)
