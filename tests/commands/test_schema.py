"""`torqref schema` writes out the committed schemas."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from torqref.cli import main

Capture = pytest.CaptureFixture[str]


@pytest.mark.parametrize("name", ["library", "rack", "job"])
def test_a_schema_is_written_to_stdout_or_to_a_new_file(name: str, tmp_path: Path, capsys: Capture) -> None:
    assert main(["schema", name]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["$id"] == f"urn:torqref:{name}:1"
    file = tmp_path / "x.schema.json"
    assert main(["schema", name, str(file)]) == 0
    assert json.loads(file.read_text(encoding="utf-8")) == told
    assert main(["schema", name, str(file)]) == 1
    assert "already" in capsys.readouterr().err


def test_a_kind_of_file_that_is_not_there_is_wrong_usage(capsys: Capture) -> None:
    assert main(["schema", "records"]) == 2
    assert "library, rack, job" in capsys.readouterr().err
