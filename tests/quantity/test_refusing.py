"""Text of no one meaning: refused, with the readings it could have, each ready to be typed."""

from __future__ import annotations

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.reading import read_angle, read_term, read_torque, read_unit
from torqref.quantity.term import Term

# text, words of the message, the readings in their order
REFUSED: list[tuple[str, str, tuple[str, ...]]] = [
    ("35", "no unit", ("35 N·m", "35 ft-lb", "35 in-lb")),
    ("20-25", "no unit", ("20-25 N·m", "20-25 ft-lb", "20-25 in-lb")),
    ("max 25", "no unit", ("max 25 N·m", "max 25 ft-lb", "max 25 in-lb")),
    ("80 ±10%", "no unit", ("80 ±10% N·m", "80 ±10% ft-lb", "80 ±10% in-lb")),
    ("15 lbs", "a force", ("15 ft-lb", "15 in-lb")),
    ("15 pounds", "a force", ("15 ft-lb", "15 in-lb")),
    ("25 lbs of torque", "a force", ("25 ft-lb of torque", "25 in-lb of torque")),
    ("2.5 kg", "a force", ("2.5 kgf·m", "2.5 kgf·cm", "2.5 kgf·mm")),
    ("20 N", "a force", ("20 N·m", "20 N·cm", "20 N·mm")),
    ("15 ft", "a length", ("15 ft-lb",)),
    ("15 in", "a length", ("15 in-lb", "15 ozf·in")),
    ("1,200 ft-lb", "more than one way", ("1200 ft-lb", "1.200 ft-lb")),
    ("1,200–1,500 N·m", "more than one way", ("1200-1500 N·m", "1.200-1.500 N·m")),
    ("08 N·m", "nought", ("8 N·m", "0.8 N·m")),
    ("25 Nm then 90", "no unit", ("25 Nm then 90°", "25 Nm then 90 N·m")),
    ("30 N·m + 90 + 90", "no unit", ("30 N·m + 90° + 90°",)),
    ("25 N·m + 90", "no unit", ("25 N·m + 90°", "25 N·m + 90 N·m")),
    ("24 N·m + 2", "no unit", ("24 ± 2 N·m", "24 N·m + 2°")),
    ("30 N·m + 1/4", "no unit", ("30 ± 1/4 N·m", "30 N·m + 1/4 turn")),
    ("57 + 6 in-lb", "± may have been lost", ("57 ± 6 in-lb", "57 in-lb then 6 in-lb")),
    ("57 N·m + 6 N·m", "± may have been lost", ("57 ± 6 N·m", "57 N·m then 6 N·m")),
    ("24 N·m +10 %", "one sign only", ("24 N·m ± 10 %", "24 N·m +10/-0 %")),
    ("15/16 ft-lb", "fraction or a range", ("0.9375 ft-lb", "15–16 ft-lb")),
    ("20/25 N·m", "fraction or a range", ("20–25 N·m", "20 N·m then 25 N·m")),
    ("20 25 N·m", "side by side", ("20–25 N·m", "20 N·m then 25 N·m")),
    ("1 200 N·m", "side by side", ("1200 N·m", "1–200 N·m", "1 N·m then 200 N·m")),
    ("20 N·m 15 ft-lb", "side by side", ("20 N·m (15 ft-lb)", "20 N·m then 15 ft-lb")),
    ("20N·m15ft-lb", "side by side", ("20N·m (15ft-lb)", "20N·m then 15ft-lb")),
    ("30 N·m 90°", "side by side", ("30 N·m + 90°",)),
    ("30 N·m, 28–32 N·m", "side by side", ("30 N·m (28-32 N·m)",)),
    ("25-20 ft-lb", "larger value to the smaller", ("20–25 ft-lb", "25 ft-lb then 20 ft-lb")),
    ("20-20 ft-lb", "the same", ("20 ft-lb",)),
    ("30 then 60 N·m", "no unit", ("30–60 N·m", "30 N·m then 60 N·m")),
    ("24 N·m -2", "larger value", ("24 ± 2 N·m", "24 +0/-2 N·m", "2–24 N·m", "24 N·m then 2 N·m")),
    ("24 N·m ± 0", "tolerance of zero", ("24 N·m",)),
    ("24 ± 2 ± 1 N·m", "no unit", ()),
    ("20-25/30 N·m", "fraction or two numbers", ()),
    (
        "24–26–28 N·m",
        "neither a value nor a range",
        ("24 N·m then 26 N·m then 28 N·m", "26 N·m (24–28 N·m)"),
    ),
    ("24 N·m ± 100 %", "not above zero", ("24 N·m", "max 48 N·m")),
    ("20, 40, 60 N·m", "no unit", ("20 N·m then 40 N·m then 60 N·m",)),
    ("5.0 +0.5", "± may have been lost", ("5.0 ± 0.5 N·m", "5.0 ± 0.5 ft-lb", "5.0 ± 0.5 in-lb")),
    ("1. 20 N·m 2. 40 N·m", "number of a stage", ("1) 20 N·m 2) 40 N·m",)),
    ("1. 20 N·m", "number of a stage", ("1) 20 N·m", "1.20 N·m")),
    ("25 N·m/m", "left over", ("25 N·m",)),
    ("25 kg/cm2", "no unit", ("25 N·m", "25 ft-lb", "25 in-lb")),
    ("25 N/m²", "no unit", ("25 N·m", "25 ft-lb", "25 in-lb")),
    ("25 mN", "a force", ("25 mN·m",)),
    ("24 Nmn", "no unit", ("24 N·m",)),
    ("20 N·m or 25 N·m", "which of the two", ("20 N·m", "25 N·m", "20 N·m then 25 N·m")),
    ("20 N·m / 25 N·m", "which of the two", ("20 N·m", "25 N·m", "20 N·m then 25 N·m")),
    ("30 N·m - 90°", "in N·m and in °", ("30 N·m + 90°", "30 N·m then back off 90°")),
    ("1/8 past finger tight", "no unit", ("1/8 turn past finger tight", "1/8 flat past finger tight")),
    ("-90°", "minus sign", ("back off 90°", "90°")),
    ("-5 N·m", "negative", ("5 N·m",)),
    ("0-5 N·m", "not above zero", ("max 5 N·m",)),
    ("5 ± 6 N·m", "not above zero", ("5 N·m", "max 11 N·m")),
    ("25 J", "an energy", ("25 N·m", "25 ft-lb", "25 in-lb")),
    ("25 bar", "a pressure", ("25 N·m", "25 ft-lb", "25 in-lb")),
    ("25 psi", "a pressure", ("25 N·m", "25 ft-lb", "25 in-lb")),
    ("90 °C", "a temperature", ("90 N·m", "90 ft-lb", "90 in-lb")),
    ("5 MNm", "a million", ("5 mN·m", "5 N·m")),
    ("22 N·m (16)", "in brackets has no unit", ("22 N·m (16 ft-lb)",)),
    ("25 N·m (18 ft-lb", "not closed", ("25 N·m (18 ft-lb)",)),
    ("25 N·m dry", "left over", ("25 N·m",)),
    ("25 N·m each", "left over", ("25 N·m",)),
    ("back off 5 N·m", "a turn, not a torque", ()),
    ("0 N·m", "zero", ()),
    ("0°", "zero", ()),
    ("1e3 N·m", "exponents", ()),
    ("1e400 N·m", "exponents", ()),
    ("10^2 N·m", "exponents", ()),
    ("10² N·m", "exponents", ()),
    ("9**9**9 N·m", "exponents", ()),
    ("nan", "no number", ()),
    ("nan N·m", "no number", ()),
    ("inf N·m", "no number", ()),
    ("1.2.3 N·m", "more than one way", ("1.23 N·m", "12.3 N·m")),
    ("1234567890123456 N·m", "15 digits", ()),
    ("999999999 N·m", "too large", ()),
    ("500 turns", "hundred turns", ()),
    ("", "a value is expected", ()),
    ("   ", "a value is expected", ()),
    ("()", "no value", ()),
    ("hello", "no value", ()),
    ("Stage 1: 15 N·m; Stage 3: 35 N·m", "counted one after the other", ()),
    # a colon between two numbers is no label
    ("20:25 Nm", "no unit", ("20–25 N·m", "20 N·m then 25 N·m")),
    # a plus in words is a plus
    ("20 Nm plus 5 Nm", "± may have been lost", ("20 ± 5 N·m", "20 Nm then 5 Nm")),
    ("57 plus 6 in-lb", "± may have been lost", ("57 ± 6 in-lb", "57 in-lb then 6 in-lb")),
    ("20-40-60 Nm", "neither", ("20 N·m then 40 N·m then 60 N·m", "40 N·m (20–60 N·m)")),
    (
        "20 Nm / 40 Nm / 60 Nm",
        "are these stages",
        ("20 Nm then 40 Nm then 60 Nm", "20 Nm", "40 Nm", "60 Nm"),
    ),
    ("max 20-25 Nm", "a limit is one number", ("20-25 Nm", "max 25 Nm")),
    ("min 20 Nm - 25 Nm", "side by side", ()),
    ("1 200–1 400 N·m", "side by side", ("1200-1400 N·m",)),
    ("25 ft-lb ± 2 in-lb", "in ft-lb and in in-lb", ()),
    # letters and signs that slipped
    ("2O Nm", "a digit is expected", ("20 Nm",)),
    ("l2 Nm", "no value", ("12 Nm",)),
    ("25 fl-lb", "no unit", ("25 ft-lb",)),
    ("25 ft-ib", "a length", ("25 ft-lb",)),
    ("25 in-Ib", "a length", ("25 in-lb",)),
    ("25 ftt lb", "no unit", ("25 ft-lb",)),
    ("25 lbf-yd", "a force", ()),
    ("25 кгсм", "no unit", ("25 kgf·m", "25 kgf·cm")),
    ("12·5 lb ft", "decimal point in the middle", ("12.5 lb ft",)),
    ("12·5–14·5 lb ft", "decimal point in the middle", ("12.5-14.5 lb ft",)),
    ("5. Nm", "without digits", ("5 Nm",)),
    (",8 Nm", "a nought is missing", ("0.8 Nm",)),
    ("Nm 25", "before its value", ("25 N·m",)),
    ("ft-lb: 20-25", "before its value", ("20-25 ft-lb",)),
    ("30 Nm + 90 Grad", "surveyors", ("30 Nm + 90 °",)),
    ("90° anticlockwise", "left-hand thread", ("back off 90°", "90°")),
    ("two quarter turns", "a share of a turn", ("1/2 turns", "1/4 turn + 1/4 turns")),
    ("25,Nm", "without digits", ("25 Nm",)),
    ("20, 25 Nm", "no unit", ("20.25 N·m", "20–25 N·m", "20 N·m then 25 N·m")),
    ("25 .5 Nm", "side by side", ("25.5 Nm", "25 N·m then .5 N·m")),
    # slashes: a row of them is a row of stages sooner than many ways to say one value
    (
        "30 Nm / 60 Nm / 90°",
        "are these stages",
        ("30 Nm then 60 Nm then 90°", "30 Nm then 90°", "60 Nm then 90°"),
    ),
    (
        "30 Nm/60 Nm/90°/90°",
        "are these stages",
        ("30 Nm then 60 Nm then 90° then 90°", "30 Nm then 90° then 90°", "60 Nm then 90° then 90°"),
    ),
    # a half of a unit, and another half behind an odd sign or of another trade
    ("12 ft'lb", "no unit that is known", ("12 ft-lb",)),
    ("12 ft\N{PRIME}lbs", "no unit that is known", ("12 ft-lb",)),
    ('12 in"lb', "no unit that is known", ("12 in-lb",)),
    ("12 ft,lb", "no unit that is known", ("12 ft-lb",)),
    ("12 ft|lb", "no unit that is known", ("12 ft-lb",)),
    ("12 N:m", "no unit that is known", ("12 N·m",)),
    ("12 N+m", "no unit that is known", ("12 N·m",)),
    ("15 ft-oz", "no torque of the trade", ("15 ft-lb", "15 ozf·in")),
    ("15 oz ft", "no torque of the trade", ("15 ft-lb", "15 ozf·in")),
    ("15 N-ft", "no torque of the trade", ("15 N·m", "15 ft-lb")),
    ("15 in-kg", "no torque of the trade", ("15 in-lb", "15 kgf·m", "15 kgf·cm")),
    ("24 ft-lb-in", "not understood", ()),
    ("24NmNm", "no unit", ("24 N·m",)),
    # doubled points and leading noughts
    ("1.5.0 Nm", "more than one way", ("1.50 Nm", "15.0 Nm")),
    ("12,5.5 Nm", "more than one way", ("12.55 Nm", "125.5 Nm")),
    ("1.200.00 Nm", "more than one way", ("1200.00 Nm", "1.20000 Nm")),
    ("1.2.3.4 Nm", "more marks than a number has", ()),
    ("0.800,5 Nm", "more than one way", ("0.8005 Nm",)),
    ("1..5 Nm", "typed twice", ("1.5 Nm", "1–5 Nm")),
    ("000015 Nm", "nought", ("15 Nm",)),
    ("007 ft-lb", "nought", ("7 ft-lb",)),
    ("015 Nm", "nought", ("15 Nm", "0.15 Nm")),
    ("01.5 Nm", "nought", ("1.5 Nm",)),
    ("00.5 Nm", "nought", ("0.5 Nm",)),
    ("24 ,5 Nm", "no unit", ("24.5 N·m", "24 N·m then 5 N·m")),
    ("24,- Nm", "without digits", ("24 Nm",)),
    ("24.-26 Nm", "without digits", ("24-26 Nm",)),
    ("12 0 Nm", "side by side", ("120 Nm",)),
    ("1 200,5 Nm", "side by side", ("1200,5 Nm", "1–200,5 N·m", "1 N·m then 200,5 N·m")),
    # glued stages and odd separators
    ("30Nm90°90°", "side by side", ("30Nm + 90° + 90°",)),
    (
        "30Nm-60Nm-90°",
        "minus sign",
        ("30Nm then 60Nm then 90°", "30Nm-60Nm then 90°", "30Nm-60Nm then back off 90°"),
    ),
    ("30-60 Nm-90°", "minus sign", ("30-60 Nm then 90°", "30-60 Nm then back off 90°")),
    ("30 Nm > 60 Nm > 90°", "does not hold", ("30 Nm then 60 Nm + 90°",)),
    ("30>60>90 Nm", "no unit", ("30 N·m then 60 N·m then 90 N·m",)),
    ("24 -> 26 Nm", "no unit", ("24 N·m then 26 N·m", "24–26 N·m")),
    ("30 Nm | 60 Nm", "belong together", ("30 Nm then 60 Nm",)),
    ("22 Nm | 16 ft-lb", "belong together", ("22 Nm (16 ft-lb)", "22 Nm then 16 ft-lb")),
    ("30 Nm \\ 90°", "belong together", ("30 Nm then 90°",)),
    ("30 Nm : 90°", "side by side", ("30 Nm + 90°",)),
    # letters that look like others
    ("1S Nm", "a time", ("15 Nm",)),
    ("1OO Nm", "a letter", ("100 Nm",)),
    ("2Z Nm", "a letter", ("22 Nm",)),
    ("24 \N{GREEK CAPITAL LETTER NU}m", "no unit", ("24 N·m",)),
    # what a copied value brings along
    ("(25 Nm)", "no value", ("25 Nm",)),
    ('"25 Nm" "30 Nm"', "no value", ()),
    ("• 25 Nm", "no value", ("25 Nm",)),
    ("25 Nm\u200e", "<U+200E>", ("25 Nm",)),
    ("25\u200bNm", "<U+200B>", ("25Nm",)),
    ("\u202e52 Nm", "<U+202E>", ()),
    # what is left over changes the value: no reading without it is offered
    ("25 Nm within 2 Nm", "not understood", ()),
    ("25 Nm, absolute limit", "not understood", ()),
    ("30 Nm, wait 10 min, 90°", "not understood", ()),
]


