"""What the tests of the library and its sister screens work with: a bay, a library, keys, what is read."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from textual.events import Key, Paste

from tests.screens.sight import Sight
from tests.walk.workshop import MORNING, Clock
from torqref.library.group import Group
from torqref.library.shelf import shipped_folder
from torqref.screens.app import TorqrefApp
from torqref.screens.context import Context
from torqref.screens.digits import SIZES as FIGURE_SIZES
from torqref.screens.digits import figures
from torqref.screens.library_screen import LibraryScreen
from torqref.screens.line import width_of
from torqref.screens.look import Look
from torqref.screens.painted import PaintedScreen
from torqref.screens.record_screen import RecordScreen
from torqref.walk.opening import Request, open_group
from torqref.walk.planner import Bench
from torqref.wrench.rack import Rack

SIZES = ((100, 30), (80, 24), (60, 20), (44, 18), (40, 12))
PLAIN, ONE_COLOUR = Look(), Look(theme="one colour", colours=0)
SIXTEEN, ASCII = Look(theme="sixteen", colours=16), Look(theme="one colour", colours=0, ascii_only=True)
# Every size, and every look in a usual room and in the smallest.
ROOMS = (
    *((size, PLAIN) for size in SIZES),
    *((size, look) for size in ((80, 24), (40, 12)) for look in (ONE_COLOUR, SIXTEEN, ASCII)),
)


def name_of(part: object) -> str:
    """A room in the name of a test."""
    if isinstance(part, Look):
        return part.theme + (" ascii" if part.ascii_only else "")
    return "x".join(str(each) for each in part) if isinstance(part, tuple) else str(part)


HEAD = 'format = 1\nassembly = "Test bench"\n[source]\nkind = "shop"\ntitle = "own sheet"\n'


@dataclass(slots=True)
class Seen(Sight):
    """A screen in front of a technician."""

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)

    async def type(self, text: str) -> None:
        """Type a text, sign by sign."""
        for char in text:
            await self.screen.on_key(Key("space" if char == " " else char, char))
        await self.pilot.pause()

    async def paste(self, text: str) -> None:
        self.screen.on_paste(Paste(text))
        await self.pilot.pause()

    async def ready(self) -> None:
        """Until the library or the records are read."""
        for _ in range(400):
            await self.pilot.pause()
            if not isinstance(self.screen, LibraryScreen | RecordScreen) or not self.screen.reading:
                return
            await self.app.workers.wait_for_complete()
        raise AssertionError("the list was never read")

    async def settled(self) -> None:
        """Until every thread has said what it has to say."""
        await self.ready()
        await self.app.workers.wait_for_complete()
        await self.pilot.pause()

    def sets(self, number: str, unit: str) -> bool:
        """Whether this number is what is to be set, in figures or in words."""
        drawn = any(holds(self.lines, figures(number, size)) for size in FIGURE_SIZES)
        return f"SET {number} {unit}" in self.flat or (drawn and f"SET {unit}" in self.flat)

    @property
    def marked(self) -> str:
        """The row of the library that is in hand."""
        return next(line for line in self.lines if line.startswith(">"))

    def fills(self, width: int, height: int) -> bool:
        """Whether every cell of the screen is painted and none beyond it."""
        painted = self.screen.painter.lines
        return len(painted) == height and {width_of(row) for row in painted} == {width}


def holds(said: list[str], rows: tuple[str, ...]) -> bool:
    """Whether block figures stand somewhere in these lines."""
    return bool(rows) and any(
        all(row in line for row, line in zip(rows, said[first:], strict=False))
        for first in range(len(said) - len(rows) + 1)
    )


Script = Callable[[Seen], Awaitable[None]]


@dataclass(slots=True)
class Bay:
    """A bay with its folders; it shows a screen and lets a script press keys."""

    home: Path
    clock: Clock = field(default_factory=Clock)
    libraries: tuple[Path, ...] = (shipped_folder(),)
    rack: Rack = field(default_factory=Rack)
    name: str = "bay 1"
    by: str = ""

    @property
    def records(self) -> Path:
        return self.home / "records"

    @property
    def own(self) -> Path:
        return self.home / "own"

    def library(self, text: str, name: str = "sheet.toml", *, head: str = HEAD) -> None:
        """A library of one file more, in place of the shipped one."""
        folder = self.home / "library"
        folder.mkdir(exist_ok=True)
        (folder / name).write_text(head + text, encoding="utf-8")
        self.libraries = (folder,)

    def begin(self, group: Group, *, presses: int, bay: str = "", by: str = "", place: str = "") -> str:
        """A walk that was begun and put down; returns its id."""
        request = Request(folder=self.records, bay=bay or self.name, by=by)
        bench = Bench(today=MORNING.date(), rack=self.rack, place=place)
        opening = open_group(group, bench, request, self.clock)
        assert opening.session is not None, opening.refusal
        for _ in range(presses):
            self.clock.go(seconds=1)
            opening.session.press()
        opening.session.do("pause")
        opening.session.close()
        return opening.session.header.id

    def show(
        self,
        name: str,
        script: Script,
        *,
        size: tuple[int, int] = (80, 24),
        look: Look | None = None,
        settle: bool = True,
        **given: Any,
    ) -> int | None:
        """Show a screen and let a script press its keys; returns the exit code, None while it was not left."""

        async def run() -> int | None:
            context = Context(
                clock=self.clock,
                bay=self.name,
                records=self.records,
                libraries=self.libraries,
                own_specs=self.own,
                rack=self.rack,
                by=self.by,
                look=look or Look(bell=False),
            )
            app = TorqrefApp(context, name, **given)
            async with app.run_test(size=size) as pilot:
                seen = Seen(pilot, app)
                if settle:
                    await seen.ready()
                await script(seen)
                if isinstance(app.screen, PaintedScreen) and hasattr(app.screen, "session"):
                    app.screen.session.close()
            return app.return_value

        return asyncio.run(run())


def at(text: str) -> datetime:
    """A time of the morning of the tests."""
    return datetime.fromisoformat(f"2026-03-02T{text}+02:00")
