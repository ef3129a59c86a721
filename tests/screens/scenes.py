"""Every screen in every state that matters, as a table: where it begins, and which keys lead there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

from textual.events import Key

from tests.screens.bay import Bay, Seen
from tests.screens.shop import Shop
from tests.walk.workshop import MORNING
from torqref.document.refusal import Refusal
from torqref.library.job import read_job
from torqref.library.quick import quick_group
from torqref.library.shelf import find_group, read_shelf, shipped_folder
from torqref.screens.line import Line
from torqref.screens.look import Look
from torqref.screens.record_screen import RecordScreen
from torqref.walk.job_opening import open_job
from torqref.walk.job_session import Bay as JobBay
from torqref.walk.job_session import JobSession
from torqref.walk.opening import Request, open_group
from torqref.walk.planner import Bench
from torqref.walk.session import Session
from torqref.wrench.rack import read_rack

ROOT = Path(__file__).parents[2]
_SPANS = {"s": "seconds", "m": "minutes", "h": "hours"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A screen in a state.

    Args:
        name: what it shows.
        screen: the screen it begins with.
        group: the group that is walked; a quick walk where it has blanks.
        keys: what leads there, parted by blanks: a key; `enter*12`; `'valve'`, typed; `+20m`, time goes by;
            `again`, the program was killed and is started anew.
        prepare: what has happened in the bay before.
    """

    name: str
    screen: str = "walk"
    group: str = ""
    keys: str = ""
    prepare: Callable[[Bay], object] = field(default=lambda bay: None)


def _open_walks(bay: Bay) -> None:
    """Two walks that were put down, one of them due by now."""
    for group, presses in (("exhaust-manifold", 27), ("cylinder-head", 16)):
        found, _ = find_group(group, (shipped_folder(),))
        assert found is not None
        bay.begin(found, presses=presses)
    bay.clock.go(hours=5)


def _faulty(bay: Bay) -> None:
    """A library with faults beside the shipped one."""
    bay.libraries = (*bay.libraries, ROOT / "tests" / "library" / "faulty")


def _shop(bay: Bay) -> None:
    """A shop with job files beside its library."""
    folder = bay.home / "shop"
    folder.mkdir()
    name = "brindle-24-head.job.toml"
    (folder / name).write_bytes((ROOT / "demo" / name).read_bytes())
    bay.libraries = (*bay.libraries, folder)


def _week(bay: Bay) -> None:
    """A shop with a week of records."""
    Shop(bay).week()
    bay.clock.go(hours=3)


def _both(bay: Bay) -> None:
    _open_walks(bay)
    _faulty(bay)


