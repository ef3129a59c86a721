"""A problem with what a person wrote, as a value: place, what was found, what was expected, the mend."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "hint"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing wrong with a document, with its place and its mend.

    Args:
        message: what was found and what was expected, without the place.
        mend: what to write instead.
        file: the file as the user knows it, empty while it is not known.
        line: line in the file, counted from 1; None if unsure.
        key: key path such as `group[2].stage[1].torque`, tables counted from 1.
        severity: `error` keeps a group from being walked, `warning` and `hint` do not.
    """

    message: str
    mend: str
    file: str = ""
    line: int | None = None
    key: str = ""
    severity: Severity = "error"

    def sentence(self) -> str:
        """The problem in the one shape of all messages: place, found, expected, mend."""
        return f"{self.place()}{self.message}. {self.mend}".strip()

    def place(self) -> str:
        """File, line and key as far as they are known, ending in a colon and a space."""
        where = f"{self.file}:{self.line}" if self.file and self.line else self.file
        return "".join(f"{part}: " for part in (where, self.key) if part)
