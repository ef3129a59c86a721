"""The shell: screens come and go, keys do the same everywhere, and nothing on the way out is lost."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual.events import Key as Press

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


def test_a_key_that_came_twice_at_once_leaves_one_screen_and_not_two(tmp_path: Path) -> None:
    async def run() -> None:
        app = shell(tmp_path)
        async with app.run_test() as pilot:
            app.show("help", keys=KEYS)
            app.show("help", keys=KEYS)
            await pilot.pause()
            depth, screen = len(app.screen_stack), app.screen
            # Both are in the queue of the screen before it has looked at the first one.
            screen.post_message(Press("q", "q"))
            screen.post_message(Press("q", "q"))
            await pilot.pause()
            assert len(app.screen_stack) == depth - 1

    asyncio.run(run())
