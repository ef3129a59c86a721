"""What a person types for an adapter: each form is read, each wrong one has its own message."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.wrench.bench import length, piece
from torqref.document.refusal import Refusal
from torqref.wrench.adapter import Extension, Joint, Multiplier, Part, Piece
from torqref.wrench.fitting import read_angle, read_handle, read_pieces, read_ratio, read_share
from torqref.wrench.rack import Adapter, Rack

FLARE = Adapter(
    id="flare-17",
    name="crowfoot",
    pieces=(piece("32 mm"),),
    measured_by="practice",
    measured_on=date(2027, 1, 15),
    jaw=length("17 mm"),
)
RACK = Rack(adapters=(FLARE,))


def shapes(parts: tuple[Part, ...] | Refusal) -> list[tuple[Fraction, str, Fraction]]:
    assert isinstance(parts, tuple), parts
    return [(one.offset.value, one.offset.unit, one.angle) for one in parts if isinstance(one, Piece)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("38mm", [("38", "mm", 0)]),
        ("38 mm", [("38", "mm", 0)]),
        ("38mm@45", [("38", "mm", 45)]),
        ("38mm@45°", [("38", "mm", 45)]),
        ("38 mm @ 22.5 deg", [("38", "mm", "22.5")]),
        ("38mm@22,5", [("38", "mm", "22.5")]),
        ("38mm@back", [("38", "mm", 180)]),
        ("38mm@across", [("38", "mm", 90)]),
        ("1.5 in", [("1.5", "in", 0)]),
        ('1 1/2"@90', [("1.5", "in", 90)]),
        ("6in + 1.5in@90", [("6", "in", 0), ("1.5", "in", 90)]),
        ("6in+1.5in@90+32mm@180", [("6", "in", 0), ("1.5", "in", 90), ("32", "mm", 180)]),
        ("0", [("0", "mm", 0)]),
    ],
)
def test_offsets_with_and_without_an_angle(text: str, expected: list[tuple[str, str, str]]) -> None:
    assert shapes(read_pieces(text)) == [
        (Fraction(value), unit, Fraction(angle)) for value, unit, angle in expected
    ]


def test_an_adapter_of_the_rack_by_its_name_and_turned() -> None:
    assert read_pieces("flare-17", RACK) == FLARE.pieces
    assert read_pieces("FLARE-17@90", RACK) == (piece("32 mm", 90),)
    assert read_pieces("150mm + flare-17@90", RACK) == (piece("150mm"), piece("32 mm", 90))


def test_extension_joint_and_multiplier() -> None:
    assert read_pieces("extension") == (Extension(text="extension"),)
    assert read_pieces("joint") == (Joint(),)
    assert read_pieces("joint@15") == (Joint(bend=Fraction(15)),)
    assert read_pieces("4:1") == (Multiplier(ratio=Fraction(4)),)


@pytest.mark.parametrize(
    "text",
    ["4:1@90 %", "4:1 90 %", "4:1 90%", "4:1 at 90 %", "4:1, 90 %", "4:1 0.9", "4 : 1 @ 0,90", "4:1 at .9"],
)
def test_the_efficiency_of_a_multiplier_stands_behind_its_ratio(text: str) -> None:
    assert read_pieces(text) == (Multiplier(ratio=Fraction(4), efficiency=Fraction(9, 10)),)


# text, what is said
REFUSED = [
    ("", "a part is missing"),
    ("38mm +", "a part is missing"),
    ("38", "has no unit"),
    ("38 N·m", "is no unit of length"),
    ("38mm@", "an angle is missing after @"),
    ("38mm@sideways", "is not an angle"),
    ("38mm@270", "from straight out, left or right, it is 90°"),
    ("38mm@-45", "it is 45°"),
    ("38mm@400", "it is 40°"),
    ("-38mm", "points back has an angle of 180°"),
    ("−38mm", "points back has an angle of 180°"),
    ("38 m", "longer than any wrench or adapter"),
    ("flare-19", "no rack with adapters was given"),
    ("1:4", "is not the ratio of a multiplier"),
    ("4:1@120 %", "an efficiency is more than 0 % and at most 100 %"),
    ("4:1 120 %", "an efficiency is more than 0 % and at most 100 %"),
    ("4:1 0 %", "an efficiency is more than 0 % and at most 100 %"),
    ("4:1 90", '"90" is not an efficiency'),
    ("4:1 90 % @ 80 %", "is not an efficiency"),
    ("4:1 good", "is not an efficiency"),
    ("x" * 300, "more than 200 characters"),
]


@pytest.mark.parametrize(("text", "says"), REFUSED)
def test_each_wrong_part_has_its_own_message(text: str, says: str) -> None:
    found = read_pieces(text)
    assert isinstance(found, Refusal), found
    assert says in found.message


@pytest.mark.parametrize(("text", "says"), REFUSED)
def test_what_a_refusal_offers_to_write_can_be_read(text: str, says: str) -> None:
    found = read_pieces(text)
    assert isinstance(found, Refusal)
    for reading in found.readings:
        accepted = [read_pieces(reading), read_angle(reading.partition(" (")[0]), read_share(reading)]
        assert not all(isinstance(answer, Refusal) for answer in accepted), (says, reading)


def test_an_unknown_adapter_names_the_ones_there_are() -> None:
    found = read_pieces("flare-19", RACK)
    assert isinstance(found, Refusal)
    assert found.readings == ("flare-17",)


def test_a_wrench_without_length_is_refused() -> None:
    for text, says in (
        ("0 mm", "is no length of a wrench"),
        ("290", "has no unit"),
        ("29 ft", "longer than any"),
    ):
        found = read_handle(text)
        assert isinstance(found, Refusal)
        assert says in found.message


def test_ratio_and_share_are_exact() -> None:
    assert read_ratio("3.75:1") == Fraction(15, 4)
    assert read_share("± 2,5 %") == Fraction(1, 40)


@given(st.text(max_size=60))
def test_no_text_is_more_than_refused(text: str) -> None:
    for found in (read_pieces(text, RACK), read_angle(text), read_ratio(text), read_share(text)):
        assert isinstance(found, Refusal | tuple | Fraction)


@given(st.fractions(0, 180, max_denominator=100), st.fractions(1, 300, max_denominator=100))
def test_every_decimal_angle_and_offset_is_read_exactly(angle: Fraction, offset: Fraction) -> None:
    degrees, millimetres = round(angle, 2), round(offset, 2)
    text = f"{float(millimetres):.2f}mm@{float(degrees):.2f}"
    assert shapes(read_pieces(text)) == [(millimetres, "mm", degrees)]
