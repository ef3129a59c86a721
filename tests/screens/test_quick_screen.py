"""The quick walk on the screen, key by key: a value, how the bolts stand, on the first bolt."""

from __future__ import annotations

import pytest

from tests.screens.bay import ROOMS, Bay, Seen, name_of
from torqref.screens.look import Look
from torqref.walk.archive import records


def test_value_enter_bolts_enter_enter_is_the_way_to_the_first_bolt(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("M8 10.9 24 Nm")
        await seen.press("enter")
        await seen.type("2x5")
        await seen.press("enter")
        assert seen.name == "WalkScreen"
        bay.clock.go(seconds=1)
        await seen.press("enter")
        assert "0 of 10 done" in seen.text
        assert "[3]" in seen.text

    bay.show("quick", script)
    assert records(bay.records)[0][0].state == "open"


def test_the_reading_moves_while_it_is_typed(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("m8 24")
        assert '"24" has no unit' in seen.text
        assert "write: m8 24 ft-lb" in seen.text
        await seen.type(" nm")
        assert "M8x1.25: twenty-four newton metres" in seen.text
        assert "that is 17.7 ft-lb" in seen.text
        await seen.press("backspace")
        assert "newton metres" not in seen.text

    bay.show("quick", script)


def test_the_picture_moves_with_the_bolts_and_the_order_says_that_it_is_generic(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("24 nm")
        await seen.press("enter")
        await seen.type("c8")
        assert "circle of 8" in seen.text
        assert "generic, not the manufacturer's" in seen.flat
        await seen.press("ctrl+u")
        await seen.type("5/4")
        assert "rows of 5, 4" in seen.text

    bay.show("quick", script)


def test_a_value_that_would_break_the_bolt_is_said_while_typing_and_asked_before_the_pull(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("m6 8.8 96 ft-lb")
        assert "would break M6x1 8.8" in seen.flat
        assert "96 in-lb" in seen.flat
        await seen.press("enter", "enter")
        assert seen.name == "WalkScreen"
        assert "QUESTION" in seen.text

    bay.show("quick", script)


@pytest.mark.parametrize(("text", "bolts"), [("24", ""), ("24 nm", "many"), ("15 lbs", "3")])
def test_what_is_not_clear_is_refused_and_starts_nothing(bay: Bay, text: str, bolts: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.type(text)
        await seen.press("tab")
        await seen.type(bolts)
        await seen.press("enter")
        assert seen.name == "QuickScreen"
        assert "not clear yet" in seen.lines[-1]
        assert any(piece.tone == "trouble" for row in seen.screen.painter.lines for piece in row)

    bay.show("quick", script)
    assert not bay.records.exists()


def test_tab_and_arrows_go_between_the_fields(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("tab")
        await seen.type("3")
        await seen.press("up")
        await seen.type("24 nm")
        assert "24 nm_" in seen.lines[1]
        assert "3" in seen.lines[2]
        await seen.press("enter")
        assert seen.name == "WalkScreen"

    bay.show("quick", script)


def test_enter_on_nothing_goes_back(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")

    assert bay.show("quick", script) == 0


def test_the_same_job_asks_whether_it_goes_on_or_begins_anew(bay: Bay) -> None:
    async def begin(seen: Seen) -> None:
        await seen.type("24 nm")
        await seen.press("enter")
        await seen.type("4")
        await seen.press("enter")
        for _ in range(3):
            bay.clock.go(seconds=1)
            await seen.press("enter")
        await seen.press("q")

    async def again(seen: Seen) -> None:
        await seen.type("24 Nm")
        await seen.press("enter")
        await seen.type("4")
        await seen.press("enter")
        assert "This job is open already" in seen.text
        assert "2 of 4 done" in seen.flat
        await seen.press("x")
        assert "This job is open already" not in seen.text
        await seen.press("enter", "1")
        assert seen.name == "WalkScreen"
        assert "2 of 4 done" in seen.text
        await seen.press("q")

    async def anew(seen: Seen) -> None:
        await seen.type("24 Nm")
        await seen.press("enter")
        await seen.type("4")
        await seen.press("enter", "2")
        assert "0 of 4 done" in seen.text

    bay.show("quick", begin)
    bay.show("quick", again)
    assert len(records(bay.records)[0]) == 1
    bay.show("quick", anew)
    assert len(records(bay.records)[0]) == 2


def test_the_keep_key_at_the_end_writes_the_draft_once(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("M8 24 nm")
        await seen.press("enter")
        await seen.type("4")
        await seen.press("enter")
        for _ in range(5):
            bay.clock.go(seconds=1)
            await seen.press("enter")
        assert any("k  keep" in line for line in seen.lines[-2:])
        await seen.press("k")
        assert "Kept as draft" in seen.flat
        await seen.press("k")
        assert "does nothing here" in seen.flat

    bay.by = "Ann"
    bay.show("quick", script, size=(100, 30))
    assert [path.name for path in bay.own.iterdir()] == ["draft-m8x1-25-24-nm-4.toml"]


def test_the_help_key_tells_how_to_type_it(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("?")
        assert "two rows of five" in seen.flat

    bay.show("quick", script)


@pytest.mark.parametrize("text", ["[/b] 24 nm", "[red]", "((", "24 nm [/]", '"', "{}", "%s"])
def test_brackets_are_only_text(bay: Bay, text: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.type(text)
        assert text in seen.lines[1]
        await seen.press("tab")
        await seen.type(text)
        assert seen.fills(80, 24)

    bay.show("quick", script)


def test_a_pasted_escape_is_left_out_of_the_value(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.paste("24 N·m\x1b[31m\u202e\nx")
        assert "\x1b" not in seen.text
        assert "24 N·m[31m_" in seen.lines[1]

    bay.show("quick", script)


@pytest.mark.parametrize(("size", "look"), ROOMS, ids=name_of)
def test_value_bolts_doubt_and_main_key_are_seen_in_every_room(
    bay: Bay, size: tuple[int, int], look: Look
) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("m6 8.8 96 ft-lb")
        await seen.press("enter")
        await seen.type("2x5")
        assert seen.fills(*size)
        assert "m6 8.8 96 ft-lb" in seen.lines[1]
        assert "2x5_" in seen.lines[2]
        assert "would break" in seen.flat
        assert "start: 2 rows of 5" in seen.lines[-1]
        assert seen.text.isascii() or not look.ascii_only

    bay.show("quick", script, size=size, look=look)


def test_records_that_cannot_be_written_are_told(bay: Bay) -> None:
    bay.home.joinpath("records").write_text("a file where the folder should be", encoding="utf-8")

    async def script(seen: Seen) -> None:
        await seen.type("24 nm")
        await seen.press("enter", "enter")
        assert seen.name == "QuickScreen"
        assert "cannot be written" in seen.flat

    bay.show("quick", script)
