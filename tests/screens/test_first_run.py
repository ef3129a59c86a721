"""Somebody who has read nothing but what is on the screen tightens an unknown bracket, and leaves a record."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.screens.bay import SIZES, Bay, Seen, name_of
from tests.walk.workshop import RACK, rack
from torqref.library.shelf import find_group, shipped_folder
from torqref.walk.archive import records


@dataclass(slots=True)
class Stranger:
    """Presses a key only where the screen names it at that moment."""

    bay: Bay
    seen: Seen

    async def press(self, key: str, because: str) -> None:
        """Press a key that the screen offers in these words."""
        assert because in self.seen.flat, f"nothing says {because!r}:\n{self.seen.text}"
        self.bay.clock.go(seconds=3)
        if len(key) == 1:
            await self.seen.type(key)
        else:
            await self.seen.pilot.press(key)

    async def type(self, text: str, because: str) -> None:
        """Type what the screen asks for in these words."""
        assert because in self.seen.flat, f"nothing asks {because!r}:\n{self.seen.text}"
        await self.seen.type(text)


@pytest.mark.parametrize("size", SIZES, ids=name_of)
def test_an_unknown_bracket_is_walked_to_its_record_by_what_the_screen_says(
    bay: Bay, size: tuple[int, int]
) -> None:
    async def script(seen: Seen) -> None:
        stranger = Stranger(bay, seen)
        await stranger.press("+", "In no list? Press + and type its value.")
        await stranger.type("24 Nm", "The value with its unit")
        await stranger.press("enter", "enter how many bolts")
        await stranger.type("3", "bolts _")
        await stranger.press("enter", "enter start: 3 bolts")
        assert seen.name == "WalkScreen"
        for _ in range(20):
            if "FINISHED" in seen.text:
                break
            assert any(line.startswith(" enter ") for line in seen.lines[-2:]), seen.text
            await stranger.press("enter", "enter")
        await stranger.type("Kim", "your name for the record")
        await stranger.press("enter", "your name for the record")
        await stranger.press("enter", "enter leave")
        assert seen.name == "LibraryScreen"
        await stranger.press(":", "Its record: press :")
        await seen.settled()
        assert "finished" in seen.text

    bay.show("library", script, size=size)
    ((record,), problems) = records(bay.records)
    assert not problems
    assert record.state == "finished"
    assert [event.bolts for event in record.told.events if event.kind == "check-off"] == [(1,), (2,), (3,)]
    assert {event.value for event in record.told.events if event.kind == "check-off"} == {"set 24 N·m"}
    assert "Kim" in {event.by for event in record.told.events} | set(record.progress.notes)


def test_a_group_of_the_list_is_walked_by_what_the_screen_says(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        stranger = Stranger(bay, seen)
        await stranger.type("thermo", "Type a part of its name; enter walks it.")
        await stranger.press("enter", "enter walk")
        assert seen.name == "WalkScreen"

    bay.show("library", script, size=(40, 12))


def test_the_hint_goes_when_something_is_typed_or_marked(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        assert "First time?" in seen.text
        assert "PRACTICE VALUES" in seen.text
        await seen.press("down")
        assert "First time?" not in seen.text

    bay.show("library", script, size=(40, 12))

    async def typing(seen: Seen) -> None:
        await seen.type("t")
        assert "First time?" not in seen.text

    bay.show("library", typing)


def test_who_has_walked_before_or_has_a_rack_is_not_told_again(bay: Bay, tmp_path: Path) -> None:
    async def script(seen: Seen) -> None:
        assert "First time?" not in seen.text

    bay.rack = rack(tmp_path, RACK)
    bay.show("library", script)
    bay.rack = Bay(tmp_path).rack
    cover, _ = find_group("thermostat-cover", (shipped_folder(),))
    assert cover is not None
    bay.begin(cover, presses=1)
    bay.show("library", script)
