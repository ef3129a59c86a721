"""Two values of places that should be alike, when one was read in the wrong unit."""

from __future__ import annotations

import pytest

from torqref.quantity.reading import read_torque
from torqref.quantity.slip import unit_slip
from torqref.quantity.term import Torque


def torque(text: str) -> Torque:
    """The torque of a text."""
    read = read_torque(text)
    assert isinstance(read, Torque), read
    return read


@pytest.mark.parametrize(
    ("one", "other", "words"),
    [
        ("35 in-lb", "35 ft-lb", "one number in two units"),
        ("8.0 kgf·m", "8 N·m", "one number in two units"),
        ("20–25 N·m", "20–25 ft-lb", "one number in two units"),
        ("96 in-lb", "96 ft-lb", "one number in two units"),
        ("8 ft-lb", "96 ft-lb", "twelve inches of a foot"),
        ("240 in-lb", "20 in-lb", "twelve inches of a foot"),
    ],
)
def test_one_value_read_in_two_units_is_told(one: str, other: str, words: str) -> None:
    for first, second in ((one, other), (other, one)):
        assert words in unit_slip(torque(first), torque(second))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("24 N·m", "24 N·m"),
        ("96 in-lb", "8 ft-lb"),
        ("24 N·m", "240 N·m"),
        ("20 N·m", "27 N·m"),
        ("10 N·m", "120 N·m"),
        ("20 N·m", "20–25 ft-lb"),
    ],
)
def test_honest_values_are_left_in_peace(one: str, other: str) -> None:
    assert unit_slip(torque(one), torque(other)) == ""
