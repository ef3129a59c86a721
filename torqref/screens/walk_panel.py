"""The walk screen as lines: what is shown where, in whatever room there is; no keys, no state, no rule."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from torqref.screens.band import Band, figure_lines, one_line
from torqref.screens.key import Key
from torqref.screens.layout import BESIDE, BIG, ROWS, WIDE, allot
from torqref.screens.line import (
    EMPTY,
    Line,
    Piece,
    block,
    cells,
    fitted,
    line,
    shown,
    sides,
    width_of,
    wrapped,
)
from torqref.screens.pattern_panel import Pattern, drawn, legend, picture_lines
from torqref.screens.prompt import Prompt
from torqref.walk.view import Entry, View

_BAR_TONES = {"stop": "stop", "caution": "warn", "question": "warn", "wait": "stop", "second-check": "warn"}
_STRIP_MARKS = {"done": "x", "now": ">", "open": "."}
_STRIP_TONES = {"done": "quiet", "now": "strong", "open": "plain"}
_FIGURES = 17
# From this height figures of five lines come before words.
_TALL, _FIVE = 16, 5
# The main key where it does something only on a screen.
_MAIN = {"measure": "type the reading", "wait": "put down", "finished": "leave"}
# Before the word that says what the values are worth; where the room is short it stands alone.
_WORTH = "?"
# The end of a text that was cut; the help has all of it.
_MORE = " …"
# What stands above and below the figures, the picture and the facts.
_AROUND = ("title", "round", "bar", "legend", "strip", "keys", "say")
_AROUND_BIG = ("bar", "say")
# The first of the parts that stand at the foot of the screen.
_FOOT = "legend"
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
    big: bool = False
    ascii_only: bool = False


def paint_walk(showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """The lines of the walk screen in this room, exactly as many as it has."""
    beside = _beside(showing, width)
    parts = _parts(showing, width) | _facts(showing, _facts_width(width) if beside else width)
    wants = {name: len(lines) for name, lines in parts.items()}
    figures = _figures_wanted(showing, width, height, wants)
    wants |= figures
    if not beside:
        rows = allot(height, _with_picture(showing, wants, height), BIG if showing.big else ROWS)
        return block(_stacked(showing, parts, rows, (width, height)), width, height)
    return block(_side_by_side(showing, parts, wants, width, height), width, height)


def _beside(showing: Showing, width: int) -> bool:
    """Whether the facts stand beside a picture."""
    return width >= WIDE and not showing.big and showing.pattern is not None


def _with_picture(showing: Showing, wants: dict[str, int], height: int) -> dict[str, int]:
    return wants | {"picture": height} if showing.pattern is not None else wants


def _figures_wanted(showing: Showing, width: int, height: int, wants: dict[str, int]) -> dict[str, int]:
    """Lines for figures: about half of what is free, all of it where nothing else is shown."""
    band = _band(showing)
    if not (band.number or band.bolt):
        return {"band": 0, "figures": 0}
    fixed = sum(wants.get(name, 0) for name in (_AROUND_BIG if showing.big else _AROUND))
    free = height - fixed - 1
    least = _FIVE if height >= _TALL else 3
    room = free if showing.big else max(least, free // 2, free - _body_wanted(showing, width, height, wants))
    found = len(figure_lines(band, width, min(room, _FIGURES) + 1)) - 1
    return {"band": 1, "figures": found or len(figure_lines(band, width, min(free, _FIVE) + 1)) - 1}


def _body_wanted(showing: Showing, width: int, height: int, wants: dict[str, int]) -> int:
    """Lines that the picture and the facts fill of themselves."""
    beside = _beside(showing, width)
    room = width - _facts_width(width) - 4 if beside else width - 2
    picture = len(drawn(showing.pattern, room, height // 2).lines) if showing.pattern is not None else 0
    facts = sum(wants.get(name, 0) for name in BESIDE)
    return max(picture, facts) + 2 if beside else picture + facts


def _facts_width(width: int) -> int:
    return max(30, width * 2 // 5)


def _with_keys(
    showing: Showing, parts: dict[str, tuple[Line, ...]], rows: dict[str, int], width: int
) -> dict[str, tuple[Line, ...]]:
    """Where the keys have no line of their own they stand where there is nothing to say."""
    silent = not showing.message and showing.prompt is None
    return parts | {"say": (_keys(showing, width),)} if silent and not rows.get("keys") else parts


def _stacked(
    showing: Showing, parts: dict[str, tuple[Line, ...]], rows: dict[str, int], room: tuple[int, int]
) -> Iterator[Line]:
    """All parts under each other in reading order; what is over stands above the foot."""
    width, over = room[0], room[1] - sum(rows.values())
    parts = _with_keys(showing, parts, rows, width)
    for name in ROWS:
        count = rows.get(name, 0)
        if name == "lines" and over > 2 and not rows.get("spec"):
            over -= 1
            yield EMPTY
        if name == _FOOT:
            yield from (EMPTY,) * over
        if name == "band" and count:
            yield from _band_lines(showing, width, rows.get("figures", 0))
        elif name == "picture" and count and showing.pattern is not None:
            yield from block(picture_lines(showing.pattern, width - 2, count), width, count)
        elif name != "figures":
            yield from _cut(parts.get(name, ()), count, showing.ascii_only)


def _cut(lines: tuple[Line, ...], count: int, plain: bool) -> tuple[Line, ...]:
    """So many of these lines; where some are left out the last one says so."""
    if count >= len(lines) or not count:
        return lines[:count]
    return (*lines[: count - 1], (*lines[count - 1], Piece(shown(_MORE, ascii_only=plain), "strong")))


def _band_lines(showing: Showing, width: int, figures: int) -> tuple[Line, ...]:
    band = _band(showing)
    return figure_lines(band, width, figures + 1) if figures else (one_line(band, width),)


def _side_by_side(
    showing: Showing, parts: dict[str, tuple[Line, ...]], wants: dict[str, int], width: int, height: int
) -> Iterator[Line]:
    """The picture on the left, the facts beside it, everything else across."""
    across = [name for name in ROWS if name not in BESIDE and name != "picture"]
    facts_width = _facts_width(width)
    facts = {name: parts[name] for name in BESIDE}
    told = sum(len(lines) for lines in facts.values())
    rows = allot(height - min(told, height // 2), wants, across)
    body = height - sum(rows.values())
    parts = _with_keys(showing, parts, rows, width)
    for name in ROWS:
        if name == "picture":
            yield from _body(showing, facts, body, width, facts_width)
        elif name == "band" and rows.get(name, 0):
            yield from _band_lines(showing, width, rows.get("figures", 0))
        elif name in across and name != "figures":
            yield from parts.get(name, ())[: rows.get(name, 0)]


def _body(
    showing: Showing, facts: dict[str, tuple[Line, ...]], height: int, width: int, facts_width: int
) -> Iterator[Line]:
    rows = allot(height, {name: len(lines) for name, lines in facts.items()}, BESIDE)
    plain = showing.ascii_only
    right = [EMPTY, *(told for name in BESIDE for told in _cut(facts[name], rows.get(name, 0), plain))]
    if len(right) > height:
        right = right[1:]
    room = width - facts_width - 2
    left: Iterable[Line] = ()
    if showing.pattern is not None and height >= ROWS["picture"].least:
        left = list(picture_lines(showing.pattern, room - 2, height))
        if len(left) < height:
            left = [EMPTY, *left]
    pairs = zip(block(left, room, height), block(right, facts_width, height), strict=True)
    yield from ((*one, Piece("  "), *two) for one, two in pairs)


def _parts(showing: Showing, width: int) -> dict[str, tuple[Line, ...]]:
    """What each part would say if it had all the room; the picture and the figures are made to measure."""
    view, plain = showing.view, showing.ascii_only
    parts = {
        "title": (_title(showing, width),),
        "round": (_round(showing, width),),
        "bar": tuple(_bar(showing, width)),
        "strip": tuple(_strip(view.strip, width, plain)),
        "keys": (_keys(showing, width),),
        "say": tuple(_say(showing, width)) or (EMPTY,),
    }
    if showing.pattern is not None:
        parts["legend"] = (fitted(legend(showing.pattern), width),)
    return parts


def _facts(showing: Showing, width: int) -> dict[str, tuple[Line, ...]]:
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
    tone = "plain" if view.kind == "bolt" else "strong"
    room = width - len(_MORE)
    lines = tuple(told for text in showing.lines for told in _told(text, room, tone, plain, indent=2))
    if view.kind == "caution":
        lines = tuple(_panel(lines, width))
    return facts | {"lines": lines, "options": tuple(_options(showing, width))}


def _panel(lines: Sequence[Line], width: int) -> Iterator[Line]:
    """Lines on a ground of their own over the whole width: from afar one sees that they must be read."""
    for told in (EMPTY, *lines, EMPTY):
        yield fitted(tuple(Piece(text, "warn") for text, _ in told), width, "warn")


def _told(text: str, width: int, tone: str, plain: bool, indent: int = 0) -> Iterator[Line]:
    for part in wrapped(shown(text, ascii_only=plain), width - 2, tone, indent):
        yield (Piece(" "), *part)


def _options(showing: Showing, width: int) -> Iterator[Line]:
    for digit, text in showing.options:
        first = True
        for part in wrapped(shown(text, ascii_only=showing.ascii_only), width - 6, "strong"):
            head = (Piece(" "), Piece(f" {digit} ", "key"), Piece(" ")) if first else (Piece("     "),)
            yield (*head, *part)
            first = False


def _band(showing: Showing) -> Band:
    view = showing.view
    if view.kind == "wait":
        return Band()  # what comes after a wait is nothing to set now
    return Band(
        bolt=view.bolt if view.number or view.kind == "bolt" else "",
        verb=view.verb,
        number=view.number,
        unit=view.unit,
        was=view.was,
        ascii_only=showing.ascii_only,
    )


def _title(showing: Showing, width: int) -> Line:
    """The group; what its values are worth is said in few words where the room is short."""
    view, plain = showing.view, showing.ascii_only
    title = shown(view.title, ascii_only=plain)
    practice, mark = view.practice, _worth(view.worth)
    room = width - cells(title) - cells(mark) - 1
    if cells(practice) + 3 > room:
        practice = practice.partition(":")[0]
    if mark and cells(practice) > room:
        mark = f" {_WORTH} "
    told = line((f" {practice} ", "practice")) if practice else EMPTY
    right = (*told, Piece(mark, "title")) if mark else told
    return _filled(line((f" {title}", "title")), right, width, "title")


def _worth(sentence: str) -> str:
    return f" {_WORTH} {sentence.partition(':')[0].lower()} " if sentence else ""


def _filled(left: Line, right: Line, width: int, tone: str) -> Line:
    """Both ends of a bar in its tone, the right one whole."""
    room = max(0, width - width_of(right))
    return fitted((*fitted(left, room, tone), *right), width, tone)


def _round(showing: Showing, width: int) -> Line:
    view, plain = showing.view, showing.ascii_only
    left = line((f" {shown(view.round, ascii_only=plain)}", "plain"))
    return sides(left, line((f"{view.count} ", "strong")) if view.count else EMPTY, width)


def _bar(showing: Showing, width: int) -> Iterator[Line]:
    """What to do, and which way to turn; the direction is never cut."""
    view, plain = showing.view, showing.ascii_only
    tone = _BAR_TONES.get(view.kind, "way")
    direction = _direction(view.direction) if view.kind != "wait" else ""
    headline = shown(view.headline, ascii_only=plain)
    if cells(headline) + cells(direction) + 3 <= width:
        yield _filled(line((f" {headline}", tone)), line((f"{direction} ", tone)), width, tone)
        return
    for part in wrapped(headline, width - 2, tone):
        yield fitted(line((" ", tone), *part), width, tone)
    if direction:
        yield fitted(line((f" {direction}", tone)), width, tone)


def _direction(direction: str) -> str:
    """The direction in words and by signs: the unusual one looks unlike the usual one."""
    signs = {"clockwise": "CLOCKWISE >>>", "anticlockwise": "<<< ANTICLOCKWISE"}
    return signs.get(direction, direction)


def _strip(entries: Sequence[Entry], width: int, plain: bool) -> Iterator[Line]:
    """All stages with mark and value, the one that is now on the first line whatever the room."""
    texts = [shown(entry.text, ascii_only=plain) for entry in entries]
    if sum(cells(text) + 5 for text in texts) > width:
        texts = [text if cells(text) <= _SHORT else text[: _SHORT - 1].rstrip() + "~" for text in texts]
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


def _say(showing: Showing, width: int) -> Iterator[Line]:
    """What became of the last key, and the line being typed."""
    if showing.message:
        tone = "trouble" if showing.refused else "strong"
        for part in wrapped(shown(showing.message, ascii_only=showing.ascii_only), width - 2, tone):
            yield (Piece(" ", tone), *part, Piece(" ", tone))
    if showing.prompt is not None:
        yield fitted(showing.prompt.painted(width, ascii_only=showing.ascii_only), width)


def _keys(showing: Showing, width: int) -> Line:
    """As many keys as there is room for; the help comes last and always fits."""
    word = showing.view.main or _MAIN.get(showing.view.kind, "")
    main = (("enter", word),) if word else ()
    told = [*main, *((key.letter, key.word) for key in showing.keys if key.letter not in "?dxbcy")]
    said: list[Piece] = []
    room = width - len("  ? help")
    for letter, word in told:
        pieces = (Piece(f" {letter} ", "key"), Piece(f" {word} ", "quiet"))
        if width_of(tuple(said)) + width_of(pieces) > room:
            break
        said.extend(pieces)
    return (*said, Piece(" ? ", "key"), Piece(" help", "quiet"))
