"""Turning and mirroring a picture, and where a witness mark points in it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TypeVar

from torqref.pattern.layout import Landmark, Layout, Position
from torqref.pattern.shape import CELLS_A_LINE

_Spot = TypeVar("_Spot", Position, Landmark)

# Clockwise from up, every eighth of a turn: words, letters of a keyboard, arrows.
_DIRECTIONS = (
    ("up", "^", "↑"),
    ("between up and right", "^>", "↗"),
    ("right", ">", "→"),
    ("between right and down", "v>", "↘"),
    ("down", "v", "↓"),
    ("between down and left", "<v", "↙"),
    ("left", "<", "←"),
    ("between left and up", "<^", "↖"),
)
# So near to up, right, down or left a painted mark is read as pointing there.
_STRAIGHT = 10.0


@lru_cache(maxsize=64)
def turned(layout: Layout, turn: int = 0, mirrored: bool = False) -> Layout:
    """The picture mirrored left to right if wanted, then turned clockwise; landmarks move along.

    Args:
        layout: the picture.
        turn: quarter turns clockwise; four are none.
        mirrored: whether left and right are exchanged.
    """
    turn %= 4
    if not turn and not mirrored:
        return layout
    return replace(
        layout,
        positions=tuple(_moved(position, turn, mirrored) for position in layout.positions),
        landmarks=tuple(_moved(landmark, turn, mirrored) for landmark in layout.landmarks),
    )


def _moved(spot: _Spot, turn: int, mirrored: bool) -> _Spot:
    x, y = (-spot.x if mirrored else spot.x), spot.y
    for _ in range(turn):
        # A character is half as wide as it is high; a turn exchanges the two.
        x, y = -CELLS_A_LINE * y, x / CELLS_A_LINE
    return replace(spot, x=x, y=y)


def mark_direction(degrees: float, *, start: float = 0.0, turn: int = 0, mirrored: bool = False) -> str:
    """Where a witness mark points in the drawing after the bolt was turned, in words.

    Direction in the drawing = start (mirrored along with the picture) + quarter turns + angle. The bolt
    itself is always turned as seen by the one who turns it: a mirrored picture is what they see.

    Args:
        degrees: angle turned so far, clockwise; negative for anticlockwise.
        start: where the mark was painted to point, degrees clockwise from up in the picture as printed.
        turn: quarter turns of the picture, clockwise.
        mirrored: whether the picture is mirrored left to right.

    Returns:
        `up`, `right`, `down`, `left`, or `between right and down` and so on.

    >>> mark_direction(90), mark_direction(180, turn=1), mark_direction(150)
    ('right', 'left', 'between right and down')
    """
    return _direction(degrees, start, turn, mirrored)[0]


def mark_arrow(
    degrees: float,
    *,
    start: float = 0.0,
    turn: int = 0,
    mirrored: bool = False,
    ascii_only: bool = False,
) -> str:
    """The same as a mark for the drawing: an arrow, or with keyboard signs `^ > v <` and pairs of them.

    >>> mark_arrow(90), mark_arrow(225, ascii_only=True)
    ('→', '<v')
    """
    return _direction(degrees, start, turn, mirrored)[1 if ascii_only else 2]


def _direction(degrees: float, start: float, turn: int, mirrored: bool) -> tuple[str, str, str]:
    pointing = ((-start if mirrored else start) + 90.0 * turn + degrees) % 360
    quarter = round(pointing / 90)
    if abs(pointing - 90 * quarter) <= _STRAIGHT:
        return _DIRECTIONS[2 * quarter % 8]
    return _DIRECTIONS[2 * int(pointing // 90) + 1]


def landmark_direction(layout: Layout, word: str) -> float | None:
    """Where a landmark stands as seen from the middle of the bolts, in degrees clockwise from up.

    It is the start of witness marks that are painted to point at FRONT.

    Args:
        layout: the picture as printed.
        word: the landmark or its first word, in capitals or not.

    Returns:
        0, 90, 180 or 270, the nearest straight direction; None if there is no such landmark.
    """
    wanted = word.casefold()
    for landmark in layout.landmarks:
        if landmark.text.casefold() == wanted or landmark.text.casefold().split()[0] == wanted:
            return _straight_direction(layout, landmark)
    return None


def _straight_direction(layout: Layout, landmark: Landmark) -> float:
    """Judged against the box round the bolts: beside it is left or right, above it is up."""
    xs = [position.x for position in layout.positions]
    ys = [position.y for position in layout.positions]
    if landmark.y < min(ys):
        return 0.0
    if landmark.y > max(ys):
        return 180.0
    return 90.0 if landmark.x > (min(xs) + max(xs)) / 2 else 270.0
