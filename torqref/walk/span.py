"""Spans and points of time in the words one would say."""

from __future__ import annotations

from datetime import datetime, timedelta


def due_text(due: str, now: datetime) -> str:
    """When something is due, and how long that is from now."""
    left = datetime.fromisoformat(due) - now
    return f"{when_text(due)}, in {span_text(left)}" if left > timedelta(0) else f"{when_text(due)}, due now"


def when_text(due: str) -> str:
    """When something is due, by the clock."""
    return datetime.fromisoformat(due).strftime("%Y-%m-%d %H:%M")


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
