"""Numbers in sentences."""

from __future__ import annotations

from fractions import Fraction

import pytest

from torqref.wrench.figure import figures, fixed, percent, printed


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ("35.503", "35.5"),
        ("214.286", "214"),
        ("8.333", "8.33"),
        ("0.8333", "0.833"),
        ("1234.5", "1234"),
        ("40", "40.0"),
        ("0.00123456", "0.00123"),
        ("0", "0.00"),
    ],
)
def test_three_figures_are_shown(value: str, shown: str) -> None:
    assert figures(Fraction(value)) == shown


def test_numbers_are_rounded_from_the_fraction_with_a_true_minus() -> None:
    assert fixed(Fraction(-12, 10), 1) == "−1.2"
    assert (fixed(Fraction("2.345"), 2, "down"), fixed(Fraction("2.345"), 2, "up")) == ("2.34", "2.35")
    assert printed(Fraction("22.5"), 0) == "22.5"
    assert percent(Fraction(-38, 1000), signed=True) == "−3.8 %"
