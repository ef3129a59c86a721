"""The walk screen as lines: what is shown where, in whatever room there is; no keys, no state, no rule."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from torqref.screens.band import Band, big_lines, figure_lines, one_line
from torqref.screens.layout import BESIDE, BIG, ROWS, WIDE, allot
from torqref.screens.lettering import capitals, lettered
from torqref.screens.line import EMPTY, Line, Piece, block, shown
from torqref.screens.pattern_panel import lines_wanted, picture_lines
from torqref.screens.walk_text import MORE, Showing, facts_of, keys_line, parts_of

__all__ = ["Showing", "paint_walk"]

_FIGURES = 17
# From this height figures of five lines come before words.
_TALL, _FIVE = 16, 5
# What stands above and below the figures, the picture and the facts.
_AROUND = ("title", "round", "bar", "held", "legend", "strip", "keys", "say")
_AROUND_BIG = ("bar", "say")
_ARROWS = {"clockwise": ">>>", "anticlockwise": "<<<"}
# The first of the parts that stand at the foot of the screen.
_FOOT = "legend"


def paint_walk(showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """The lines of the walk screen in this room, exactly as many as it has."""
    beside = _beside(showing, width)
    parts = parts_of(showing, width) | facts_of(showing, _facts_width(width) if beside else width)
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
    fixed = sum(wants.get(name, 0) for name in (_AROUND_BIG if showing.big else _AROUND))
    free = height - fixed - 1
    over = free if showing.big else free - _body_wanted(showing, width, height, wants)
    if not (band.number or band.bolt):
        # A word only repeats the bar: it takes what nothing else wants.
        return {"band": 0, "figures": len(_figures(showing, width, over))}
    least = _FIVE if height >= _TALL else 3
    room = free if showing.big else min(max(least, free // 2, over), _FIGURES)
    found = len(_figures(showing, width, room + 1)) - 1
    return {"band": 1, "figures": found or len(_figures(showing, width, min(free, _FIVE) + 1)) - 1}


def _figures(showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """Label and figures in this room; in the big view the direction under them, where there is room."""
    band, view = _band(showing), showing.view
    if not (band.number or band.bolt or band.word):
        return ()
    if view.kind == "caution" and (told := _in_letters(showing, width, height)):
        return told
    if not showing.big:
        return figure_lines(band, width, height)
    lines = big_lines(band, width, height)
    for words in (view.direction.upper(), _ARROWS.get(view.direction, "")):
        told = figure_lines(Band(word=words, ascii_only=band.ascii_only), width, height - len(lines))
        if told and band.number:
            return (*lines, *told)
    return lines


def _in_letters(showing: Showing, width: int, height: int) -> tuple[Line, ...]:
    """A caution in block letters, to be read from afar; nothing where there is no room for all of it."""
    text = capitals(" ".join(showing.lines)).replace(" °", "°")
    rows = () if showing.ascii_only else lettered(text, width - 2)
    if not rows or len(rows) + 1 > height:
        return ()
    return (EMPTY, *((Piece(" "), Piece(row, "strong")) for row in rows))


def _body_wanted(showing: Showing, width: int, height: int, wants: dict[str, int]) -> int:
    """Lines that the picture and the facts fill of themselves."""
    beside = _beside(showing, width)
    room = width - _facts_width(width) - 4 if beside else width - 2
    picture = lines_wanted(showing.pattern, room, height // 2) if showing.pattern is not None else 0
    facts = sum(wants.get(name, 0) for name in BESIDE)
    return max(picture, facts) + 2 if beside else picture + facts


def _facts_width(width: int) -> int:
    return max(30, width * 2 // 5)


def _with_keys(
    showing: Showing, parts: dict[str, tuple[Line, ...]], rows: dict[str, int], width: int
) -> dict[str, tuple[Line, ...]]:
    """Where the keys have no line of their own they stand where there is nothing to say."""
    silent = not showing.message and showing.prompt is None
    return parts | {"say": (keys_line(showing, width),)} if silent and not rows.get("keys") else parts


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
        if name == "band":
            yield from _band_lines(showing, width, rows)
        elif name == "picture" and count and showing.pattern is not None:
            yield from block(picture_lines(showing.pattern, width - 2, count), width, count)
        elif name != "figures":
            yield from _cut(parts.get(name, ()), count, showing.ascii_only)


def _cut(lines: tuple[Line, ...], count: int, plain: bool) -> tuple[Line, ...]:
    """So many of these lines; where some are left out the last one says so."""
    if count >= len(lines) or not count:
        return lines[:count]
    last, more = list(lines[count - 1]), shown(MORE, ascii_only=plain)
    blank = 0
    while last and not last[-1].text.strip():
        blank += len(last.pop().text)
    if not blank:
        return (*lines[: count - 1], (*last, Piece(more, "strong")))
    tone = last[-1].tone if last else "strong"
    return (*lines[: count - 1], (*last, Piece(more, tone), Piece(" " * max(0, blank - len(more)), tone)))


def _band_lines(showing: Showing, width: int, rows: dict[str, int]) -> tuple[Line, ...]:
    """Label and figures, or all of it in one line."""
    figures = rows.get("figures", 0)
    if not figures:
        return (one_line(_band(showing), width),) if rows.get("band", 0) else ()
    height = figures + rows.get("band", 0)
    return block(_figures(showing, width, height), width, height)


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
        elif name == "band":
            yield from _band_lines(showing, width, rows)
        elif name in across and name != "figures":
            yield from _cut(parts.get(name, ()), rows.get(name, 0), showing.ascii_only)


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


def _longest(showing: Showing) -> str:
    """The widest number of a bolt, so that nothing moves when the tenth comes; pairs are told as they are."""
    labels = showing.pattern.states if showing.pattern is not None else ()
    return "" if "+" in showing.view.bolt else "8" * len(str(max(labels, default="")))


def _band(showing: Showing) -> Band:
    """Bolt and number; where there is none, the first word of what to do."""
    view = showing.view
    if not (view.number or view.kind == "bolt") or view.kind == "wait":
        word = view.headline.partition(":")[0]
        return Band(word=word if word.isupper() else "", ascii_only=showing.ascii_only)
    return Band(
        bolt=view.bolt,
        longest=_longest(showing),
        verb=view.verb,
        number=view.number,
        unit=view.unit,
        was=view.was,
        ascii_only=showing.ascii_only,
    )
