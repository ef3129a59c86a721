"""Ten thousand walks go through the export into a real SQL engine, which then answers what a shop asks.

The walks are made through the core, press by press. The answers are kept by the maker of the walks, who
counts what it did; no expected number comes from the records, the export or the engine.
"""

from __future__ import annotations

import os
import random
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from tests.walk.workshop import group
from torqref.cli import main
from torqref.library.group import Group
from torqref.walk.opening import Request, open_group
from torqref.walk.planner import Bench
from torqref.walk.session import Session
from torqref.wrench.rack import Rack, Wrench
from torqref.wrench.scale import Scale

SCRIPT = Path(__file__).parents[2] / "demo" / "shop-questions.sql"
WALKS = 10_000
BEGIN = datetime(2027, 1, 4, 7, 0, tzinfo=UTC)
TODAY = date(2027, 4, 1)
GOOD_UNTIL = date(2027, 2, 1)

COVER = group('count = 3\n[[group.stage]]\ntorque = "9–11 N·m"\n', "cover")
PLATE = group('layout = { circle = 4 }\n[[group.stage]]\ntorque = "20 N·m"\n', "plate")
FLANGE = group(
    'count = 2\n[[group.stage]]\ntorque = "30 N·m"\n[[group.stage]]\nwait = "cold"\ndue = { days = 2 }\n'
    '[[group.stage]]\ntorque = "30 N·m"\nrecheck = true\n',
    "flange",
)


def wrench(identity: str) -> Rack:
    scale = Scale(low=Fraction(5), high=Fraction(60), unit="N·m", graduation=Fraction(1, 2))
    return Rack(wrenches=(Wrench(id=identity, name=identity, kind="click", scales=(scale,)),))


RACKS = {identity: wrench(identity) for identity in ("W1", "W2")}


@dataclass(slots=True)
class Clock:
    """Time in steps of a few seconds."""

    now: datetime = BEGIN

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=2)
        return self.now


@dataclass(slots=True)
class Maker:
    """Makes walks and keeps count of what it did."""

    folder: Path
    clock: Clock = field(default_factory=Clock)
    dice: random.Random = field(default_factory=lambda: random.Random(24))
    touched: dict[str, int] = field(default_factory=dict)
    bolts: Counter[str] = field(default_factory=Counter)
    troubles: Counter[str] = field(default_factory=Counter)
    left_out: Counter[str] = field(default_factory=Counter)
    waiting: set[str] = field(default_factory=set)

    def make(self, number: int) -> None:
        """One walk of one of the groups, with one of the wrenches."""
        kind, do = self.dice.choice(((COVER, self.cover), (PLATE, self.plate), (FLANGE, self.flange)))
        identity = self.dice.choice(("W1", "W2"))
        # 86 days of work in ten thousand steps
        self.clock.now = BEGIN + timedelta(days=86 * number / WALKS)
        session = self.open(kind, identity, f"{number:07}")
        do(session)
        session.close()

    def count(self, session: Session, ticked: int) -> None:
        """So many bolts were ticked just now, with the wrench of this walk."""
        plan, order = session.header.plan, session.header.work_order
        self.bolts[plan.group] += ticked
        if plan.dials[0].wrench == "W2" and self.clock.now.date() > GOOD_UNTIL:
            self.touched[order] = self.touched.get(order, 0) + ticked

    def open(self, kind: Group, identity: str, order: str) -> Session:
        # Each vehicle is a bay of its own, so that no walk has to look at thousands of others; the shop
        # puts their records together.
        request = Request(folder=self.folder / order, bay=order, work_order=order, new=True)
        bench = Bench(today=BEGIN.date(), rack=RACKS[identity])
        opening = open_group(kind, bench, request, self.clock)
        assert opening.session is not None
        return opening.session

    def cover(self, session: Session) -> None:
        """Three bolts on one card: two presses."""
        say(session, "", "")
        self.count(session, 3)

    def plate(self, session: Session) -> None:
        """Four bolts; now and then one strips, or one is left out."""
        say(session, "")
        left = 4
        fate = self.dice.random()
        if fate < 0.02:
            say(session, "trouble 1", "undo") if fate < 0.005 else self.trouble(session)
        elif fate < 0.05:
            say(session, "skip 3 shaft in the way")
            self.left_out["plate"] += 1
            left -= 1
        say(session, *[""] * left)
        self.count(session, left)

    def trouble(self, session: Session) -> None:
        say(session, "trouble 1", "")
        self.troubles["plate"] += 1
        say(session, *[""] * (session.moment().kind == "stop"))

    def flange(self, session: Session) -> None:
        """Two bolts, and a recheck after two days that one in five never comes to."""
        say(session, "", "")
        self.count(session, 2)
        if self.dice.random() < 0.2:
            self.waiting.add(session.header.work_order)
            return
        self.clock.now += timedelta(days=2, hours=1)
        say(session, "", "", "")
        self.count(session, 2)


