"""What the tests of the job screen work with: a job on a screen of a given size, keys, and what is to be read."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from textual.events import Key

from tests.screens.sight import Sight
from tests.walk.workshop import Clock, group
from torqref.document.toml import Document, parse_document
from torqref.library.group import Group
from torqref.library.job import Job, job_of
from torqref.screens.app import TorqrefApp
from torqref.screens.context import Context
from torqref.screens.look import Look
from torqref.walk.job_opening import open_job
from torqref.walk.job_session import Bay, JobSession
from torqref.walk.opening import Request
from torqref.wrench.rack import Rack

QUIET = Look(bell=False)
HEAD = 'format = 1\njob = "small"\nname = "Small repair"\n'
GROUPS = {
    "flange": group(
        'count = 2\nafter = ["look for drops"]\nparts = [{ name = "flange seal", count = 1, one_time = true }]\n'
        '[[group.stage]]\ntorque = "10 N·m"\n[[group.stage]]\ntorque = "20 N·m"\n',
        "flange",
    ),
    "cover": group('count = 3\n[[group.stage]]\ntorque = "9 N·m"\n', "cover"),
    "cold": group(
        'count = 2\n[[group.stage]]\ntorque = "10 N·m"\n[[group.stage]]\nwait = "cold"\ndue = { hours = 1 }\n'
        '[[group.stage]]\ntorque = "10 N·m"\nrecheck = true\n',
        "cold",
    ),
}


def job(text: str) -> Job:
    """A job of these steps, without faults."""
    document = parse_document((HEAD + text).encode(), "small.job.toml")
    assert isinstance(document, Document)
    made, problems = job_of(document)
    assert made is not None, problems
    return made


@dataclass(slots=True)
class Seen(Sight):
    """A job in front of a technician."""

    session: JobSession
    clock: Clock

    async def press(self, *keys: str, times: int = 1) -> None:
        """Press keys, each a second after the one before."""
        await self.quick(*keys * times)
        await self.pilot.pause()

    async def quick(self, *keys: str) -> None:
        """The same without waiting for the paint, except where another screen has come."""
        for key in keys:
            self.clock.go(seconds=1)
            before = self.app.screen
            await self.hand(key)
            if self.app.screen is not before:
                await self.pilot.pause()

    async def hand(self, key: str) -> None:
        """One key, with no time passed since the one before."""
        character = {"enter": "\r", "space": " "}.get(key, key if len(key) == 1 else None)
        await self.screen.on_key(Key("space" if key == " " else key, character))

    async def type(self, text: str) -> None:
        """Type a text and press enter."""
        for char in text:
            await self.hand(char)
        await self.press("enter")

    @property
    def asks(self) -> str:
        return self.session.moment().kind

    @property
    def step(self) -> int:
        step = self.session.moment().step
        return step.number if step else 0

    def kinds(self) -> list[str]:
        return [event.kind for event in self.session.events]


Script = Callable[[Seen], Awaitable[None]]


@dataclass(slots=True)
class Stage:
    """Opens a job and shows it."""

    folder: Path
    clock: Clock = field(default_factory=Clock)
    groups: Mapping[str, Group] = field(default_factory=lambda: GROUPS)
    rack: Rack = field(default_factory=Rack)

    def open(self, made: Job, *, by: str = "", work_order: str = "") -> JobSession:
        here = Bay(folder=self.folder, name="bay 1", groups=self.groups, rack=self.rack)
        request = Request(folder=self.folder, bay="bay 1", by=by, work_order=work_order)
        opening = open_job(made, here, request, self.clock)
        assert opening.session is not None, opening.refusal
        return opening.session

    def show(
        self,
        made: Job | str,
        script: Script,
        *,
        size: tuple[int, int] = (80, 24),
        look: Look = QUIET,
        by: str = "",
        work_order: str = "",
        say: Callable[[str], None] | None = None,
    ) -> JobSession:
        """Show a job and let a script press its keys; returns the session, which is closed then."""
        session = self.open(job(made) if isinstance(made, str) else made, by=by, work_order=work_order)

        async def run() -> None:
            context = Context(
                clock=self.clock, bay="bay 1", records=self.folder, rack=self.rack, look=look, say=say
            )
            app = TorqrefApp(context, "job", session=session)
            async with app.run_test(size=size) as pilot:
                await pilot.pause()
                await script(Seen(pilot, app, session, self.clock))

        try:
            asyncio.run(run())
        finally:
            session.close()
        return session
