"""Where the rack stands."""

from __future__ import annotations

from pathlib import Path

from torqref.wrench.place import users_rack


def test_the_rack_stands_in_the_data_folder_of_the_user() -> None:
    home = Path("/home/me")
    assert users_rack({}, home) == home / ".local" / "share" / "torqref" / "wrenches.toml"
    assert users_rack({"XDG_DATA_HOME": "/data"}, home) == Path("/data/torqref/wrenches.toml")
    assert users_rack({"LOCALAPPDATA": "/local"}, home) == Path("/local/torqref/wrenches.toml")
