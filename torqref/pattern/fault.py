"""A fault of a diagram, a layout or an order, as a value; the library gives it file, line and key."""

from __future__ import annotations

from dataclasses import dataclass

from torqref.document.problem import Problem, Severity


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with what a person drew or listed.

    Args:
        message: what was found and what was expected, without a full stop.
        mend: what to write instead, a sentence.
        severity: `error` keeps a pattern from being walked, `warning` and `hint` do not.
        labels: the positions it is about, smallest trouble first; may be empty.
    """

    message: str
    mend: str
    severity: Severity = "error"
    labels: tuple[int, ...] = ()

    def problem(self, *, file: str = "", line: int | None = None, key: str = "") -> Problem:
        """The same as a problem of a document, at its place."""
        return Problem(
            message=self.message, mend=self.mend, file=file, line=line, key=key, severity=self.severity
        )


Faults = tuple[Fault, ...]


def refused(message: str, mend: str, *labels: int) -> Faults:
    """One error as the whole answer."""
    return (Fault(message=message, mend=mend, labels=labels),)
