"""A program in a real terminal of its own: what it writes, and how it leaves the terminal."""

from __future__ import annotations

import codecs
import fcntl
import os
import pty
import re
import select
import struct
import sys
import termios
import time
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).parents[2]
LIMIT = 20.0
SILENCE = 0.1  # seconds after which a frame is taken for whole
ENTER_ALTERNATE, LEAVE_ALTERNATE, SHOW_CURSOR = "\x1b[?1049h", "\x1b[?1049l", "\x1b[?25h"
_ESCAPES = re.compile(r"\x1b(?:\[[0-9;?<>=$]*[ -/]*[@-~]|[@-Z\\-_])")


class Terminal:
    """A child on a pseudo terminal."""

    def __init__(self, arguments: Sequence[str], **environment: str) -> None:
        self.written = ""
        self.decoder = codecs.getincrementaldecoder("utf-8")("replace")  # a read may end inside a character
        self.pid, self.handle = pty.fork()
        if self.pid == 0:
            _become(arguments, environment)
        fcntl.ioctl(self.handle, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.modes = termios.tcgetattr(self.handle)

    def until(self, *texts: str) -> None:
        """Wait until all of some texts were written, and the rest of their frame with them."""
        end = time.monotonic() + LIMIT
        while missing := [text for text in texts if text not in self.plain]:
            assert time.monotonic() < end, f"{missing} did not come: {self.plain[-2000:]}"
            self.read(0.2)
        self.settle()

    def settle(self) -> None:
        """Take what is still coming, until nothing comes for a moment."""
        end = time.monotonic() + LIMIT
        while select.select([self.handle], [], [], SILENCE)[0] and self.read(0):
            assert time.monotonic() < end, "it never stops writing"

    def answered(self) -> None:
        """Wait until something was written since the last press, and the rest of it with it."""
        end = time.monotonic() + LIMIT
        while not self.written:
            assert time.monotonic() < end, "the press was not answered"
            if not self.read(0.2):
                break
        self.settle()

    def read(self, limit: float) -> bool:
        """Take what was written; False when the program has closed its side."""
        if not select.select([self.handle], [], [], limit)[0]:
            return True
        try:
            data = os.read(self.handle, 1 << 16)
        except OSError:
            return False
        self.written += self.decoder.decode(data)
        return bool(data)

    def press(self, keys: str) -> None:
        """Press keys; what was written before is forgotten."""
        self.written = ""
        os.write(self.handle, keys.encode())

    def finger(self, keys: str) -> None:
        """Press keys as a finger does: slower than a bounce."""
        time.sleep(0.25)
        self.settle()
        self.press(keys)

    def resize(self, width: int, height: int) -> None:
        self.written = ""
        fcntl.ioctl(self.handle, termios.TIOCSWINSZ, struct.pack("HHHH", height, width, 0, 0))

    def signal(self, number: int) -> None:
        os.kill(self.pid, number)

    def ended(self) -> int:
        """Wait for the end; the exit code, or minus the signal that killed it."""
        end = time.monotonic() + LIMIT
        while True:
            assert time.monotonic() < end, f"it does not end: {self.plain[-2000:]}"
            if not self.read(0.05):
                time.sleep(0.02)
            found, status = os.waitpid(self.pid, os.WNOHANG)
            if found:
                while self.read(0) and select.select([self.handle], [], [], 0.05)[0]:
                    pass
                return os.waitstatus_to_exitcode(status)

    def stopped(self) -> None:
        """Wait until the program was stopped, as by Ctrl-Z."""
        end = time.monotonic() + LIMIT
        while time.monotonic() < end:
            self.read(0.05)
            found, status = os.waitpid(self.pid, os.WNOHANG | os.WUNTRACED)
            if found:
                assert os.WIFSTOPPED(status)
                return
        raise AssertionError("it was not stopped")

    @property
    def plain(self) -> str:
        """What was written, without escape sequences."""
        return _ESCAPES.sub("", self.written)

    @property
    def is_sane(self) -> bool:
        """Whether the alternate screen was left, the cursor is back, and lines are read as before."""
        last = self.written.rfind
        left = last(LEAVE_ALTERNATE) > last(ENTER_ALTERNATE) and SHOW_CURSOR in self.written
        now = termios.tcgetattr(self.handle)
        return left and now[3] & (termios.ICANON | termios.ECHO) == self.modes[3] & (
            termios.ICANON | termios.ECHO
        )

    def close(self) -> None:
        try:
            os.kill(self.pid, 9)
            os.waitpid(self.pid, 0)
        except (ProcessLookupError, ChildProcessError):
            pass
        os.close(self.handle)


def _become(arguments: Sequence[str], environment: dict[str, str]) -> None:
    known = {
        key: value
        for key, value in os.environ.items()
        if key not in ("NO_COLOR", "COLORTERM", "COLUMNS", "LINES")
    }
    os.chdir(ROOT)
    known |= {"TERM": "xterm-256color", "TORQREF_BELL": "0", "PYTHONPATH": str(ROOT), **environment}
    os.execvpe(sys.executable, [sys.executable, *arguments], known)
