"""The job screen as lines: what is shown where, in whatever room there is; no keys, no state, no rule."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from torqref.screens.foot import key_line, option_lines, say_lines
from torqref.screens.job_keys import BACK, HELP_KEY, IN_HELP
from torqref.screens.job_layout import ALONE, CUT, LEAST_LIST, ROWS
from torqref.screens.job_list import fitting_steps, is_now, step_line, track, window
from torqref.screens.key import Key
from torqref.screens.layout import allot
from torqref.screens.lettering import HEIGHT, capitals, lettered
from torqref.screens.line import (
    EMPTY,
    Line,
    Piece,
    block,
    cells,
    fitted,
    line,
    shortened,
    shown,
    width_of,
    wrapped,
)
from torqref.screens.prompt import Prompt
from torqref.walk.job_view import JobView

_TONES = {
    "safe": "warn",
    "opening": "warn",
    "alone": "stop",
    "fact": "warn",
    "wait": "stop",
    "waited": "stop",
}
# Moments that have the screen for themselves.
_BY_ITSELF = ("opening", "alone")
# The main key where it does something only on a screen.
_MAIN = {
    "reading": "type the reading",
    "wait": "put down",
    "sign-off": "work order and name",
    "recheck": "leave",
    "finished": "leave",
}
# Below this height large words are worth more than the steps around the present one.
_TALL = 20
# From this width the count says why not all steps that have a number are counted.
_WORDS_FROM = 60
# The words of a step up to here stand alone, too.
_STOP = re.compile(r"[,;:] ")


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A list that takes the place of the step: its heading, and lines or all steps."""

    heading: str
    lines: tuple[str, ...] = ()
    steps: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """Everything the job screen shows.

    Args:
        view: what the core says.
        options: digit and words of what may be chosen now.
        keys: the keys that work now.
        listed: a list in place of the step, or None.
        start: from which line of the words or of the list; -1 for the page that has the present step.
        message: what became of the last key.
        refused: whether that was a refusal.
        prompt: the line being typed.
        ascii_only: whether to keep to ASCII signs.
    """

    view: JobView
    options: tuple[tuple[int, str], ...] = ()
    keys: tuple[Key, ...] = ()
    listed: Listed | None = None
    start: int = 0
    message: str = ""
    refused: bool = False
    prompt: Prompt | None = None
    ascii_only: bool = False

    def safe(self, text: str) -> str:
        """Text as it may go to the terminal."""
        return shown(text, ascii_only=self.ascii_only)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The painted screen; from which line it shows the words, and where the next page begins, 0 for none."""

    lines: tuple[Line, ...]
    start: int = 0
    next: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """As many of the lines as there is room for, from one of them on.

    Args:
        lines: those that are shown, filled up where a page before was longer.
        start: the first of them.
        next: the first one of the next page, 0 where this is the last.
        where: which page of how many, in words.
    """

    lines: tuple[Line, ...]
    start: int
    next: int
    where: str = ""

    @classmethod
    def of(cls, lines: tuple[Line, ...], room: int, start: int) -> Page:
        """The page from this line on; from -1 the one that has the present step."""
        room = max(1, room)
        if start < 0:
            here = next((row for row, said in enumerate(lines) if is_now(said)), 0)
            start = here // room * room
        start = start if start < len(lines) else 0
        kept, end = lines[start : start + room], start + room
        filled = (*kept, *(EMPTY,) * (room - len(kept))) if start else kept
        where = f"{-(-start // room) + 1} of {-(-len(lines) // room)}"
        return cls(lines=filled, start=start, next=end if end < len(lines) else 0, where=where)


def paint_job(showing: Showing, width: int, height: int) -> Sheet:
    """The job screen in this room, exactly as many lines as it has."""
    names = _names(showing)
    parts = {name: lines for name, lines in _parts(showing, width).items() if name in names}
    listed = len(fitting_steps(showing.view.strip)) if "list" in names else 0
    free = height - sum(len(lines) for lines in parts.values())
    if height >= _TALL:
        # A message takes its lines from the list, so that the words do not change their size when it comes.
        free += len(parts["say"]) - 1 - min(LEAST_LIST, listed)
    body = tuple(_body(showing, width, free))
    wants = {name: len(lines) for name, lines in parts.items()} | {"body": len(body), "list": listed}
    rows = _allotted(wants, names, height)
    page = Page.of(body, rows.get("body", 0), showing.start)
    parts |= {
        "body": page.lines,
        "list": tuple(window(showing.view.strip, width, rows.get("list", 0), ascii_only=showing.ascii_only)),
    }
    parts |= _with_keys(showing, rows, page, width)
    lines = block(_stacked(parts, rows, width, height), width, height)
    return Sheet(lines=lines, start=page.start, next=page.next)


def _allotted(wants: dict[str, int], names: tuple[str, ...], height: int) -> dict[str, int]:
    """The lines of each part; where the list is long a line around the words and the answers is left blank.

    Whether it is long is asked without a message, so that nothing moves when one comes.
    """
    quiet = allot(height, wants | {"say": 1}, names, table=ROWS, cut=CUT)
    rows = allot(height, wants, names, table=ROWS, cut=CUT)
    blank = 2 + bool(wants["options"]) if quiet.get("list", 0) > LEAST_LIST + 4 else 0
    return rows | {"list": max(0, rows.get("list", 0) - blank)}


def _names(showing: Showing) -> tuple[str, ...]:
    """The parts that this moment shows."""
    alone = showing.listed is not None or showing.view.kind in _BY_ITSELF
    return ALONE if alone else tuple(ROWS)


def _with_keys(showing: Showing, rows: dict[str, int], page: Page, width: int) -> dict[str, tuple[Line, ...]]:
    """The keys; without a line of their own they stand where there is nothing to say."""
    keys: tuple[Line, ...] = (_keys(showing, page, width),)
    silent = not showing.message and showing.prompt is None
    return {"keys": keys} | ({"say": keys} if silent and not rows.get("keys") else {})


def _stacked(
    parts: dict[str, tuple[Line, ...]], rows: dict[str, int], width: int, height: int
) -> Iterator[Line]:
    """All parts in reading order; what is over stands around the words and above the foot."""
    over = height - sum(rows.values())
    for name in ROWS:
        count = rows.get(name, 0)
        if over > (name == "options") and (name == "body" or (name == "options" and count)):
            over -= 1
            yield EMPTY
        if name == ("list" if rows.get("list") else "keys"):
            yield from (EMPTY,) * over
        yield from parts.get(name, ())[:count]


def _parts(showing: Showing, width: int) -> dict[str, tuple[Line, ...]]:
    """What each part would say if it had all the room; the words and the list are made to measure."""
    view = showing.view
    waiting = f"{len(view.due)} due: d shows what is waiting" if view.due and showing.listed is None else ""
    said = say_lines(
        showing.message, showing.prompt, width, refused=showing.refused, ascii_only=showing.ascii_only
    )
    return {
        "title": (title_line(showing.view, width, ascii_only=showing.ascii_only),),
        "track": (track(showing.view.strip, showing.safe(_counted(showing.view, width)), width),),
        "bar": (_bar(showing, width),),
        "options": tuple(option_lines(showing.options, width, ascii_only=showing.ascii_only)),
        "due": (line((f" {showing.safe(waiting)}", "strong")),) if waiting else (),
        "keys": (EMPTY,),
        "say": tuple(said) or (EMPTY,),
    }


def _counted(view: JobView, width: int) -> str:
    """How many steps are done; where there is room, why that is not all that have a number."""
    return f"{view.done}, {view.others}" if view.others and width >= _WORDS_FROM else view.done


# --- head -------------------------------------------------------------------------------------------


def title_line(view: JobView, width: int, *, ascii_only: bool) -> Line:
    """The repair; that the values are for practice is said in few words where the room is short."""
    title, practice = shown(view.title, ascii_only=ascii_only), view.practice
    if cells(practice) + cells(title) + 4 > width:
        practice = practice.partition(":")[0]
    right = line((f" {practice} ", "practice")) if practice else EMPTY
    room = max(0, width - width_of(right))
    title = shortened(title, room - 1, "~" if ascii_only else "…")
    return fitted((*fitted(line((f" {title}", "title")), room, "title"), *right), width, "title")


def _bar(showing: Showing, width: int) -> Line:
    """What kind of step it is, and which of how many."""
    view, listed = showing.view, showing.listed
    tone = _TONES.get(view.kind, "way") if listed is None else "way"
    call = showing.safe(listed.heading if listed is not None else view.call)
    count = showing.safe(view.count)
    end = line((f"{count} ", tone)) if count and cells(call) + cells(count) + 3 <= width else EMPTY
    room = width - width_of(end)
    return (*fitted(line((f" {call}", tone)), room, tone), *end)


# --- the words of the step --------------------------------------------------------------------------


def _body(showing: Showing, width: int, free: int) -> Iterator[Line]:
    """The words, what is wanted and what to mind; or the list that was asked for."""
    if showing.listed is not None:
        yield from _listing(showing, showing.listed, width)
        return
    words, rest = tuple(_words(showing, width)), tuple(_rest(showing, width))
    whole, part = _large(showing, width)
    drawn, told = _wanted(showing, width)
    head = next(
        (
            (*said, *wanted)
            for wanted in (drawn, told)
            for said in ((*whole, EMPTY) if whole else (), (*part, EMPTY, *words) if part else (), words)
            if said and (wanted or not told) and len(said) + len(wanted) + len(rest) < free
        ),
        (*words, *told),
    )
    yield from (*head, *rest)


def _large(showing: Showing, width: int) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """The words in block letters: all of them, and all up to the first stop in them; nothing of a page."""
    texts = showing.view.texts
    if showing.ascii_only or len(texts) != 1:
        return (), ()
    text = showing.safe(texts[0])
    whole, part = _drawn(capitals(text), width, "strong"), _STOP.split(text, maxsplit=1)[0]
    return whole, _drawn(capitals(part), width, "strong") if part != text else ()


def _drawn(text: str, width: int, tone: str) -> tuple[Line, ...]:
    return tuple((Piece(" "), Piece(row, tone)) for row in lettered(text, width - 2))


def _words(showing: Showing, width: int) -> Iterator[Line]:
    """The words of the step, wrapped; several of them stand apart, each with a dash."""
    texts = showing.view.texts
    for text in texts:
        head = "- " if len(texts) > 1 else ""
        for part in wrapped(f"{head}{showing.safe(text)}", width - 2, "strong", len(head)):
            yield (Piece(" "), *part)


def _wanted(showing: Showing, width: int) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """What a reading must lie in: in block letters, a number and its unit never parted, and as one line."""
    wanted = showing.safe(showing.view.wanted)
    if not wanted:
        return (), ()
    large = () if showing.ascii_only else _drawn(wanted, width, "set")
    told = tuple((Piece(" "), *part) for part in wrapped(f"WANTED {wanted}", width - 2, "set"))
    return ((line((" WANTED", "quiet")), *large, EMPTY) if len(large) == HEIGHT else ()), told


def _rest(showing: Showing, width: int) -> Iterator[Line]:
    """A line that must be seen from afar has a ground of its own; so have the cautions of the whole job."""
    view = showing.view
    for text in (*view.urgent, *(each for each in view.lines if each not in view.urgent)):
        tone = "stop" if text in view.urgent else "plain"
        opening = view.kind == "opening"
        for place, part in enumerate(wrapped(showing.safe(text), width - 4, "strong" if opening else tone)):
            head = "- " if opening and not place else "  " if opening else ""
            said = (Piece(f" {head}", tone), *part)
            yield fitted(said, width, tone) if tone == "stop" else said


def _listing(showing: Showing, listed: Listed, width: int) -> Iterator[Line]:
    if listed.steps:
        yield from (step_line(entry, width, ascii_only=showing.ascii_only) for entry in showing.view.strip)
        return
    for text in listed.lines:
        yield from ((Piece(" "), *part) for part in wrapped(showing.safe(text), width - 2, "plain", 2))


# --- options, list, foot ----------------------------------------------------------------------------


def _keys(showing: Showing, page: Page, width: int) -> Line:
    """The main key and as many others as there is room for."""
    listed = showing.listed is not None
    more = bool(page.next or (listed and page.start))
    word = f"more, {page.where}" if more else _main(showing)
    told = (BACK, HELP_KEY) if listed else (key for key in showing.keys if key.letter not in IN_HELP)
    return key_line(word, tuple(told), width)


def _main(showing: Showing) -> str:
    """What the main key does now."""
    if showing.listed is not None:
        return "back"
    return showing.view.main or _MAIN.get(showing.view.kind, "")
