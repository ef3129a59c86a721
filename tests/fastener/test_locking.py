"""The drag of a locking nut is added in full."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.fastener.published import entry
from torqref.fastener.locking import with_drag
from torqref.quantity.reading import read_torque
from torqref.quantity.term import Torque


def torque(text: str) -> Torque:
    found = read_torque(text)
    assert isinstance(found, Torque), found
    return found


# FAA AC 43.13-1B Table 7-1 with measured drags: 25–30, 57–77, 112–152 in-lb; and a 3/8-24 locking nut.
@pytest.mark.parametrize(
    ("printed", "drag", "low", "high"),
    [
        ("20-25 in-lb", 5, 25, 30),
        ("50-70 in-lb", 7, 57, 77),
        ("100-140 in-lb", 12, 112, 152),
        ("160-190 in-lb", 25, 185, 215),
        ("50-70 in-lb", 8, 58, 78),
    ],
)
def test_the_final_window_is_the_printed_one_plus_the_drag(
    printed: str, drag: int, low: int, high: int
) -> None:
    assert entry("ac4313_drag")["use"] == "fact"
    found = with_drag(torque(printed), Fraction(drag))
    assert (found.low, found.high) == (Fraction(low), Fraction(high))
    assert found.unit == "in-lb"


def test_the_drag_is_not_scaled_by_the_accuracy_of_the_wrench() -> None:
    # Somebody took 25 + 0.8 · 5 = 29: inside the window, but the whole drag counts.
    found = with_drag(torque("20-25 in-lb"), Fraction(5))
    assert found.high == 30
    assert found.low is not None
    assert found.low <= 29 <= found.high


def test_a_maximum_alone_stays_a_maximum() -> None:
    found = with_drag(torque("max 40 N·m"), Fraction(2))
    assert (found.low, found.high) == (None, Fraction(42))
