"""The published values themselves: each names its source, and each is used by a test of this room."""

from __future__ import annotations

from pathlib import Path

import pytest
import tomli

from tests.fastener.published import FILES, HERE, entries

PROVENANCE = {"read", "memory", "computed"}
USES = {"oracle", "oracle_rows_that_agree", "fact", "do_not_use", "do_not_use_until_seen", "regression_only"}


@pytest.mark.parametrize("name", FILES)
def test_every_entry_names_a_known_source(name: str) -> None:
    document = tomli.loads((HERE / name).read_text(encoding="utf-8"))
    sources = document.pop("sources")
    found = [entry for section in document.values() for entry in section]
    assert found
    for entry in found:
        assert entry["source"] in sources, entry["id"]
        assert entry["provenance"] in PROVENANCE, entry["id"]
        assert entry["use"] in USES, entry["id"]
        assert entry["what"]
        assert entry.get("rows") or "expected" in entry, entry["id"]


def test_no_published_entry_lies_unused() -> None:
    tests = "".join(path.read_text(encoding="utf-8") for path in sorted(Path(HERE).glob("test_*.py")))
    unused = [name for name in entries() if f'"{name}"' not in tests and not name.startswith("thread_M")]
    assert unused == []
