"""What the tests of the screens work with: a walk on a screen of a given size, keys, and what is to be read."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from textual.events import Key

from tests.screens.sight import Sight
from tests.walk.workshop import Walk
from torqref.library.group import Group
from torqref.library.shelf import read_shelf, shipped_folder
from torqref.screens.app import TorqrefApp
from torqref.screens.context import Context
from torqref.screens.look import Look
from torqref.screens.painted import PaintedScreen
from torqref.screens.walk_screen import WalkScreen

SIZES = ((100, 30), (80, 24), (60, 20), (44, 18), (40, 12))
QUIET = Look(bell=False)


def shipped() -> dict[str, Group]:
    """Every group of the library that ships with the program."""
    shelf = read_shelf((shipped_folder(),))
    assert not [problem for problem in shelf.problems if problem.severity == "error"]
    return shelf.groups


@dataclass(slots=True)
class Screen(Sight):
    """A walk on a screen: press keys, read lines."""

    walk: Walk
    counted: int = 0

    async def press(self, *keys: str, times: int = 1) -> None:
        """Press keys, each a second after the one before; the last one goes the whole way of a key press."""
        pressed = keys * times
        for place, key in enumerate(pressed, start=1):
            self.walk.clock.go(seconds=1)
            self.counted += 1
            if place < len(pressed) and (len(key) == 1 or key == "enter"):
                await self._hand(Key(key, "\r" if key == "enter" else key))
            else:
                await self.pilot.press(key)

    async def type(self, text: str) -> None:
        """Type a text, sign by sign."""
        for char in text:
            await self._hand(Key("space" if char == " " else char, char))
        await self.pilot.pause()

    async def foot(self, times: int) -> None:
        """The main key many times, each a second after the one before, with no waiting for the paint."""
        for _ in range(times):
            self.walk.clock.go(seconds=1)
            self.counted += 1
            await self._hand(Key("enter", "\r"))

    async def _hand(self, key: Key) -> None:
        screen = self.app.screen
        assert isinstance(screen, PaintedScreen)
        await screen.on_key(key)

    async def resize(self, width: int, height: int) -> None:
        await self.pilot.resize_terminal(width, height)
        await self.pilot.pause()

    @property
    def walking(self) -> WalkScreen:
        screen = self.app.screen
        assert isinstance(screen, WalkScreen)
        return screen

    @property
    def asks(self) -> str:
        return self.walk.asks


@dataclass(slots=True)
class Theatre:
    """Opens walks and shows them; closes their files at the end of a test."""

    folder: Path
    walks: list[Walk] = field(default_factory=list)

    def walk(self, group: Group, **given: object) -> Walk:
        self.walks.append(Walk(group, self.folder, **given))  # type: ignore[arg-type]  # fields of Walk
        return self.walks[-1]

    def close(self) -> None:
        for walk in self.walks:
            walk.session.close()

    def show(
        self,
        walk: Walk,
        script: Callable[[Screen], Awaitable[None]],
        *,
        size: tuple[int, int] = (80, 24),
        look: Look = QUIET,
        notes: Sequence[str] = (),
    ) -> int | None:
        """Show a walk and let a script press its keys; returns the exit code, None while it was not left."""

        async def run() -> int | None:
            context = Context(
                clock=walk.clock, bay="bay 1", records=self.folder, session=walk.session, look=look
            )
            app = TorqrefApp(context, "walk", session=walk.session, notes=tuple(notes))
            async with app.run_test(size=size) as pilot:
                await pilot.pause()
                await script(Screen(pilot, app, walk))
            return app.return_value

        return asyncio.run(run())
