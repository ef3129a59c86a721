"""Every key on every screen in every room: nothing breaks, and what is shown fills the room."""

from __future__ import annotations

import string
from pathlib import Path
from typing import Any

import pytest
from textual.events import Key

from tests.screens.bay import Bay, Seen
from tests.screens.scenes import BY_NAME, ROOT, Scene, act, job_session, session_of
from torqref.screens.line import width_of
from torqref.wrench.rack import read_rack

ROOMS = ((100, 30), (80, 24), (44, 18), (40, 12))
NAMED = (
    "enter", "space", "up", "down", "left", "right", "home", "end", "pageup", "pagedown", "tab", "shift+tab",
    "backspace", "delete", "insert", "escape", "f1", "f12", "ctrl+a", "ctrl+h", "ctrl+j", "ctrl+l", "ctrl+u", "ctrl+w",
)  # fmt: skip
# Letters that leave come last, so that the others are pressed before.
KEYS = (*NAMED, *sorted(set(string.printable.strip()) - set("qQ<")), "é", "漢", "\u202e", "q", "<", "ctrl+c")
SHOWN = (
    "library", "library-problems", "problems", "caution", "stop-was", "place", "bolt", "angle", "marks",
    "angle-question", "trouble", "wait", "recheck", "card-3", "measure", "big", "finished", "plate", "quick", "convert",
    "crowfoot", "job-safe", "job-measure", "job-walk", "job-standing", "records", "record-read", "help-walk",
)  # fmt: skip


async def press(seen: Seen, bay: Bay, keys: tuple[str, ...], size: tuple[int, int]) -> int:
    """Press keys until the screen is left for good; how many were pressed."""
    for count, key in enumerate(keys, start=1):
        bay.clock.go(seconds=1)
        character = {"enter": "\r", "space": " "}.get(key, key if len(key) == 1 else None)
        before = seen.app.screen
        await seen.screen.on_key(Key(key, character))
        if seen.app.screen is not before:
            await seen.pilot.pause()
        if seen.app._exit:
            return count
        lines = seen.screen.painter.lines
        assert len(lines) == size[1], (key, seen.text)
        assert {width_of(line) for line in lines} == {size[0]}, (key, seen.text)
    return len(keys)


@pytest.mark.slow
@pytest.mark.parametrize("size", ROOMS, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SHOWN)
def test_every_key_does_something_or_nothing_and_breaks_nothing(
    name: str, size: tuple[int, int], tmp_path: Path
) -> None:
    left, starts = KEYS, 0
    while left:
        starts += 1
        home = tmp_path / str(starts)
        home.mkdir()
        done = run(BY_NAME[name], home, left, size)
        assert done, "a key was pressed"
        left = left[done:]
    assert starts < len(KEYS)


def run(scene: Scene, home: Path, keys: tuple[str, ...], size: tuple[int, int]) -> int:
    """Show a scene and press keys until it is left for good; how many were pressed."""
    bay = Bay(home, rack=read_rack(ROOT / "demo" / "wrenches.toml")[0])
    scene.prepare(bay)
    given: dict[str, Any] = {"session": session_of(scene, bay)} if scene.group else {}
    given = {"session": job_session(bay)} if scene.screen == "job" else given
    counted = []

    async def script(seen: Seen) -> None:
        await act(seen, bay, scene.keys.replace("again", ""))
        counted.append(await press(seen, bay, keys, size))

    assert bay.show(scene.screen, script, size=size, **given) in (None, 0)
    return counted[0]
