"""Closes what the tests of a walk opened."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.walk.workshop import OPENED


@pytest.fixture(autouse=True)
def closed_walks() -> Iterator[None]:
    """Give every journal free at the end of a test."""
    yield
    while OPENED:
        OPENED.pop().close()
