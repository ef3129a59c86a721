"""The examples in the docstrings of this room run and say what they print."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "torqref" / "library"
MODULES = sorted(path.stem for path in PACKAGE.glob("*.py") if path.stem != "__init__")


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module(name: str) -> None:
    result = doctest.testmod(import_module(f"torqref.library.{name}"))
    assert result.failed == 0


def test_there_are_examples_to_run() -> None:
    runs = sum(doctest.testmod(import_module(f"torqref.library.{name}")).attempted for name in MODULES)
    assert runs >= 5
