"""The order of a library group, looked at from the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from torqref.cli import main

SHIPPED = Path(__file__).parents[2] / "specs" / "brindle-24-engine-q.toml"


def test_the_order_of_a_group_is_shown_as_the_page_numbers_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", str(SHIPPED), "exhaust-manifold", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["order"] == [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]
    assert answer["generic"] is False


def test_a_file_of_several_groups_asks_which_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["order", str(SHIPPED)]) == 1
    assert "one of: exhaust-manifold, cylinder-head" in capsys.readouterr().err


def test_a_group_that_is_not_in_the_file_is_answered_with_those_that_are(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["order", str(SHIPPED), "header"]) == 1
    assert 'no group "header"' in capsys.readouterr().err
