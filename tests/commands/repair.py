"""A technician for tests: reads what the program says and answers line by line, with a clock that is ours."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from torqref.cli import main

ROOT = Path(__file__).parents[2]
JOB = ROOT / "demo" / "brindle-24-head.job.toml"
RACK = ROOT / "demo" / "wrenches.toml"
BEGIN = datetime(2027, 3, 1, 8, 0, tzinfo=UTC)
# What is asked, and what a careful technician writes; the main key answers everything else.
ANSWERS = (
    ("MUST BE SAFE", "1"),
    ("ENGINE: which one?", "1"),
    ("MEASURE: deck flatness", "0.03 mm"),
    ("MEASURE: longest of the old head bolts", "151.4 mm"),
    ("MEASURE: drag of one new locking nut", "1.8 N·m"),
    ("MEASURE: coolant temperature", "92 °C"),
    ("MEASURE: road test", "17 km"),
    ("MEASURE: coolant level", "-0.1 L"),
    ("SECOND CHECK", "verify marks"),
    ("QUESTION", "1"),
    ("SIGN-OFF", "sign Ada"),
)


@dataclass(slots=True)
class Clock:
    """Time that passes five seconds a look, and further when it is told to."""

    now: datetime = BEGIN

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now


@dataclass(slots=True)
class Technician:
    """Standard input and output in one: answers what was said last."""

    heard: io.StringIO
    answers: tuple[tuple[str, str], ...] = ANSWERS
    budget: int = 400
    given: list[str] = field(default_factory=list)
    read: int = 0

    def readline(self) -> str:
        """One line; the end of input when the budget of lines is used up."""
        said = self.heard.getvalue()[self.read :]
        self.read += len(said)
        if len(self.given) >= self.budget:
            return ""
        asked = [(said.rfind(ask), answer) for ask, answer in self.answers if ask in said]
        line = max(asked)[1] if asked else ""
        self.given.append(line)
        return line + "\n"

    def isatty(self) -> bool:
        return False


@dataclass(slots=True)
class Garage:
    """A folder of records, a clock, and calls of the real command line."""

    records: Path
    monkeypatch: pytest.MonkeyPatch
    clock: Clock = field(default_factory=Clock)
    errors: str = ""

    def run(
        self, *words: str, answers: tuple[tuple[str, str], ...] = ANSWERS, budget: int = 400
    ) -> list[str]:
        """One call; returns the lines of the result."""
        code, said = self.call(*words, answers=answers, budget=budget)
        assert code == 0, (said[-20:], self.errors)
        return said

    def call(
        self, *words: str, answers: tuple[tuple[str, str], ...] = ANSWERS, budget: int = 400
    ) -> tuple[int, list[str]]:
        """One call; returns the exit code and the lines of the result."""
        out, err = io.StringIO(), io.StringIO()
        self.monkeypatch.setattr("sys.stdout", out)
        self.monkeypatch.setattr("sys.stderr", err)
        self.monkeypatch.setattr("sys.stdin", Technician(heard=out, answers=answers, budget=budget))
        for module in ("job", "walk", "record"):
            self.monkeypatch.setattr(f"torqref.commands.{module}.clock", self.clock, raising=False)
        code = main([*words, "--records", str(self.records)])
        self.errors = err.getvalue()
        return code, out.getvalue().splitlines()

    def job(
        self, *words: str, answers: tuple[tuple[str, str], ...] = ANSWERS, budget: int = 400
    ) -> list[str]:
        """The demo repair by lines."""
        call = ("job", str(JOB), "--rack", str(RACK), "--plain", *words)
        return self.run(*call, answers=answers, budget=budget)
