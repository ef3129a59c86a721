"""Puts a new file in a folder whole or not at all, and never over another one."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem

_MOST_NAMES = 1000


def free_name(folder: Path, stem: str, ending: str) -> str:
    """The stem, or the stem with the first number that no file of the folder has.

    >>> free_name(Path("/nowhere"), "draft", ".toml")
    'draft'
    """
    return next(name for name in _names(stem) if not os.path.exists(folder / f"{name}{ending}"))


def _names(stem: str) -> Iterator[str]:
    yield stem
    yield from (f"{stem}-{number}" for number in range(2, _MOST_NAMES))


def write_new(path: Path, text: str) -> Problem | None:
    """Write a file that must not be there yet: readers see all of it or nothing.

    Args:
        path: the file; its folder is made where it is missing.
        text: all of it, written as UTF-8.

    Returns:
        None when it stands there and is synced; else the problem, and then nothing was changed.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        _write(beside, text)
        _name(beside, path)
    except FileExistsError:
        return _problem(path, "there is something of this name already", "Choose another name.")
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        return _problem(path, f"the file cannot be written ({escape(reason)})", "Look at the folder.")
    finally:
        with suppress(OSError):
            beside.unlink()
    return None


def _write(path: Path, text: str) -> None:
    with open(path, "w", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


def _name(beside: Path, path: Path) -> None:
    """A hard link never replaces a file; where the file system has none, an empty name is taken first."""
    try:
        os.link(beside, path)
    except FileExistsError:
        raise
    except OSError:
        path.touch(exist_ok=False)
        os.replace(beside, path)


def _problem(path: Path, message: str, mend: str) -> Problem:
    return Problem(file=escape(str(path)), message=message, mend=mend)
