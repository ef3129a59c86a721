"""Units on the screen: the answers move while the value is typed.

Expected figures: NIST Handbook 44 and SP 811 give the pound-force, the inch and the kilogram-force exactly;
96 in-lb = 10.85 N·m and 100 N·m = 73.76 ft-lb = 10.20 kgf·m follow by hand.
"""

from __future__ import annotations

import pytest

from tests.screens.bay import ROOMS, Bay, Seen, name_of
from torqref.screens.look import Look


def test_the_answers_move_while_the_value_is_typed(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("100.0 nm")
        assert "73.8 ft-lb" in seen.text
        assert "10.20 kgf·m" in seen.text
        await seen.press("ctrl+u")
        await seen.type("96 in-lb")
        assert "10.8 N·m" in seen.text or "10.85 N·m" in seen.text

    bay.show("convert", script)


def test_the_value_is_said_in_words(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("22-26 nm")
        assert "twenty-two to twenty-six newton metres" in seen.text

    bay.show("convert", script)


def test_a_chain_is_shown_stage_by_stage_with_the_turn_as_the_hand_counts_it(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("30 nm + 90 deg")
        assert "30 N·m" in seen.text
        assert "= 1/4 turn" in seen.text

    bay.show("convert", script)


def test_with_a_thread_beside_it_the_value_is_judged(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("m6 8.8 96 ft-lb")
        assert "would break M6x1 8.8" in seen.flat
        await seen.press("ctrl+u")
        await seen.type("m8 10.9 24 nm")
        assert "is usual for M8x1.25 10.9" in seen.flat

    bay.show("convert", script)


def test_a_bare_number_is_answered_with_what_could_be_meant(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("15 lbs")
        assert "write: 15 ft-lb" in seen.text
        assert "write: 15 in-lb" in seen.text

    bay.show("convert", script)


def test_enter_empties_the_field_for_the_next_value_and_then_goes_back(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("24 nm")
        await seen.press("enter")
        assert "ft-lb" not in seen.text
        assert "enter  back" in seen.lines[-1]
        await seen.press("enter")

    assert bay.show("convert", script) == 0


def test_the_help_key_explains_pounds(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("?")
        assert "forces here" in seen.flat

    bay.show("convert", script)


@pytest.mark.parametrize("text", ["[/b]24 nm", "[[[", "24 nm (99 ft-lb)", "1" * 90 + " nm", "0 nm", "\\"])
def test_nothing_that_is_typed_breaks_it(bay: Bay, text: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.type(text)
        assert seen.fills(40, 12)

    bay.show("convert", script, size=(40, 12))


@pytest.mark.parametrize(("size", "look"), ROOMS, ids=name_of)
def test_the_value_and_its_units_are_seen_in_every_room(bay: Bay, size: tuple[int, int], look: Look) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("22-26 nm")
        assert seen.fills(*size)
        for unit in ("ft-lb", "in-lb", "kgf"):
            assert unit in seen.text
        assert "16.23" in seen.text
        assert seen.text.isascii() or not look.ascii_only

    bay.show("convert", script, size=size, look=look)
