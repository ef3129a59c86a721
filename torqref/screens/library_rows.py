"""The rows of the library screen: what is open, a problem, a quick walk with what was typed, repairs, groups.

No row is made before it is looked at. What they hold is loaded by whoever reads it, after the first paint.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeVar

from torqref.document.problem import Problem

if TYPE_CHECKING:
    from torqref.library.group import Group
    from torqref.library.job import Job
    from torqref.library.quick import Typed
    from torqref.walk.open_job import OpenJob
    from torqref.walk.standing import Standing

Begun = TypeVar("Begun", "Standing", "OpenJob")
Kind = Literal["job", "open", "problem", "quick", "repair", "group", "nothing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """What is listed, from top to bottom.

    Args:
        jobs: open jobs that fit what was typed, each with its number.
        standings: open walks that fit what was typed, each with its number.
        problems: all problems of the files; the first one is a row.
        typed: what was typed, where it reads as a value; else None.
        repairs: jobs that can be begun by their files and fit.
        groups: the groups that fit.
    """

    jobs: tuple[tuple[int, OpenJob], ...] = ()
    standings: tuple[tuple[int, Standing], ...] = ()
    problems: tuple[Problem, ...] = ()
    typed: Typed | None = None
    repairs: Sequence[Job] = ()
    groups: Sequence[Group] = ()

    @property
    def above(self) -> int:
        """How many rows stand above the groups."""
        return self._before_repairs + len(self.repairs)

    @property
    def _before_repairs(self) -> int:
        return self.begun + bool(self.problems) + (self.typed is not None)

    @property
    def begun(self) -> int:
        """How many jobs and walks are open."""
        return len(self.jobs) + len(self.standings)

    def __len__(self) -> int:
        """How many rows there are."""
        return self.above + len(self.groups)

    def kind(self, place: int) -> Kind:
        """What stands in a row."""
        if not 0 <= place < len(self):
            return "nothing"
        if place < self.begun:
            return "job" if place < len(self.jobs) else "open"
        if place >= self.above:
            return "group"
        if place >= self._before_repairs:
            return "repair"
        return "problem" if self.problems and place == self.begun else "quick"

    def job(self, place: int) -> OpenJob | None:
        """The open job in a row, or None where it holds none."""
        return self.jobs[place][1] if self.kind(place) == "job" else None

    def standing(self, place: int) -> Standing | None:
        """The open walk in a row, or None where it holds none."""
        return self.standings[place - len(self.jobs)][1] if self.kind(place) == "open" else None

    def repair(self, place: int) -> Job | None:
        """The job that can be begun in a row, or None where it holds none."""
        return self.repairs[place - self._before_repairs] if self.kind(place) == "repair" else None

    def group(self, place: int) -> Group | None:
        """The group in a row, or None where it holds none."""
        return self.groups[place - self.above] if self.kind(place) == "group" else None

    def key(self, place: int) -> object:
        """What a row is, to find it again in another list."""
        begun, group = self.standing(place) or self.job(place), self.group(place)
        if begun is not None:
            return begun.record.header.id
        repair = self.repair(place)
        if repair is not None:
            return (repair.file, repair.id)
        return (group.file, group.id) if group is not None else self.kind(place)

    @property
    def first(self) -> int:
        """The row to begin with: an open walk, a thread with its value, the first group, or what is there."""
        if self.begun:
            return 0
        if self.typed is not None and self.typed.thread is not None:
            # A bolt and its value are a whole job; a group with both may be another vehicle's.
            return self._before_repairs - 1
        if self.groups:
            return self.above
        return self._before_repairs if self.repairs else max(0, self.above - 1)


def fitting(
    begun: Sequence[Begun], text: str, before: int = 0, total: int = 0
) -> tuple[tuple[int, Begun], ...]:
    """What is open and fits what was typed, with its number: the one of this number, else by words.

    Args:
        begun: all open jobs or walks in their order.
        text: what was typed; nothing fits all.
        before: how many rows are numbered before them.
        total: how many rows are numbered in all.
    """
    numbered = tuple(enumerate(begun, start=before + 1))
    number = text.strip()
    if number.isascii() and number.isdigit() and 1 <= int(number) <= max(total, len(begun)):
        return tuple(pair for pair in numbered if number == str(pair[0]))
    return tuple(pair for pair in numbered if _has_all(pair[1], text.casefold().split()))


def _has_all(begun: Standing | OpenJob, words: Sequence[str]) -> bool:
    header = begun.record.header
    group = header.plan.group if header.job is None else header.job.job
    return _in(words, begun.title, *begun.words, group)


def _in(words: Sequence[str], *texts: str) -> bool:
    said = " ".join(texts).casefold()
    return all(word in said for word in words)


def fitting_repairs(jobs: Sequence[Job], text: str) -> tuple[Job, ...]:
    """The jobs that fit what was typed."""
    words = text.casefold().split()
    return tuple(job for job in jobs if _in(words, job.name, job.assembly, job.id, "repair"))


def typed_of(text: str) -> Typed | None:
    """What was typed, where it reads as a value with its unit."""
    if not any(char.isdigit() for char in text):
        return None
    from torqref.library.quick import Typed, read_typed

    found = read_typed(text)
    return found if isinstance(found, Typed) else None