# The two cautions, the opening stop and the hand round, the stop at 30 N·m, ten bolts, the stop at 60 N·m,
# then the ten bolts at 60 N·m and the stop of the angle round.
_HEAD = "enter*5 enter*10"
# The cautions, four steps that must be safe, a page, two readings, a step alone, and the walk of the head.
_HEAD_OF_JOB = "enter 1*4 enter '0.03 mm' enter '151.4 mm' enter enter enter enter*4"
SCENES = (
    Scene(name="library", screen="library"),
    Scene(name="library-filtered", screen="library", keys="'pump'"),
    Scene(name="library-problems", screen="library", prepare=_both),
    Scene(name="library-repair", screen="library", keys="up", prepare=_shop),
    Scene(name="library-nothing", screen="library", keys="'zzz'"),
    Scene(name="library-quick", screen="library", keys="'M8 10.9 24 Nm'"),
    Scene(name="problems", screen="library", keys="enter", prepare=_faulty),
    Scene(name="caution", group="cylinder-head"),
    Scene(name="stop-opening", group="cylinder-head", keys="enter*2"),
    Scene(name="place", group="coolant-pump", keys="enter"),
    Scene(name="hand", group="exhaust-manifold", keys="enter"),
    Scene(name="stop-was", group="valve-cover", keys="enter*15"),
    Scene(name="bolt", group="exhaust-manifold", keys="enter*20"),
    Scene(name="bolt-first", group="valve-cover", keys="enter*3"),
    Scene(name="bolt-typed", group="exhaust-manifold", keys="enter*20 '23'"),
    Scene(name="bolt-below", group="exhaust-manifold", keys="enter*20 '19 Nm' enter"),
    Scene(name="refused", group="exhaust-manifold", keys="enter*20 j"),
    Scene(name="angle-stop", group="cylinder-head", keys=f"{_HEAD} enter enter*10"),
    Scene(name="angle", group="cylinder-head", keys=f"{_HEAD} enter enter*10 enter*4"),
    Scene(name="marks", group="cylinder-head", keys=f"{_HEAD} enter enter*10 enter*11"),
    Scene(name="angle-question", group="cylinder-head", keys=f"{_HEAD} enter enter*10 enter*4 again"),
    Scene(name="back-soon", group="exhaust-manifold", keys="enter*20 +5m d d d d"),
    Scene(name="back-late", group="exhaust-manifold", keys="enter*20 +20m d d d d"),
    Scene(name="later", group="exhaust-manifold", keys="enter*18 l enter*2"),
    Scene(name="trouble-digits", group="exhaust-manifold", keys="enter*20 t"),
    Scene(name="trouble", group="exhaust-manifold", keys="enter*20 t 1"),
    Scene(name="wrench-digits", group="exhaust-manifold", keys="enter*20 w"),
    Scene(name="wait", group="exhaust-manifold", keys="enter*24"),
    Scene(name="waited", group="exhaust-manifold", keys="enter*24 +5h d d d d"),
    Scene(name="recheck", group="exhaust-manifold", keys="enter*24 +5h d d d d enter enter*3"),
    Scene(name="card-1", group="fan-hub", keys="enter"),
    Scene(name="card-2", group="down-pipe-bracket", keys="enter*3"),
    Scene(name="card-3", group="thermostat-cover", keys="enter"),
    Scene(name="wheel", group="rear-wheel", keys="enter*8"),
    Scene(name="measure", group="front-hub-bearing", keys="enter*6"),
    Scene(name="big", group="exhaust-manifold", keys="enter*20 b"),
    Scene(name="big-stop", group="exhaust-manifold", keys="enter*13 b"),
    Scene(name="big-angle", group="cylinder-head", keys=f"{_HEAD} enter enter*10 enter*4 b"),
    Scene(name="turned", group="exhaust-manifold", keys="enter*20 d x"),
    Scene(name="finished", group="thermostat-cover", keys="enter*3"),
    Scene(name="sign", group="thermostat-cover", keys="enter*2"),
    Scene(name="plate", group="M8 8.8 24 Nm + 90° / rows 6x8", keys="enter*20"),
    Scene(name="no-picture", group="125.5 in-lb / count 12", keys="enter*5"),
    Scene(name="quick-empty", screen="quick"),
    Scene(name="quick", screen="quick", keys="'M8 10.9 24 Nm' enter '2x5'"),
    Scene(name="quick-doubt", screen="quick", keys="'M6 8.8 96 ft-lb' enter"),
    Scene(name="quick-refused", screen="quick", keys="'15 lbs' enter"),
    Scene(name="convert-empty", screen="convert"),
    Scene(name="convert", screen="convert", keys="'22-26 Nm'"),
    Scene(name="convert-chain", screen="convert", keys="'30 Nm + 90° + 90°'"),
    Scene(name="convert-refused", screen="convert", keys="'1,200 Nm'"),
    Scene(name="crowfoot-empty", screen="crowfoot"),
    Scene(name="crowfoot", screen="crowfoot", keys="'28 Nm' enter '32 mm' enter 'W2'"),
    Scene(name="crowfoot-refused", screen="crowfoot", keys="'28 Nm' enter '400 mm@180' enter 'W2'"),
    Scene(name="job-cautions", screen="job"),
    Scene(name="job-safe", screen="job", keys="enter"),
    Scene(name="job-page", screen="job", keys="enter 1*4"),
    Scene(name="job-measure", screen="job", keys="enter 1*4 enter"),
    Scene(name="job-steps", screen="job", keys="enter 1*4 enter p"),
    Scene(name="job-walk", screen="job", keys=_HEAD_OF_JOB),
    Scene(name="job-standing", screen="job", keys=f"{_HEAD_OF_JOB} :"),
    Scene(name="job-standing-go", screen="job", keys=f"{_HEAD_OF_JOB} : j '12'"),
    Scene(name="records", screen="record", prepare=_week),
    Scene(name="records-filtered", screen="record", keys="'bracket'", prepare=_week),
    Scene(name="record-read", screen="record", keys="down*1 enter", prepare=_week),
    Scene(name="help-walk", group="exhaust-manifold", keys="enter*20 ?"),
    Scene(name="help-library", screen="library", keys="?"),
)
BY_NAME = {scene.name: scene for scene in SCENES}


