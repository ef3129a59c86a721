"""What the walk screen says in words: bars, facts, stages and keys as lines of a given width."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from torqref.screens.foot import key_line, option_lines, say_lines
from torqref.screens.key import Key
from torqref.screens.line import (
    EMPTY,
    Line,
    Piece,
    broken,
    cells,
    fitted,
    line,
    shortened,
    shown,
    sides,
    width_of,
    wrapped,
)
from torqref.screens.pattern_panel import Pattern, held, legend
from torqref.screens.prompt import Prompt
from torqref.screens.walk_keys import FIRST, ONLY_IN_HELP
from torqref.walk.view import Entry, View

_BAR_TONES = {"stop": "stop", "caution": "warn", "question": "warn", "wait": "stop", "second-check": "warn"}
_STRIP_MARKS = {"done": "x", "now": ">", "open": "."}
_STRIP_TONES = {"done": "quiet", "now": "strong", "open": "plain"}
# The main key where it does something only on a screen.
_MAIN = {"measure": "type the reading", "wait": "put down", "finished": "leave"}
# Before the word that says what the values are worth; where the room is short it stands alone.
_WORTH = "?"
# The end of a text that was cut; the help has all of it.
MORE = " …"
# A stage in the strip is cut to so many cells where all of them do not fit on its lines.
_SHORT = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """Everything the walk screen shows.

    Args:
        view: what the core says.
        pattern: the picture, or None where there is none to show.
        second: the value in the second unit, empty while it is not known.
        options: digit and words of what may be chosen now.
        lines: further lines, most important first.
        keys: the keys that work now.
        message: what became of the last key.
        refused: whether that was a refusal.
        prompt: the line being typed.
        alert: whether the first of the lines tells of a reading outside its window.
        big: only bolt, SET, unit and direction.
        ascii_only: whether to keep to ASCII signs.
    """

    view: View
    pattern: Pattern | None = None
    second: str = ""
    options: tuple[tuple[int, str], ...] = ()
    lines: tuple[str, ...] = ()
    keys: tuple[Key, ...] = ()
    message: str = ""
    refused: bool = False
    prompt: Prompt | None = None
    alert: bool = False
    big: bool = False
    ascii_only: bool = False

    def safe(self, text: str) -> str:
        """Text as it may go to the terminal."""
        return shown(text, ascii_only=self.ascii_only)

    @property
    def cut(self) -> str:
        """The sign that a text was cut."""
        return cut_sign(self.ascii_only)


def cut_sign(ascii_only: bool) -> str:
    """The sign that a text was cut."""
    return "~" if ascii_only else "…"


def parts_of(showing: Showing, width: int) -> dict[str, tuple[Line, ...]]:
    """What each part would say if it had all the room; the picture and the figures are made to measure."""
    said = say_lines(
        showing.message, showing.prompt, width, refused=showing.refused, ascii_only=showing.ascii_only
    )
    parts = {
        "title": (_title(showing, width),),
        "round": (_round(showing, width),),
        "bar": tuple(_bar(showing, width)),
        "strip": _strip(showing.view.strip, width, showing.ascii_only),
        "keys": (keys_line(showing, width),),
        "say": tuple(said) or (EMPTY,),
    }
    if showing.pattern is not None:
        parts["legend"] = (fitted(legend(showing.pattern), width),)
        parts["held"] = tuple(_told(held(showing.pattern), width, "later", showing.ascii_only))
    return parts


def facts_of(showing: Showing, width: int) -> dict[str, tuple[Line, ...]]:
    """What is said beside or under the figures, at this width."""
    view, plain = showing.view, showing.ascii_only
    converted = f"= {showing.second}" if showing.second and view.kind != "wait" else ""
    wrench = f"wrench: {view.wrench}" if view.wrench and view.kind not in ("stop", "wait") else ""
    told = any(view.condition in text for text in showing.lines)
    spec = f"SPEC {view.spec}" if view.spec and view.kind != "wait" else ""
    texts = {
        "spec": (spec, "strong"),
        "second": (view.turn or converted, "plain"),
        "wrench": (wrench, "plain"),
        "condition": (
            view.condition if not told and view.kind != "caution" else "",
            "quiet",
        ),
    }
    facts = {
        name: tuple(_told(text, width, tone, plain)) if text else () for name, (text, tone) in texts.items()
    }
    lines = tuple(_lines(showing, width))
    return facts | {"lines": lines, "options": tuple(option_lines(showing.options, width, ascii_only=plain))}


def _lines(showing: Showing, width: int) -> Iterator[Line]:
    """Further lines; a caution stands on a ground of its own, and so does a reading outside its window."""
    tone = "plain" if showing.view.kind == "bolt" else "strong"
    lines = [
        tuple(_told(text, width - len(MORE), tone, showing.ascii_only, indent=2)) for text in showing.lines
    ]
    if showing.view.kind == "caution":
        yield from _panel([told for part in lines for told in part], width)
        return
    for place, part in enumerate(lines):
        alert = showing.alert and place == 0
        yield from (_on_ground(told, width, "trouble") if alert else told for told in part)


def _on_ground(told: Line, width: int, tone: str) -> Line:
    return fitted(tuple(Piece(text, tone) for text, _ in told), width, tone)


def _panel(lines: Sequence[Line], width: int) -> Iterator[Line]:
    """Lines on a ground of their own over the whole width: from afar one sees that they must be read."""
    for told in (EMPTY, *lines, EMPTY):
        yield _on_ground(told, width, "warn")


def _told(text: str, width: int, tone: str, plain: bool, indent: int = 0) -> Iterator[Line]:
    for part in wrapped(shown(text, ascii_only=plain), width - 2, tone, indent):
        yield (Piece(" "), *part)


def _title(showing: Showing, width: int) -> Line:
    """The group; what its values are worth is said in few words where the room is short."""
    view, title = showing.view, showing.safe(showing.view.title)
    practice, mark = view.practice, _worth(view.worth)
    room = width - cells(title) - cells(mark) - 1
    if cells(practice) + 3 > room:
        practice = practice.partition(":")[0]
    if mark and cells(practice) > room:
        mark = f" {_WORTH} "
    told = line((f" {practice} ", "practice")) if practice else EMPTY
    right = (*told, Piece(mark, "title")) if mark else told
    title = shortened(title, max(0, width - width_of(right) - 1), showing.cut)
    return _filled(line((f" {title}", "title")), right, width, "title")


def _worth(sentence: str) -> str:
    return f" {_WORTH} {sentence.partition(':')[0].lower()} " if sentence else ""


def _filled(left: Line, right: Line, width: int, tone: str) -> Line:
    """Both ends of a bar in its tone, the right one whole."""
    room = max(0, width - width_of(right))
    return fitted((*fitted(left, room, tone), *right), width, tone)


def _round(showing: Showing, width: int) -> Line:
    """Stage and value, and how many are done; what the page printed besides gives way first."""
    view = showing.view
    right = line((f"{view.count} ", "strong")) if view.count else EMPTY
    text = shortened(showing.safe(view.round), max(0, width - width_of(right) - 2), showing.cut)
    return sides(line((f" {text}", "plain")), right, width)


def _bar(showing: Showing, width: int) -> Iterator[Line]:
    """What to do, and which way to turn; the direction stands on the first line and is never cut."""
    view = showing.view
    tone = _BAR_TONES.get(view.kind, "way")
    direction = _direction(view.direction) if view.kind != "wait" else ""
    headline = showing.safe(view.headline)
    right = line((f"{direction} ", tone)) if direction else EMPTY
    first, rest = broken(headline, width - width_of(right) - 2)
    yield _filled(line((f" {first}", tone)), right, width, tone)
    for part in wrapped(rest, width - 1 - len(MORE), tone):
        yield fitted(line((" ", tone), *part), width, tone)


def _direction(direction: str) -> str:
    """The direction in words and by signs: the unusual one looks unlike the usual one."""
    signs = {"clockwise": "CLOCKWISE >>>", "anticlockwise": "<<< ANTICLOCKWISE"}
    return signs.get(direction, direction)


@lru_cache(maxsize=16)
def _strip(entries: tuple[Entry, ...], width: int, ascii_only: bool) -> tuple[Line, ...]:
    """All stages with mark and value; they stay the same from bolt to bolt, and so are laid out once."""
    return tuple(_laid_strip(entries, width, ascii_only))


def _laid_strip(entries: tuple[Entry, ...], width: int, ascii_only: bool) -> Iterator[Line]:
    """The stage that is now stands on the first line whatever the room."""
    texts = [shown(entry.text, ascii_only=ascii_only) for entry in entries]
    if sum(cells(text) + 5 for text in texts) > width:
        texts = [shortened(text, _SHORT, cut_sign(ascii_only)) for text in texts]
    pieces = [
        Piece(f" {_STRIP_MARKS[entry.state]} {text}  ", _STRIP_TONES[entry.state])
        for entry, text in zip(entries, texts, strict=True)
    ]
    now = next((place for place, entry in enumerate(entries) if entry.state == "now"), 0)
    while now > 0 and sum(cells(piece.text) for piece in pieces[: now + 1]) > width:
        pieces, now = pieces[1:], now - 1
    here: Line = ()
    for piece in pieces:
        if here and width_of(here) + cells(piece.text.rstrip()) > width:
            yield here
            here = ()
        here = (*here, piece)
    if here:
        yield here


def keys_line(showing: Showing, width: int) -> Line:
    """As many keys as there is room for, those wanted most first."""
    word = showing.view.main or _MAIN.get(showing.view.kind, "")
    keys = [key for key in showing.keys if key.letter not in ONLY_IN_HELP]
    keys.sort(key=lambda key: FIRST.index(key.word) if key.word in FIRST else len(FIRST))
    return key_line(word, tuple(keys), width)
