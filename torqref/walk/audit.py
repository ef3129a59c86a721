"""What the shop lead looks for in the records: corrections of the page, walks by values since corrected."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.library.shelf import find_groups
from torqref.walk.archive import Record
from torqref.walk.bench import Bench
from torqref.walk.difference import differences
from torqref.walk.journal import read_header
from torqref.walk.plan import Plan
from torqref.walk.planner import fingerprint, make_plan
from torqref.walk.standing import due_line
from torqref.walk.summary import Summary


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """A value that the page in the technician's hand had otherwise than the library.

    Args:
        group, walk, time, by: where and when it was found, and by whom.
        stage: number of the stage.
        told: both values and the page, as one line.
        value: the value as it was typed.
        number: number of the event in its walk.
    """

    group: str
    walk: str
    time: str
    by: str
    stage: int
    told: str
    value: str = ""
    number: int = 0

    def sentence(self) -> str:
        """The correction as one line for the person who keeps the library."""
        who = f", {self.by}" if self.by else ""
        return f"{self.group}, stage {self.stage}: {self.told} ({self.time[:10]}{who}, walk {self.walk})"


def corrections(records: Iterable[Record]) -> Iterator[Correction]:
    """Every correction of the page in these walks that was not taken back, oldest first."""
    for record in records:
        rounds = record.header.plan.rounds
        for event in record.standing_events:
            if event.kind == "page":
                yield Correction(
                    group=record.header.plan.group,
                    walk=record.header.id,
                    time=event.time,
                    by=event.by,
                    stage=rounds[event.round - 1].stage if 0 < event.round <= len(rounds) else 0,
                    told=event.text,
                    value=event.value,
                    number=event.number,
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Outdated:
    """A finished walk whose library group says other today.

    Args:
        record: the walk.
        changes: what has changed, a few words each.
    """

    record: Record
    changes: tuple[str, ...]

    def sentence(self) -> str:
        """The walk and what has changed, as one line."""
        return f"{self.record.header.id}, {self.record.header.plan.name}, {outdated_line(self.changes)}"


def outdated_line(changes: Iterable[str]) -> str:
    """What a list and a record say of a walk whose values were corrected later.

    >>> outdated_line(["stage 3: 24 N·m is now 26 N·m"])
    'finished by values since corrected: stage 3: 24 N·m is now 26 N·m'
    """
    return f"finished by values since corrected: {'; '.join(changes)}"


@dataclass(slots=True)
class Present:
    """What the library says today, to hold finished walks against; each group is worked out once.

    Args:
        group_of: the group of an id as the library has it today, or None.
    """

    group_of: Callable[[str], Group | None]
    _marks: dict[str, str] = field(default_factory=dict)
    _told: dict[Hashable, tuple[str, ...]] = field(default_factory=dict)

    def _is_current(self, group: str, mark: str) -> bool:
        """Whether the library has a group still as it was when it had this fingerprint, or no more at all."""
        if group not in self._marks:
            found = self.group_of(group)
            self._marks[group] = fingerprint(found) if found is not None else ""
        return self._marks[group] in ("", mark)

    def changes(self, record: Record) -> tuple[str, ...]:
        """What was corrected since a walk was finished; nothing for one that is open."""
        return self._changes(record.header.plan) if record.state == "finished" else ()

    def changes_of(self, row: Summary) -> tuple[str, ...]:
        """The same for a line of a list; its journal is opened only where its group has changed."""
        if row.state != "finished" or row.typed or self._is_current(row.groups[0], row.fingerprint):
            return ()
        header = read_header(row.path)
        return self._changes(header.plan) if header is not None else ()

    def _changes(self, plan: Plan) -> tuple[str, ...]:
        if plan.typed or self._is_current(plan.group, plan.fingerprint):
            return ()
        alike = (plan.group, plan.fingerprint, plan.place, plan.action, plan.drag)
        if alike not in self._told:
            group = self.group_of(plan.group)
            self._told[alike] = changes_since(plan, group) if group is not None else ()
        return self._told[alike]


def present_of(rows: Iterable[Summary], folders: Sequence[Path]) -> Present:
    """What the library in these folders says today of the groups of finished walks, and of jobs."""
    told = (row for row in rows if row.is_job or (row.state == "finished" and not row.typed))
    wanted = tuple(dict.fromkeys(group for row in told for group in row.groups))
    return Present((find_groups(wanted, folders)[0] if wanted else {}).get)


def outdated(records: Iterable[Record], group_of: Callable[[str], Group | None]) -> Iterator[Outdated]:
    """Finished walks whose spec was corrected since.

    Args:
        records: the walks to look at.
        group_of: the group of an id as the library has it today, or None.
    """
    present = Present(group_of)
    for record in records:
        if changes := present.changes(record):
            yield Outdated(record=record, changes=changes)


def changes_since(plan: Plan, group: Group) -> tuple[str, ...]:
    """What the library asks of this group today that a plan did not; empty where nothing matters."""
    if plan.typed or fingerprint(group) == plan.fingerprint:
        return ()
    if plan.place and plan.place not in group.places:
        return (f"the place {plan.place} is gone",)
    today = datetime.min.date()
    new = make_plan(group, Bench(today=today, place=plan.place, action=plan.action, drag=plan.drag))
    return () if isinstance(new, Refusal) else differences(plan, new)


def due_items(records: Iterable[Record], now: datetime) -> Iterator[tuple[Record, str]]:
    """Walks that wait for something, what is due first, each with a line that says what and since when."""
    waiting = [record for record in records if record.state == "due"]
    for record in sorted(waiting, key=lambda record: record.progress.due or "9999"):
        yield record, due_line(record, now)
