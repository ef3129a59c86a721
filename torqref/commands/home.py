"""Where a user's own files live, by the XDG convention; on Windows below LOCALAPPDATA."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

NAME = "torqref"


@dataclass(frozen=True, slots=True, kw_only=True)
class Home:
    """The user's folders; nothing here is created before something is written.

    Args:
        specs: the user's own library files.
        rack: the user's wrenches and adapters.
        records: the walks.
        index: what finding keeps of a large library; may be deleted at any time.
    """

    specs: Path
    rack: Path
    records: Path
    index: Path


def own_home() -> Home:
    """The folders of whoever runs this process; below a device, where nothing is, for one without a home."""
    try:
        user = Path.home()
    except RuntimeError:
        user = Path(os.devnull)
    return home_of(os.environ, user)


def home_of(environment: Mapping[str, str], user: Path) -> Home:
    """The folders of a user.

    Args:
        environment: the variables of the process.
        user: the user's home folder.

    >>> home_of({}, Path("/home/ada")).records.as_posix()
    '/home/ada/.local/share/torqref/records'
    """
    local = environment.get("LOCALAPPDATA", "")
    config = _folder(environment, "XDG_CONFIG_HOME", local, user / ".config")
    data = _folder(environment, "XDG_DATA_HOME", local, user / ".local" / "share")
    cache = _folder(environment, "XDG_CACHE_HOME", local, user / ".cache")
    return Home(
        specs=config / "specs",
        rack=config / "wrenches.toml",
        records=data / "records",
        index=cache / "find.index",
    )


def _folder(environment: Mapping[str, str], name: str, local: str, usual: Path) -> Path:
    """The convention ignores paths that are not absolute."""
    named = environment.get(name, "")
    if named and Path(named).is_absolute():
        return Path(named) / NAME
    return (Path(local) if local else usual) / NAME
