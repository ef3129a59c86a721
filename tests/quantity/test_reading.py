"""What a technician types or copies from a page, and what torqref makes of it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.reading import read_angle, read_term, read_torque
from torqref.quantity.term import Angle, Hand, Torque


def torque(text: str) -> Torque:
    """The one torque of a text."""
    read = read_torque(text)
    assert isinstance(read, Torque), read
    return read


@pytest.mark.parametrize(
    ("text", "low", "target", "high", "unit"),
    [
        ("24 N·m", None, 24, None, "N·m"),
        ("22–26 N·m (16–19 ft-lb)", 22, 24, 26, "N·m"),
        ("57 ± 6 in-lb", 51, 57, 63, "in-lb"),
        ("max 12 N·m", None, None, 12, "N·m"),
    ],
)
def test_a_value_keeps_its_numbers_and_its_unit(
    text: str, low: int | None, target: int | None, high: int | None, unit: str
) -> None:
    read = torque(text)
    assert (read.low, read.target, read.high, read.unit) == (low, target, high, unit)


def test_a_chain_is_read_stage_by_stage() -> None:
    term = read_term("finger tight, 30 N·m + 90° + 90°")
    assert not isinstance(term, Refusal)
    hand, seat, *turns = term.stages
    assert isinstance(hand, Hand)
    assert isinstance(seat, Torque)
    assert [turn.degrees for turn in turns if isinstance(turn, Angle)] == [90, 90]


def test_flats_backwards_are_degrees_backwards() -> None:
    angle = read_angle("2 flats back")
    assert isinstance(angle, Angle)
    assert angle.degrees == Fraction(-120)
