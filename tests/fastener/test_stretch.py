"""What an angle stage adds, as a length."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.fastener.published import thread
from torqref.fastener.stretch import added_stretch_mm, elastic_stretch_mm


def test_half_a_turn_of_m12_is_half_its_pitch() -> None:
    assert added_stretch_mm(thread("M12"), 180) == pytest.approx(1.75 / 2)


def test_half_a_turn_takes_a_head_bolt_beyond_what_it_can_stretch_elastically() -> None:
    # 0.875 mm of travel against 0.49 mm at proof over 120 mm of an M12 10.9 bolt: tightened to yield.
    assert elastic_stretch_mm(830, 120) == pytest.approx(0.49, abs=0.005)
    assert added_stretch_mm(thread("M12"), 180) > elastic_stretch_mm(830, 120)


@given(st.floats(0, 720), st.floats(0, 720))
def test_angles_add_up(first: float, second: float) -> None:
    on = thread("M10x1.25")
    both = added_stretch_mm(on, first) + added_stretch_mm(on, second)
    assert added_stretch_mm(on, first + second) == pytest.approx(both)
