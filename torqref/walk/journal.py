"""The journal of a walk: one file, a header line with the whole plan, then one JSON line an event.

The only writer of records. Each line ends in a checksum and holds the hash of the line before it; it is
synced before anybody shows it. What has no newline at the end is a torn tail: it is set aside in a file
beside the journal. A complete line that does not fit is damage wherever it stands, told with its number.
The lock is on the journal itself, so that the system frees it when the process dies.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, BinaryIO

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.walk.codec import from_plain, parts_from_plain, to_plain
from torqref.walk.disk import lock, sync_folder, write_all
from torqref.walk.event import Event
from torqref.walk.job_plan import JobPlan
from torqref.walk.plan import NO_PLAN, Plan
from torqref.walk.plan_memory import read_plan
from torqref.walk.seal import FIRST, hash_of, seal, unseal
from torqref.walk.soundness import Bounds, bounds_of, check_event, check_job

FORMAT = 1
ENDING, JOB_ENDING = ".walk", ".job"
# What a line raises that fits its seal, or does not, and is damaged.
DAMAGE = (ValueError, TypeError, KeyError, RecursionError)


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """The first line of a journal: which walk or which job it is, and the whole plan.

    Args:
        format: version of the journal format.
        id: name of the walk and of its file.
        bay: the machine it was begun on; another bay never goes on with it unasked.
        work_order: number of the work order, empty for none.
        by: who began it, as far as known.
        started: when, ISO 8601.
        plan: everything the walk asks; empty in the journal of a job.
        job: everything the job asks; None in the journal of a walk.
        of_job: id of the job that began a walk, empty for a walk of its own.
    """

    format: int
    id: str
    plan: Plan = NO_PLAN
    job: JobPlan | None = None
    of_job: str = ""
    bay: str = ""
    work_order: str = ""
    by: str = ""
    started: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a journal file says.

    Args:
        path: the file.
        header: the first line, None where it is damaged or the file is empty.
        events: every event up to the first damage.
        problems: torn tails (a warning) and damage (an error), each with its line.
        good: length in bytes of what was read without a fault.
        torn: the bytes after the last newline.
        hash: hash of the last good line.
        digest: SHA-256 of all the bytes where none of their lines is damaged, else empty.
    """

    path: Path
    header: Header | None
    events: tuple[Event, ...]
    problems: tuple[Problem, ...] = ()
    good: int = 0
    torn: bytes = b""
    hash: str = FIRST
    digest: bytes = b""

    @property
    def damaged(self) -> bool:
        """Whether a complete line is wrong, so that nothing may be added."""
        return any(problem.severity == "error" for problem in self.problems)


class JournalError(Exception):
    """A line could not be kept: its words say what happened and what would do."""


def read_journal(path: Path, known: Told | None = None) -> Told:
    """What a journal file says, up to the first damage; nothing is changed.

    Args:
        path: the file.
        known: what it said before; where it has the same bytes still, that is the answer.
    """
    try:
        data = path.read_bytes()
    except OSError as error:
        problem = Problem(
            file=escape(str(path)),
            message=f"the record cannot be read ({error.strerror})",
            mend="Look at the folder and at who may read it.",
        )
        return Told(path=path, header=None, events=(), problems=(problem,))
    if known is not None and known.path == path and known.digest == _digest(data):
        return known
    return parse_journal(path, data)


def parse_journal(path: Path, data: bytes) -> Told:
    """The same from bytes already read. Only bytes split at the newline count as lines."""
    whole, _, torn = data.rpartition(b"\n")
    lines = whole.split(b"\n") if whole or data.startswith(b"\n") else []
    header: Header | None = None
    events: list[Event] = []
    bounds = bounds_of(NO_PLAN)
    before, good = FIRST, 0
    for number, line in enumerate(lines, start=1):
        try:
            told = unseal(line, before)
            if number == 1:
                if told.get("format") != FORMAT:
                    return Told(path=path, header=None, events=(), problems=(_strange(path, told),))
                header = header_of(told)
                bounds = bounds_of(header.plan)
            else:
                events.append(event_of(told, number - 1, bounds))
        except DAMAGE:
            return Told(
                path=path,
                header=header,
                events=tuple(events),
                problems=(_damage(path, number, len(events)),),
                good=good,
                hash=before,
            )
        before, good = hash_of(line), good + len(line) + 1
    problems = (_torn_tail(path, len(lines) + 1, len(torn)),) if torn else ()
    if header is None and not torn:
        problems = (_damage(path, 1, 0),)
    return Told(
        path=path,
        header=header,
        events=tuple(events),
        problems=problems,
        good=good,
        torn=torn,
        hash=before,
        digest=_digest(data),
    )


