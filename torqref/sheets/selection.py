"""Which walks and jobs of a folder are meant: by group, person, work order, date, state, and what is due."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from torqref.walk.summary import Summary

# Words that take the next one with them, as the options of the command do.
_TAKING = {"group": "group", "by": "by", "order": "work_order", "since": "since", "until": "until"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Selection:
    """What is asked for; what is empty keeps nothing away.

    Args:
        name: the name of a walk or job, or a part of it.
        group: id of a group.
        by: a name, or a part of it, of anybody who worked on it.
        work_order: number of the work order.
        since, until: dates such as `2027-03-01`, both of them included, by the day it was begun.
        due: only what waits for something.
        words: each of them stands somewhere in what a list shows.
    """

    name: str = ""
    group: str = ""
    by: str = ""
    work_order: str = ""
    since: str = ""
    until: str = ""
    due: bool = False
    words: tuple[str, ...] = ()

    def among(self, rows: Sequence[Summary]) -> tuple[Summary, ...]:
        """Those that fit; one of exactly this name stands alone."""
        exact = tuple(row for row in rows if self.name and row.id == self.name)
        return tuple(row for row in exact or rows if self.fits(row))

    def fits(self, summary: Summary) -> bool:
        """Whether a walk or a job is meant."""
        return (
            self._has_words(summary)
            and self.name in summary.id
            and (not self.group or self.group.casefold() in map(str.casefold, summary.groups))
            and (not self.work_order or self.work_order.casefold() == summary.work_order.casefold())
            and self._fits_name(summary.people)
            and self._fits_day(summary.started)
            and (not self.due or summary.waits)
        )

    def _fits_name(self, names: Iterable[str]) -> bool:
        wanted = self.by.casefold()
        return not wanted or any(wanted in name.casefold() for name in names)

    def _fits_day(self, started: str) -> bool:
        day = started[:10]
        # Of a day that is still being typed only so much is compared.
        return day >= self.since and (not self.until or day[: len(self.until)] <= self.until)

    def _has_words(self, summary: Summary) -> bool:
        return all(word in summary.said for word in self.words)


def read_selection(text: str) -> Selection:
    """What typed words ask for: those that the command has as options, any other word somewhere in the line.

    >>> found = read_selection("manifold by ada since 2027-03-01 due")
    >>> found.words, found.by, found.since, found.due
    (('manifold',), 'ada', '2027-03-01', True)
    """
    taken: dict[str, str] = {}
    words = tuple(_left(iter(text.casefold().split()), taken))
    plain = tuple(word for word in words if word != "due")
    return Selection(due="due" in words, words=plain, **taken)


def _left(words: Iterator[str], taken: dict[str, str]) -> Iterator[str]:
    """The words that stand for themselves; a word that takes the next one puts both aside."""
    for word in words:
        name = _TAKING.get(word)
        following = next(words, "") if name else ""
        if name and following:
            taken[name] = following
        else:
            yield word
