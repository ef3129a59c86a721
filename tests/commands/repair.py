"""A technician for tests: reads what the program says and answers line by line, with a clock that is ours."""

from __future__ import annotations

import io
import json
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

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
Answers = tuple[tuple[str, str], ...]


@dataclass(slots=True)
class Clock:
    """Time that passes one second a look, and further when it is told to."""

    now: datetime = BEGIN

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now

    def pass_(self, **span: float) -> None:
        """Let time go by."""
        self.now += timedelta(**span)


@dataclass(slots=True)
class Technician:
    """Standard input that knows standard output: it answers what was said last."""

    heard: io.StringIO
    answers: Answers
    budget: int
    given: int = 0
    read: int = 0

    def readline(self) -> str:
        """One line; the end of input when the budget of lines is used up."""
        said = self.heard.getvalue()[self.read :]
        self.read += len(said)
        if self.given >= self.budget:
            return ""
        self.given += 1
        asked = [(said.rfind(ask), answer) for ask, answer in self.answers if ask in said]
        return (max(asked)[1] if asked else "") + "\n"

    def isatty(self) -> bool:
        return False


@dataclass(slots=True)
class Garage:
    """A folder of records, a clock, and calls of the real command line."""

    folder: Path
    monkeypatch: pytest.MonkeyPatch
    clock: Clock = field(default_factory=Clock)
    errors: str = ""
    lines: int = 0

    @property
    def records(self) -> Path:
        return self.folder / "records"

    def call(
        self, *words: str, lines: str | None = None, answers: Answers = ANSWERS, budget: int = 600
    ) -> tuple[int, list[str]]:
        """One call with fixed lines, or with a technician; returns the exit code and the lines said."""
        out, err = io.StringIO(), io.StringIO()
        hand = Technician(heard=out, answers=answers, budget=budget)
        self.monkeypatch.setattr("sys.stdout", out)
        self.monkeypatch.setattr("sys.stderr", err)
        self.monkeypatch.setattr("sys.stdin", hand if lines is None else io.StringIO(lines))
        for module in ("job", "walk", "kit"):
            self.monkeypatch.setattr(f"torqref.commands.{module}.clock", self.clock)
        self.monkeypatch.setenv("XDG_CONFIG_HOME", str(self.folder / "config"))
        code = main(list(words))
        self.errors, self.lines = err.getvalue(), hand.given
        return code, out.getvalue().splitlines()

    def run(self, *words: str, lines: str | None = None, budget: int = 600) -> list[str]:
        """One call that must succeed."""
        code, said = self.call(*words, lines=lines, budget=budget)
        assert code == 0, (said[-20:], self.errors)
        return said

    def demo(self, *words: str, lines: str | None = None, budget: int = 600) -> list[str]:
        """The demo repair by lines."""
        call = ("job", str(JOB), "--rack", str(RACK), "--plain", "--records", str(self.records))
        return self.run(*call, *words, lines=lines, budget=budget)

    def small(self, *words: str, lines: str = "") -> list[str]:
        """The job file `small.job.toml` of the folder by lines, with its own library beside it."""
        file, specs = self.folder / "small.job.toml", self.folder / "specs"
        call = ("job", str(file), "--specs", str(specs), "--plain", "--records", str(self.records))
        return self.run(*call, *words, lines=lines)

    def record(self, *words: str) -> dict[str, Any]:
        """What `record --json` says."""
        said = self.run("record", *words, "--json", "--records", str(self.records))
        answer: dict[str, Any] = json.loads(said[0])
        return answer

    def write(self, job: str, groups: str = "") -> None:
        """A small job file, and a small library that it may name."""
        (self.folder / "specs").mkdir(exist_ok=True)
        head = 'format = 1\njob = "small"\nname = "Small repair"\n'
        (self.folder / "small.job.toml").write_text(head + job, encoding="utf-8")
        if groups:
            library = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n' + groups
            (self.folder / "specs" / "small.toml").write_text(library, encoding="utf-8")


def group(identity: str, *stages: str, more: str = "count = 1") -> str:
    """A library group with these stages."""
    tables = "".join(f"[[group.stage]]\n{stage}\n" for stage in stages)
    return f'[[group]]\nid = "{identity}"\nname = "The {identity}"\ncondition = "dry"\n{more}\n{tables}'