@pytest.mark.parametrize(("text", "words", "readings"), REFUSED)
def test_a_text_of_no_one_meaning_is_refused_with_its_readings(
    text: str, words: str, readings: tuple[str, ...]
) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal), refusal
    assert words in refusal.message
    assert refusal.readings == readings


@pytest.mark.parametrize("text", [row[0] for row in REFUSED])
def test_every_reading_that_is_offered_can_be_typed(text: str) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal)
    assert all(isinstance(read_term(reading), Term) for reading in refusal.readings)


@pytest.mark.parametrize("text", [row[0] for row in REFUSED])
def test_a_refusal_is_one_sentence_in_the_shape_of_all_messages(text: str) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal)
    assert not refusal.message.endswith(".")
    assert "\n" not in refusal.sentence()


@pytest.mark.parametrize(
    ("text", "under"),
    [
        ("25 N·m dry", "d"),
        ("12½ N·m dry", "d"),
        ("１２ N·m then foo", "f"),
        ("½½ N·m", "½"),
        ("25 J", "J"),
        ("15 lbs", "l"),
        ("57 + 6 in-lb", "+"),
        ("30 N·m + -5 N·m", "-"),
        ("24 N·m ± x", "x"),
        ("24 N·m )", ")"),
        ("25 N·m (184 ft-lb)", "1"),
    ],
)
def test_the_caret_stands_under_what_was_not_understood(text: str, under: str) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal)
    assert refusal.caret is not None
    assert text[refusal.caret] == under
    first, second = refusal.pointed().split("\n")
    assert (first, second) == (text, " " * refusal.caret + "^")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("24\u200b N·m", "<U+200B>"),
        ("24 N·m\x1b[2J", "<U+001B>"),
        ("\u202e21 N·m", "<U+202E>"),
        ("24\n25 N·m", "<U+000A>"),
        ("24 N·m\ud800", "<U+D800>"),
    ],
)
def test_a_character_that_cannot_be_seen_is_named_by_its_code(text: str, message: str) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal)
    assert message in refusal.message


