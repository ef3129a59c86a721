"""The rows of the library screen: open walks, a problem, a quick walk with what was typed, groups.

No row is made before it is looked at. What they hold is loaded by whoever reads it, after the first paint.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from torqref.document.problem import Problem

if TYPE_CHECKING:
    from torqref.library.group import Group
    from torqref.library.quick import Typed
    from torqref.walk.standing import Standing

Kind = Literal["open", "problem", "quick", "group", "nothing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """What is listed, from top to bottom.

    Args:
        standings: open walks that fit what was typed, each with its number.
        problems: all problems of the files; the first one is a row.
        typed: what was typed, where it reads as a value; else None.
        groups: the groups that fit.
    """

    standings: tuple[tuple[int, Standing], ...] = ()
    problems: tuple[Problem, ...] = ()
    typed: Typed | None = None
    groups: Sequence[Group] = ()

    @property
    def above(self) -> int:
        """How many rows stand above the groups."""
        return len(self.standings) + bool(self.problems) + (self.typed is not None)

    def __len__(self) -> int:
        """How many rows there are."""
        return self.above + len(self.groups)

    def kind(self, place: int) -> Kind:
        """What stands in a row."""
        if not 0 <= place < len(self):
            return "nothing"
        if place < len(self.standings):
            return "open"
        if place >= self.above:
            return "group"
        return "problem" if self.problems and place == len(self.standings) else "quick"

    def standing(self, place: int) -> Standing | None:
        """The open walk in a row, or None where it holds none."""
        return self.standings[place][1] if self.kind(place) == "open" else None

    def group(self, place: int) -> Group | None:
        """The group in a row, or None where it holds none."""
        return self.groups[place - self.above] if self.kind(place) == "group" else None

    def key(self, place: int) -> object:
        """What a row is, to find it again in another list."""
        standing, group = self.standing(place), self.group(place)
        if standing is not None:
            return standing.record.header.id
        return (group.file, group.id) if group is not None else self.kind(place)

    @property
    def first(self) -> int:
        """The row to begin with: an open walk, a thread with its value, the first group, or what there is."""
        if self.standings:
            return 0
        if self.typed is not None and self.typed.thread is not None:
            # A bolt and its value are a whole job; a group with both may be another vehicle's.
            return self.above - 1
        return self.above if self.groups else max(0, self.above - 1)


def fitting(standings: Sequence[Standing], text: str) -> tuple[tuple[int, Standing], ...]:
    """The open walks that fit what was typed, with their numbers: the one of this number, else by words.

    Args:
        standings: all open walks in their order.
        text: what was typed; nothing fits all.
    """
    numbered = tuple(enumerate(standings, start=1))
    chosen = tuple(pair for pair in numbered if text.strip() == str(pair[0]))
    return chosen or tuple(pair for pair in numbered if _has_all(pair[1], text.casefold().split()))


def _has_all(standing: Standing, words: Sequence[str]) -> bool:
    said = " ".join((standing.title, *standing.words, standing.record.header.plan.group)).casefold()
    return all(word in said for word in words)
