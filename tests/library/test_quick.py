"""A job that no library has, typed as one says it: value, thread, class, condition, how the bolts stand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.library.quick import Typed, quick_group, read_typed


def typed(text: str) -> Typed:
    found = read_typed(text)
    assert isinstance(found, Typed), found
    return found


def refused(text: str) -> Refusal:
    found = read_typed(text)
    assert isinstance(found, Refusal), found
    return found


def group(text: str, arrangement: str = "2x5") -> Group:
    found = quick_group(text, arrangement)
    assert isinstance(found, Group), found
    return found


@pytest.mark.parametrize(
    ("text", "bolt", "stages"),
    [
        ("24 N·m", "", ["24 N·m"]),
        ("M8 10.9 24 N·m", "M8x1.25 10.9", ["24 N·m"]),
        ("24 N·m M8 10.9", "M8x1.25 10.9", ["24 N·m"]),
        ("M8, 10.9, 24 N·m", "M8x1.25 10.9", ["24 N·m"]),
        ("10.9 24 N·m M8", "M8x1.25 10.9", ["24 N·m"]),
        ("m8 10,9 24nm", "M8x1.25 10.9", ["24nm"]),
        ("M8 x 1 24 N·m", "M8x1", ["24 N·m"]),
        ("M6 8.8 82 in-lb (75–90)", "M6x1 8.8", ["82 in-lb (75–90)"]),
        ("M8 8.8 N·m", "M8x1.25", ["8.8 N·m"]),
        ("M8 8.8 8.8 N·m", "M8x1.25 8.8", ["8.8 N·m"]),
        ("M10 1.5 N·m", "M10x1.5", ["1.5 N·m"]),
        ("30 N·m + 90° + 90°", "", ["30 N·m", "90°", "90°"]),
        ("M10 12.9 30 N·m + 90° + 90°", "M10x1.5 12.9", ["30 N·m", "90°", "90°"]),
        ("3/8-16 grade 5 30 ft-lb", "3/8-16 UNC SAE grade 5", ["30 ft-lb"]),
        ("3/8 8 30 ft-lb", "3/8-16 UNC SAE grade 8", ["30 ft-lb"]),
        ("3/8 24 UNF 35 ft-lb", "3/8-24 UNF", ["35 ft-lb"]),
        ("#10-24 20 in-lb", "#10-24 UNC", ["20 in-lb"]),
        ("M10 A2-70 30 N·m", "M10x1.5 A2-70", ["30 N·m"]),
        ("hand then 12 N·m then 24 N·m", "", ["hand", "12 N·m", "24 N·m"]),
        ("M8: 25 N·m", "M8x1.25", ["25 N·m"]),
        ("M8 8.8 bolts 25 N·m", "M8x1.25 8.8", ["25 N·m"]),
        ("5/16 18 ft-lb", "5/16-18 UNC", ["18 ft-lb"]),
    ],
)
def test_value_thread_and_class_may_stand_anywhere(text: str, bolt: str, stages: list[str]) -> None:
    found = typed(text)
    assert found.bolt == bolt
    assert [stage.text for stage in found.term.stages] == stages


def test_a_condition_is_kept_as_typed() -> None:
    assert typed("M8 24 N·m oiled").condition == "oiled"
    assert group("M8 24 N·m oiled").condition == "oiled"


@pytest.mark.parametrize("words", ["with threadlocker", "lightly oiled", "clean and dry"])
def test_the_small_words_of_a_condition_are_part_of_it(words: str) -> None:
    assert typed(f"M8 24 N·m {words}").condition == words
    assert [stage.text for stage in typed(f"M8 30 N·m and 90° {words}").term.stages] == ["30 N·m", "90°"]


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("M6 A2 8 N·m", "M6 A2-70 8 N·m"),
        ("M6 stainless 8 N·m", "M6 A2-70 8 N·m"),
        ("M10 grade 8 65 N·m", "M10 10.9 65 N·m"),
        ("M8 24", "M8 24 N·m"),
        ("24", "24 in-lb"),
        ("15 lbs", "15 ft-lb"),
        ("M8 8 24 N·m", "M8 8.8 24 N·m"),
        ("24 N·m 1/4 turn", "24 N·m + 1/4 turn"),
        ("3/8-16 30 ft-lb 2 turns", "3/8-16 30 ft-lb + 2 turns"),
    ],
)
def test_what_could_be_meant_otherwise_is_refused_and_each_reading_can_be_typed(
    text: str, offered: str
) -> None:
    refusal = refused(text)
    assert offered in refusal.readings
    assert all(isinstance(read_typed(reading), Typed) for reading in refusal.readings)


def test_the_part_of_a_turn_is_never_taken_for_an_inch_thread() -> None:
    for text in ("24 N·m 1/4 turn", "1/2 turn 24 N·m", "24 N·m 1/4", "3/8-16 30 ft-lb 2 flats"):
        assert isinstance(read_typed(text), Refusal), text


def test_a_spanner_size_is_noticed_as_one() -> None:
    assert "hexagon" in refused("13 mm 24 N·m").message


@pytest.mark.parametrize(
    "text", ["", "   ", "M8", "M8 10.9", "grease", "24 N·m\x1b[2J", "M8 \u202e24 N·m", "[/] 24 N·m"]
)
def test_a_text_without_a_clear_value_is_refused(text: str) -> None:
    assert refused(text).message


def test_too_much_text_is_refused_before_it_is_looked_at() -> None:
    assert "characters" in refused("24 N·m " * 40).message
    assert "words" in refused("a b " * 20).message


@given(st.text(alphabet="M8x1. 024N·m+°/-#\"'[]ftlbin()", max_size=40))
def test_no_text_breaks_the_reading(text: str) -> None:
    assert isinstance(read_typed(text), Typed | Refusal)


# --- the group ------------------------------------------------------------------------------------


def test_the_group_says_that_its_order_is_generic() -> None:
    for arrangement in ("2x5", "circle 8", "3"):
        found = group("24 N·m", arrangement)
        assert found.order.generic
        assert "not the manufacturer's" in found.order.basis


def test_a_chain_becomes_one_stage_after_the_other() -> None:
    stages = group("30 N·m + 90° then back off 45°").stages
    assert [(stage.kind, stage.number) for stage in stages] == [("torque", 1), ("angle", 2), ("back_off", 3)]
    assert stages[2].angle is not None
    assert stages[2].angle.aim == Fraction(-45)


def test_the_value_keeps_what_was_typed_and_its_window() -> None:
    torque = group("M6 8.8 82 in-lb (75–90)").stages[0].torque
    assert torque is not None
    assert (torque.low, torque.target, torque.high) == (Fraction(75), Fraction(82), Fraction(90))
    assert torque.unit == "in-lb"


def test_a_left_hand_thread_turns_the_other_way() -> None:
    assert group("M12 LH 50 N·m").left_hand
    assert not group("M12 50 N·m").left_hand


def test_the_same_job_has_the_same_id_however_it_is_typed() -> None:
    ids = {
        group(text).id
        for text in ("M8 10.9 24 N·m", "24nm m8 10.9", "10.9 M8, 24 Nm", "M8x1.25  10.9  24 N·m")
    }
    assert len(ids) == 1


@pytest.mark.parametrize(
    "other", ["M8 10.9 25 N·m", "M8 8.8 24 N·m", "M8 10.9 24 ft-lb", "M8 10.9 24 N·m oiled", "24 N·m"]
)
def test_another_job_has_another_id(other: str) -> None:
    assert group("M8 10.9 24 N·m").id != group(other).id
    assert group("M8 10.9 24 N·m", "2x5").id != group("M8 10.9 24 N·m", "5x2").id


def test_the_id_is_a_plain_word_whatever_was_typed() -> None:
    for text in ("M8 10.9 24 N·m", "3/8-16 UNC 30 ft-lb (40 N·m)", "12½ ft-lb", "1 kgf·m then 1/4 turn"):
        identity = group(text).id
        assert identity.isascii()
        assert set(identity) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")


def test_a_layout_that_cannot_be_read_is_refused() -> None:
    assert isinstance(quick_group("24 N·m", "many"), Refusal)
