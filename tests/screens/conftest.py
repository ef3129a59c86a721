"""A theatre for every test that shows a walk."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.screens.bay import Bay
from tests.screens.stage import Theatre


@pytest.fixture
def theatre(tmp_path: Path) -> Iterator[Theatre]:
    theatre = Theatre(tmp_path / "records")
    yield theatre
    theatre.close()


@pytest.fixture
def bay(tmp_path: Path) -> Bay:
    return Bay(tmp_path)
