"""What is measured beside torque, and how long to wait."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.measure import MEASURES, read_duration, read_measure
from torqref.quantity.term import Measure


@pytest.mark.parametrize(
    ("text", "low", "target", "high", "unit"),
    [
        ("0.03–0.13 mm", "0.03", None, "0.13", "mm"),
        ("<= 0.05 mm", None, None, "0.05", "mm"),
        ("max 0.05 mm", None, None, "0.05", "mm"),
        ("0,05 mm max", None, None, "0.05", "mm"),
        ("90 °C", None, "90", None, "°C"),
        ("90℃", None, "90", None, "°C"),
        ("-20 to 5 °C", "-20", None, "5", "°C"),
        ("−20 – −5 °C", "-20", None, "-5", "°C"),
        ("0 ± 0.1 mm", "-0.1", "0", "0.1", "mm"),
        ("15 km", None, "15", None, "km"),
        ("-0.3 L", None, "-0.3", None, "L"),
        ("8.5 l", None, "8.5", None, "L"),
        ("2 turns", None, "2", None, "turn"),
        ("half a turn", None, "0.5", None, "turn"),
        ("250 kPa", None, "250", None, "kPa"),
        ("2.4–2.6 bar", "2.4", None, "2.6", "bar"),
        ("13.8 V", None, "13.8", None, "V"),
        ("3000 rpm", None, "3000", None, "rpm"),
        ("1.5 N·m", None, "1.5", None, "N·m"),
        ("12-16 in-lb", "12", None, "16", "in-lb"),
        ("45°", None, "45", None, "°"),
        ("80 %", None, "80", None, "%"),
        ("12 kg", None, "12", None, "kg"),
        ("0.5 µm", None, "0.5", None, "µm"),
        ("1/16 in", None, "0.0625", None, "in"),
        ("40 min", None, "40", None, "min"),
    ],
)
def test_a_reading_is_read_with_its_unit_and_limits(
    text: str, low: str | None, target: str | None, high: str | None, unit: str
) -> None:
    measure = read_measure(text)
    assert isinstance(measure, Measure), measure
    numbers = tuple(None if value is None else Fraction(value) for value in (low, target, high))
    assert (measure.low, measure.target, measure.high, measure.unit) == (*numbers, unit)


@pytest.mark.parametrize("symbol", MEASURES)
def test_every_measuring_unit_is_read_by_its_own_symbol(symbol: str) -> None:
    measure = read_measure(f"5 {symbol}")
    assert isinstance(measure, Measure), measure
    assert measure.unit == symbol


@pytest.mark.parametrize("symbol", MEASURES)
def test_every_spelling_of_a_measuring_unit_is_read(symbol: str) -> None:
    for word in MEASURES[symbol].split():
        measure = read_measure(f"5 {word}")
        assert isinstance(measure, Measure), (word, measure)
        assert measure.unit == symbol, word


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("8.5", "no unit"),
        ("20/25 kPa", "fraction or a range"),
        ("", "a reading with its unit"),
        ("5 foo", "no unit"),
        ("5 mm 6 mm", "nothing after it"),
        ("0.13–0.03 mm", "larger value to the smaller"),
        ("1,200 mm", "more than one way"),
        ("5 mm wide", "nothing after it"),
    ],
)
def test_a_text_that_is_no_reading_is_refused(text: str, words: str) -> None:
    refusal = read_measure(text)
    assert isinstance(refusal, Refusal)
    assert words in refusal.message


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("10 min", 10),
        ("4 h", 240),
        ("4 hours", 240),
        ("1 h 30 min", 90),
        ("1 h, 30 min", 90),
        ("2 days", 2880),
        ("1 day 12 h", 2160),
        ("90 s", Fraction(3, 2)),
        ("1.5 hours", 90),
        ("half an hour", 30),
        ("1 1/2 h", 90),
    ],
)
def test_a_time_is_read_in_minutes(text: str, minutes: int | Fraction) -> None:
    assert read_duration(text) == minutes


@pytest.mark.parametrize(
    "text", ["", "4", "0 min", "-4 h", "30 min 1 h", "4 mm", "10/15 min", "soon", "4 h 4 h", "99999 days"]
)
def test_a_text_that_is_no_time_is_refused(text: str) -> None:
    assert isinstance(read_duration(text), Refusal)


@pytest.mark.parametrize(
    ("reader", "text", "readings"),
    [
        (read_duration, "10", ("10 min", "10 h")),
        (read_duration, "1 h 30", ("1 h 30 min",)),
        (read_duration, "10 min or so", ("10 min",)),
        (read_duration, "10 N·m", ()),
        (read_measure, "0.05", ("0.05 mm", "0.05 °C", "0.05 bar")),
        (read_measure, "5 mm wide", ("5 mm",)),
        (read_measure, "5 mm 6 mm", ()),
    ],
)
def test_what_is_offered_can_be_typed_and_leaves_out_no_number(
    reader: Callable[[str], object], text: str, readings: tuple[str, ...]
) -> None:
    refusal = reader(text)
    assert isinstance(refusal, Refusal)
    assert refusal.readings == readings
    assert not any(isinstance(reader(reading), Refusal) for reading in readings)
