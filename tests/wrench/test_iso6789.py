"""Classes of ISO 6789."""

from __future__ import annotations

from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.wrench.iso6789 import tolerance_of


def test_only_the_class_whose_figures_were_seen_is_known() -> None:
    for text in ("II A", "IIA", "Type II, Class A", "ISO 6789 type 2 class A"):
        assert tolerance_of(text, Fraction(60)) == Fraction(4, 100)
    for text in ("I B", "II D", "A", ""):
        assert isinstance(tolerance_of(text, Fraction(60)), Refusal)
