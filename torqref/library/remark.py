"""What a check has to say of a group, and on which line of its file that stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from torqref.document.escape import escape, shortened
from torqref.document.lines import key_lines, line_at
from torqref.document.problem import Problem, Severity
from torqref.document.refusal import Refusal
from torqref.document.toml import read_file
from torqref.library.group import Group


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """One thing that deserves a look in a group that can be read.

    Args:
        key: key below the group, such as `stage[2].torque`; empty for the group itself.
        message: what was found, without a full stop.
        mend: what to do about it, a sentence.
        severity: `error` only for what would break a bolt or cannot be walked as it stands.
    """

    key: str
    message: str
    mend: str
    severity: Severity = "warning"


def of_refusal(key: str, refusal: Refusal) -> Remark:
    """A text that could not be read, with the readings it could have."""
    readings = "; ".join(refusal.readings)
    mend = f"Write one of: {readings}." if readings else "Write it as its standard does, or leave it out."
    return Remark(key=key, message=refusal.message, mend=mend)


@dataclass(slots=True)
class Lines:
    """Lines of keys in library files; a file is scanned when the first thing is told about it."""

    files: dict[str, Mapping[str, int]] = field(default_factory=dict)

    def line(self, file: str, key: str) -> int | None:
        """The line of a key path in a file, None where the file cannot be read."""
        if not file:
            return None
        if file not in self.files:
            data = read_file(Path(file))
            text = "" if isinstance(data, Problem) else data.decode("utf-8", "replace")
            self.files[file] = key_lines(text)
        return line_at(self.files[file], key)


def placed(group: Group, remarks: Iterable[Remark], lines: Lines) -> Iterator[Problem]:
    """The remarks about a group as problems with file, line and key."""
    for remark in remarks:
        key = f"{group.key}.{remark.key}" if remark.key else group.key
        yield Problem(
            file=group.file,
            line=lines.line(group.file, key),
            key=key,
            message=shortened(escape(remark.message)),
            mend=shortened(escape(remark.mend)),
            severity=remark.severity,
        )
