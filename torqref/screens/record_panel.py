"""Paints the list of records: what was typed, what is due, walks and jobs, and what is to be known of one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from torqref.library.source import PRACTICE
from torqref.screens.head import head
from torqref.screens.library_panel import window_top
from torqref.screens.line import Line, Piece, block, cells, cut, fitted, inner_cut, shown, wrapped

if TYPE_CHECKING:
    from torqref.document.problem import Problem
    from torqref.walk.summary import Summary

# Height from which so many lines say what is to be known of the record in hand.
FOOT = ((26, 7), (20, 5), (16, 4), (0, 2))
_MOST_TAKEN, _ROOM_FOR_TWO = 5, 18
_TONES = {"open": "strong", "due": "stop", "recheck due": "stop", "abandoned": "later"}
_WORDS = {"recheck due": "due"}


class Column(NamedTuple):
    """A column of the list.

    Args:
        name: what it is called here.
        least, most: widths of the screen between which it is there; the widest is dropped first.
        cells: cells that it takes.
        what: what it shows.
    """

    name: str
    least: int
    cells: int
    what: str
    most: int = 10_000


_NARROW = 52
# In reading order; what was walked gets all cells that are left over.
COLUMNS = (
    Column("state", 0, 9, "open, due, finished, abandoned, signed; damaged"),
    Column("title", 0, 0, "the group with its place; a job says that it is one"),
    Column("day", 30, 5, "month and day it was begun, where there is no room for the year", most=_NARROW - 1),
    Column("date", _NARROW, 10, "the day it was begun"),
    Column("time", 92, 5, "the time it was begun"),
    Column("people", 56, 11, "who worked on it"),
    Column("order", 76, 9, "the work order"),
    Column("mark", 20, 2, "P practice values, C values corrected since"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """Everything to show.

    Args:
        filter: the line that is typed on.
        rows: the walks and jobs that fit, newest first.
        selected: place of the row in hand.
        count: how many there are, in words.
        due: what waits, a line each, the first one due first.
        notes: what is to be known of the row in hand, a sentence with its tone.
        outdated: ids of the walks whose values were corrected since.
        problems: what is wrong with the files.
        empty: what to say where there is no row.
        options, ask: answers of a question that is open, and the question.
        message, refused: what became of the last key.
        keys: the line of keys.
        ascii_only: whether to keep to ASCII signs.
    """

    filter: Line
    rows: Sequence[Summary]
    selected: int
    count: str
    due: tuple[str, ...] = ()
    notes: tuple[tuple[str, str], ...] = ()
    outdated: frozenset[str] = frozenset()
    problems: tuple[Problem, ...] = ()
    empty: str = ""
    options: tuple[tuple[str, str], ...] = ()
    ask: str = ""
    message: str = ""
    refused: bool = False
    keys: Line = ()
    ascii_only: bool = False

    def safe(self, text: str) -> str:
        """Text as it may go to the terminal."""
        return shown(text, ascii_only=self.ascii_only)


def rows_room(listed: Listed, width: int, height: int) -> int:
    """How many rows of the list there is room for."""
    return max(1, height - 3 - len(tuple(_above(listed, width, height))) - _foot(height))


def _foot(height: int) -> int:
    return next(lines for least, lines in FOOT if height >= least)


def paint_records(listed: Listed, width: int, height: int) -> tuple[Line, ...]:
    """The whole screen in this room."""
    above = tuple(_above(listed, width, height))
    room = rows_room(listed, width, height)
    top = window_top(listed.selected, 0, room, len(listed.rows))
    places = range(top, min(top + room, len(listed.rows)))
    columns = columns_for(width)
    rows = [_row(listed, place, columns) for place in places] or list(_said(listed, listed.empty, width))
    foot = tuple(_foot_lines(listed, width))
    # A sentence that was not asked for is read whole: for a moment it may take rows of the list.
    taken = max(_foot(height), min(len(foot), _MOST_TAKEN) if listed.options or listed.message else 0)
    body = max(0, height - 3 - len(above) - taken)
    lines = (
        fitted(head("records", listed.count, width, ascii_only=listed.ascii_only), width),
        fitted(listed.filter, width),
        *(fitted(line, width) for line in above),
        *block(rows, width, body),
        *block(foot, width, taken),
        fitted(listed.keys, width),
    )
    return lines if len(lines) == height else (*block(lines[:-1], width, height - 1), *lines[-1:])[:height]


def _above(listed: Listed, width: int, height: int) -> Iterator[Line]:
    """What waits on one line, on two where there is room; one line of what is wrong with the files."""
    if listed.due:
        count = len(listed.due)
        lead = Piece(f" DUE 1 of {count} " if count > 1 else " DUE ", "stop")
        most = 2 if height >= _ROOM_FOR_TWO else 1
        parts = list(wrapped(listed.safe(listed.due[0]), width - cells(lead.text) - 2, "strong"))
        # What does not fit is cut with the line, and stands whole under the record itself.
        yield (lead, Piece(" "), *(parts[0] if most > 1 else (Piece(listed.safe(listed.due[0]), "strong"),)))
        yield from ((Piece(" " * (cells(lead.text) + 1)), *part) for part in parts[1:most])
    if listed.problems:
        first, count = listed.problems[0], len(listed.problems)
        more = f" 1 of {count}" if count > 1 else ""
        yield (
            Piece(f" {first.severity.upper()}{more} ", _tone_of(first)),
            Piece(f" {listed.safe(f'{first.message} ({_near(first)})')}", "plain"),
        )


def _tone_of(problem: Problem) -> str:
    """Damage is trouble; a torn end, where nothing is to be done, is only told."""
    return "trouble" if problem.severity == "error" else "later"


def _near(problem: Problem) -> str:
    """File and line without the folder; the list of all problems has it."""
    name = problem.file.replace("\\", "/").rpartition("/")[2]
    return f"{name}:{problem.line}" if problem.line else name


# --- rows -----------------------------------------------------------------------------------------


def columns_for(width: int) -> tuple[tuple[Column, int], ...]:
    """The columns that a width has room for, each with its cells; what is dropped first is in the table.

    >>> [column.name for column, _ in columns_for(40)]
    ['state', 'title', 'day', 'mark']
    """
    kept = tuple(column for column in COLUMNS if column.least <= width <= column.most)
    left = max(1, width - 1 - sum(column.cells + 1 for column in kept))
    return tuple((column, column.cells or left) for column in kept)


def _row(listed: Listed, place: int, columns: Sequence[tuple[Column, int]]) -> Line:
    in_hand = place == listed.selected
    summary = listed.rows[place]
    pieces = [Piece(">" if in_hand else " ", "now" if in_hand else "plain")]
    for column, width in columns:
        text, tone = _CELLS[column.name](listed, summary)
        safe = listed.safe(text)
        exact = inner_cut(safe, width) if column.name == "title" else cut(safe, width)
        word, ground = exact.rstrip(), "title" if in_hand else "plain"
        pieces.append(Piece(word, ground if tone in ("plain", "quiet", "strong") and in_hand else tone))
        pieces.append(Piece(" " * (width - cells(word) + 1), ground))
    return tuple(pieces)


def _state(listed: Listed, summary: Summary) -> tuple[str, str]:
    if summary.damaged:
        return "DAMAGED", "trouble"
    word = _WORDS.get(summary.state, summary.state)
    return (word.upper() if summary.is_open or summary.waits else word), _TONES.get(summary.state, "quiet")


def _mark(listed: Listed, summary: Summary) -> tuple[str, str]:
    corrected = "C" if summary.id in listed.outdated else ""
    text = f"{'P' if summary.invented else ''}{corrected}"
    return text, "later" if text else "plain"


_CELLS: dict[str, Callable[[Listed, Summary], tuple[str, str]]] = {
    "state": _state,
    "title": lambda _, summary: (summary.title, "strong" if summary.is_open else "plain"),
    "day": lambda _, summary: (summary.started[5:10], "plain"),
    "date": lambda _, summary: (summary.started[:10], "plain"),
    "time": lambda _, summary: (summary.started[11:16], "quiet"),
    "people": lambda _, summary: (", ".join(summary.people), "plain"),
    "order": lambda _, summary: (summary.work_order, "plain"),
    "mark": _mark,
}


# --- foot -----------------------------------------------------------------------------------------


def _foot_lines(listed: Listed, width: int) -> Iterator[Line]:
    """What became of the last key, a question, or what is to be known of the record in hand."""
    if listed.options:
        yield (Piece(f" {listed.safe(listed.ask)} ", "stop"),)
        for key, words in listed.options:
            yield (Piece(f" {key} ", "key"), Piece(f" {listed.safe(words)}"))
    elif listed.message:
        yield from _said(listed, listed.message, width, "trouble" if listed.refused else "strong")
    else:
        for text, tone in listed.notes:
            yield from _said(listed, text, width, tone)


def _said(listed: Listed, text: str, width: int, tone: str = "plain") -> Iterator[Line]:
    for part in wrapped(listed.safe(text), width - 2, tone):
        bar = tone in ("trouble", "practice")
        yield fitted((Piece(" ", tone), *part), width, tone) if bar else (Piece(" ", tone), *part)


def notes_of(
    summary: Summary, due: Sequence[str], outdated: str, problem: Problem | None
) -> Iterator[tuple[str, str]]:
    """What is to be known of the record in hand, most important first, each with its tone.

    Args:
        summary: the record.
        due: what it waits for, a line each.
        outdated: what was corrected since, or nothing.
        problem: what is wrong with its file, or None.
    """
    practice = f"{PRACTICE.partition(':')[0]}: " if summary.invented else ""
    yield f"{practice}{summary.title}, {summary.state}", "practice" if practice else "strong"
    if problem is not None:
        yield f"{problem.message} ({_near(problem)}). {problem.mend}", _tone_of(problem)
    yield from ((line, "strong") for line in due)
    if outdated:
        yield outdated, "strong"
    order = f"order {summary.work_order}" if summary.work_order else ""
    begun = f"begun {_minute(summary.started)}"
    ended = f"ended {_minute(summary.ended)}" if summary.ended else ""
    yield ", ".join(part for part in (", ".join(summary.people), order, begun, ended) if part), "plain"
    yield ", ".join(part for part in (summary.assembly, f"on {summary.bay}") if part), "quiet"
    yield summary.id, "quiet"


def _minute(time: str) -> str:
    return time[:16].replace("T", " ")
