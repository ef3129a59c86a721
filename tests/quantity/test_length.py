"""Lengths as a technician measures and types them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.length import read_length
from torqref.quantity.term import Length


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("38 mm", "38", "mm"),
        ("40mm", "40", "mm"),
        ("3,5 cm", "3.5", "cm"),
        ("0.45 m", "0.45", "m"),
        ("1.5 in", "1.5", "in"),
        ("1.5in.", "1.5", "in"),
        ("1 1/2 in", "1.5", "in"),
        ("1-1/2 in", "1.5", "in"),
        ("1½ inches", "1.5", "in"),
        ("15/16 in", "0.9375", "in"),
        ('1 1/2"', "1.5", "in"),
        ("3/4″", "0.75", "in"),
        ("2 ft", "2", "ft"),
        ("2'", "2", "ft"),
        ("1' 6\"", "18", "in"),
        ("1 ft 6 1/2 in", "18.5", "in"),
        ("0 mm", "0", "mm"),
        ("１２ mm", "12", "mm"),
    ],
)
def test_a_length_is_read_with_its_unit(text: str, value: str, unit: str) -> None:
    length = read_length(text)
    assert isinstance(length, Length), length
    assert (length.value, length.unit) == (Fraction(value), unit)


@pytest.mark.parametrize(
    ("text", "words", "readings"),
    [
        ("38", "no unit", ("38 mm", "38 in")),
        ("1 1/2", "no unit", ("1 1/2 mm", "1 1/2 in")),
        ("-1.5 in", "negative", ("1.5 in",)),
        ("1,500 mm", "more than one way", ("1500 mm", "1.500 mm")),
        ("15/16 mm", "metric length", ("0.9375 mm",)),
        ("38 N·m", "no unit of length", ()),
        ("38 mm 40 mm", "nothing after it", ()),
        ("17 mm flare", "nothing after it", ("17 mm",)),
        ("2 ft 3 mm", "inches only", ()),
        ("", "a length with its unit", ()),
        ("long", "a length with its unit", ()),
        ("999999 m", "no length of a tool", ()),
    ],
)
def test_a_text_that_is_no_length_is_refused(text: str, words: str, readings: tuple[str, ...]) -> None:
    refusal = read_length(text)
    assert isinstance(refusal, Refusal), refusal
    assert words in refusal.message
    assert refusal.readings == readings


def test_a_hidden_character_is_no_part_of_a_length() -> None:
    assert isinstance(read_length("38\u200b mm"), Refusal)
