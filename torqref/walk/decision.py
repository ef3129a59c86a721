"""What the shop lead decided about corrections of the page: accepted or declined, with who and when."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.walk.audit import Correction

FILE = "corrections.jsonl"
ACCEPTED, DECLINED = "accepted", "declined"


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """One decision.

    Args:
        walk, number: the walk and the event that the correction stands in.
        decided: `accepted` or `declined`.
        by, time: who decided, and when.
        told: the correction as one line.
    """

    walk: str
    number: int
    decided: str
    by: str = ""
    time: str = ""
    told: str = ""


def read_decisions(folder: Path) -> tuple[Decision, ...]:
    """Every decision of a records folder; a line that cannot be read decides nothing."""
    try:
        lines = (folder / FILE).read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return ()
    found = (_decision(line) for line in lines)
    return tuple(decision for decision in found if decision is not None)


def _decision(line: str) -> Decision | None:
    try:
        return Decision(**json.loads(line))
    except (ValueError, TypeError):
        return None


def write_decision(folder: Path, decision: Decision) -> Problem | None:
    """Add a decision to the folder, synced before it counts."""
    path = folder / FILE
    try:
        with open(path, "a", encoding="utf-8", newline="\n") as file:
            file.write(json.dumps(asdict(decision), ensure_ascii=False) + "\n")
            file.flush()
            os.fsync(file.fileno())
    except OSError as error:
        reason = escape(error.strerror or str(error))
        message = f"the decision cannot be written ({reason})"
        return Problem(file=escape(str(path)), message=message, mend="Look at the records folder.")
    return None


def waiting(corrections: Iterable[Correction], decisions: Iterable[Decision]) -> tuple[Correction, ...]:
    """The corrections that nobody has decided about, in the order they were found."""
    decided = {(decision.walk, decision.number) for decision in decisions}
    return tuple(one for one in corrections if (one.walk, one.number) not in decided)
