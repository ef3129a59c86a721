"""Turning and mirroring the picture, and where witness marks point."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.pattern.published import HEAD, MANIFOLD, drawn
from torqref.pattern.layout import Landmark, Layout, Position
from torqref.pattern.orientation import landmark_direction, mark_arrow, mark_direction, turned

places = st.tuples(st.integers(-200, 200).map(lambda n: n / 2), st.integers(0, 60))
layouts = st.lists(places, min_size=1, max_size=20, unique=True).map(
    lambda found: Layout(
        positions=tuple(Position(label=n, x=x, y=y) for n, (x, y) in enumerate(found, start=1)),
        landmarks=(Landmark(text="FRONT", x=3.5, y=0.0),),
    )
)


@given(layouts)
def test_four_quarter_turns_are_none(layout: Layout) -> None:
    found = layout
    for _ in range(4):
        found = turned(found, 1)
    assert found == layout
    assert turned(layout, 4) == layout


@given(layouts, st.integers(0, 3), st.integers(0, 3))
def test_turns_add_up(layout: Layout, one: int, other: int) -> None:
    assert turned(turned(layout, one), other) == turned(layout, one + other)


@given(layouts)
def test_a_mirror_twice_is_none(layout: Layout) -> None:
    assert turned(turned(layout, 0, True), 0, True) == layout


def test_a_quarter_turn_takes_the_left_to_the_top_and_landmarks_along() -> None:
    head = turned(drawn(HEAD), 1)
    front = head.landmarks[0]
    assert front.text == "FRONT"
    assert front.y < min(p.y for p in head.positions)


def test_a_mirror_exchanges_left_and_right_only() -> None:
    page, mirror = drawn(HEAD), turned(drawn(HEAD), 0, True)
    assert mirror.landmarks[0].x > max(p.x for p in mirror.positions)
    assert [p.y for p in mirror.positions] == [p.y for p in page.positions]


@pytest.mark.parametrize(
    ("degrees", "words", "ascii_arrow", "arrow"),
    [
        (0, "up", "^", "↑"),
        (90, "right", ">", "→"),
        (180, "down", "v", "↓"),
        (270, "left", "<", "←"),
        (360, "up", "^", "↑"),
        (-90, "left", "<", "←"),
        (-30, "between left and up", "<^", "↖"),
        (75, "between up and right", "^>", "↗"),
        (150, "between right and down", "v>", "↘"),
        (225, "between down and left", "<v", "↙"),
        (95, "right", ">", "→"),
        (355, "up", "^", "↑"),
        (349, "between left and up", "<^", "↖"),
        (450, "right", ">", "→"),
    ],
)
def test_marks_turn_clockwise_with_the_bolt(degrees: float, words: str, ascii_arrow: str, arrow: str) -> None:
    assert mark_direction(degrees) == words
    assert mark_arrow(degrees, ascii_only=True) == ascii_arrow
    assert mark_arrow(degrees) == arrow


def test_a_head_painted_towards_front_ends_towards_the_rear() -> None:
    start = landmark_direction(drawn(HEAD), "FRONT")
    assert start == 270
    assert [mark_direction(angle, start=start) for angle in (0, 90, 180)] == ["left", "up", "right"]
    assert [mark_direction(angle, start=start, turn=1) for angle in (0, 90, 180)] == ["up", "right", "down"]
    assert [mark_direction(angle, start=start, mirrored=True) for angle in (0, 90)] == ["right", "down"]


@pytest.mark.parametrize(
    ("text", "word", "degrees"),
    [
        (MANIFOLD, "FRONT", 0),
        (MANIFOLD, "front", 0),
        (HEAD, "exhaust", 90),
        (HEAD, "REAR", None),
        ("1  2\nFRONT", "FRONT", 180),
    ],
)
def test_a_landmark_gives_the_direction_to_paint(text: str, word: str, degrees: float | None) -> None:
    assert landmark_direction(drawn(text), word) == degrees


@given(st.floats(-720, 720), st.sampled_from([0, 90, 180, 270]), st.integers(0, 3), st.booleans())
def test_a_turned_picture_turns_every_mark_along(
    degrees: float, start: float, turn: int, mirrored: bool
) -> None:
    turned_start = ((-start if mirrored else start) + 90 * turn) % 360
    assert mark_direction(degrees, start=start, turn=turn, mirrored=mirrored) == mark_direction(
        degrees, start=turned_start
    )
