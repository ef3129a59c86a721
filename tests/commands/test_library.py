"""Bare torqref: the screens in a real terminal, the list of groups everywhere else."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.screens.terminal import Terminal

ROOT = Path(__file__).parents[2]
Start = Callable[..., Terminal]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Start the program in a terminal and a home of its own."""
    opened: list[Terminal] = []

    def begin(*words: str, **environment: str) -> Terminal:
        folders = {f"XDG_{name}_HOME": str(tmp_path / name.lower()) for name in ("CONFIG", "DATA")}
        opened.append(Terminal(("-m", "torqref", *words), **folders, **environment))
        return opened[-1]

    yield begin
    for terminal in opened:
        terminal.close()


def test_from_bare_torqref_to_the_first_bolt_of_a_typed_job(start: Start, tmp_path: Path) -> None:
    terminal = start()
    terminal.until("groups")
    for keys, text in (
        ("M8 10.9 31 Nm", "QUICK"),
        ("\r", "in no library"),
        ("2x5", "start: 2 rows of 5"),
        ("\r", "STOP"),
        ("\x03", "OPEN"),
    ):
        terminal.press(keys)
        terminal.until(text)
    terminal.press("<")
    assert terminal.ended() == 0
    assert len(list((tmp_path / "data" / "torqref" / "records").iterdir())) == 1


def test_a_terminal_that_can_show_no_screens_gets_the_list(start: Start) -> None:
    terminal = start(TERM="dumb")
    terminal.until("screens need a terminal", "exhaust-manifold")
    assert "\x1b" not in terminal.written
    assert terminal.ended() == 2


def test_options_without_a_command_belong_to_the_library(start: Start) -> None:
    terminal = start("--specs", str(ROOT / "tests" / "library" / "faulty"))
    terminal.until("ERROR")
    terminal.press("<")
    assert terminal.ended() == 0


def call(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "torqref", *words], input="", capture_output=True, text=True, check=False
    )


def test_in_a_pipe_a_script_gets_the_groups_as_json_and_exit_code_two() -> None:
    done = call("--json")
    assert done.returncode == 2
    assert any(group["id"] == "exhaust-manifold" for group in json.loads(done.stdout)["groups"])
    assert done.stderr == ""


def test_an_option_that_is_not_known_is_wrong_usage() -> None:
    done = call("--frobnicate")
    assert done.returncode == 2
    assert "--frobnicate" in done.stderr
    assert done.stdout == ""
