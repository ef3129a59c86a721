"""Every example in a docstring runs and shows what it says."""

from __future__ import annotations

import doctest
import importlib
import re
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "torqref"
WITH_EXAMPLES = sorted(
    ".".join(("torqref", *path.relative_to(PACKAGE).with_suffix("").parts))
    for path in PACKAGE.rglob("*.py")
    if re.search(r"^ +>>> ", path.read_text(encoding="utf-8"), re.MULTILINE)
)


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_the_examples_of_a_module_run(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name), optionflags=doctest.NORMALIZE_WHITESPACE)
    assert result.attempted > 0
    assert result.failed == 0


def test_the_example_of_the_maintainers_page_runs() -> None:
    page = PACKAGE.parent / "DEVELOPERS.md"
    result = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert result.attempted > 5
    assert result.failed == 0


def test_there_are_examples_in_every_room_that_computes() -> None:
    rooms = {name.split(".")[1] for name in WITH_EXAMPLES}
    assert {"document", "quantity", "fastener", "pattern", "wrench", "walk"} <= rooms
