"""Paints the library: what was typed, open walks, groups, and what is to be known of the row in hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import PurePath
from typing import TYPE_CHECKING

from torqref.library.brief import applies_text, mark_words, values_text
from torqref.library.source import PRACTICE
from torqref.pattern.cells import cells
from torqref.screens.head import head
from torqref.screens.library_rows import Kind, Rows
from torqref.screens.line import Line, Piece, block, cut, fitted, inner_cut, shown, sides, width_of, wrapped

if TYPE_CHECKING:
    from torqref.library.group import Group
    from torqref.library.job import Job
    from torqref.walk.open_job import OpenJob
    from torqref.walk.standing import Standing

# From this width marks are written out, and a row has room for the values.
WIDE, _VALUES_FROM = 64, 56
_ROOM_FOR_WORDS = 50
_MOST_TAKEN = 5
_ROOM_FOR_VALUES = 18
_DETAILS = ((26, 7), (20, 5), (15, 3), (0, 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """Everything to show.

    Args:
        filter: the line that is typed on.
        rows: what is listed.
        selected: place of the row in hand.
        top: place of the first row that is shown.
        count: how many there are, in words.
        options: answers of a question that is open, digit and words.
        ask: that question.
        message: what became of the last key.
        refused: whether the message is a refusal.
        hint: what to do, for somebody who sees this for the first time.
        keys: the line of keys.
        ascii_only: whether to keep to ASCII signs.
        reading: whether the library is still being read.
        room: how many rows there is room for.
    """

    filter: Line
    rows: Rows
    selected: int
    top: int
    count: str
    options: tuple[tuple[str, str], ...] = ()
    ask: str = ""
    message: str = ""
    refused: bool = False
    hint: str = ""
    keys: Line = ()
    ascii_only: bool = False
    reading: bool = False
    room: int = 0

    @property
    def is_asking(self) -> bool:
        """Whether the foot holds a question or a message."""
        return bool(self.options or self.message or self.hint)

    def safe(self, text: str) -> str:
        """Text as it may go to the terminal."""
        return shown(text, ascii_only=self.ascii_only)


def room_for_rows(height: int) -> int:
    """How many rows of the list there is room for: all but head, filter, details and the last line."""
    return max(1, height - 3 - _details(height))


def _details(height: int) -> int:
    return next(lines for least, lines in _DETAILS if height >= least)


def paint_library(showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """The whole screen in this room."""
    room = room_for_rows(height)
    listed = [
        _row(showing, place, width)
        for place in range(showing.top, min(showing.top + room, len(showing.rows)))
    ]
    foot = tuple(_foot(showing, width))
    # A sentence that was not asked for is read whole: for a moment it may take rows of the list.
    taken = max(_details(height), min(len(foot), _MOST_TAKEN) if showing.is_asking else 0)
    body = height - 3 - taken
    return (
        fitted(head("torqref library", showing.count, width, ascii_only=showing.ascii_only), width),
        fitted(showing.filter, width),
        *block(listed or _nothing(showing, width), width, max(0, body)),
        *block(foot, width, taken if body >= 0 else max(0, height - 3)),
        *block((showing.keys,), width, 1),
    )


def _foot(showing: Showing, width: int) -> Iterator[Line]:
    """What became of the last key, a question, or what is to be known of the row in hand."""
    if showing.options:
        yield from _question(showing, width)
    elif showing.message:
        tone = "trouble" if showing.refused else "strong"
        for part in wrapped(showing.safe(showing.message), width - 2, tone):
            yield fitted((Piece(" ", tone), *part), width, tone)
    else:
        hint = wrapped(showing.safe(showing.hint), width - 2, "strong")
        yield from ((Piece(" ", "strong"), *part) for part in hint)
        yield from _detail(showing, width)


def _nothing(showing: Showing, width: int) -> Iterator[Line]:
    text = "Nothing fits. A value with its unit, such as 24 Nm, starts a quick walk; + does too."
    text = "Reading the library." if showing.reading else text
    yield from ((Piece(" "), *part) for part in wrapped(showing.safe(text), width - 2))


# --- rows -----------------------------------------------------------------------------------------


def _row(showing: Showing, place: int, width: int) -> Line:
    in_hand = place == showing.selected
    mark = Piece(">" if in_hand else " ", "now" if in_hand else "plain")
    text = _ROWS[showing.rows.kind(place)](showing, place, width - 1)
    return (mark, *(_lit(piece) if in_hand else piece for piece in fitted(text, width - 1)))


def _lit(piece: Piece) -> Piece:
    return Piece(piece.text, "title" if piece.tone in ("plain", "quiet", "strong") else piece.tone)


def _standing(showing: Showing, place: int, width: int) -> Line:
    """An open walk: its number, what it is, where it stands."""
    number, standing = showing.rows.standings[place - len(showing.rows.jobs)]
    where = f"bay {standing.elsewhere}: " if standing.elsewhere else ""
    title = showing.safe(f"{where}{standing.title}")
    rest = showing.safe(", ".join(standing.words))
    told = (Piece(" DUE ", "stop"), Piece(" ")) if standing.is_due else (Piece(" OPEN ", "strong"),)
    lead = (Piece(f" {number} ", "key"), *told)
    room = width - width_of(lead)
    if room < _ROOM_FOR_WORDS:
        tail = (Piece(f"{standing.count} ", "strong"),) if standing.count else ()
        return (*lead, *sides((Piece(cut(title, room - width_of(tail) - 1), "strong"),), tail, room))
    return (*lead, *_titled(title, rest, room, most=room * 6 // 10))


def _titled(title: str, rest: str, room: int, *, most: int) -> Line:
    """A title in at most so many cells, and behind it what else is to be known; alone in a narrow room."""
    if room < _ROOM_FOR_WORDS:
        return (Piece(cut(title, room), "strong"),)
    taken = min(cells(title), most)
    return (Piece(cut(title, taken), "strong"), Piece(f"  {cut(rest, room - taken - 2)}", "quiet"))


def _job(showing: Showing, place: int, width: int) -> Line:
    """An open job: its number, what it is, how far it is."""
    number, job = showing.rows.jobs[place]
    where = f"bay {job.elsewhere}: " if job.elsewhere else ""
    title, rest = showing.safe(f"{where}{job.title}"), showing.safe(", ".join(job.words))
    lead = (Piece(f" {number} ", "key"), Piece(" JOB ", "stop" if job.is_due else "strong"))
    room = width - width_of(lead)
    return (*lead, *_titled(title, rest, room, most=room // 2))


def _repair(showing: Showing, place: int, width: int) -> Line:
    """A job that can be begun: its name, how many groups it walks, of what."""
    job = showing.rows.repair(place)
    name, rest = (job.name, _scope_of(job)) if job is not None else ("", "")
    lead = (Piece(" REPAIR ", "way"), Piece(" "))
    room = width - width_of(lead)
    return (*lead, *_titled(showing.safe(name), showing.safe(rest), room, most=room * 6 // 10))


def _scope_of(job: Job) -> str:
    """How much it is: groups, since several steps of a file can make one page of the work."""
    groups = len(job.groups)
    many = f"{groups} group{'s' if groups > 1 else ''}" if groups else ""
    return ", ".join(part for part in (many, job.assembly) if part)


def _quick(showing: Showing, place: int, width: int) -> Line:
    """What was typed reads as a value: walk it without a library entry."""
    name = showing.safe(showing.rows.typed.name) if showing.rows.typed else ""
    return (
        Piece(" QUICK ", "way"),
        Piece(f" {name}", "strong"),
        *((Piece("  how many bolts comes next", "quiet"),) if width >= WIDE else ()),
    )


def _problem(showing: Showing, place: int, width: int) -> Line:
    """The first problem of the files, and how many there are."""
    problem, count = showing.rows.problems[0], len(showing.rows.problems)
    word = problem.severity.upper()
    more = f" 1 of {count}" if count > 1 else ""
    # Below it stands the whole path; here it would push out of sight what is wrong.
    told = problem.sentence().replace(problem.file, PurePath(problem.file).name, 1)
    return (Piece(f" {word}{more} ", "trouble"), Piece(f" {showing.safe(told)}"))


def _group(showing: Showing, place: int, width: int) -> Line:
    """A group: name, values as printed, and the first word that keeps its values from being trusted."""
    group = showing.rows.groups[place - showing.rows.above]
    words = mark_words(group)
    name, values = showing.safe(group.name), showing.safe(values_text(group))
    word = words[0] if words else ""
    mark = f"{word:<10}" if width >= WIDE else f"{word[:1].upper():<2}"
    tail = (Piece(mark, "later" if word else "plain"),)
    if width < _VALUES_FROM:
        return sides((Piece(f" {inner_cut(name, width - 4)}"),), tail, width)
    room = width - width_of(tail) - 4
    name_room = min(_name_room(showing), room - _ROOM_FOR_VALUES)
    value = Piece(cut(values, room - name_room), "quiet")
    return sides((Piece(f" {inner_cut(name, name_room)}  "), value), tail, width)


def _name_room(showing: Showing) -> int:
    """The longest name in sight, so that the values stand in one column as far left as they can."""
    last = min(showing.top + showing.room, len(showing.rows))
    seen = (showing.rows.group(place) for place in range(showing.top, last))
    return max((cells(showing.safe(group.name)) for group in seen if group is not None), default=0)


_ROWS: dict[Kind, Callable[[Showing, int, int], Line]] = {
    "job": _job,
    "open": _standing,
    "problem": _problem,
    "quick": _quick,
    "repair": _repair,
    "group": _group,
}


# --- details --------------------------------------------------------------------------------------


def _question(showing: Showing, width: int) -> Iterator[Line]:
    """The question that is open, its answers behind it on as few lines as they take."""
    yield (Piece(f" {showing.safe(showing.ask)} ", "stop"),)
    pieces: list[Piece] = []
    for key, words in showing.options:
        more = (Piece(f" {key} ", "key"), Piece(f" {showing.safe(words)}  "))
        if pieces and width_of((*pieces, *more)) > width:
            yield tuple(pieces)
            pieces = []
        pieces.extend(more)
    yield tuple(pieces)


def _detail(showing: Showing, width: int) -> Iterator[Line]:
    """What is to be known of the row in hand, most important first."""
    for text, tone in _said(showing.rows, showing.selected):
        if text:
            for part in wrapped(showing.safe(text), width - 2, tone):
                said = (Piece(" ", tone), *part)
                yield fitted(said, width, tone) if tone == "practice" else said


def _said(rows: Rows, place: int) -> Iterator[tuple[str, str]]:
    """The sentences on a row, with their tones."""
    standing, group, job = rows.standing(place), rows.group(place), rows.job(place)
    if group is not None:
        yield from _of_group(group)
    elif job is not None:
        yield from _of_job(job)
    elif standing is not None:
        yield from _of_standing(standing)
    elif (repair := rows.repair(place)) is not None:
        yield from _of_repair(repair)
    elif rows.kind(place) == "quick" and rows.typed is not None:
        yield f"quick walk: {rows.typed.name}", "strong"
    elif rows.kind(place) == "problem":
        yield rows.problems[0].sentence(), "plain"
        yield "enter shows every problem of the files", "quiet"


def _of_group(group: Group) -> Iterator[tuple[str, str]]:
    practice = f"{PRACTICE.partition(':')[0]}: " if group.source.invented else ""
    yield f"{practice}{values_text(group)}", "practice" if practice else "strong"
    bolts = len(group.layout.positions)
    facts = (
        "1 bolt" if bolts == 1 else f"{bolts} bolts",
        " ".join(part for part in (group.thread, group.grade) if part),
        group.condition,
        f"for {applies_text(group)}" if group.applies else "",
        f"places: {', '.join(group.places)}" if group.places else "",
    )
    yield ", ".join(fact for fact in facts if fact), "plain"
    yield f"{group.name} ({group.id}), {group.assembly}", "plain"
    checked = group.source.verified_by
    verified = f"verified by {checked}" if checked else "unverified: nobody typed the values a second time"
    yield f"{group.source.sentence() or 'no source'}; {verified}", "quiet"
    yield group.file, "quiet"


def _of_repair(job: Job) -> Iterator[tuple[str, str]]:
    practice = f"{PRACTICE.partition(':')[0]}: " if job.source.invented else ""
    told = ", ".join(part for part in ("a whole repair", _scope_of(job)) if part)
    yield f"{practice}{told}", "practice" if practice else "strong"
    yield f"{job.name} ({job.id})", "plain"
    yield f"groups: {', '.join(job.groups)}" if job.groups else "", "plain"
    yield job.source.sentence() or "no source", "quiet"
    yield job.file, "quiet"


def _of_standing(standing: Standing) -> Iterator[tuple[str, str]]:
    plan, begun = standing.record.header.plan, standing.record.header
    practice = f"{PRACTICE.partition(':')[0]}: " if plan.invented else ""
    told = standing.due or ", ".join(standing.words)
    yield f"{practice}{told}", "practice" if practice else "strong"
    if standing.due:
        yield ", ".join(standing.words), "plain"
    yield ", ".join(part for part in (standing.title, plan.assembly) if part), "plain"
    at = begun.started[:16].replace("T", " ")
    yield ", ".join(part for part in (f"begun {at}", begun.by) if part), "quiet"
    yield begun.id, "quiet"


def _of_job(job: OpenJob) -> Iterator[tuple[str, str]]:
    header, practice = (
        job.record.header,
        f"{PRACTICE.partition(':')[0]}: " if job.record.plan.invented else "",
    )
    yield f"{practice}{', '.join(job.words)}", "practice" if practice else "strong"
    yield job.title, "plain"
    at = header.started[:16].replace("T", " ")
    yield ", ".join(part for part in (f"begun {at}", header.by) if part), "quiet"
    yield header.id, "quiet"


def window_top(selected: int, top: int, room: int, count: int) -> int:
    """The first row to show, so that the one in hand is seen and the room is used."""
    top = min(max(top, selected - room + 1), selected)
    return max(0, min(top, count - room))


def digits_of(options: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Answers with their digits."""
    return tuple((str(number), text) for number, text in enumerate(options, start=1))
