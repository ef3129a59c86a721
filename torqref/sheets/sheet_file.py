"""Puts a sheet into a file: whole or not at all, and never over another kind of file."""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem

# Only a file that is such a sheet already, or nothing, is replaced.
_BEGINNINGS = (b"<!doctype html>", b"<svg", b"<?xml", b"walk,group,name,")


def write_sheet(path: Path, parts: Iterable[str]) -> Problem | None:
    """Write a sheet, part by part, so that many walks need little room; None when it stands there.

    A file of another kind is not written over: a mistyped name must not cost a library file.
    """
    file = escape(str(path))
    if os.path.lexists(path) and not _is_sheet(path):
        return Problem(file=file, message="there is something that is no sheet", mend="Name another file.")
    draft = path.with_name(f"{path.name}.part")
    try:
        with open(draft, "w", encoding="utf-8", newline="") as out:
            out.writelines(parts)
        os.replace(draft, path)
    except OSError as error:
        with suppress(OSError):
            draft.unlink()
        message = f"the file cannot be written ({error.strerror})"
        return Problem(file=file, message=message, mend="Name another file.")
    return None


def _is_sheet(path: Path) -> bool:
    try:
        with open(path, "rb") as file:
            begin = file.read(20).lower()
    except OSError:
        return False
    return not begin or begin.startswith(_BEGINNINGS)
