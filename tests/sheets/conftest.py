"""Closes the walks that tests opened, and works the demo repair once."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.sheets.repaired import repair
from tests.walk.workshop import OPENED
from torqref.walk.job_archive import JobRecord


@pytest.fixture(autouse=True)
def closed_walks() -> Iterator[None]:
    """Give every journal free at the end of a test."""
    yield
    while OPENED:
        OPENED.pop().close()


@pytest.fixture(scope="session")
def signed(tmp_path_factory: pytest.TempPathFactory) -> JobRecord:
    """The signed record of the demo repair."""
    with pytest.MonkeyPatch.context() as patch:
        return repair(tmp_path_factory.mktemp("repair"), patch)
