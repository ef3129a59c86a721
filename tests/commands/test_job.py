"""draft"""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from tests.commands.repair import Garage


def test_x(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    garage = Garage(records=Path("/tmp/sheets-demo"), monkeypatch=monkeypatch)
    said = garage.job(budget=600)
    garage.clock.now += timedelta(minutes=3)
    said += garage.job(budget=600)
    garage.clock.now += timedelta(hours=5)
    said += garage.job(budget=600)
    Path("/tmp/sheets-said.txt").write_text("\n".join(said) + garage.errors)
