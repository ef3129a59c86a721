"""What follows by itself once a press is through: a wait gets its due time, a walk its end."""

from __future__ import annotations

from datetime import datetime, timedelta

from torqref.walk.event import Event
from torqref.walk.plan import Round
from torqref.walk.state import Progress


def consequences(progress: Progress, now: datetime) -> tuple[Event, ...]:
    """What follows by itself once a press is through: a wait gets its due time, a walk its end."""
    round_ = progress.current
    if progress.finished or progress.abandoned:
        return ()
    if round_ is None:
        open_check = progress.plan.second_check and not progress.verified
        return () if open_check else (Event(kind="finished", text=_ending(progress)),)
    if round_.kind == "wait" and not progress.waiting:
        return (Event(kind="due", round=progress.round + 1, due=_due(round_, now), text=round_.text),)
    return ()


def _due(round_: Round, now: datetime) -> str:
    """When a wait is over; empty where it is counted in distance or heat cycles."""
    if round_.due_minutes is None:
        return ""
    return (now + timedelta(minutes=float(round_.due_minutes))).isoformat(timespec="seconds")


def _ending(progress: Progress) -> str:
    if not progress.skipped:
        return ""
    labels = sorted(
        {label for round_, place in progress.skipped for label in _labels(progress, round_, place)}
    )
    return f"left out: {', '.join(str(label) for label in labels)}"


def _labels(progress: Progress, round_: int, place: int) -> tuple[int, ...]:
    return progress.plan.rounds[round_].steps[place].labels