def test_a_newline_at_the_end_of_a_value_does_no_harm() -> None:
    assert isinstance(read_term("24 N·m\n"), Term)
    assert isinstance(read_term("\t24 N·m \r\n"), Term)


def test_more_than_two_hundred_characters_are_refused_before_anything_else() -> None:
    refusal = read_term("2" * 201)
    assert isinstance(refusal, Refusal)
    assert "201 characters" in refusal.message
    assert isinstance(read_term("24 N·m" + " " * 194), Term)


def test_a_torque_is_asked_for_and_a_chain_is_refused_with_its_torques() -> None:
    refusal = read_torque("30 N·m + 90°")
    assert isinstance(refusal, Refusal)
    assert refusal.readings == ("30 N·m",)


def test_an_angle_is_asked_for_and_a_chain_is_refused_with_its_angles() -> None:
    refusal = read_angle("30 N·m + 90°")
    assert isinstance(refusal, Refusal)
    assert refusal.readings == ("90°",)


@pytest.mark.parametrize(
    ("text", "symbol"),
    [("Nm", "N·m"), ("lbs ft", "ft-lb"), ("in. lbs.", "in-lb"), ("m-kg", "kgf·m"), ("dNm", "dN·m")],
)
def test_a_unit_is_known_in_any_spelling(text: str, symbol: str) -> None:
    assert read_unit(text) == symbol


