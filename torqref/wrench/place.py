"""Where the rack of this user stands when no file is named."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

RACK_FILE = "wrenches.toml"


def users_rack(environment: Mapping[str, str], home: Path) -> Path:
    """The rack in the data folder of the user: XDG_DATA_HOME, LOCALAPPDATA, or ~/.local/share.

    >>> users_rack({"XDG_DATA_HOME": "/data"}, Path("/home/me")).as_posix()
    '/data/torqref/wrenches.toml'
    """
    named = environment.get("XDG_DATA_HOME") or environment.get("LOCALAPPDATA")
    folder = Path(named) if named else home / ".local" / "share"
    return folder / "torqref" / RACK_FILE
