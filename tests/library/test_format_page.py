"""The page that explains the format: its examples load, give nothing to say, and show every key there is."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from torqref.library.check import check_file
from torqref.library.file import parse_library
from torqref.library.schema import schema_file
from torqref.library.shelf import shipped_folder

PAGE = (shipped_folder() / "README.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"^```toml\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


def test_there_is_one_annotated_example_and_one_of_a_table() -> None:
    assert len(EXAMPLES) == 2
    groups = [group for text in EXAMPLES for group in parse_library(text.encode(), "example.toml").groups]
    assert [group.id for group in groups] == [
        "example-cover", "example-cap", "example-hub", "example-flange",
        "example-table-m6-8.8", "example-table-m6-8.8-oiled",
        "example-table-m8-8.8", "example-table-m8-8.8-oiled",
    ]  # fmt: skip


@pytest.mark.parametrize("text", EXAMPLES, ids=["groups", "table"])
def test_an_example_loads_and_gives_nothing_to_say(text: str, tmp_path: Path) -> None:
    path = tmp_path / "example.toml"
    path.write_text(text, encoding="utf-8")
    assert [problem.sentence() for problem in check_file(path)] == []


def test_the_examples_show_every_key_of_the_format() -> None:
    schema = json.loads(schema_file("library").read_text(encoding="utf-8"))
    tables = {"": schema, **schema["$defs"]}
    keys = {key for name, table in tables.items() for key in table["properties"] if name != "table"}
    # Keys and columns that the page names in words beside its examples.
    missing = {key for key in keys if not re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", PAGE)}
    assert missing == set()
