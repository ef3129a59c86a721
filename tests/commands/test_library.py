"""Bare torqref: the screens in a real terminal, the list of groups everywhere else."""

from __future__ import annotations

import fcntl
import json
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LONGEST = 20.0


class Terminal:
    """The program in a terminal of its own."""

    def __init__(self, home: Path, *words: str, term: str = "xterm-256color") -> None:
        self.seen = b""
        self.pid, self.handle = pty.fork()
        if self.pid == 0:
            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
            folders = {f"XDG_{name}_HOME": str(home / name.lower()) for name in ("CONFIG", "DATA")}
            os.chdir(ROOT)
            command = [sys.executable, "-m", "torqref", *words]
            os.execve(sys.executable, command, {**os.environ, **folders, "TERM": term, "LC_ALL": "C.UTF-8"})

    def until(self, text: str) -> str:
        """Read until a text was painted."""
        end = time.monotonic() + LONGEST
        while text.encode() not in self.seen:
            left = end - time.monotonic()
            assert left > 0, f"{text!r} never came: {self.seen[-600:]!r}"
            if select.select([self.handle], [], [], left)[0]:
                self.seen += os.read(self.handle, 1 << 16)
        return self.seen.decode(errors="replace")

    def type(self, text: str) -> None:
        self.seen = b""
        os.write(self.handle, text.encode())

    def code(self) -> int:
        """The exit code; what is still painted is read away."""
        end = time.monotonic() + LONGEST
        while time.monotonic() < end:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self.pid = 0
                return os.waitstatus_to_exitcode(status)
            if select.select([self.handle], [], [], 0.02)[0]:
                try:
                    self.seen += os.read(self.handle, 1 << 16)
                except OSError:
                    continue
        raise AssertionError("the program did not end")

    def close(self) -> None:
        if self.pid:
            os.kill(self.pid, 9)
            os.waitpid(self.pid, 0)
        os.close(self.handle)


@pytest.fixture
def terminals() -> Iterator[list[Terminal]]:
    opened: list[Terminal] = []
    yield opened
    for terminal in opened:
        terminal.close()


def test_from_bare_torqref_to_the_first_bolt_of_a_typed_job(
    tmp_path: Path, terminals: list[Terminal]
) -> None:
    terminal = Terminal(tmp_path)
    terminals.append(terminal)
    terminal.until("groups")
    terminal.type("M8 10.9 31 Nm")
    terminal.until("QUICK")
    terminal.type("\r")
    terminal.until("in no library")
    terminal.type("2x5")
    terminal.until("start: 2 rows of 5")
    terminal.type("\r")
    terminal.until("STOP")
    terminal.type("\x03")
    terminal.until("OPEN")
    terminal.type("<")
    assert terminal.code() == 0
    assert len(list((tmp_path / "data" / "torqref" / "records").iterdir())) == 1


def test_a_terminal_that_can_show_no_screens_gets_the_list(tmp_path: Path, terminals: list[Terminal]) -> None:
    terminal = Terminal(tmp_path, term="dumb")
    terminals.append(terminal)
    shown = terminal.until("screens need a terminal")
    assert "exhaust-manifold" in shown
    assert "\x1b" not in shown
    assert terminal.code() == 2


def test_options_without_a_command_belong_to_the_library(tmp_path: Path, terminals: list[Terminal]) -> None:
    terminal = Terminal(tmp_path, "--specs", str(ROOT / "tests" / "library" / "faulty"))
    terminals.append(terminal)
    terminal.until("ERROR")
    terminal.type("<")
    assert terminal.code() == 0


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
