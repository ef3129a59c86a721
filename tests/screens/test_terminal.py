"""The program in a real terminal: killed and gone on with, ended by signals, put aside, without colours."""

from __future__ import annotations

import re
import signal
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.screens.terminal import ENTER_ALTERNATE, Terminal
from torqref.walk.archive import records

GROUP = "rear-wheel"
# The caution, the first stop, the hand rounds of both wheels, the stop of the first setting.
OPENING = 5

pytestmark = pytest.mark.slow

Start = Callable[..., Terminal]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    open_: list[Terminal] = []

    def begin(*arguments: str, **environment: str) -> Terminal:
        words = ("-m", "torqref", "walk", GROUP, "--records", str(tmp_path / "records"), *arguments)
        home = {"XDG_CONFIG_HOME": str(tmp_path / "config"), "XDG_DATA_HOME": str(tmp_path / "data")}
        open_.append(Terminal(words, **home, **environment))
        return open_[-1]

    yield begin
    for terminal in open_:
        terminal.close()


def walk_to(terminal: Terminal, text: str, presses: int) -> None:
    """Press the main key so often, each press after the screen has answered the one before."""
    for _ in range(presses):
        time.sleep(0.25)  # a foot is slower than a bounce
        terminal.press("\r")
        terminal.read(2)
    terminal.until(text)


def events(tmp_path: Path) -> list[str]:
    found, problems = records(tmp_path / "records")
    assert not problems
    return [event.kind for event in found[0].told.events]


def test_killed_in_the_middle_it_goes_on_at_the_same_bolt(start: Start, tmp_path: Path) -> None:
    terminal = start()
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 8", OPENING + 3)  # 1, 6 and 3 are done
    terminal.signal(signal.SIGKILL)
    assert terminal.ended() == -signal.SIGKILL
    assert events(tmp_path).count("check-off") == 3
    again = start()
    again.until("click 6 and 3 again")
    walk_to(again, "bolt 8", 1)


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_a_signal_ends_it_with_the_terminal_as_it_was(start: Start, tmp_path: Path, number: int) -> None:
    terminal = start()
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 6", OPENING + 1)
    terminal.written = ENTER_ALTERNATE
    terminal.signal(number)
    assert terminal.ended() == 0
    assert terminal.is_sane
    assert events(tmp_path).count("check-off") == 1


def test_ctrl_z_gives_the_terminal_back_and_fg_the_walk(start: Start) -> None:
    terminal = start()
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 1", OPENING)
    terminal.press("\x1a")
    terminal.stopped()
    terminal.read(0.3)
    assert terminal.is_sane
    terminal.signal(signal.SIGCONT)
    terminal.until("bolt 1")
    walk_to(terminal, "bolt 6", 1)


def test_leaving_says_how_the_walk_stands(start: Start) -> None:
    terminal = start()
    terminal.until("CAUTION")
    terminal.press("q")
    assert terminal.ended() == 0
    assert terminal.plain.rstrip().endswith("paused")


def test_a_fault_of_the_program_leaves_the_terminal_sane_and_says_where_to_look(tmp_path: Path) -> None:
    code = (
        "import torqref.screens.walk_panel as p, torqref.cli as c, sys\n"
        "def broken(*a): raise RuntimeError('a fault made for a test')\n"
        "import torqref.screens.walk_screen as w\n"
        "w.paint_walk = broken\n"
        f"sys.exit(c.main(['walk', '{GROUP}', '--records', r'{tmp_path}']))\n"
    )
    terminal = Terminal(("-c", code), XDG_CONFIG_HOME=str(tmp_path))
    try:
        assert terminal.ended() == 1
        assert terminal.is_sane
        assert "stopped by a fault of its own" in terminal.plain
        assert "Traceback" not in terminal.plain
        assert "a fault made for a test" in (tmp_path / "fault.txt").read_text(encoding="utf-8")
    finally:
        terminal.close()


@pytest.mark.parametrize("environment", [{"TERM": "dumb"}, {"TERM": ""}], ids=["dumb", "none"])
def test_a_terminal_that_can_do_nothing_gets_lines(start: Start, environment: dict[str, str]) -> None:
    terminal = start(**environment)
    terminal.until("enter = read and done")
    assert "\x1b" not in terminal.written


def test_plain_means_lines_in_any_terminal(start: Start) -> None:
    terminal = start("--plain")
    terminal.until("enter = read and done")
    assert ENTER_ALTERNATE not in terminal.written


def test_no_color_sends_no_colour(start: Start) -> None:
    terminal = start(NO_COLOR="1")
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 6", OPENING + 1)
    assert not colours(terminal.written)


def test_a_terminal_with_sixteen_colours_gets_no_other(start: Start) -> None:
    terminal = start(TERM="linux")
    terminal.until("CAUTION")
    assert all(
        code in {str(c) for c in (*range(30, 38), *range(40, 48))} for code in colours(terminal.written)
    )


def colours(written: str) -> set[str]:
    """Every colour code in what was written; 39 and 49 are the terminal's own."""
    codes = re.findall(r"\x1b\[([0-9;]*)m", written)
    numbers = {number for code in codes for number in code.split(";") if number}
    return {number for number in numbers if int(number) >= 30 and number not in ("39", "49")}


def test_a_storm_of_sizes_ends_in_the_right_picture(start: Start) -> None:
    terminal = start()
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 6", OPENING + 1)
    for width, height in [(1, 1), (40, 12), (200, 60), (44, 18), (3, 2), (100, 30)] * 3:
        terminal.resize(width, height)
        time.sleep(0.02)
    terminal.resize(60, 20)
    terminal.until("SPEC 70 N·m")
    terminal.press("\r")
    terminal.until("bolt 3")


def test_over_a_slow_line_a_press_costs_few_bytes(start: Start) -> None:
    terminal = start(TERM="vt220")
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 6", OPENING + 1)
    time.sleep(0.5)
    while terminal.read(0.2) and terminal.written:
        terminal.written = ""
    terminal.press("\r")
    terminal.until("bolt 3")
    terminal.read(0.3)
    # At 9,600 baud 960 bytes take a second.
    assert len(terminal.written.encode()) < 1400
