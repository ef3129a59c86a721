"""The marks of a scale."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tests.wrench.bench import scale


@given(
    st.fractions(10, 60, max_denominator=50), st.sampled_from(["0.1", "0.2", "0.25", "0.5", "1", "2", "7"])
)
def test_the_marks_around_a_value_enclose_it(value: Fraction, step: str) -> None:
    ruler = scale("10", "60", step)
    marks = ruler.marks(value)
    assert all(((mark - 10) / Fraction(step)).denominator == 1 for mark in marks)
    assert all(10 <= mark <= 60 for mark in marks)
    last = 10 + (Fraction(50) // Fraction(step)) * Fraction(step)
    assert marks[0] <= value <= marks[-1] or marks == (last,)
    assert marks[-1] - marks[0] <= Fraction(step)


def test_values_off_the_scale_have_the_end_mark() -> None:
    assert scale("10", "60", "0.5").marks(Fraction(5)) == (Fraction(10),)
    assert scale("10", "60", "0.5").marks(Fraction(99)) == (Fraction(60),)
    assert scale("10", "60", "0.5").nearest(Fraction(99)) is None


def test_safe_settings_are_put_on_marks_that_are_themselves_safe() -> None:
    assert scale("10", "60", "0.5").marks_within(Fraction("20.6"), Fraction("24.4")) == (
        Fraction(21),
        Fraction(24),
    )
    assert scale("10", "60", "5").marks_within(Fraction("20.6"), Fraction("24.4")) is None
