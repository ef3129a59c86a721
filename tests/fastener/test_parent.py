"""A value from a steel chart in a soft or short hole is noticed."""

from __future__ import annotations

import pytest

from tests.fastener.published import thread
from torqref.document.refusal import Refusal
from torqref.fastener.parent import Hole, parent_warning, read_hole
from torqref.quantity.reading import read_torque
from torqref.quantity.term import Torque


def warned(text: str, size: str, parent: str, engagement: str, condition: str = "") -> str:
    torque, hole = read_torque(text), read_hole(parent, engagement, thread(size))
    assert isinstance(torque, Torque)
    assert isinstance(hole, Hole)
    return parent_warning(torque, thread(size), hole, condition)


def test_a_steel_chart_value_in_nine_millimetres_of_aluminium() -> None:
    assert "9 mm of cast aluminium" in warned("24 N·m", "M8", "aluminium", "9mm")
    assert "beyond stripping" in warned("50 N·m", "M8", "aluminium", "9mm")


# Values of a practice job, worked beforehand to between 38 and 45 % of stripping.
@pytest.mark.parametrize(
    ("text", "size", "engagement"),
    [
        ("20 N·m", "M8", "16 mm"),
        ("22 N·m", "M8", "16 mm"),
        ("82 in-lb", "M6", "12 mm"),
        ("10 N·m", "M6", "12 mm"),
    ],
)
def test_values_made_for_aluminium_are_left_in_peace(text: str, size: str, engagement: str) -> None:
    assert warned(text, size, "aluminium", engagement) == ""


def test_the_usual_value_in_steel_is_left_in_peace() -> None:
    assert warned("25.5 N·m", "M8", "steel", "8 mm") == ""
    assert warned("25.5 N·m", "M8", "cast iron", "12 mm") == ""


def test_an_engagement_in_inches_is_the_same_hole() -> None:
    hole = read_hole("cast iron", "0.5 in", thread("1/2-13"))
    assert isinstance(hole, Hole)
    assert hole.engagement_mm == pytest.approx(12.7)


def test_a_reading_that_is_offered_names_material_and_engagement() -> None:
    found = read_hole("cast iron", "", thread("M10"))
    assert isinstance(found, Refusal)
    assert found.readings == ('--parent "cast iron" --engagement 15mm',)
