"""The steps of a job as lines: all as one row of marks, and as a list that follows the present one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from torqref.screens.line import EMPTY, Line, Piece, cut, line, shown, sides, width_of
from torqref.walk.job_view import JobEntry

_MARKS = {
    "done": ("x", "done"),
    "now": (">", "now"),
    "open": (".", "open"),
    "later": ("~", "later"),
    "due": ("=", "later"),
    "left out": ("-", "later"),
    "not for this one": (" ", "quiet"),
}
# From this width a row of the list has room for the state in words.
_WORDS = 56
_STATES = ("later", "due", "left out", "not for this one")


def fitting_steps(strip: Sequence[JobEntry]) -> tuple[JobEntry, ...]:
    """The steps that are for this one."""
    return tuple(step for step in strip if step.state != "not for this one")


def is_now(row: Line) -> bool:
    """Whether a line has the mark of the present step."""
    return any(piece == Piece(*_MARKS["now"]) for piece in row)


def track(strip: Sequence[JobEntry], done: str, width: int) -> Line:
    """Every step as its mark, the present one always in sight, and how many are done in words."""
    steps = fitting_steps(strip)
    end = line((f"{done} ", "strong"))
    room = width - width_of(end) - 2
    first = max(0, min(_now(steps) - room // 2, len(steps) - room))
    marks = tuple(Piece(*_MARKS[step.state]) for step in steps[first : first + max(0, room)])
    return sides((Piece(" "), *marks), end, width)


def _now(steps: Sequence[JobEntry]) -> int:
    """The place of the present step; the last one where there is none."""
    return next((place for place, step in enumerate(steps) if step.state == "now"), len(steps) - 1)


def window(strip: Sequence[JobEntry], width: int, room: int, *, ascii_only: bool) -> Iterator[Line]:
    """So many steps around the present one: a third of them before it, the others to come."""
    steps = fitting_steps(strip)
    first = max(0, min(_now(steps) - max(1, room // 3), len(steps) - room))
    yield from (step_line(entry, width, ascii_only=ascii_only) for entry in steps[first : first + room])


def step_line(entry: JobEntry, width: int, *, ascii_only: bool) -> Line:
    """A step: its mark, number and words, and what adds to its state."""
    mark, tone = _MARKS[entry.state]
    said = "strong" if entry.state == "now" else "quiet" if entry.state == "done" else "plain"
    more = ", ".join(part for part in (entry.state if entry.state in _STATES else "", entry.more) if part)
    more = shown(more, ascii_only=ascii_only)
    end = line((f"{more} ", "later" if entry.state in _STATES else "quiet")) if more else EMPTY
    room = width - 2
    if not end or width < _WORDS or width_of(end) > room // 2:
        end = EMPTY
    lead = (Piece(" "), Piece(mark, tone), Piece(f" {entry.number:>2} ", said))
    text = cut(shown(entry.text, ascii_only=ascii_only), room - width_of(lead) - width_of(end))
    return (*lead, Piece(text, said), Piece("  "), *end)
