"""The help of every screen: it names each key that works, none that does not, in plain words."""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable
from string import ascii_lowercase
from typing import Any

import pytest

from tests.screens.bay import Bay, Seen
from tests.screens.scenes import job_session
from tests.screens.shop import Shop
from torqref.screens.fields_screen import FieldsScreen
from torqref.screens.help_screen import HelpScreen
from torqref.screens.job_screen import JobScreen
from torqref.screens.line import text_of

# Every key without a character that a keyboard or a remote terminal commonly sends.
PROBES = (
    "up", "down", "left", "right", "home", "end", "pageup", "pagedown", "tab", "shift+tab", "backspace",
    "ctrl+h", "delete", "insert", "escape", "ctrl+u", "ctrl+a", "ctrl+e", "ctrl+k", "ctrl+w", "f1", "f5", "f10",
)  # fmt: skip
ALWAYS = {"enter", "ctrl+l", "ctrl+z", "ctrl+c"}
# Words of those who write programs, not of those who turn wrenches.
JARGON = re.compile(
    r"\b(journal|json|toml|csv|html|event|fold|widget|filter|regex|parse[ds]?|utf|cursor|buffer|query|"
    r"timestamp|boolean|null|string|input|exit code|check-?off|gate)\b",
    re.IGNORECASE,
)
Way = Callable[[Seen], Awaitable[None]]


async def nothing(seen: Seen) -> None:
    """The screen as it opens."""


def pressing(*keys: str) -> Way:
    """The screen after these keys; a word with a blank or sign is typed."""

    async def way(seen: Seen) -> None:
        for key in keys:
            await (seen.press(key) if key in ("enter", "end", "down") else seen.type(key))
            await seen.settled()

    return way


async def into_a_walk_of_the_job(seen: Seen) -> None:
    """The cautions, four steps that must be safe, and the walk of the ninth step."""
    job = seen.screen
    assert isinstance(job, JobScreen)
    for word, argument in (("done", ""), *[("1", "")] * 4, ("go", "9")):
        assert not job.session.do(word, argument).refused
    job.repaint()
    await seen.press("enter")
    await seen.settled()


# name: (screen it begins with, how one comes to the state, screen that is seen)
STATES: dict[str, tuple[str, Way, str]] = {
    "library": ("library", nothing, "LibraryScreen"),
    "quick": ("quick", nothing, "QuickScreen"),
    "convert": ("convert", nothing, "ConvertScreen"),
    "crowfoot": ("crowfoot", nothing, "CrowfootScreen"),
    "crowfoot answered": (
        "crowfoot",
        pressing("40 Nm", "enter", "38 mm", "enter", "300 mm"),
        "CrowfootScreen",
    ),
    "records": ("record", nothing, "RecordScreen"),
    "record finished": ("record", pressing("order 17", "enter"), "RecordTextScreen"),
    "record open": ("record", pressing("lid="), "RecordTextScreen"),
    "job cautions": ("job", nothing, "JobScreen"),
    "job safe": ("job", pressing("enter", "enter", "enter", "enter", "enter"), "JobScreen"),
    "job walk": ("job", into_a_walk_of_the_job, "JobWalkScreen"),
    "walk stop": ("library", pressing("flange", "down", "enter"), "WalkScreen"),
    "walk due": ("record", pressing("due", "enter"), "WalkScreen"),
    "walk bolt": ("record", pressing("lid", "enter", "enter"), "WalkScreen"),
}
EACH = pytest.mark.parametrize("state", STATES)


def show(bay: Bay, state: str, script: Way, size: tuple[int, int] = (40, 12)) -> None:
    Shop(bay).week()
    begin, way, name = STATES[state]

    async def there(seen: Seen) -> None:
        await seen.settled()
        await way(seen)
        assert seen.name == name
        await script(seen)

    given: dict[str, Any] = {"session": job_session(bay)} if begin == "job" else {}
    bay.show(begin, there, size=size, **given)


