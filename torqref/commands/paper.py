"""Writes a sheet to the file that was named, and says so."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from torqref.commands.console import Console
from torqref.sheets.sheet_file import write_sheet


def write_paper(path: Path, text: str, console: Console) -> int:
    """Write the sheet; returns the exit code."""
    return write_parts(path, (text,), console)


def write_parts(path: Path, parts: Iterable[str], console: Console) -> int:
    """Write the sheet part by part; returns the exit code."""
    problem = write_sheet(path, parts)
    if problem is not None:
        return console.deny(problem.sentence())
    if console.as_json:
        console.answer({"written": str(path)})
    else:
        console.tell(f"written: {path}")
    return 0
