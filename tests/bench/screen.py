"""The walk screen in a real terminal, against the smallest Textual app that paints a line."""

from __future__ import annotations

import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from tests.bench.material import write_pattern
from tests.bench.process import Runs, environment, script
from tests.bench.row import Row, ratio
from tests.bench.size import Size
from tests.bench.terminal import Terminal, started

BOLTS = (10, 64, 200)
KEYS = 200
_LONGEST_KEY = 8.0  # ms
_PACE = 0.25  # seconds between two keys: no hand is faster, and a faster one counts as a bounce
_ROUNDS = 40  # torque rounds, so that the keys do not run out
_SMALLEST = [sys.executable, str(Path(__file__).with_name("smallest.py"))]
_READY = b"READY"


@dataclass(frozen=True, slots=True, kw_only=True)
class Painted:
    """An app to measure: its command, and a word of its first painted screen."""

    command: Sequence[str]
    word: bytes


def screen_rows(folder: Path, size: Size) -> Iterator[Row]:
    """First paint, then keys, with the smallest app beside each."""
    yield from first_paint(folder, size)
    yield from keys(folder, size)


def first_paint(folder: Path, size: Size) -> Iterator[Row]:
    """From the start of the process to the first painted screen, in turn."""
    walk = _walk(folder, "exhaust-manifold")
    plain = _walk(folder, "plate", "--specs", str(write_pattern(folder / "first", 10, 3)))
    times: dict[str, list[float]] = {"smallest": [], "printed twice": [], "printed once": []}
    apps = {
        "smallest": lambda: Painted(command=_SMALLEST, word=_READY),
        "printed twice": walk,
        "printed once": plain,
    }
    for turn in range(size.runs + 1):
        for name, app in apps.items():
            seconds = _first(app(), environment(folder))
            if turn:
                times[name].append(seconds)
    runs = {name: Runs(seconds=tuple(seconds)) for name, seconds in times.items()}
    for name in ("printed once", "printed twice"):
        what = f"first paint of a walk, values {name}"
        yield ratio(what, "the smallest Textual app", (runs[name], runs["smallest"]), 1.15)


def _first(app: Painted, variables: Mapping[str, str]) -> float:
    terminal = started(app.command, variables)
    try:
        return terminal.until(app.word)
    finally:
        terminal.end()


def _walk(folder: Path, group: str, *words: str) -> Callable[[], Painted]:
    """A new walk each time, in a folder of its own."""

    def fresh() -> Painted:
        records = tempfile.mkdtemp(prefix="records-", dir=folder)
        command = [*script(folder), "walk", group, *words, "--records", records]
        return Painted(command=command, word=b"STOP")

    return fresh


def keys(folder: Path, size: Size) -> Iterator[Row]:
    """From a key to the last byte of what it changes, each press synced to the disk before it is shown."""
    number = size.of(KEYS)
    smallest = answers(Painted(command=_SMALLEST, word=_READY), number, environment(folder))
    for bolts in BOLTS:
        specs = write_pattern(folder / f"keys-{bolts}", bolts, _ROUNDS)
        walk = _walk(folder, "plate", "--specs", str(specs))()
        times = answers(walk, number, environment(folder, TORQREF_BELL="0"))
        ended = Runs(seconds=tuple(times)), Runs(seconds=tuple(smallest))
        yield ratio(f"key to frame, {bolts} bolts, median", "the smallest Textual app", ended, 2.0)
        yield Row(
            what=f"key to frame, {bolts} bolts, 99th percentile",
            against="the smallest Textual app",
            value=_late(times) * 1000,
            unit="ms",
            aim=_LONGEST_KEY,
            detail=f"smallest app {_late(smallest) * 1000:.1f} ms",
        )
    yield Row(
        what="sync of one line alone, at the same pace",
        against="",
        value=median(_syncs(folder / "sync")) * 1000,
        unit="ms",
    )


def answers(app: Painted, number: int, variables: Mapping[str, str]) -> list[float]:
    """Seconds of each key at the pace of a hand; the first ones open stops and warm up, and are left out."""
    terminal = started(app.command, variables)
    try:
        terminal.until(app.word)
        for _ in range(20):
            _press(terminal)
        return [_press(terminal) for _ in range(number)]
    finally:
        terminal.end()


def _press(terminal: Terminal) -> float:
    time.sleep(_PACE)
    seconds, sent = terminal.press(b"\r")
    if b"Double" in sent:
        raise SystemExit("a key at the pace of a hand was taken for a bounce")
    return seconds


def _late(times: Sequence[float]) -> float:
    """The 99th percentile."""
    return sorted(times)[int(len(times) * 0.99)]


def _syncs(path: Path) -> Iterator[float]:
    with open(path, "wb", buffering=0) as file:
        for _ in range(40):
            time.sleep(_PACE)
            began = time.perf_counter()
            file.write(b"x" * 200 + b"\n")
            os.fsync(file.fileno())
            yield time.perf_counter() - began