def _digest(data: bytes) -> bytes:
    return hashlib.sha256(data).digest()


def read_header(path: Path) -> Header | None:
    """The first line of a journal, of a file that was found sound before; None where it is so no longer."""
    try:
        with open(path, "rb") as file:
            return header_of(unseal(file.readline()[:-1], FIRST))
    except (OSError, *DAMAGE):
        return None


def header_of(told: dict[str, Any]) -> Header:
    """The first line of a journal, checked.

    Raises:
        ValueError, TypeError, KeyError: it is damaged.
    """
    parts = parts_from_plain(Header, {name: value for name, value in told.items() if name != "plan"})
    plan = read_plan(told["plan"]) if "plan" in told else NO_PLAN
    header = Header(**parts, plan=plan)
    if header.job is not None:
        check_job(header.job)
    elif plan is NO_PLAN:
        raise ValueError("neither a walk nor a job")
    return header


def event_of(told: dict[str, Any], number: int, bounds: Bounds) -> Event:
    """A later line of a journal, checked.

    Raises:
        ValueError, TypeError, KeyError: it is damaged.
    """
    event = from_plain(Event, told)
    if event.number != number:
        raise ValueError("the running number is not the next one")
    check_event(event, bounds)
    return event


def _strange(path: Path, told: dict[str, Any]) -> Problem:
    return Problem(
        file=escape(str(path)),
        line=1,
        message=f"the record has format {escape(str(told.get('format')))}, this program reads {FORMAT}",
        mend="Open it with a newer torqref.",
    )


def _damage(path: Path, line: int, events: int) -> Problem:
    return Problem(
        file=escape(str(path)),
        line=line,
        message=f"line {line} of the record is damaged; the {events} events before it are readable",
        mend="Keep the file; start a new walk and finish from there. The readable part can be exported.",
    )


def _torn_tail(path: Path, line: int, size: int) -> Problem:
    return Problem(
        file=escape(str(path)),
        line=line,
        message=f"the last {size} bytes were cut off in writing and were never shown as done",
        mend="Nothing to do: they are set aside and the walk goes on.",
        severity="warning",
    )


# --- writing --------------------------------------------------------------------------------------


@dataclass(slots=True)
class Journal:
    """An open journal that this process alone may add to."""

    path: Path
    file: BinaryIO
    hash: str
    next: int
    size: int
    broken: str = ""
    _closed: bool = field(default=False)

    def keep(self, events: Sequence[Event]) -> tuple[Event, ...]:
        """Write and sync events; returns them with their running numbers.

        Raises:
            JournalError: they could not be kept; the file is cut back to what it was.
        """
        if self.broken:
            raise JournalError(self.broken)
        kept = numbered(events, self.next)
        data, last = b"", self.hash
        for event in kept:
            line = seal(to_plain(event), last)
            data, last = data + line + b"\n", hash_of(line)
        self._write(data)
        self.hash, self.next, self.size = last, self.next + len(kept), self.size + len(data)
        return kept

    def _write(self, data: bytes) -> None:
        try:
            self._still_ours()
            write_all(self.file, data)
            os.fsync(self.file.fileno())
        except OSError as error:
            self._cut_back()
            raise JournalError(
                f"NOT recorded: {error.strerror or error}. Free some space or mend the folder "
                f"{escape(str(self.path.parent))}, then press again."
            ) from error

    def _still_ours(self) -> None:
        """A folder that was removed under an open file would take every line and keep none.

        Where the system keeps no lock, lines that are not ours are the sign of another writer.
        """
        here = os.fstat(self.file.fileno())
        if here.st_size != self.size:
            self.broken = "NOT recorded: another window has written to this walk. Open it again."
            raise JournalError(self.broken)
        if here.st_ino != os.stat(self.path).st_ino:
            raise OSError(0, "the record file was moved or replaced")

    def _cut_back(self) -> None:
        """After a failed write the file must not keep half a line."""
        try:
            os.ftruncate(self.file.fileno(), self.size)
            self.file.seek(0, os.SEEK_END)
        except OSError as error:
            self.broken = f"NOT recorded, and the record cannot be mended now ({error.strerror}). Start anew."

    def close(self) -> None:
        """Give the journal free for others."""
        if not self._closed:
            self._closed = True
            self.file.close()


