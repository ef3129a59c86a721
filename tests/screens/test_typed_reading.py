"""An electronic wrench that types like a keyboard: on the walk screen, as fast as a terminal takes it."""

from __future__ import annotations

import pytest
from textual.events import Key

from tests.screens.stage import Screen, Theatre
from tests.walk.workshop import TWO_ROUNDS, group
from torqref.screens.walk_screen import WalkScreen

# Of one torque, 24.1 N·m: as wrenches write it. Each must tick the bolt, with this value.
ONE_TORQUE = (
    "24.1 N·m", "24.1Nm", "24.1 Nm", "24.1 N.m", "24,1 N.m", "+24,1 N.m", "+24.1Nm", "  24.1 Nm", "024.1 Nm",
    "24.10 N-m", "24.1 NM", "24.1 nm", "17.8 ft-lb", "17.8 ft.lb", "17.8ft-lbs", "17.8 lbf.ft", "17.8 lb-ft",
    "213 in-lb", "213.3 in.lb", "213 lbf.in", "213 IN-LB", "2.46 kgf.m", "246 kgf.cm", "2410 cNm", "241 dNm",
)  # fmt: skip
# What says no torque in full, or one that the bolt must not have: told, and nothing is ticked.
NO_TORQUE = (
    "24.1",
    "24.1 lbs",
    "24.1 N",
    "-24.1 Nm",
    "24.1 Nm 24.1 Nm",
    "24.1.1 Nm",
    "+",
    "24.1 Nm OK",
    "0 Nm",
    "241 Nm",
)


@pytest.fixture(autouse=True)
def _hands_are_slow(_hands_are_quick: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(WalkScreen, "burst", 0.06)


def types(screen: Screen, text: str) -> None:
    """Every character of a text at once, as a wrench sends them; a line feed or a return at the end."""
    names = {" ": "space", "\r": "enter", "\n": "ctrl+j"}
    screen.walk.clock.go(seconds=1)
    for char in text:
        screen.app.post_message(Key(names.get(char, char), char))


async def settled(screen: Screen) -> None:
    await screen.pilot.pause(0.1)


@pytest.mark.parametrize("end", ["\r", "\n", "\r\n"], ids=["return", "line feed", "both"])
@pytest.mark.parametrize("text", ONE_TORQUE)
def test_a_reading_ticks_the_bolt_with_what_was_measured(theatre: Theatre, text: str, end: str) -> None:
    walk = theatre.walk(group(TWO_ROUNDS), by="Ada")

    async def script(screen: Screen) -> None:
        await screen.foot(14)
        await screen.pilot.pause()
        types(screen, text + end)
        await settled(screen)

    theatre.show(walk, script)
    assert walk.bolt == (2,), walk.events[-1]
    actual, tick = walk.events[-2:] if walk.events[-1].kind == "check-off" else walk.events[-3:-1]
    assert (actual.kind, tick.kind, actual.bolts, tick.bolts) == ("actual", "check-off", (1,), (1,))
    assert tick.text == f"measured {actual.value}"


@pytest.mark.parametrize("text", NO_TORQUE)
def test_what_is_no_reading_of_this_bolt_ticks_nothing(theatre: Theatre, text: str) -> None:
    walk = theatre.walk(group(TWO_ROUNDS), by="Ada")

    async def script(screen: Screen) -> None:
        await screen.foot(14)
        await screen.pilot.pause()
        types(screen, text + "\r\n")
        await settled(screen)

    theatre.show(walk, script)
    assert walk.bolt == (1,)
    assert walk.asks == "bolt"


@pytest.mark.parametrize("text", ["24.1 Nm", "+24,1 N.m", "  17.8 ft-lb", "96.2 in-lb", "1 Nm", "2 lb-in"])
@pytest.mark.parametrize(("presses", "asks"), [(0, "stop"), (1, "whole"), (2, "stop"), (13, "stop")])
def test_a_reading_never_passes_a_stop_or_a_round_by_hand(
    theatre: Theatre, presses: int, asks: str, text: str
) -> None:
    walk = theatre.walk(group(TWO_ROUNDS), by="Ada")

    async def script(screen: Screen) -> None:
        await screen.foot(presses)
        await screen.pilot.pause()
        before = len(walk.events)
        for end in ("\r", "\n", "\r\n"):
            types(screen, text + end)
            await settled(screen)
        assert len(walk.events) == before
        assert "No bolt is being pulled now." in screen.text

    theatre.show(walk, script)
    assert walk.asks == asks


def test_what_a_wrench_sends_behind_a_refused_reading_is_a_reading_of_its_own(theatre: Theatre) -> None:
    walk = theatre.walk(group(TWO_ROUNDS), by="Ada")

    async def script(screen: Screen) -> None:
        await screen.foot(14)
        await screen.pilot.pause()
        ticked = len(walk.ticks())
        for text in ("24.1 lbs\r", "24.1\r", "24.1 Nm\r"):
            types(screen, text)
            await settled(screen)
        assert len(walk.ticks()) == ticked + 1

    theatre.show(walk, script)


def test_a_reading_never_answers_a_question(theatre: Theatre) -> None:
    walk = theatre.walk(
        group("layout = { circle = 4 }\n[[group.stage]]\ntorque = '20 N·m'\n[[group.stage]]\nangle = '90°'\n")
    )

    async def script(screen: Screen) -> None:
        await screen.foot(7)
        walk.clock.go(minutes=20)
        await screen.press("d")
        assert walk.asks == "question"
        types(screen, "2.5 Nm\r\n")
        await settled(screen)
        assert walk.asks == "question"
        await screen.press("1")
        await settled(screen)

    theatre.show(walk, script)
    assert walk.asks == "bolt", "a digit alone is still the answer"


def test_a_blank_alone_is_still_the_main_key(theatre: Theatre) -> None:
    walk = theatre.walk(group(TWO_ROUNDS))

    async def script(screen: Screen) -> None:
        await screen.press("space")
        await settled(screen)

    theatre.show(walk, script)
    assert walk.asks == "whole"


@pytest.mark.parametrize("end", ["\r", "\n", "\r\n"], ids=["return", "line feed", "both"])
def test_a_whole_round_typed_without_a_pause_stands_before_the_next_stop(theatre: Theatre, end: str) -> None:
    walk = theatre.walk(group(TWO_ROUNDS))

    async def script(screen: Screen) -> None:
        await screen.foot(3)
        await screen.pilot.pause()
        types(
            screen,
            "".join(f"12.{place} Nm{end}" for place in range(1, 10)) + f"+12,0 Nm{end}" + f"12.0 Nm{end}" * 3,
        )
        await settled(screen)

    theatre.show(walk, script)
    assert walk.asks == "stop"
    assert sum(event.kind == "check-off" for event in walk.events) == 10
    assert [event.value for event in walk.events if event.kind == "actual"][:3] == [
        "12.1 N·m",
        "12.2 N·m",
        "12.3 N·m",
    ]
