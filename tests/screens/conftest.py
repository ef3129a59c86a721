"""A theatre for every test that shows a walk."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.screens.bay import Bay
from tests.screens.stage import Theatre
from torqref.screens.walk_screen import WalkScreen


@pytest.fixture(autouse=True)
def _hands_are_quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """A test presses keys faster than any hand; only the tests of typed readings look at that."""
    monkeypatch.setattr(WalkScreen, "burst", 0.0)


@pytest.fixture
def theatre(tmp_path: Path) -> Iterator[Theatre]:
    theatre = Theatre(tmp_path / "records")
    yield theatre
    theatre.close()


@pytest.fixture
def bay(tmp_path: Path) -> Bay:
    return Bay(tmp_path)
