"""What the tests of a walk work with: groups from text, a clock that stands until it is told to go, walks."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta, timezone
from pathlib import Path

from torqref.library.file import parse_library
from torqref.library.group import Group
from torqref.walk.event import Event
from torqref.walk.moment import Moment
from torqref.walk.opening import Opening, Request, open_group
from torqref.walk.planner import Bench
from torqref.walk.session import Session
from torqref.walk.view import View, view
from torqref.wrench.rack import Rack, read_rack

HEAD = 'format = 1\nassembly = "Test bench"\n[source]\nkind = "shop"\ntitle = "own sheet"\n'
ZONE = timezone(timedelta(hours=2))
# Every session a test opened; the fixture in conftest.py closes them when the test is over.
OPENED: list[Session] = []
MORNING = datetime(2026, 3, 2, 8, 0, tzinfo=ZONE)

# A hand round and two torque rounds at ten bolts in two rows: the plain case.
TWO_ROUNDS = """
diagram = '''
   7   3   1   5   9
   8   4   2   6   10
'''
[[group.stage]]
hand = "run down until seated"
[[group.stage]]
torque = "12 N·m"
[[group.stage]]
torque = "22–26 N·m"
"""


# Two click wrenches; the larger one ran out of calibration 34 days before MORNING.
RACK = """format = 1
[[wrench]]
id = "W1"
name = "small click wrench"
mark = "blue tape"
kind = "click"
length = "215 mm"
directions = ["clockwise", "anticlockwise"]
[[wrench.scale]]
range = "2–25 N·m"
graduation = "0.2 N·m"
[[wrench.scale]]
range = "20–220 in-lb"
graduation = "2 in-lb"
[[wrench]]
id = "W2"
name = "middle click wrench"
mark = "yellow tape"
kind = "click"
length = "290 mm"
calibration_due = 2026-01-27
[[wrench.scale]]
range = "10–60 N·m"
graduation = "0.5 N·m"
"""


def rack(folder: Path, text: str = RACK) -> Rack:
    """A rack from its file; any error in it fails the test."""
    path = folder / "wrenches.toml"
    path.write_text(text, encoding="utf-8")
    found, problems = read_rack(path)
    assert not [problem for problem in problems if problem.severity == "error"], problems
    return found


def group(text: str, identity: str = "sample") -> Group:
    """A group from the lines of its table; any problem with them fails the test."""
    file = parse_library(f'{HEAD}[[group]]\nid = "{identity}"\n{text}'.encode(), "sheet.toml")
    errors = [problem.sentence() for problem in file.problems if problem.severity == "error"]
    assert not errors, errors
    return file.groups[0]


@dataclass(slots=True)
class Clock:
    """A clock that stands still until it is told to go on."""

    now: datetime = MORNING

    def __call__(self) -> datetime:
        return self.now

    def go(self, *, seconds: float = 0, minutes: float = 0, hours: float = 0) -> None:
        self.now += timedelta(seconds=seconds, minutes=minutes, hours=hours)


@dataclass(slots=True)
class Walk:
    """A walk that a test drives: every command is one second after the one before it."""

    group: Group
    folder: Path
    clock: Clock = field(default_factory=Clock)
    bench: Bench = field(default_factory=lambda: Bench(today=MORNING.date()))
    by: str = ""
    bay: str = "bay 1"
    work_order: str = ""
    session: Session = field(init=False)
    opening: Opening = field(init=False)

    def __post_init__(self) -> None:
        self.open()

    def open(self, *, new: bool = False) -> Session:
        """Open the walk, or go on with it, as the program does when it is started."""
        request = Request(folder=self.folder, bay=self.bay, work_order=self.work_order, by=self.by, new=new)
        self.opening = open_group(self.group, self.bench, request, self.clock)
        assert self.opening.session is not None, self.opening.refusal
        self.session = self.opening.session
        OPENED.append(self.session)
        return self.session

    def again(self, *, minutes: float = 0, by: str = "") -> Session:
        """The program ends, time passes, and it is started again."""
        self.session.close()
        self.clock.go(minutes=minutes)
        self.by = by or self.by
        return self.open()

    def say(self, *lines: str) -> str:
        """Say some lines; returns the last refusal, empty when the last one was done."""
        refused = ""
        for line in lines:
            self.clock.go(seconds=1)
            refused = self.session.say(line).refused
        return refused

    def press(self, times: int = 1) -> str:
        """Press the main key some times."""
        return self.say(*[""] * times)

    @property
    def moment(self) -> Moment:
        return self.session.moment()

    @property
    def asks(self) -> str:
        """What is asked for now, in one word."""
        return self.moment.kind

    @property
    def shown(self) -> View:
        """What a front end shows now."""
        return view(self.session.progress, self.moment, self.clock())

    @property
    def lines(self) -> tuple[str, ...]:
        return self.shown.lines

    @property
    def bolt(self) -> tuple[int, ...]:
        """The bolt or bolts to do now."""
        round_, step = self.session.progress.current, self.moment.step
        return round_.steps[step].labels if round_ and step >= 0 else ()

    @property
    def events(self) -> tuple[Event, ...]:
        return self.session.events

    def kinds(self) -> list[str]:
        return [event.kind for event in self.events]

    def ticks(self) -> list[tuple[int, ...]]:
        """The bolts of every check-off that was ever written, in order."""
        return [event.bolts for event in self.events if event.kind == "check-off"]
