"""The records of a folder: which walks there are, and which open one goes on."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem, Severity
from torqref.walk.event import Event
from torqref.walk.journal import ENDING, Header, Told, read_journal
from torqref.walk.progress import Progress, fold, undone_numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One walk as its journal tells it.

    Args:
        told: what the file says.
        header: its first line.
        progress: the fold of its events.
    """

    told: Told
    header: Header
    progress: Progress

    @property
    def state(self) -> str:
        """`finished`, `abandoned`, `due` or `open`."""
        if self.progress.abandoned:
            return "abandoned"
        if self.progress.finished:
            return "finished"
        return "due" if self.progress.waiting else "open"

    @property
    def is_open(self) -> bool:
        """Whether it can be gone on with."""
        return self.state in ("open", "due")

    @property
    def standing_events(self) -> tuple[Event, ...]:
        """The events that were not taken back."""
        undone = undone_numbers(self.told.events)
        return tuple(event for event in self.told.events if event.number not in undone)

    @property
    def finished_at(self) -> str:
        """When it ended, empty while it is open."""
        ends = [event.time for event in self.told.events if event.kind in ("finished", "abandoned")]
        return ends[-1] if ends and self.state in ("finished", "abandoned") else ""


def journals(folder: Path) -> Iterator[Path]:
    """The journal files of a folder, oldest first by their names; none where it cannot be looked into."""
    try:
        found = sorted(path for path in folder.iterdir() if path.suffix == ENDING and path.is_file())
    except OSError:
        return
    yield from found


def folder_problems(folder: Path) -> tuple[Problem, ...]:
    """Why a folder of records cannot be looked into; one that is not there yet is no problem."""
    try:
        next(folder.iterdir(), None)
    except FileNotFoundError:
        return ()
    except OSError as error:
        problem = Problem(
            file=escape(str(folder)),
            message=f"the folder of records cannot be read ({error.strerror})",
            mend="Look at who may read it, or name another one with --records DIR.",
        )
        return (problem,)
    return ()


def missing_folder(folder: Path) -> tuple[Problem, ...]:
    """A folder that was named and is not there: a slip in its name, where records are only to be read.

    Where the folder around it is there, its first walk may still be to come: that is a warning only.
    """
    try:
        folder.stat()
    except FileNotFoundError:
        severity: Severity = "warning" if folder.parent.exists() else "error"
    except OSError:
        return ()  # there, or told by `folder_problems`
    else:
        return ()
    message = "the folder of records does not exist"
    mend = "Look at its name; a walk with --records DIR makes one."
    return (Problem(file=escape(str(folder)), message=message, mend=mend, severity=severity),)


def read_record(path: Path) -> tuple[Record | None, tuple[Problem, ...]]:
    """A journal as a record, and what is wrong with the file; damage leaves the readable part."""
    told = read_journal(path)
    if told.header is None:
        return None, told.problems
    return Record(told=told, header=told.header, progress=fold(told.header.plan, told.events)), told.problems


def records(folder: Path, named: str = "") -> tuple[tuple[Record, ...], tuple[Problem, ...]]:
    """Every walk of a folder, and every problem with its files.

    Args:
        folder: the folder of records.
        named: a part of a name: where files have it in theirs, only they are read.
    """
    paths = tuple(journals(folder))
    wanted = tuple(path for path in paths if named in path.stem)
    read = [read_record(path) for path in wanted or paths]
    found = tuple(record for record, _ in read if record is not None)
    told = (problem for _, problems in read for problem in problems)
    return found, (*folder_problems(folder), *told)


# So many bytes of a journal's end hold its last lines: an ended walk shows there without being read whole.
_TAIL = 4096
_LONGEST_NAME = 80


def open_records(folder: Path) -> tuple[tuple[Record, ...], tuple[Problem, ...]]:
    """The walks that are not finished, newest first, and the problems of their files.

    Only the ends of the finished ones are read, so that years of records cost little.
    """
    read = [read_record(path) for path in journals(folder) if not _has_ended(path)]
    found = tuple(record for record, _ in reversed(read) if record is not None)
    unfinished = tuple(record for record in found if record.state in ("open", "due"))
    return unfinished, tuple(problem for _, problems in read for problem in problems)


def _has_ended(path: Path) -> bool:
    """Whether the last lines say that the walk ended; any doubt is a no, and the file is read whole."""
    try:
        with open(path, "rb") as file:
            file.seek(0, 2)
            file.seek(max(0, file.tell() - _TAIL))
            tail = file.read()
    except OSError:
        return False
    ended = b'"kind":"finished"' in tail or b'"kind":"abandoned"' in tail
    return ended and tail.endswith(b"\n") and b'"kind":"undo"' not in tail


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which open walk is looked for: this bay's own, and one of a job only in that job.

    A job stops its walks at the stage where another group has its turn; outside it nothing would stop them.
    """

    group: str
    place: str
    action: str
    work_order: str
    bay: str
    job: str = ""


def open_walk(folder: Path, wanted: Wanted) -> tuple[Record | None, tuple[Record, ...]]:
    """The newest open walk that fits, and the open ones of other bays and of jobs that would fit otherwise.

    Journals have their group in the file name, so that only those files are opened.
    """
    fitting = []
    for path in journals(folder):
        if not named_for(path, wanted.group) or _has_ended(path):
            continue
        record, _ = read_record(path)
        if record is not None and record.is_open and _fits(record, wanted):
            fitting.append(record)
    own = [record for record in fitting if _is_own(record, wanted)]
    others = tuple(record for record in fitting if not _is_own(record, wanted))
    sound = [record for record in own if not record.told.damaged]
    return (sound[-1] if sound else None), others


def _is_own(record: Record, wanted: Wanted) -> bool:
    """A walk of this bay that is no part of another job; a job may take up a walk of its own work order."""
    return record.header.bay == wanted.bay and record.header.of_job in ("", wanted.job)


def _fits(record: Record, wanted: Wanted) -> bool:
    plan = record.header.plan
    return (plan.group, plan.place, plan.action, record.header.work_order) == (
        wanted.group,
        wanted.place,
        wanted.action,
        wanted.work_order,
    )


def walk_id(group: str, now: datetime, folder: Path) -> str:
    """A name for a new walk that no file of the folder has: the time, and the group."""
    stamp, called = now.strftime("%Y%m%d-%H%M%S"), _in_file_name(group)
    names = (f"{stamp}-{called}", *(f"{stamp}-{number}-{called}" for number in range(2, 1000)))
    return next(name for name in names if not os.path.exists(folder / f"{name}{ENDING}"))


def named_for(path: Path, group: str) -> bool:
    """Whether a journal may be one of this group, by its file name alone."""
    return path.stem.endswith(f"-{_in_file_name(group)}")


def _in_file_name(group: str) -> str:
    """An id as it can stand in a file name of any system; an id cannot lead out of the folder."""
    plain = "".join(letter if letter.isalnum() or letter in "-_" else "_" for letter in group)
    return plain.encode()[:_LONGEST_NAME].decode(errors="ignore")
