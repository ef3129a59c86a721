"""Writes a sheet to the file that was named: whole or not at all, and never over another kind of file."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from torqref.commands.console import Console
from torqref.document.escape import escape

# Only a file that is such a sheet already, or nothing, is replaced.
_BEGINNINGS = (b"<!doctype html>", b"<svg", b"<?xml")


def write_paper(path: Path, text: str, console: Console) -> int:
    """Write the sheet; returns the exit code.

    A file of another kind is not written over: a mistyped name must not cost a library file.
    """
    if os.path.lexists(path) and not _is_sheet(path):
        return console.deny(f"{escape(str(path))} is there and is no sheet; name another file.")
    draft = path.with_name(f"{path.name}.part")
    try:
        draft.write_text(text, encoding="utf-8")
        os.replace(draft, path)
    except OSError as error:
        with suppress(OSError):
            draft.unlink()
        return console.deny(f"{escape(str(path))} cannot be written ({error.strerror}). Name another file.")
    if console.as_json:
        console.answer({"written": str(path)})
    else:
        console.tell(f"written: {path}")
    return 0


def _is_sheet(path: Path) -> bool:
    try:
        with open(path, "rb") as file:
            begin = file.read(20).lower()
    except OSError:
        return False
    return not begin or begin.startswith(_BEGINNINGS)
