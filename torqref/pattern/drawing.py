"""Draws a layout as text: every bolt as the mark it is given, landmarks, and a pointer to the next."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from torqref.pattern.cells import cells
from torqref.pattern.geometry import straightened
from torqref.pattern.landmark import margins, write_landmarks
from torqref.pattern.layout import Drawing, Layout
from torqref.pattern.orientation import turned
from torqref.pattern.placement import place, place_freely
from torqref.pattern.pointer import write_pointer
from torqref.pattern.sheet import Sheet
from torqref.pattern.window import Window, beside, strip, window

# Two cells beside a label stay free for a mark such as [7], so that nothing moves when it comes.
_ROOM_FOR_MARKS = 2
# What is too large for the room is drawn in a wider or a higher one, and a part of it is shown.
_GROWTHS = ((1, 0), (0, 1))


def draw(
    layout: Layout,
    marks: Mapping[int, str],
    *,
    width: int,
    height: int,
    turn: int = 0,
    mirrored: bool = False,
    pointer: tuple[int, int] | None = None,
    focus: int | None = None,
    ascii_only: bool = False,
) -> Drawing:
    r"""The layout as lines of text, as large as the room makes sense.

    No mark touches another, none is cut. Where not all bolts fit, the bolt in focus and those beside it
    are drawn and `…` stands where more are. Landmarks stand where they fit.

    Args:
        layout: the bolts and landmarks.
        marks: what is drawn at each label, such as `[7]` or `16 mm`; a label without one stands itself.
        width: cells there are; 30 or more for a good picture.
        height: lines there are.
        turn: quarter turns clockwise.
        mirrored: whether left and right are exchanged, before the turn.
        pointer: labels from and to which a dotted line is drawn where it fits.
        focus: the label that must be seen; the smallest if not given.
        ascii_only: whether the drawing itself keeps to ASCII; marks are the caller's.

    Returns:
        The lines, and where each drawn mark stands in them.

    >>> from torqref.pattern.shape import circle
    >>> print("\n".join(draw(circle(4), {1: "[1]"}, width=30, height=5).lines))
       [1]
    <BLANKLINE>
    4       2
    <BLANKLINE>
        3
    """
    texts = {label: _fitting(marks.get(label), str(label), width) for label in layout.labels}
    seen = _view(
        layout, texts, (max(1, width), max(1, height)), (turn % 4, mirrored), focus, _sign(ascii_only)
    )
    sheet = Sheet(seen.width, seen.height)
    spots = _write_marks(sheet, seen, texts)
    for row, column, text in seen.more:
        sheet.write(row, column, text)
    if layout.landmarks and len(seen.cells) == len(texts):
        centres = {label: (row, column + (seen.slot - 1) / 2) for label, (row, column) in seen.cells.items()}
        write_landmarks(
            sheet,
            turned(straightened(layout), turn % 4, mirrored),
            centres,
            seen.slot,
            ascii_only=ascii_only,
        )
    if pointer and pointer[0] in spots and pointer[1] in spots:
        write_pointer(sheet, spots[pointer[0]], spots[pointer[1]])
    return _trimmed(sheet.lines(), spots)


def _fitting(mark: str | None, label: str, width: int) -> str:
    """The mark; the label where there is none, or where it is wider than the whole room."""
    return label if mark is None or cells(mark) > width else mark


def _sign(ascii_only: bool) -> str:
    return "..." if ascii_only else "…"


def _view(
    layout: Layout,
    texts: Mapping[int, str],
    room: tuple[int, int],
    way: tuple[int, bool],
    focus: int | None,
    sign: str,
) -> Window:
    """All bolts if they fit, with room kept for marks or without; else the part round the focus."""
    labels = max(len(str(label)) for label in texts)
    widest = max(cells(text) for text in texts.values())
    for slot in dict.fromkeys((max(widest, labels + _ROOM_FOR_MARKS), widest)):
        if whole := _whole(layout, room, slot, way):
            return whole
    middle = focus if focus is not None and focus in texts else min(texts)
    slot = max(widest, labels + _ROOM_FOR_MARKS)
    near, parts = beside(layout, middle), list[Window]()
    for grow in _GROWTHS:
        large = place_freely(layout, *room, slot, *way, grow=grow)
        part = window(large, *room, middle, sign) if large else None
        if part and near <= set(part.cells):
            parts.append(part)
    if parts:
        return max(parts, key=lambda part: len(part.cells))
    return strip(layout, widest, room[0], middle, sign)


@lru_cache(maxsize=64)
def _whole(layout: Layout, room: tuple[int, int], slot: int, way: tuple[int, bool]) -> Window | None:
    """Every bolt, with as much room round them for landmarks as there is."""
    width, height = room
    for margin in margins(turned(straightened(layout), *way)):
        inner = width - margin.left - margin.right, height - margin.top - margin.bottom
        found = place(layout, *inner, slot, *way) if min(inner) > 0 else None
        if found:
            return Window(
                cells={
                    label: (row + margin.top, column + margin.left)
                    for label, (row, column) in found.cells.items()
                },
                width=width,
                height=height,
                slot=slot,
            )
    return None


def _write_marks(sheet: Sheet, seen: Window, texts: Mapping[int, str]) -> dict[int, tuple[int, int, int]]:
    spots = {}
    for label, (row, column) in seen.cells.items():
        text = texts[label]
        first = column + _offset(text, str(label), seen.slot)
        if sheet.write(row, first, text):
            spots[label] = (row, first, cells(text))
    return spots


def _offset(text: str, label: str, slot: int) -> int:
    """Where a mark begins in its slot: its number never moves when signs come and go round it."""
    wide = cells(text)
    place = text.find(label)
    first = (slot - len(label)) // 2 - cells(text[:place]) if place >= 0 else (slot - wide) // 2
    return max(0, min(first, slot - wide))


def _trimmed(lines: tuple[str, ...], spots: dict[int, tuple[int, int, int]]) -> Drawing:
    """The drawing moved to the upper left corner."""
    top = next((number for number, line in enumerate(lines) if line), 0)
    left = min((len(line) - len(line.lstrip(" ")) for line in lines if line), default=0)
    return Drawing(
        lines=tuple(line[left:] for line in lines[top:]),
        spots={label: (row - top, column - left, wide) for label, (row, column, wide) in spots.items()},
    )
