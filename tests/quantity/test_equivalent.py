"""A value printed in two units: the same, nearly the same, or a contradiction with its likely slip."""

from __future__ import annotations

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.reading import read_term
from torqref.quantity.term import Term


@pytest.mark.parametrize(
    "text",
    [
        # 100 N·m is 73.756 ft-lb: both are what somebody rounds it to.
        "100 N·m (74 ft-lb)",
        "100 N·m (73 ft-lb)",
        "20–25 N·m (15–18 ft-lb)",
        "22–26 N·m (16–19 ft-lb)",
        "22 N·m (16 ft-lb, 195 in-lb)",
        "22 N·m / 16 ft-lb / 2.2 kgf·m",
        "12 N·m (106 in-lb)",
        "max 12 N·m (max 106 in-lb)",
        "57 ± 6 in-lb (6.4 ± 0.7 N·m)",
        # One number for a range: it lies in it.
        "22–26 N·m (18 ft-lb)",
        "10 N·m (1 kgf·m)",
    ],
)
def test_what_rounding_explains_is_silent(text: str) -> None:
    term = read_term(text)
    assert isinstance(term, Term), term
    assert term.notes == ()
    assert term.equivalents


@pytest.mark.parametrize(
    ("text", "percent"),
    [
        # 33.6 ft-lb is 45.555 N·m: 0.56 % off.
        ("33.6 ft-lb (45.3 N·m)", "0.6 %"),
        # 60 ft-lb is 81.349 N·m: 1.66 % off.
        ("60 ft-lb (80 N·m)", "1.7 %"),
        # 1 kgf·m is 9.80665 N·m: ten is 1.97 % high.
        ("1.00 kgf·m (10.00 N·m)", "2 %"),
    ],
)
def test_up_to_three_percent_is_told(text: str, percent: str) -> None:
    term = read_term(text)
    assert isinstance(term, Term), term
    (note,) = term.notes
    assert f"{percent} off" in note
    assert "first value counts" in note


@pytest.mark.parametrize(
    ("text", "words", "reading"),
    [
        # 12 N·m is 106.2 in-lb; 16 N·m is 141.6 in-lb.
        ("12 N·m (106 ft-lb)", "106 in-lb would fit", "12 N·m (106 in-lb)"),
        ("16 N·m (142 ft-lb)", "142 in-lb would fit", "16 N·m (142 in-lb)"),
        # 8.0 kgf·m is 78.5 N·m and 57.9 ft-lb.
        ("8.0 kgf·m (58 in-lb)", "58 ft-lb would fit", "8.0 kgf·m (58 ft-lb)"),
        # 25 N·m is 18.4 ft-lb.
        ("25 N·m (184 ft-lb)", "decimal point may be lost", "25 N·m (18.4 ft-lb)"),
        # 150 N·m is 110.6 ft-lb: no slip explains 185.
        ("150 N·m (185 ft-lb)", "67 % apart", "150 N·m"),
        # 70 ft-lb is 94.9 N·m, printed with a factor of 1.4.
        ("70 ft-lb (98 N·m)", "3 % apart", "70 ft-lb"),
        ("22–26 N·m (16–25 ft-lb)", "contradict each other", "22–26 N·m"),
    ],
)
def test_more_is_refused_with_both_values_and_the_likely_slip(text: str, words: str, reading: str) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal)
    assert words in refusal.message
    assert refusal.readings[0] == reading
    first, second = text.rstrip(")").split(" (")
    assert first in refusal.readings
    assert second in refusal.readings


def test_a_contradiction_after_a_comma_may_also_be_two_stages() -> None:
    refusal = read_term("20 N·m, 40 ft-lb")
    assert isinstance(refusal, Refusal)
    assert "20 N·m then 40 ft-lb" in refusal.readings


def test_twelve_times_is_said_as_such() -> None:
    refusal = read_term("12 N·m (106 ft-lb)")
    assert isinstance(refusal, Refusal)
    assert "12 times as much" in refusal.message


def test_every_stage_of_a_chain_has_its_own_equivalents() -> None:
    term = read_term("20 N·m (15 ft-lb), 40 N·m (30 ft-lb), 90°")
    assert isinstance(term, Term), term
    assert len(term.stages) == 3
    assert [each.unit for each in term.equivalents] == ["ft-lb", "ft-lb"]


def test_the_first_printed_value_is_the_specification() -> None:
    term = read_term("16 ft-lb (22 N·m)")
    assert isinstance(term, Term)
    stage = term.stages[0]
    assert stage.kind == "torque"
    assert stage.unit == "ft-lb"
