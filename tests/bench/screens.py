"""Measures the walk screen in a real terminal against the smallest Textual app: paint, keys, bytes.

    python tests/bench/screens.py [ROUNDS]

A tick waits for the disk; with TMPDIR on a memory disk the figures are those of the program alone. No test:
the figures depend on the machine, the ratios less so. Aims: first paint within 1.2 times, half of the keys
within 2.5 times, 99 of 100 keys within 16 ms.
"""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import statistics
import struct
import sys
import tempfile
import termios
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
KEYS = 120
# The caution, the first stop, the hand rounds of both wheels, the stop of the first torque round.
GROUP, FIRST, OPENING = "rear-wheel", b"CAUTION", (b"\r",) * 5
SIZE = (30, 100)
# After this long without a byte a frame is taken to be through.
_QUIET = 0.012
# Nobody presses faster than this; the frames of the terminal library come every sixtieth of a second, so the
# pause is not a multiple of that.
_PAUSE = 0.057


class Terminal:
    """A child in a terminal of its own."""

    def __init__(self, command: list[str], **environment: str) -> None:
        self.began = time.perf_counter()
        self.pid, self.handle = pty.fork()
        if self.pid == 0:
            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", *SIZE, 0, 0))
            known = {**os.environ, "TERM": "xterm-256color", "COLORTERM": "truecolor", **environment}
            os.chdir(ROOT)
            os.execvpe(command[0], command, known)

    def until(self, text: bytes, limit: float = 20.0) -> float:
        """Seconds from the start until a text was painted."""
        seen = b""
        while text not in seen:
            seen += self.some(limit)
        return time.perf_counter() - self.began

    def some(self, limit: float) -> bytes:
        ready, _, _ = select.select([self.handle], [], [], limit)
        if not ready:
            raise TimeoutError("nothing was painted")
        return os.read(self.handle, 1 << 16)

    def settle(self) -> int:
        """Read until it is quiet; returns how many bytes came."""
        count = 0
        while select.select([self.handle], [], [], _QUIET)[0]:
            count += len(os.read(self.handle, 1 << 16))
        return count

    def key(self, key: bytes) -> tuple[float, int]:
        """Seconds from a key to the first bytes of its frame, and the bytes of the frame."""
        start = time.perf_counter()
        os.write(self.handle, key)
        first = self.some(5.0)
        seconds, count = time.perf_counter() - start, len(first) + self.settle()
        time.sleep(_PAUSE)
        return seconds, count

    def end(self) -> None:
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.handle)


def measure(command: list[str], text: bytes, keys: tuple[bytes, ...], **environment: str) -> dict[str, float]:
    """First paint of one run, then the answers to many keys."""
    terminal = Terminal(command, **environment)
    try:
        first = terminal.until(text)
        time.sleep(0.6)
        terminal.settle()
        answers = [terminal.key(keys[count % len(keys)]) for count in range(KEYS)][20:]
    finally:
        terminal.end()
    times = sorted(seconds for seconds, _ in answers)
    return {
        "first": first * 1000,
        "p50": times[len(times) // 2] * 1000,
        "p99": times[int(len(times) * 0.99)] * 1000,
        "bytes": statistics.median(count for _, count in answers),
    }


def runs(rounds: int) -> dict[str, list[dict[str, float]]]:
    """Both programs turn by turn, so that a slow moment of the machine meets both."""
    found: dict[str, list[dict[str, float]]] = {"smallest": [], "walk": []}
    for _ in range(rounds):
        found["smallest"].append(measure([sys.executable, "tests/bench/smallest.py"], b"READY", (b"a",)))
        with tempfile.TemporaryDirectory() as folder:
            walk = [sys.executable, "-m", "torqref", "walk", GROUP, "--records", folder]
            found["walk"].append(_walk(walk, OPENING))
    return found


def _walk(command: list[str], opening: tuple[bytes, ...]) -> dict[str, float]:
    """The walk is first brought to its bolts; then ticks and undos take turns."""
    terminal = Terminal(command, TORQREF_BELL="0")
    try:
        first = terminal.until(FIRST)
        time.sleep(0.6)
        terminal.settle()
        for key in opening:
            time.sleep(0.3)
            terminal.key(key)
        answers = [terminal.key((b"\r", b"u")[count % 2]) for count in range(KEYS)][20:]
    finally:
        terminal.end()
    times = sorted(seconds for seconds, _ in answers)
    return {
        "first": first * 1000,
        "p50": times[len(times) // 2] * 1000,
        "p99": times[int(len(times) * 0.99)] * 1000,
        "bytes": statistics.median(count for _, count in answers),
    }


def main() -> int:
    found = runs(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
    best = {
        name: {key: min(run[key] for run in rounds) for key in rounds[0]} for name, rounds in found.items()
    }
    for key, unit in (
        ("first", "ms to the first paint"),
        ("p50", "ms a key"),
        ("p99", "ms at worst"),
        ("bytes", "bytes a key"),
    ):
        small, walk = best["smallest"][key], best["walk"][key]
        print(f"{unit:22} smallest {small:8.1f}   walk {walk:8.1f}   ratio {walk / small:5.2f}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
