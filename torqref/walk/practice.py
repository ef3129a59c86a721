"""A walk for practice: everything is asked and answered as in earnest, and no record is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from torqref.walk.event import Event
from torqref.walk.journal import numbered

PRACTICE_WALK = "PRACTICE WALK: no record is kept"


@dataclass(slots=True)
class Practice:
    """Takes the place of a journal: it numbers the events and keeps none of them."""

    path: Path = Path()
    next: int = 1

    def keep(self, events: Sequence[Event]) -> tuple[Event, ...]:
        """The events with their running numbers."""
        kept = numbered(events, self.next)
        self.next += len(kept)
        return kept

    def close(self) -> None:
        """Nothing is open."""
