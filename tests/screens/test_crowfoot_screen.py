"""The crowfoot on the screen: the setting moves while it is typed, and the drawing says what is measured.

Expected settings: moment balance by hand, setting = target x L / (L + E cos angle), for L 300 mm, E 38 mm:
40 x 300/338 = 35.5 straight out, 40 x 300/(300 + 38 cos 45 deg) = 36.7, 40 across, 45.8 folded back. The
same formula stands in TM 9-254 (US Army), figures 4-5 and 4-6.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.bay import ROOMS, Bay, Seen, name_of
from torqref.screens.look import Look
from torqref.wrench.rack import read_rack

RACK = Path(__file__).parents[2] / "demo" / "wrenches.toml"


async def ask(seen: Seen, value: str, offset: str, wrench: str) -> None:
    await seen.type(value)
    await seen.press("enter")
    await seen.type(offset)
    await seen.press("enter")
    await seen.type(wrench)


@pytest.mark.parametrize(
    ("angle", "setting"), [("", "35.5"), ("@45", "36.7"), ("@90", "40"), ("@180", "45.8"), ("@back", "45.8")]
)
def test_the_setting_follows_the_angle(bay: Bay, angle: str, setting: str) -> None:
    async def script(seen: Seen) -> None:
        await ask(seen, "40 nm", f"38mm{angle}", "300 mm")
        assert seen.sets(setting, "N·m")

    bay.show("crowfoot", script, size=(60, 16))


def test_the_setting_moves_with_every_key(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await ask(seen, "40 nm", "38mm", "300 mm")
        assert seen.sets("35.5", "N·m")
        await seen.press("up")
        await seen.type("@4")
        await seen.type("5")
        assert seen.sets("36.7", "N·m")

    bay.show("crowfoot", script, size=(60, 16))


def test_it_says_what_is_still_wanted_and_draws_where_l_and_e_are_measured(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        assert "Still wanted" in seen.text
        assert " L -" in seen.text
        assert " E -" in seen.text
        assert "[+]" in seen.text
        await ask(seen, "40 nm", "38mm@90", "")
        assert "the mark on its grip" in seen.flat
        assert "E 38mm, 90°" in seen.text

    bay.show("crowfoot", script)


def test_ninety_degrees_is_offered_and_what_it_costs_to_be_off_is_said(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await ask(seen, "40 nm", "38mm@45", "300 mm")
        assert "across the handle (90°): set 40, no sum" in seen.flat
        assert "±10° of angle" in seen.flat
        assert "Hand 30 mm off the mark" in seen.flat
        assert "service information comes first" in seen.flat

    bay.show("crowfoot", script)


def test_a_wrench_and_an_adapter_of_the_rack_go_by_their_names(bay: Bay) -> None:
    bay.rack = read_rack(RACK)[0]

    async def script(seen: Seen) -> None:
        await ask(seen, "28 nm", "flare-17", "w2")
        assert "W2, yellow tape" in seen.text
        assert "L 290 mm" in seen.text
        assert "E 32 mm" in seen.text
        assert "At the fastener" in seen.text

    bay.show("crowfoot", script, size=(100, 30))


@pytest.mark.parametrize(
    ("value", "offset", "wrench", "told"),
    [
        ("40", "38mm", "300 mm", "has no unit"),
        ("40 nm", "38", "300 mm", "has no unit"),
        ("40 nm", "38mm@270", "300 mm", "outside 0 to 180"),
        ("40 nm", "nose", "300 mm", "no adapter"),
        ("40 nm", "38mm", "long one", "length"),
        ("40 nm", "38mm@180", "30 mm", "no lever"),
    ],
)
def test_each_field_that_is_not_clear_says_why(
    bay: Bay, value: str, offset: str, wrench: str, told: str
) -> None:
    async def script(seen: Seen) -> None:
        await ask(seen, value, offset, wrench)
        assert told in seen.flat
        assert "SET" not in seen.text

    bay.show("crowfoot", script)


def test_what_does_not_fit_stands_on_the_next_page(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await ask(seen, "40 nm", "38mm@45", "300 mm")
        said = seen.flat
        assert "> more" in seen.flat
        for _ in range(6):
            await seen.type(">")
            assert seen.sets("36.7", "N·m")
            said += seen.flat
        for part in ("±10° of angle", "Hand 30 mm", "service information", "comes first."):
            assert part in said

    bay.show("crowfoot", script, size=(40, 12))


def test_enter_goes_from_field_to_field_and_from_an_empty_first_one_back(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("40 nm")
        await seen.press("enter", "enter", "enter")
        assert "40 nm_" in seen.lines[1]
        await seen.press("ctrl+u", "enter")

    assert bay.show("crowfoot", script) == 0


def test_the_help_key_says_how_to_measure(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("?")
        assert "centre of the drive square" in seen.flat

    bay.show("crowfoot", script)


@pytest.mark.parametrize("text", ["[/b]", "[red]38mm", "38mm@[", "((", "38mm+", "@@", "+++", "4:1@90 %"])
def test_nothing_that_is_typed_breaks_it(bay: Bay, text: str) -> None:
    async def script(seen: Seen) -> None:
        await ask(seen, text, text, text)
        assert seen.fills(44, 18)

    bay.show("crowfoot", script, size=(44, 18))


@pytest.mark.parametrize(("size", "look"), ROOMS, ids=name_of)
def test_fields_and_setting_are_seen_in_every_room(bay: Bay, size: tuple[int, int], look: Look) -> None:
    async def script(seen: Seen) -> None:
        await ask(seen, "40 nm", "38mm@45", "300 mm")
        assert seen.fills(*size)
        assert "SET" in seen.lines[4]
        assert "N.m" in seen.lines[4] or "N·m" in seen.lines[4]
        assert "300 mm_" in seen.lines[3]
        assert "90" in seen.text
        assert seen.text.isascii() or not look.ascii_only

    bay.show("crowfoot", script, size=size, look=look)
