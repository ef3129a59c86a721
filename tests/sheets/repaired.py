"""The demo repair, worked to its signature once for all tests of its sheets."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.repair import Garage
from torqref.walk.job_archive import JobRecord, job_records


def repair(folder: Path, patch: pytest.MonkeyPatch) -> JobRecord:
    """The signed record of the demo repair."""
    garage = Garage(folder=folder, monkeypatch=patch)
    garage.demo("--work-order", "W-4711")
    garage.clock.pass_(minutes=3)
    garage.demo("--work-order", "W-4711")
    garage.clock.pass_(hours=5)
    garage.demo("--work-order", "W-4711")
    (record,), problems = job_records(garage.records)
    assert not problems
    return record
