"""The picture of the walk: every bolt with its number and the mark of its state, and what the marks mean."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from torqref.pattern.drawing import draw
from torqref.pattern.layout import Drawing, Layout
from torqref.screens.line import Line, Piece, cells, line, shown
from torqref.walk.view import MARKS, STATES

# state: tone in the picture
_TONES = {
    "open": "open",
    "now": "now",
    "done": "done",
    "later": "later",
    "skipped": "later",
    "trouble": "trouble",
    "moved": "later",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """What the picture shows.

    Args:
        layout: where the bolts are.
        states: state of each bolt.
        texts: what stands at a bolt in place of its number: a length, or where its mark points.
        pointer: the last bolt and the next.
        turn, mirrored: how the picture is held.
        seen_from: from where it is seen.
        ascii_only: whether to keep to ASCII signs.
    """

    layout: Layout
    states: Mapping[int, str]
    texts: Mapping[int, str]
    pointer: tuple[int, int] | None = None
    turn: int = 0
    mirrored: bool = False
    seen_from: str = ""
    ascii_only: bool = False


def mark_of(label: int, state: str) -> str:
    """A number with the mark of its state; the mark never stands alone.

    >>> mark_of(7, "now"), mark_of(7, "done"), mark_of(7, "open")
    ('[7]', '7x', '7')
    """
    if state == "now":
        return f"[{label}]"
    return str(label) if state == "open" else f"{label}{MARKS[state]}"


def picture_lines(pattern: Pattern, width: int, height: int) -> Iterator[Line]:
    """The picture in tones, in the middle of this width."""
    drawing = drawn(pattern, width, height)
    wide = max((cells(text) for text in drawing.lines), default=0)
    left = Piece(" " * max(0, (width - wide) // 2))
    spots = {(row, first): (label, count) for label, (row, first, count) in drawing.spots.items()}
    # What stands in the place of a number is what one looks for, whatever the state of the bolt.
    tones = {
        label: "open" if label in pattern.texts else _TONES[state] for label, state in pattern.states.items()
    }
    for row, text in enumerate(drawing.lines):
        yield (left, *_toned(text, row, spots, tones))


def drawn(pattern: Pattern, width: int, height: int) -> Drawing:
    """The picture as text; without the pointer where rows are so close that it would run through them."""
    drawing = _drawn(pattern, width, height)
    rows = [drawing.spots[label][0] for label in pattern.pointer or () if label in drawing.spots]
    return _drawn(replace(pattern, pointer=None), width, height) if _close(rows) else drawing


def lines_wanted(pattern: Pattern, width: int, height: int) -> int:
    """Lines of the picture in this room; they are the same whatever the states of its bolts."""
    texts = tuple(
        (label, shown(text, ascii_only=pattern.ascii_only)) for label, text in pattern.texts.items()
    )
    return _lines_wanted(pattern.layout, texts, (pattern.turn, pattern.mirrored), (width, height))


@lru_cache(maxsize=64)
def _lines_wanted(
    layout: Layout, texts: tuple[tuple[int, str], ...], way: tuple[int, bool], room: tuple[int, int]
) -> int:
    turn, mirrored = way
    return len(draw(layout, dict(texts), width=room[0], height=room[1], turn=turn, mirrored=mirrored).lines)


def _close(rows: Sequence[int]) -> bool:
    return len(rows) == 2 and abs(rows[0] - rows[1]) == 1


def _drawn(pattern: Pattern, width: int, height: int) -> Drawing:
    marks = {
        label: pattern.texts.get(label) or mark_of(label, state) for label, state in pattern.states.items()
    }
    now = next((label for label, state in pattern.states.items() if state == "now"), None)
    return draw(
        pattern.layout,
        {label: shown(text, ascii_only=pattern.ascii_only) for label, text in marks.items()},
        width=width,
        height=height,
        turn=pattern.turn,
        mirrored=pattern.mirrored,
        pointer=pattern.pointer,
        focus=now,
        ascii_only=pattern.ascii_only,
    )


def _toned(
    text: str, row: int, spots: Mapping[tuple[int, int], tuple[int, int]], tones: Mapping[int, str]
) -> Iterator[Piece]:
    """One line of the drawing cut at its marks; between them stand landmarks and the pointer."""
    column, start = 0, 0
    here = sorted(first for spot_row, first in spots if spot_row == row)
    places = {first: spots[row, first] for first in here}
    for place, char in enumerate(text):
        if column in places:
            label, wide = places[column]
            if place > start:
                yield Piece(text[start:place], "rule")
            start = place + _characters(text[place:], wide)
            yield Piece(text[place:start], tones[label])
        column += cells(char)
    if start < len(text):
        yield Piece(text[start:], "rule")


def _characters(text: str, wide: int) -> int:
    """How many characters make up so many cells."""
    used = 0
    for count, char in enumerate(text):
        if used >= wide:
            return count
        used += cells(char)
    return len(text)


def legend(pattern: Pattern) -> Line:
    """What the marks mean, for the states that are in the picture, and from where it is seen."""
    present = [state for state in STATES if state in pattern.states.values()]
    marks = [Piece(f"{_sample(state)} {STATES[state]}  ", "quiet") for state in present if state != "open"]
    seen = f"seen from {pattern.seen_from}" if pattern.seen_from else ""
    return line(" ", *marks, (shown(seen, ascii_only=pattern.ascii_only), "quiet"))


def held(pattern: Pattern) -> str:
    """How the picture is held, where that is not as the page has it: nobody may take it for the page's."""
    parts = (f"turned {pattern.turn * 90}°" if pattern.turn else "", "MIRRORED" if pattern.mirrored else "")
    told = ", ".join(part for part in parts if part)
    return f"picture {told}" if told else ""


def _sample(state: str) -> str:
    return "[ ]" if state == "now" else MARKS[state]
