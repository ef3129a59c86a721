"""The whole shipped library walked to its end on the screen, and how much each walk asks."""

from __future__ import annotations

import pytest

from tests.screens.stage import Screen, Theatre, shipped
from tests.walk.workshop import TWO_ROUNDS, Walk, group
from torqref.library.group import Group
from torqref.walk.event import Event
from torqref.walk.progress import fold, setup_of
from torqref.walk.session import Session

LIBRARY = shipped()
ASKING = ("stop", "question", "caution")


async def walk_to_the_end(screen: Screen) -> tuple[int, int]:
    """Press what the screen asks for until it is finished; returns stops and questions met, and all presses."""
    asked = presses = 0
    while screen.asks != "finished":
        assert presses < 2000, "the walk does not come to its end"
        presses += 1
        asked += screen.asks in ASKING
        await _answer(screen)
    return asked, presses


async def _answer(screen: Screen) -> None:
    kind, before = screen.asks, len(screen.walk.events)
    if kind == "wait" and screen.walk.moment.options:
        await screen.press("1")
    elif kind == "wait":
        screen.walk.clock.go(hours=24 * 60)
        screen.walking.look_at_clock()
    elif kind == "measure":
        band = screen.walk.session.progress.current
        assert band is not None
        assert band.band is not None
        await screen.foot(1)
        await screen.type(f"{float(band.band.low or band.band.high or 0)} {band.band.unit}")
        await screen.foot(1)
    elif kind == "question":
        await screen.press("1")
    elif kind == "second-check":
        await screen.press("v")
        await screen.type("Ben")
        await screen.press("enter")
    else:
        await screen.foot(1)
    assert len(screen.walk.events) > before or kind == "wait", screen.text


@pytest.mark.parametrize("identity", LIBRARY)
@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
def test_every_group_of_the_library_comes_to_its_end(
    theatre: Theatre, identity: str, size: tuple[int, int]
) -> None:
    walk = theatre.walk(LIBRARY[identity], by="Ada")

    async def script(screen: Screen) -> None:
        await walk_to_the_end(screen)
        assert "FINISHED" in screen.text
        await screen.foot(1)

    assert theatre.show(walk, script, size=size) == 0
    assert walk.session.progress.finished


@pytest.mark.parametrize("identity", LIBRARY)
def test_no_walk_asks_more_than_the_hand_must_change(theatre: Theatre, identity: str) -> None:
    """Stops and questions are at most the changes of setting, tool or kind of pull, and two."""
    walk = theatre.walk(LIBRARY[identity], by="Ada")
    asked: list[int] = []

    async def script(screen: Screen) -> None:
        stops, _ = await walk_to_the_end(screen)
        alone = len(walk.session.progress.plan.alone)  # cautions have their own screens by the page's will
        asked.append(stops - alone)

    theatre.show(walk, script)
    assert asked[0] <= changes(walk) + 2


def changes(walk: Walk) -> int:
    """How often the hand had to be set up anew in this walk, from its plan and events alone."""
    plan, found, last = walk.session.header.plan, 0, ""
    told: tuple[Event, ...] = ()
    for event in walk.events:
        if event.kind == "check-off":
            before = fold(plan, told)
            round_ = before.current
            assert round_ is not None
            setup = setup_of(before, round_, round_.steps[before.step])
            found, last = found + (setup != last), setup
        told = (*told, event)
    return found


def test_a_ten_bolt_walk_takes_a_key_a_bolt_and_stage_one_for_the_hand_round_and_the_stops(
    theatre: Theatre,
) -> None:
    """Ten bolts, a hand stage and two torque stages: 10 x 2 + 1 + stops."""
    walk = theatre.walk(group(TWO_ROUNDS), by="Ada")
    counted: list[tuple[int, int]] = []

    async def script(screen: Screen) -> None:
        counted.append(await walk_to_the_end(screen))

    theatre.show(walk, script)
    stops, presses = counted[0]
    assert stops == 3, "the first stop, and one for each of the two settings"
    assert presses == 10 * 2 + 1 + stops


def test_a_walk_on_the_screen_and_one_by_lines_make_the_same_record(theatre: Theatre) -> None:
    on_screen, by_lines = (
        theatre.walk(group(TWO_ROUNDS), by="Ada"),
        theatre.walk(group(TWO_ROUNDS), by="Ada", bay="bay 2"),
    )

    async def script(screen: Screen) -> None:
        await walk_to_the_end(screen)

    theatre.show(on_screen, script)
    by_lines.press(10 * 2 + 1 + 3)
    assert told(on_screen.session) == told(by_lines.session)


def told(session: Session) -> list[tuple[str, tuple[int, ...], str, str]]:
    return [(event.kind, event.bolts, event.value, event.gate) for event in session.events]


def test_every_group_is_a_group() -> None:
    assert len(LIBRARY) >= 10
    assert all(isinstance(each, Group) for each in LIBRARY.values())
