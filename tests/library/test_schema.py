"""The committed JSON Schemas: made from the readers, and held against real files by an independent validator."""

from __future__ import annotations

import json
from copy import deepcopy
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import tomli
from jsonschema import Draft202012Validator

from torqref.document.schema import Builder, sketched
from torqref.document.table import Table
from torqref.library.schema import FORMATS, schema_file, schema_text
from torqref.library.shelf import shipped_folder

HERE = Path(__file__).parent
DEMO = HERE.parents[1] / "demo"
LIBRARIES = [
    *sorted(shipped_folder().rglob("*.toml")),
    *sorted((HERE / "faulty" / "told").glob("*.toml")),
]
RACKS = [DEMO / "wrenches.toml"]
JOBS = sorted(DEMO.glob("*.job.toml"))


def validator(name: str) -> Draft202012Validator:
    schema = json.loads(schema_file(name).read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def plain(value: Any) -> Any:
    """A TOML value as JSON has it: dates become text."""
    if isinstance(value, dict):
        return {name: plain(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, date) else value


def loaded(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = plain(tomli.loads(path.read_text(encoding="utf-8")))
    return found


@pytest.mark.parametrize("name", FORMATS)
def test_the_committed_schema_is_the_one_the_readers_make(name: str) -> None:
    assert schema_file(name).read_text(encoding="utf-8") == schema_text(name), (
        "run: python -m torqref.library.schema"
    )


@pytest.mark.parametrize(
    ("name", "path"),
    [
        *(("library", path) for path in LIBRARIES),
        *(("rack", path) for path in RACKS),
        *(("job", path) for path in JOBS),
    ],
    ids=lambda value: value.stem if isinstance(value, Path) else value,
)
def test_every_shipped_file_is_valid(name: str, path: Path) -> None:
    assert [error.message for error in validator(name).iter_errors(loaded(path))] == []


def test_there_are_files_of_every_kind_to_hold_against_the_schemas() -> None:
    assert len(LIBRARIES) >= 5
    assert RACKS
    assert JOBS


GOOD: dict[str, Any] = {
    "format": 1,
    "group": [{"id": "a", "count": 2, "stage": [{"torque": "24 N·m"}, {"angle": "90°"}]}],
}
FAULTS: tuple[tuple[str, list[str | int], Any], ...] = (
    ("an unknown key", ["group", 0, "tourque"], "24 N·m"),
    ("a bare number", ["group", 0, "stage", 0, "torque"], 24),
    ("two kinds in a stage", ["group", 0, "stage", 0, "hand"], "seat it"),
    ("a word that is not known", ["group", 0, "purpose"], "clmp"),
    ("another format", ["format"], 2),
    ("no stage", ["group", 0, "stage"], None),
    ("no id", ["group", 0, "id"], None),
    ("a flag in quotes", ["group", 0, "locking"], "yes"),
    ("a key of another table", ["window"], "±5°"),
)


@pytest.mark.parametrize(("fault", "where", "value"), FAULTS, ids=[fault for fault, *_ in FAULTS])
def test_the_validator_refuses_what_the_reader_refuses(
    fault: str, where: list[str | int], value: Any
) -> None:
    library = validator("library")
    assert list(library.iter_errors(GOOD)) == []
    document: Any = deepcopy(GOOD)
    at = document
    for step in where[:-1]:
        at = at[step]
    if value is None:
        del at[where[-1]]
    else:
        at[where[-1]] = value
    assert list(library.iter_errors(document)), fault


def test_every_key_a_person_may_write_says_what_it_is() -> None:
    schema = json.loads(schema_file("library").read_text(encoding="utf-8"))
    for name in ("group.stage", "source", "table.variant"):
        keys = schema["$defs"][name]["properties"]
        assert [key for key, words in keys.items() if not words.get("description")] == [], name


def test_a_key_is_required_only_where_every_branch_of_the_reader_asks_for_it() -> None:
    def reader(top: Table) -> None:
        for inner in top.tables("tool"):
            inner.required("id", "W1")
            if inner.text("kind") == "gear":
                inner.required("ratio", "4:1")
            inner.close()
        top.close()

    node = sketched(reader, ({"tool": [{"kind": "gear"}]},))
    schema = Builder(described={"tool.id": "its name"}, overrides={}).document(node, "tools", "urn:x")
    tool = {
        "type": "object",
        "properties": {
            "id": {"type": "string", "description": "its name"},
            "kind": {"type": "string"},
            "ratio": {"type": "string"},
        },
        "required": ["id"],
        "additionalProperties": False,
    }
    assert schema["$defs"] == {"tool": tool}
