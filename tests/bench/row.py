"""One row of the table: what was measured, against what, and what was hoped for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median

from tests.bench.process import Runs


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One figure.

    Args:
        what: what was measured.
        against: the baseline of the same run.
        value: the figure, mostly a median of ratios.
        unit: `×` for a ratio.
        aim: the most it should be; None where it is told only.
        detail: the measured times behind it.
    """

    what: str
    against: str
    value: float
    unit: str = "×"
    aim: float | None = None
    detail: str = ""

    @property
    def met(self) -> str:
        """Whether the aim is met, in a word."""
        return "" if self.aim is None else "yes" if self.value <= self.aim else "NO"

    def cells(self) -> tuple[str, ...]:
        """The row as text."""
        aim = "" if self.aim is None else f"≤ {self.aim:g}{self.unit}"
        return (self.what, self.against, f"{self.value:.2f} {self.unit}", aim, self.met, self.detail)


def ratio(what: str, against: str, runs: tuple[Runs, Runs], aim: float | None = None) -> Row:
    """The median of the ratios of each turn, so that a busy moment counts once; both medians behind it."""
    mine, base = runs
    value = median(one / other for one, other in zip(mine.seconds, base.seconds, strict=True))
    detail = f"{mine.middle * 1000:.0f} : {base.middle * 1000:.0f} ms"
    return Row(what=what, against=against, value=value, aim=aim, detail=detail)


def memory(what: str, against: str, runs: tuple[Runs, Runs]) -> Row:
    """The ratio of the largest memory of two commands."""
    mine, base = runs
    detail = f"{mine.peak:.0f} : {base.peak:.0f} MiB"
    return Row(what=f"memory: {what}", against=against, value=mine.peak / (base.peak or 1), detail=detail)


def table(rows: Iterable[Row]) -> str:
    """The rows as a Markdown table."""
    heads = ("what", "against", "measured", "aim", "met", "behind it")
    lines = ["| " + " | ".join(heads) + " |", "|---" * len(heads) + "|"]
    return "\n".join([*lines, *("| " + " | ".join(row.cells()) + " |" for row in rows)])
