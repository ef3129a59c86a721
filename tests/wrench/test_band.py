"""Errors, windows and what arrives, each alone."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from torqref.wrench.band import Delivery, Error, Window


def test_a_window_with_one_end_holds_everything_on_the_other_side() -> None:
    above = Window(low=Fraction(20), high=None)
    assert above.holds(Fraction(1000))
    assert not above.holds(Fraction(19))
    assert not Window(low=None, high=None).given


@given(
    st.fractions(1, 100, max_denominator=20),
    st.fractions(0, Fraction(1, 5), max_denominator=100),
    st.fractions(0, 20, max_denominator=10),
    st.fractions(0, 2, max_denominator=10),
)
def test_the_highest_and_lowest_setting_meet_the_limit_exactly(
    limit: Fraction, share: Fraction, floor: Fraction, half: Fraction
) -> None:
    error = Error(share=share, floor=floor, fixed=half)
    highest, lowest = error.highest_setting(limit), error.lowest_setting(limit)
    assert highest + error.at(highest) == limit
    assert lowest - error.at(lowest) == limit


def test_nothing_negative_arrives() -> None:
    delivery = Delivery(error=Error(share=Fraction(1, 10), fixed=Fraction(5)))
    assert delivery.band(Fraction(1), "N·m").low == 0
