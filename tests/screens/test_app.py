"""The shell: screens come and go, keys do the same everywhere, and nothing on the way out is lost."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual.events import Key as Pressed

from tests.screens.bay import Bay, Seen
from torqref.screens.app import TorqrefApp
from torqref.screens.context import Context
from torqref.screens.key import Key
from torqref.screens.line import text_of
from torqref.screens.look import Look

KEYS = (Key(letter="u", word="undo", meaning="take the last press back", act="undo"),)


def shell(folder: Path, look: Look | None = None) -> TorqrefApp:
    context = Context(
        clock=lambda: datetime(2026, 3, 2, 8, tzinfo=UTC),
        bay="bay 1",
        records=folder,
        look=look or Look(),
    )
    return TorqrefApp(context, "help", keys=KEYS, lines=("One sentence of help.",))


def lines_of(app: TorqrefApp) -> list[str]:
    from torqref.screens.painted import PaintedScreen

    screen = app.screen
    assert isinstance(screen, PaintedScreen)
    return [text_of(painted) for painted in screen.painter.lines]


@pytest.mark.parametrize("size", [(100, 30), (40, 12), (1, 1)])
def test_the_help_names_each_key_and_leaves_by_any_letter(tmp_path: Path, size: tuple[int, int]) -> None:
    async def run() -> int | None:
        app = shell(tmp_path)
        async with app.run_test(size=size) as pilot:
            if size[0] >= 40:
                assert any("undo: take the last press back" in text for text in lines_of(app))
            await pilot.press("x")
        return app.return_value

    assert asyncio.run(run()) == 0


def test_help_in_a_small_room_goes_page_by_page_and_then_back(tmp_path: Path) -> None:
    async def run() -> int | None:
        app = shell(tmp_path)
        async with app.run_test(size=(40, 6)) as pilot:
            seen = lines_of(app)
            for _ in range(20):
                if app.return_value is not None:
                    break
                await pilot.press("enter")
                seen += lines_of(app)
            assert any("licensed practice" in text for text in seen)
        return app.return_value

    assert asyncio.run(run()) == 0


def burst(app: TorqrefApp, *keys: str) -> None:
    """Keys pressed before the program has looked at the first of them."""
    for key in keys:
        app.post_message(Pressed(key, "\r" if key == "enter" else " " if key == "space" else key))


def test_what_is_typed_while_a_screen_opens_goes_to_that_screen(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        burst(seen.app, "+", *"24nm")
        await seen.pilot.pause(0.1)
        assert seen.name == "QuickScreen"
        assert "value 24nm_" in seen.flat
        burst(seen.app, "enter", *"2x5", "enter")
        await seen.pilot.pause(0.2)
        assert seen.name == "WalkScreen"
        assert "2 rows of 5" in seen.text
        burst(seen.app, "?", "x")
        await seen.pilot.pause(0.1)
        assert seen.name == "WalkScreen", "the x went to the help and left it"
        assert "MIRRORED" not in seen.text

    bay.show("library", script)


@pytest.mark.parametrize("key", ["enter", "space"])
def test_a_bounce_that_opens_a_walk_does_not_pass_its_first_stop(bay: Bay, key: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("thermostat")
        burst(seen.app, "enter", key, key)
        await seen.pilot.pause(0.2)
        assert seen.name == "WalkScreen"
        assert "STOP" in seen.text
        assert "Pressed before it could be read: ignored." in seen.text
        bay.clock.go(seconds=1)
        await seen.press("enter")
        assert "CARD" in seen.text

    bay.show("library", script)


def test_keys_pressed_while_a_walk_is_left_go_to_the_list_below(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("thermostat")
        await seen.press("enter")
        burst(seen.app, "q", *"pump")
        await seen.pilot.pause(0.2)
        assert seen.name == "LibraryScreen"
        assert "find pump_" in seen.flat

    bay.show("library", script)


def test_a_key_that_came_twice_at_once_leaves_one_screen_and_not_two(tmp_path: Path) -> None:
    async def run() -> None:
        app = shell(tmp_path)
        async with app.run_test() as pilot:
            app.show("help", keys=KEYS)
            app.show("help", keys=KEYS)
            await pilot.pause()
            depth, screen = len(app.screen_stack), app.screen
            # Both are in the queue of the screen before it has looked at the first one.
            screen.post_message(Pressed("q", "q"))
            screen.post_message(Pressed("q", "q"))
            await pilot.pause()
            assert len(app.screen_stack) == depth - 1

    asyncio.run(run())
