"""A job in a real terminal: killed and gone on with, ended by a signal, without colours, as lines."""

from __future__ import annotations

import re
import signal
from pathlib import Path

import pytest

from tests.commands.repair import JOB, RACK
from tests.screens.terminal import Terminal
from torqref.walk.job_archive import job_records, read_job_record

pytestmark = pytest.mark.slow


def start(folder: Path, *words: str, **environment: str) -> Terminal:
    """The demo repair in a terminal of its own."""
    call = (
        "-m",
        "torqref",
        "job",
        str(JOB),
        "--rack",
        str(RACK),
        "--records",
        str(folder / "records"),
        *words,
    )
    home = {"XDG_CONFIG_HOME": str(folder / "config"), "XDG_DATA_HOME": str(folder / "data")}
    return Terminal(call, **home, **environment)


def press(terminal: Terminal, *pairs: tuple[str, str]) -> None:
    """Press keys, and after each wait for what the screen then says."""
    for keys, text in pairs:
        terminal.finger(keys)
        terminal.until(text)


TO_THE_HEAD = (
    ("\r", "ENGINE"),
    ("1", "step 1 of 35"),
    ("1", "step 2"),
    ("1", "step 3"),
    ("1", "step 4"),
    ("1", "DO ALL OF THIS"),
    ("\r", "MEASURE"),
)


def test_killed_in_the_middle_of_a_walk_it_goes_on_at_the_same_step_and_bolt(tmp_path: Path) -> None:
    terminal = start(tmp_path)
    try:
        terminal.until("CAUTIONS")
        press(terminal, *TO_THE_HEAD)
        press(terminal, ("0.03 mm\r", "step 7"), ("151 mm\r", "READ AND DO"), ("\r", "TIGHTEN"))
        press(terminal, ("\r", "STOP"), ("\r", "HAND"), ("\r", "STOP"), ("\r", "bolt 1"), ("\r", "bolt 2"))
        terminal.signal(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
    finally:
        terminal.close()
    again = start(tmp_path)
    try:
        again.until("step 9 of 35", "stage 2")
        press(again, ("\r", "click 1 again"), ("\r", "bolt 2"))
        press(again, ("q", "put down at stage 2"), ("q", "paused"))
        assert again.ended() == 0
        assert again.is_sane
    finally:
        again.close()
    (record,), problems = job_records(tmp_path / "records")
    assert not problems
    (walk,) = record.walks.values()
    assert [event.kind for event in walk.told.events].count("check-off") == 1


def test_killed_between_the_walks_it_goes_on_at_the_same_step(tmp_path: Path) -> None:
    terminal = start(tmp_path)
    try:
        terminal.until("CAUTIONS")
        press(terminal, *TO_THE_HEAD[:4])
        terminal.signal(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
    finally:
        terminal.close()
    again = start(tmp_path)
    try:
        again.until("step 3 of 35", "MUST BE SAFE")
        again.signal(signal.SIGTERM)
        assert again.ended() == 0
        assert again.is_sane
    finally:
        again.close()
    (path,) = (tmp_path / "records").glob("*.job")
    record, problems = read_job_record(path)
    assert record is not None
    assert not problems
    assert sorted(record.progress.done) == [1, 2]


@pytest.mark.parametrize(
    ("words", "environment"),
    [(("--plain",), {}), ((), {"TERM": "dumb"}), ((), {"TERM": ""})],
    ids=["plain", "dumb", "none"],
)
def test_lines_where_they_are_asked_for_or_a_terminal_can_do_nothing_else(
    tmp_path: Path, words: tuple[str, ...], environment: dict[str, str]
) -> None:
    terminal = start(tmp_path, *words, **environment)
    try:
        terminal.until("enter = read")
        assert "\x1b[?1049h" not in terminal.written
    finally:
        terminal.close()


def test_no_color_sends_no_colour(tmp_path: Path) -> None:
    terminal = start(tmp_path, NO_COLOR="1")
    try:
        terminal.until("CAUTIONS")
        press(terminal, *TO_THE_HEAD[:3])
        codes = {
            code for part in re.findall(r"\x1b\[([0-9;]*)m", terminal.written) for code in part.split(";")
        }
        assert not {code for code in codes if code and int(code) >= 30 and code not in ("39", "49")}
    finally:
        terminal.close()
