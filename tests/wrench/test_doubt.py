"""Offsets that are none."""

from __future__ import annotations

from tests.wrench.bench import length, piece
from torqref.wrench.doubt import doubts, is_short, square


def test_offsets_that_are_none() -> None:
    assert square('1/2" square') == "1/2"
    assert not is_short(length("0 mm"), "3/8 in")
    assert is_short(length("0.7 in"), "3/8 in")
    assert not is_short(length("17 mm"), "1/4 in")
    assert is_short(length("25 mm"), "1/2 in")
    assert "are they swapped?" in doubts((piece("300 mm"),), "1/2 in", length("38 mm"))[0]
