"""The examples in the docstrings of the room."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path

import pytest

ROOM = Path(__file__).parents[2] / "torqref" / "quantity"
MODULES = sorted(path.stem for path in ROOM.glob("*.py") if path.stem != "__init__")


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_run(name: str) -> None:
    assert doctest.testmod(import_module(f"torqref.quantity.{name}")).failed == 0


def test_most_modules_have_examples() -> None:
    finder = doctest.DocTestFinder(exclude_empty=True)
    with_examples = [
        name
        for name in MODULES
        if any(test.examples for test in finder.find(import_module(f"torqref.quantity.{name}")))
    ]
    assert len(with_examples) > len(MODULES) // 2
