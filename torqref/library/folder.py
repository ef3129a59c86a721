"""Where library files stand on disk; what is in them is not looked at here."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem

ENDING, JOB_ENDING = ".toml", ".job.toml"


def shipped_folder() -> Path:
    """The library that ships with torqref: inside the package when installed, beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "specs"
    return inside if inside.is_dir() else package.parent / "specs"


def library_files(folder: Path) -> Iterator[Path]:
    """The library files below a folder, in the order of their names; job files beside them are none."""
    yield from (path for path in _files(folder, ENDING) if not path.name.endswith(JOB_ENDING))


def job_files(folder: Path) -> Iterator[Path]:
    """The job files below a folder, in the order of their names."""
    yield from _files(folder, JOB_ENDING)


def _files(folder: Path, ending: str) -> list[Path]:
    found = (
        Path(place, name) for place, _, names in os.walk(folder) for name in names if name.endswith(ending)
    )
    return sorted(path for path in found if os.path.isfile(path))


def missing_folders(folders: Sequence[Path]) -> tuple[Problem, ...]:
    """Folders that were named and are not there."""
    return tuple(
        Problem(
            file=escape(str(folder)),
            message="this library folder is not there",
            mend="Name a folder that holds library files (*.toml).",
        )
        for folder in folders
        if not os.path.isdir(folder)
    )