@pytest.mark.parametrize(("text", "near"), [("ftlp", "ft-lb"), ("kgfn", "kgf·m"), ("newtonmeterz", "N·m")])
def test_a_mistyped_unit_is_refused_with_the_nearest(text: str, near: str) -> None:
    refusal = read_unit(text)
    assert isinstance(refusal, Refusal)
    assert refusal.readings == (near,)


@pytest.mark.parametrize("text", ["lbs", "mm", "25 N·m", "", "Nm Nm", "x" * 300, "\x1b", "°"])
def test_what_is_no_unit_of_torque_is_refused(text: str) -> None:
    assert isinstance(read_unit(text), Refusal)


@pytest.mark.parametrize("text", [row[0] for row in REFUSED])
def test_a_refusal_says_how_to_write_it(text: str) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal)
    told = ("expected", "write", "too large", "more than", ";", "one after the other", "no stage", "be seen")
    assert refusal.readings or any(word in refusal.message for word in told), refusal.message


@pytest.mark.parametrize("text", ["furlong", "psi", "rpm", "spanner"])
def test_a_word_that_is_near_no_unit_is_refused_with_all_of_them(text: str) -> None:
    refusal = read_unit(text)
    assert isinstance(refusal, Refusal)
    assert refusal.readings[:2] == ("N·m", "kN·m")


@pytest.mark.parametrize(
    ("text", "units"),
    [("lbs", ("ft-lb", "in-lb")), ("kg", ("kgf·m", "kgf·cm", "kgf·mm")), ("mm", ("N·mm", "kgf·mm"))],
)
def test_half_a_unit_is_refused_with_every_unit_it_may_be_half_of(text: str, units: tuple[str, ...]) -> None:
    refusal = read_unit(text)
    assert isinstance(refusal, Refusal)
    assert refusal.readings == units