async def pages(seen: Seen) -> list[str]:
    """Every line of the help, page by page to its end; the screen is back after it."""
    await seen.type("?")
    assert isinstance(seen.screen, HelpScreen)
    lines: list[str] = []
    for _ in range(40):
        lines += [text_of(line) for line in seen.screen.painter.lines[1:-1]]
        last = "more" not in seen.lines[-1]
        await seen.press("enter")
        if last:
            return lines
    raise AssertionError("the help does not end")


def told(lines: list[str]) -> list[str]:
    """The keys that the help names, in order: what stands in its first column."""
    rows = (re.match(r" (\S+)\s+\S", line) for line in lines)
    return [row.group(1) for row in rows if row and not row.group(0).startswith("  ")]


@EACH
def test_the_help_names_exactly_the_keys_that_work_there(bay: Bay, state: str) -> None:
    async def script(seen: Seen) -> None:
        screen = seen.screen
        keys = tuple(screen.keys())
        letters = [key.letter for key in keys]
        moves = [move.shown for move in screen.moves()]
        lines = await pages(seen)
        named = [key for key in told(lines) if key in (*letters, *moves, *ALWAYS)]
        assert sorted(named) == sorted([*letters, *moves, *ALWAYS])
        text = " ".join(" ".join(lines).split())
        for key in keys:
            assert " ".join(f"{key.word}: {key.meaning}".split()) in text

    show(bay, state, script)


@EACH
def test_every_key_that_is_named_does_something_of_its_own(bay: Bay, state: str) -> None:
    async def script(seen: Seen) -> None:
        screen = seen.screen
        keys = tuple(screen.keys())
        for key in keys:
            said = key.act in ("ask", "say", "choose")
            assert said or callable(getattr(screen, f"do_{key.act}")), key
        assert len({key.letter for key in keys}) == len(keys)

    show(bay, state, script)


@EACH
def test_keys_without_a_character_work_if_and_only_if_the_help_names_them(bay: Bay, state: str) -> None:
    async def script(seen: Seen) -> None:
        screen = seen.screen
        named = {name for move in screen.moves() for name in move.names}
        # Escape leaves the screen, so it is tried last.
        for key in sorted(PROBES, key=lambda key: key == "escape"):
            assert screen.special(key) == (key in named), key

    show(bay, state, script)


@EACH
def test_a_letter_is_text_in_a_list_and_refused_elsewhere(bay: Bay, state: str) -> None:
    async def script(seen: Seen) -> None:
        screen = seen.screen
        keys = tuple(screen.keys())
        letters = {key.letter for key in keys}
        free = next(letter for letter in ascii_lowercase if letter not in letters)
        before = seen.lines
        await seen.type(free)
        assert type(seen.screen).__name__ == STATES[state][2]
        if isinstance(screen, FieldsScreen):
            assert screen.fields[screen.active].text.endswith(free)
        else:
            assert seen.lines == before or "does nothing here" in seen.flat

    show(bay, state, script)


@EACH
def test_the_help_speaks_as_a_technician_does(bay: Bay, state: str) -> None:
    async def script(seen: Seen) -> None:
        lines = " ".join(await pages(seen))
        assert not JARGON.findall(lines)
        assert "licensed practice" in lines

    show(bay, state, script)


@EACH
def test_the_help_is_named_on_the_screen_however_narrow(bay: Bay, state: str) -> None:
    async def script(seen: Seen) -> None:
        for width, height in ((40, 12), (44, 18), (60, 20), (80, 24), (100, 30)):
            await seen.pilot.resize_terminal(width, height)
            await seen.pilot.pause()
            # a letter where letters are keys, a sign where letters are text
            assert " h  help" in seen.text or " ?  help" in seen.text

    show(bay, state, script)


def test_problems_of_files_turn_pages_and_go_back(bay: Bay) -> None:
    shop = Shop(bay)
    shop.week()

    async def script(seen: Seen) -> None:
        await seen.settled()
        await seen.type("!")
        assert "enter = more, q = back" in seen.lines[-1]
        await seen.press("enter")
        assert "enter = " in seen.lines[-1]
        await seen.press("q")
        assert seen.name == "RecordScreen"

    bay.show("record", script, size=(40, 8))
