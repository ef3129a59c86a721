"""Spans and points of time in the words one would say."""

from __future__ import annotations

from datetime import datetime, timedelta


def due_text(due: str, now: datetime) -> str:
    """When something is due, and how long that is from now."""
    when = datetime.fromisoformat(due)
    left = when - now
    shown = when.strftime("%Y-%m-%d %H:%M")
    return f"{shown}, in {span_text(left)}" if left > timedelta(0) else f"{shown}, due now"


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
