"""Times as a person says them, and each of them once."""

from __future__ import annotations

from datetime import datetime

import pytest

from torqref.walk.span import due_text
from torqref.walk.standing import left_text

NOON = datetime.fromisoformat("2026-03-02T12:00:00+02:00")


@pytest.mark.parametrize(
    ("due", "said"),
    [
        ("2026-03-02T16:00:14+02:00", "today 16:00, in 4 h 0 min"),
        ("2026-03-03T09:10:14+02:00", "tomorrow 09:10, in 21 h 10 min"),
        # the same points of time as another zone writes them
        ("2026-03-02T14:00:14+00:00", "today 16:00, in 4 h 0 min"),
        ("2026-03-02T23:00:00+00:00", "tomorrow 01:00, in 13 h 0 min"),
        ("2026-03-05T12:00:00+02:00", "2026-03-05 12:00, in 3 days"),
        ("2026-03-02T11:00:00+02:00", "today 11:00, due now"),
        ("2026-03-01T11:00:00+02:00", "yesterday 11:00, due now"),
    ],
)
def test_when_something_is_due(due: str, said: str) -> None:
    assert due_text(due, NOON) == said


def test_a_walk_that_was_left_before_a_clock_was_set_back_was_left_today() -> None:
    assert left_text("2026-03-04T09:00:00+02:00", NOON) == "today 09:00"
