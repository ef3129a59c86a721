"""Where an open walk stands, in one line for a list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from torqref.walk.archive import Record
from torqref.walk.span import day_text, due_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """An open walk in a list.

    Args:
        record: the walk.
        title: what is walked, with its place and action.
        words: stage, count and when it was left, most important first.
        count: how many bolts of the round are done, such as `4 of 10`; empty where it has none.
        is_due: whether something that was waited for is due now.
        elsewhere: the other bay that has it, empty for this one.
        due: what it waits for and since when, in words; empty where it waits for nothing.
    """

    record: Record
    title: str
    words: tuple[str, ...]
    is_due: bool
    count: str = ""
    elsewhere: str = ""
    due: str = ""


def standing(record: Record, now: datetime, bay: str) -> Standing:
    """Where this walk stands now.

    Args:
        record: an open walk.
        now: the present time.
        bay: the name of this machine.
    """
    waited = record.progress.due
    return Standing(
        record=record,
        title=_title(record),
        words=tuple(_words(record, now)),
        count=_count(record),
        is_due=bool(waited) and datetime.fromisoformat(waited) <= now,
        elsewhere=record.header.bay if record.header.bay != bay else "",
        due=due_line(record, now) if record.state == "due" else "",
    )


def in_order(standings: tuple[Standing, ...]) -> tuple[Standing, ...]:
    """What is due first, then this bay's own, then the walks of other bays; newest first among equals."""
    return tuple(sorted(standings, key=lambda each: (bool(each.elsewhere), not each.is_due)))


def _title(record: Record) -> str:
    plan, round_ = record.header.plan, record.progress.current
    place = (round_.place if round_ else "") or plan.place
    verb = "LOOSEN: " if plan.action == "loosen" else ""
    return f"{verb}{plan.name}" + (f", {place}" if place else "")


def _words(record: Record, now: datetime) -> Iterator[str]:
    progress, round_ = record.progress, record.progress.current
    if record.told.damaged:
        yield "its record is damaged"
    if progress.due:
        yield f"due {due_text(progress.due, now)}"
    if round_ is None:
        yield "waits for the second check"
    else:
        if _count(record):
            yield f"{_count(record)} done"
        stages = len({other.stage for other in progress.plan.rounds})
        yield f"stage {round_.stage} of {stages}: {round_.text}"
    if record.header.work_order:
        yield f"order {record.header.work_order}"
    yield f"left {left_text(progress.last_time, now)}"


def _count(record: Record) -> str:
    round_ = record.progress.current
    return f"{len(record.progress.done)} of {len(round_.steps)}" if round_ and round_.steps else ""


def left_text(last: str, now: datetime) -> str:
    """When a walk was left: the time for today, the day before that.

    >>> left_text("2026-03-02T09:05:00+00:00", datetime.fromisoformat("2026-03-02T17:00:00+00:00"))
    'today 09:05'
    """
    if not last:
        return "before its first stop"
    when = datetime.fromisoformat(last).astimezone(now.tzinfo)
    # a clock that was set back since leaves a walk in the future
    day = day_text(min(when, now), now)
    return day if day[0].isdigit() else f"{day} {when:%H:%M}"


def due_line(record: Record, now: datetime) -> str:
    """What a walk waits for: `Manifold: one heat cycle, cold again, due 2026-03-02 12:00, due now`."""
    progress, round_ = record.progress, record.progress.current
    what = round_.text if round_ is not None else ""
    since = f", open since {datetime.fromisoformat(progress.waiting_since):%A}"
    when = (
        f", due {due_text(progress.due, now)}"
        if progress.due
        else f" ({round_.due})"
        if round_ and round_.due
        else ""
    )
    return f"{record.header.plan.name}: {what}{when}{since}"
