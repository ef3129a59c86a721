"""Spans and points of time in the words one would say."""

from __future__ import annotations

from datetime import datetime, timedelta

_DAYS = {-1: "yesterday", 0: "today", 1: "tomorrow"}


def due_text(due: str, now: datetime) -> str:
    """When something is due, and how long that is from now.

    >>> due_text("2026-03-03T09:10:14+00:00", datetime.fromisoformat("2026-03-02T17:00:00+00:00"))
    'tomorrow 09:10, in 16 h 10 min'
    """
    left = datetime.fromisoformat(due) - now
    shown = when_text(due, now)
    return f"{shown}, in {span_text(left)}" if left > timedelta(0) else f"{shown}, due now"


def when_text(due: str, now: datetime) -> str:
    """When something is due, by the day and the clock."""
    when = datetime.fromisoformat(due)
    return f"{day_text(when, now)} {when.astimezone(now.tzinfo):%H:%M}"


def day_text(when: datetime, now: datetime) -> str:
    """The day of a time as a person says it: yesterday, today, tomorrow, else its date.

    >>> now = datetime.fromisoformat("2026-03-02T17:00:00+00:00")
    >>> day_text(now, now), day_text(now + timedelta(days=3), now)
    ('today', '2026-03-05')
    """
    day = when.astimezone(now.tzinfo).date()
    return _DAYS.get((day - now.date()).days, day.isoformat())


def span_text(span: timedelta) -> str:
    """A span of time in the words one would say.

    >>> span_text(timedelta(hours=1, minutes=10))
    '1 h 10 min'
    """
    minutes = int(span.total_seconds() // 60)
    days, hours = divmod(minutes // 60, 24)
    if days:
        return f"{days} day{'s' if days > 1 else ''}"
    return f"{hours} h {minutes % 60} min" if hours else f"{minutes} min"