def say(session: Session, *lines: str) -> None:
    for line in lines:
        reply = session.say(line)
        assert not reply.refused, reply.refused


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Maker:
    """The walks; their journals are not synced one by one, which is the disk's work and not under test here."""
    maker = Maker(folder=tmp_path_factory.mktemp("records"))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", _nothing)
        for number in range(WALKS):
            maker.make(number)
    for path in list(maker.folder.rglob("*.walk")):
        path.rename(maker.folder / path.name)
    return maker


def _nothing(handle: int) -> None:
    """In the place of a sync."""


@pytest.fixture(scope="module")
def engine(made: Maker, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """An engine that has run the recipe over the export of `torqref record --csv`."""
    duckdb = pytest.importorskip("duckdb", reason="DuckDB is not installed: pip install -e '.[test]'")
    folder = tmp_path_factory.mktemp("export")
    export = folder / "walks.csv"
    with pytest.MonkeyPatch.context() as patch, export.open("w", encoding="utf-8") as out:
        patch.setattr("sys.stdout", out)
        assert main(["record", "--csv", "--records", str(made.folder)]) == 0
    connection = duckdb.connect()
    recipe = SCRIPT.read_text(encoding="utf-8").replace("'walks.csv'", f"'{export.as_posix()}'")
    connection.execute(recipe)
    return connection


Ask = Callable[[str], list[tuple[Any, ...]]]


@pytest.fixture
def ask(engine: Any) -> Ask:
    def answer(question: str) -> list[tuple[Any, ...]]:
        rows: list[tuple[Any, ...]] = engine.execute(question).fetchall()
        return rows

    return answer


@pytest.mark.slow
def test_every_walk_arrives(made: Maker, ask: Ask) -> None:
    assert ask("SELECT count(DISTINCT walk) FROM event") == [(WALKS,)]
    assert ask("SELECT min(work_order), max(work_order) FROM event") == [("0000000", "0009999")]


@pytest.mark.slow
def test_which_vehicles_did_a_bad_wrench_touch(made: Maker, ask: Ask) -> None:
    found = ask("SELECT work_order, bolts FROM touched")
    assert len(made.touched) > 1000
    assert dict(found) == made.touched
    assert ask("SELECT DISTINCT unnest(string_split(settings, '; ')) AS s FROM touched ORDER BY s") == [
        ("10.0 N·m",),
        ("20.0 N·m",),
        ("30.0 N·m",),
    ]


@pytest.mark.slow
def test_where_does_it_go_wrong(made: Maker, ask: Ask) -> None:
    found = ask('SELECT "group", bolts, troubles, left_out FROM went_wrong')
    assert made.troubles["plate"] > 10
    assert sorted(found) == sorted(
        (name, made.bolts[name], made.troubles[name], made.left_out[name])
        for name in ("cover", "plate", "flange")
    )
    assert found[0][0] == "plate"


@pytest.mark.slow
def test_what_was_promised_and_not_done(made: Maker, ask: Ask) -> None:
    found = ask("SELECT work_order, due, days FROM overdue")
    assert len(made.waiting) > 100
    assert {order for order, _, _ in found} == {
        order for order in made.waiting if due_day(order) < TODAY.isoformat()
    }
    assert all((TODAY - date.fromisoformat(due[:10])).days == days for _, due, days in found)


def due_day(order: str) -> str:
    """Two days after the last pull, some seconds after the walk was begun."""
    begun = BEGIN + timedelta(days=86 * int(order) / WALKS)
    return (begun + timedelta(days=2, seconds=20)).date().isoformat()