def session_of(scene: Scene, bay: Bay) -> Session:
    """The walk of a scene, opened or gone on with."""
    value, _, arrangement = scene.group.partition(" / ")
    found = quick_group(value, arrangement) if arrangement else find_group(value, (shipped_folder(),))[0]
    assert found is not None
    assert not isinstance(found, Refusal), found
    bench = Bench(today=MORNING.date(), rack=bay.rack)
    opening = open_group(found, bench, Request(folder=bay.records, bay=bay.name), bay.clock)
    assert opening.session is not None, opening.refusal
    return opening.session


def job_session(bay: Bay) -> JobSession:
    """The demo repair, begun or gone on with."""
    made, problems = read_job(ROOT / "demo" / "brindle-24-head.job.toml")
    assert made is not None, problems
    here = JobBay(
        folder=bay.records, name=bay.name, groups=read_shelf((shipped_folder(),)).groups, rack=bay.rack
    )
    opening = open_job(made, here, Request(folder=bay.records, bay=bay.name), bay.clock, {"engine": "Q"})
    assert opening.session is not None, opening.refusal
    return opening.session


async def act(seen: Seen, bay: Bay, keys: str) -> None:
    """Press the keys of a scene, each a second after the one before."""
    for word in _words(keys):
        if word.startswith("'"):
            await seen.type(word[1:-1])
        elif word.startswith("+"):
            bay.clock.go(**{_SPANS[word[-1]]: float(Fraction(word[1:-1]))})
        else:
            key, _, times = word.partition("*")
            for _ in range(int(times or 1)):
                bay.clock.go(seconds=1)
                await seen.screen.on_key(Key(key, "\r" if key == "enter" else key if len(key) == 1 else None))
        await seen.pilot.pause()
        await seen.ready()
    if isinstance(seen.screen, RecordScreen):
        await seen.settled()


def _words(keys: str) -> list[str]:
    """Keys parted at blanks, typed texts whole."""
    parts = keys.split("'")
    return [
        word for place, part in enumerate(parts) for word in ([f"'{part}'"] if place % 2 else part.split())
    ]


def pictures(scene: Scene, home: Path, rooms: list[tuple[tuple[int, int], Look]]) -> list[tuple[Line, ...]]:
    """What a scene looks like in each room: one walk, shown in every size and look."""
    bay = Bay(home, rack=read_rack(ROOT / "demo" / "wrenches.toml")[0])
    scene.prepare(bay)
    *before, last = scene.keys.split(" again")
    taken: list[tuple[Line, ...]] = []

    async def photograph(seen: Seen) -> None:
        await act(seen, bay, last)
        for size, look in rooms:
            await seen.pilot.resize_terminal(*size)
            seen.app.look = look
            seen.screen.repaint()
            taken.append(seen.screen.painter.lines)

    for keys in before:
        session = session_of(scene, bay)
        bay.show("walk", partial(act, bay=bay, keys=keys), session=session)
        session.close()
    given: dict[str, Any] = {"session": session_of(scene, bay)} if scene.group else {}
    if scene.screen == "job":
        given = {"session": job_session(bay)}
    bay.show(scene.screen, photograph, look=rooms[0][1], **given)
    return taken
