"""The rows of the library screen: open walks, a quick walk with what was typed, groups.

No row is made before it is looked at.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from torqref.document.problem import Problem
from torqref.library.group import Group
from torqref.library.quick import Typed
from torqref.walk.standing import Standing

Row = Standing | Typed | Group | Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """What is listed, from top to bottom.

    Args:
        problems: the first problem of the files, as a row of its own; empty where there is none.
        standings: open walks that fit what was typed.
        typed: what was typed, where it reads as a value; else None.
        groups: the groups that fit.
    """

    problems: tuple[Problem, ...] = ()
    standings: tuple[Standing, ...] = ()
    typed: Typed | None = None
    groups: Sequence[Group] = ()

    @property
    def fixed(self) -> tuple[Row, ...]:
        """The rows above the groups."""
        quick = () if self.typed is None else (self.typed,)
        return (*self.standings, *self.problems[:1], *quick)

    def __len__(self) -> int:
        """How many rows there are."""
        return len(self.fixed) + len(self.groups)

    def __getitem__(self, place: int) -> Row:
        """The row at a place."""
        fixed = self.fixed
        return fixed[place] if place < len(fixed) else self.groups[place - len(fixed)]

    @property
    def first(self) -> int:
        """The row to begin with: an open walk, else the first group, else what was typed."""
        if self.standings:
            return 0
        above = len(self.fixed)
        return above if self.groups else max(0, above - 1)


def fits(standing: Standing, number: int, text: str) -> bool:
    """Whether an open walk fits what was typed: its number, or every word of it.

    Args:
        standing: an open walk.
        number: its number on the screen.
        text: what was typed; nothing fits all.
    """
    if text.strip() == str(number):
        return True
    said = " ".join((standing.title, *standing.words, standing.record.header.plan.group)).casefold()
    return all(word in said for word in text.casefold().split())
