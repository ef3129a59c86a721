"""The program in a real terminal: killed and gone on with, ended by signals, put aside, without colours."""

from __future__ import annotations

import os
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
        terminal.finger("\r")
        terminal.answered()
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


# At 9,600 baud, eight bits and two around them, 960 bytes take a second.
SLOW = 960


def quiet(terminal: Terminal) -> None:
    """Wait until nothing more comes."""
    time.sleep(0.4)
    while terminal.read(0.2) and terminal.written:
        terminal.written = ""


def bytes_of_a_press(terminal: Terminal) -> int:
    """What the main key costs, once nothing more comes."""
    quiet(terminal)
    terminal.press("\r")
    before = -1
    while len(terminal.written) != before:
        before = len(terminal.written)
        terminal.read(0.4)
    return len(terminal.written.encode())


@pytest.mark.parametrize(("term", "most"), [("vt100", 700), ("xterm-16color", 700), ("xterm-256color", 1200)])
def test_over_a_slow_line_a_press_costs_few_bytes(start: Start, term: str, most: int) -> None:
    terminal = start(TERM=term)
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 6", OPENING + 1)
    sent = [bytes_of_a_press(terminal) for _ in range(8)]
    print(f"bytes a press on {term}: {sent}")
    assert sorted(sent)[len(sent) // 2] < most
    assert max(sent) < 2 * most


def test_on_a_line_of_9600_baud_no_press_is_lost_and_the_picture_comes_right(
    start: Start, tmp_path: Path
) -> None:
    terminal = start(TERM="vt100")
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 6", OPENING + 1)
    quiet(terminal)
    for _ in range(6):
        os.write(terminal.handle, b"\r")
        for _ in range(3):  # a bolt every 0.3 s, faster than the line
            time.sleep(0.1)
            terminal.written += os.read(terminal.handle, SLOW // 10).decode("utf-8", "replace")
    assert events(tmp_path).count("check-off") == 7
    quiet(terminal)
    terminal.press("\x0c")
    terminal.until("PRACTICE VALUES", "7 of 10 done")


def test_ctrl_l_paints_all_of_it_again(start: Start) -> None:
    terminal = start()
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 6", OPENING + 1)
    quiet(terminal)
    terminal.press("\x0c")
    terminal.until("Rear wheel", "stage 2 of 5", "bolt 6", "CLOCKWISE >>>", "BOLT", "SPEC 70 N·m", "help")


@pytest.mark.parametrize("term", ["vt100", "vt220", "linux", "xterm-16color", "screen", "tmux-256color"])
def test_on_every_terminal_a_round_is_walked(start: Start, tmp_path: Path, term: str) -> None:
    terminal = start(TERM=term)
    terminal.until("CAUTION")
    walk_to(terminal, "bolt 3", OPENING + 2)
    assert "38;2;" not in terminal.written or "256" in term
    assert events(tmp_path).count("check-off") == 2


@pytest.mark.parametrize("end", ["\r", "\n", "\r\n"], ids=["return", "line feed", "both"])
@pytest.mark.parametrize("plain", [False, True], ids=["screen", "lines"])
def test_a_round_at_full_speed_through_a_real_terminal(tmp_path: Path, end: str, plain: bool) -> None:
    words = ("-m", "torqref", "walk", "exhaust-manifold", "--records", str(tmp_path / "records"))
    terminal = Terminal((*words, *(("--plain",) if plain else ())), XDG_CONFIG_HOME=str(tmp_path))
    try:
        terminal.until("STOP")
        for wanted in ("HAND", "STOP", "bolt 1"):
            terminal.finger("\r")
            terminal.until(wanted)
        time.sleep(0.3)
        terminal.press("".join(f"12.{place} Nm{end}" for place in range(10)) + f" 12.0 ft-lb{end}" * 3)
        terminal.until("22–26", "No bolt is being pulled now.")
        time.sleep(0.5)
        terminal.signal(9)
        terminal.ended()
    finally:
        terminal.close()
    found, problems = records(tmp_path / "records")
    assert not problems
    kinds = [event.kind for event in found[0].told.events]
    assert (kinds.count("check-off"), kinds.count("actual"), kinds.count("gate")) == (10, 10, 2)
