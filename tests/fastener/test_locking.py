"""The drag of a locking nut is added in full; threadlocker is heard from the words of a condition."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.fastener.published import entry
from torqref.fastener.friction import condition_in
from torqref.fastener.locking import is_threadlocked, with_drag
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


# Words of conditions as pages print them: common practice, no source.
@pytest.mark.parametrize(
    "words",
    [
        "threadlocker on the threads",
        "clean, thread-lock on the last 10 mm",
        "Thread locking compound",
        "retaining compound",
        "clean the threads and apply locking fluid",
        "old threadlocker off, fresh threadlocker on",
        "micro-encapsulated adhesive, new bolts",
    ],
)
def test_a_condition_that_sets_the_threads_is_heard(words: str) -> None:
    assert is_threadlocked(words)


@pytest.mark.parametrize(
    "words",
    ["", "dry", "oiled", "no threadlocker", "do not use thread lock", "threads free of old threadlocker",
     "threadlocker residues removed", "cleaned from adhesive", "locking nut"],
)  # fmt: skip
def test_a_condition_without_threadlocker_sets_nothing(words: str) -> None:
    assert not is_threadlocked(words)


def test_threadlocker_that_is_denied_is_no_condition_of_friction() -> None:
    assert condition_in("no threadlocker") is None
    found = condition_in("threadlocker on the threads")
    assert found is not None
    assert found.name == "threadlocker"
