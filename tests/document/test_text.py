"""Escaping, nearest words, refusals, and where keys stand."""

from __future__ import annotations

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from torqref.document.escape import escape, escape_lines
from torqref.document.lines import key_lines
from torqref.document.nearest import nearest
from torqref.document.refusal import Refusal


@given(st.text())
def test_no_control_or_bidi_character_survives_escaping(text: str) -> None:
    shown = escape(text)
    assert not {unicodedata.category(char) for char in shown} & {"Cc", "Cf", "Cs", "Zl", "Zp"}


@given(st.text())
def test_escaping_twice_is_escaping_once(text: str) -> None:
    assert escape(escape(text)) == escape(text)


def test_the_signs_of_the_trade_stay_as_they_are() -> None:
    text = "22–26 N·m ±5 % 90° M8×1.25 −3"
    assert escape(text) == text


def test_lines_of_a_diagram_stay_lines() -> None:
    assert escape_lines("1 2\n3\x074\n") == "1 2\n3<U+0007>4\n"


def test_the_nearest_word_is_found_and_a_far_one_is_not() -> None:
    assert nearest("exaust-manifold", ["exhaust-manifold", "head"]) == "exhaust-manifold"
    assert nearest("zzz", ["exhaust-manifold", "head"]) is None


def test_a_refusal_points_at_what_was_not_understood() -> None:
    refusal = Refusal(text="24 Nmm", message="not a unit", readings=("24 N·m",), caret=3)
    assert refusal.pointed() == "24 Nmm\n   ^"
    assert refusal.sentence() == "not a unit. Write one of: 24 N·m."


def test_inner_arrays_are_counted_anew_in_each_table() -> None:
    text = "[[group]]\n[[group.stage]]\n[[group.stage]]\n[[group]]\n[[group.stage]]\nhand = 1\n"
    assert key_lines(text)["group[2].stage[1].hand"] == 6
