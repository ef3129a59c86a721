"""Which walks and jobs of a folder are meant: by group, person, work order, date, and what is still due."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from torqref.sheets.job_record import open_due
from torqref.sheets.record_page import people
from torqref.walk.archive import Record
from torqref.walk.job_archive import JobRecord


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
    """

    name: str = ""
    group: str = ""
    by: str = ""
    work_order: str = ""
    since: str = ""
    until: str = ""
    due: bool = False

    def walks(self, records: Iterable[Record]) -> tuple[Record, ...]:
        """The walks that fit; a walk of exactly this name stands alone."""
        found = tuple(records)
        exact = tuple(record for record in found if self.name and record.header.id == self.name)
        return tuple(record for record in exact or found if self._fits_walk(record))

    def jobs(self, records: Iterable[JobRecord]) -> tuple[JobRecord, ...]:
        """The jobs that fit."""
        found = tuple(records)
        exact = tuple(record for record in found if self.name and record.header.id == self.name)
        return tuple(record for record in exact or found if self._fits_job(record))

    def _fits_walk(self, record: Record) -> bool:
        plan, header = record.header.plan, record.header
        return (
            self.name in header.id
            and self.group in ("", plan.group)
            and self.work_order in ("", header.work_order)
            and self._fits_name(people(record))
            and self._fits_day(header.started)
            and (not self.due or record.state == "due")
        )

    def _fits_job(self, record: JobRecord) -> bool:
        names = (record.header.by, *(event.by for event in record.told.events))
        groups = {step.group for step in record.plan.steps}
        return (
            self.name in record.header.id
            and (not self.group or self.group in groups)
            and self.work_order in ("", record.progress.work_order)
            and self._fits_name(names)
            and self._fits_day(record.header.started)
            and (not self.due or any(open_due(record)))
        )

    def _fits_name(self, names: Iterable[str]) -> bool:
        wanted = self.by.casefold()
        return not wanted or any(wanted in name.casefold() for name in names)

    def _fits_day(self, started: str) -> bool:
        day = started[:10]
        return (not self.since or day >= self.since) and (not self.until or day <= self.until)
