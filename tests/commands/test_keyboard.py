"""What is typed at a terminal: a press nobody can have meant opens no stop and answers no question."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from select import select

import pytest

from torqref.cli import main
from torqref.commands.console import Console
from torqref.commands.keyboard import Keyboard
from torqref.walk.bounce import AHEAD

LONG = 10.0


class Terminal(io.StringIO):
    """Lines that are typed at a terminal, each so many seconds after what was shown."""

    def __init__(self, clock: Clock, *typed: tuple[float, str]) -> None:
        super().__init__("".join(f"{line}\n" for _, line in typed))
        self.clock, self.waits = clock, [seconds for seconds, _ in typed]

    def isatty(self) -> bool:
        return True

    def readline(self, size: int = -1, /) -> str:  # type: ignore[override]  # as in io.StringIO itself
        self.clock.now += self.waits.pop(0) if self.waits else 0
        return super().readline()


@dataclass(slots=True)
class Clock:
    now: float = 0.0

    def __call__(self) -> float:
        return self.now


@dataclass(slots=True)
class Desk:
    said: io.StringIO = field(default_factory=io.StringIO)

    def read(self, *typed: tuple[float, str]) -> str:
        clock = Clock()
        keyboard = Keyboard(Terminal(clock, *typed), Console(self.said, self.said), clock)
        return keyboard.read()


@pytest.mark.parametrize("press", ["", "1"])
def test_a_press_before_it_could_be_read_is_left_out_and_told_once(press: str) -> None:
    desk = Desk()
    assert desk.read((0.001, press), (0.001, press), (0.15, press), (0.3, "undo")) == "undo\n"
    assert desk.said.getvalue().count(AHEAD) == 1


def test_a_press_after_a_look_is_taken() -> None:
    desk = Desk()
    assert desk.read((0.4, "")) == "\n"
    assert not desk.said.getvalue()


def test_a_key_held_down_passes_nothing_until_it_is_let_go() -> None:
    # a keyboard repeats a held key about thirty times a second
    assert Desk().read(*[(0.033, "")] * 90, (0.5, "")) == "\n"


@pytest.mark.parametrize("word", ["trouble 3", "24.1 Nm", "pause"])
def test_a_word_or_a_reading_is_taken_whenever_it_comes(word: str) -> None:
    assert Desk().read((0.001, word)) == f"{word}\n"


def test_the_end_of_input_is_no_press() -> None:
    assert Desk().read() == ""


# --- at a real terminal ------------------------------------------------------------------------------

pty = pytest.importorskip("pty", reason="only where the system has pseudo-terminals")


@dataclass(slots=True)
class Hand:
    """A person at a terminal: types, and waits until something is shown."""

    terminal: int
    seen: str = ""

    def type(self, text: str) -> None:
        os.write(self.terminal, text.encode())

    def wait_for(self, words: str, *, since: int = 0) -> int:
        """The place behind these words, once they stand there."""
        end = time.monotonic() + LONG
        while words not in self.seen[since:] and time.monotonic() < end:
            if not select([self.terminal], [], [], 0.1)[0]:
                continue
            try:
                self.seen += os.read(self.terminal, 4096).decode("utf-8", "replace")
            except OSError:
                break
        assert words in self.seen[since:], self.seen
        return self.seen.index(words, since) + len(words)


@contextmanager
def seated(records: Path) -> Iterator[Hand]:
    """A walk in plain mode at a pseudo-terminal."""
    ours, theirs = pty.openpty()
    words = ["walk", "exhaust-manifold", "--plain", "--records", str(records)]
    with subprocess.Popen([sys.executable, "-m", "torqref", *words], stdin=theirs, stdout=theirs) as process:
        os.close(theirs)
        try:
            yield Hand(ours)
            assert process.wait(LONG) == 0
        finally:
            process.kill()
            os.close(ours)


def test_lines_typed_ahead_at_a_terminal_open_no_stop_and_tick_no_bolt(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with seated(tmp_path) as hand:
        hand.type("\n" * 12)
        at = hand.wait_for(AHEAD)
        time.sleep(0.3)
        hand.type("\n\n\n\n")  # one for what is shown, three too many
        at = hand.wait_for("enter = whole round done", since=at)
        at = hand.wait_for(AHEAD, since=at)
        time.sleep(0.3)
        hand.type("\x04")
        hand.wait_for("paused", since=at)
    main(["record", "--json", "--records", str(tmp_path)])
    (walk,) = json.loads(capsys.readouterr().out)["walks"]
    assert [event["kind"] for event in walk["events"]] == ["opened", "gate", "pause"]