def numbered(events: Sequence[Event], first: int) -> tuple[Event, ...]:
    """The events of one press with their running numbers; the first stands for the press."""
    return tuple(
        replace(event, number=first + place, press=event.press or (first if place else 0))
        for place, event in enumerate(events)
    )


def create_journal(folder: Path, header: Header, ending: str = ENDING) -> Journal:
    """A new journal file with its header line, synced together with its folder.

    Raises:
        JournalError: the folder cannot be written.
    """
    path = folder / f"{header.id}{ending}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        file = open(path, "x+b", buffering=0)  # noqa: SIM115 - stays open as long as the walk
    except OSError as error:
        raise JournalError(
            f"The folder for records cannot be written: {escape(str(folder))} ({error.strerror}). "
            "Name another one with --records DIR."
        ) from error
    line = seal(to_plain(header), FIRST)
    journal = Journal(path=path, file=file, hash=FIRST, next=1, size=0)
    try:
        _lock(journal)
        journal._write(line + b"\n")
        sync_folder(folder)
    except (JournalError, OSError) as error:
        journal.close()
        path.unlink(missing_ok=True)
        if isinstance(error, JournalError):
            raise
        raise JournalError(
            f"NOT recorded: {error.strerror}. Mend the folder {escape(str(folder))}."
        ) from error
    journal.hash, journal.size = hash_of(line), len(line) + 1
    return journal


def open_journal(path: Path, known: Told | None = None) -> tuple[Journal, Told]:
    """A journal to add to, and what it says so far; a torn tail is set aside first.

    Args:
        path: the file.
        known: what it said before it was locked.

    Raises:
        JournalError: it is damaged, in use, or cannot be written.
    """
    try:
        file = open(path, "r+b", buffering=0)  # noqa: SIM115 - stays open as long as the walk
    except OSError as error:
        raise JournalError(f"The record {escape(path.name)} cannot be opened ({error.strerror}).") from error
    journal = Journal(path=path, file=file, hash=FIRST, next=1, size=0)
    try:
        _lock(journal)
        told = read_journal(path, known)
        if told.damaged or told.header is None:
            raise JournalError(" ".join(problem.sentence() for problem in told.problems))
        if told.torn:
            _set_aside(journal, told)
    except JournalError:
        journal.close()
        raise
    journal.hash, journal.next, journal.size = told.hash, len(told.events) + 1, told.good
    file.seek(0, os.SEEK_END)
    return journal, told


def _set_aside(journal: Journal, told: Told) -> None:
    """Keep the torn bytes in a file beside the journal, then cut them off."""
    aside = journal.path.with_name(f"{journal.path.name}.torn")
    try:
        with open(aside, "ab") as kept:
            kept.write(told.torn + b"\n")
            kept.flush()
            os.fsync(kept.fileno())
        os.ftruncate(journal.file.fileno(), told.good)
        os.fsync(journal.file.fileno())
    except OSError as error:
        raise JournalError(
            f"The torn end of {escape(journal.path.name)} cannot be set aside ({error.strerror}). "
            f"Free some space or mend the folder {escape(str(journal.path.parent))}, then open it again."
        ) from error


def _lock(journal: Journal) -> None:
    """One writer a walk; where the system keeps no lock the second one is noticed as it writes."""
    if not lock(journal.file):
        raise JournalError(
            f"The walk {escape(journal.path.stem)} is open in another window or bay. Close it there first."
        )
