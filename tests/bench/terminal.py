"""A real pseudo-terminal: how long until an app has painted, and from a key to its finished frame."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import termios
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

COLUMNS, ROWS = 80, 24
_QUIET = 0.04  # a frame is finished when nothing has come for so long; the wait itself is not counted
_LONGEST = 20.0
# Textual asks whether frames may be sent whole; a terminal of today says yes.
_ASKS_SYNC, _SAYS_SYNC = b"\x1b[?2026$p", b"\x1b[?2026;2$y"


@dataclass(slots=True)
class Terminal:
    """A running app and what it has sent."""

    pid: int
    handle: int
    began: float
    sent: bytes = b""
    answered: bool = False
    last: float = field(default=0.0)

    def until(self, words: bytes) -> float:
        """Seconds from the start of the process until the words are on the screen."""
        while words not in self.sent:
            if not self._read(_LONGEST):
                raise SystemExit(f"{words!r} did not come within {_LONGEST} s: {self.sent[-2000:]!r}")
        return self.last - self.began

    def settle(self) -> None:
        """Wait until nothing more is sent."""
        while self._read(_QUIET):
            pass

    def press(self, key: bytes) -> tuple[float, bytes]:
        """Seconds from a key to the last byte of what it changes on the screen, and these bytes."""
        self.settle()
        self.sent = b""
        began = self.last = time.perf_counter()
        os.write(self.handle, key)
        self._read(_LONGEST)
        self.settle()
        return self.last - began, self.sent

    def _read(self, patience: float) -> bool:
        ready, _, _ = select.select([self.handle], [], [], patience)
        if not ready:
            return False
        try:
            self.sent += os.read(self.handle, 65536)
        except OSError as error:
            raise SystemExit(f"the app has ended: {self.sent[-2000:]!r}") from error
        self.last = time.perf_counter()
        if not self.answered and _ASKS_SYNC in self.sent:
            self.answered = True
            os.write(self.handle, _SAYS_SYNC)
        return True

    def end(self) -> None:
        """End the app."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.handle)


def started(command: Sequence[str], variables: Mapping[str, str]) -> Terminal:
    """An app in a terminal of its own."""
    began = time.perf_counter()
    pid, handle = pty.fork()
    if pid == 0:
        fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        os.execve(command[0], list(command), dict(variables))
    return Terminal(pid=pid, handle=handle, began=began)
