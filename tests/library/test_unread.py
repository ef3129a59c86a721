"""Which parts of a group an error takes away, and which it leaves to be judged."""

from __future__ import annotations

import pytest

from torqref.document.problem import Problem
from torqref.library.unread import unread_parts


@pytest.mark.parametrize(
    ("key", "part"),
    [
        ("group[2].thread", "thread"),
        ("group[2].thred", "thread"),
        ("group[2].fastener[1].at", "fastener"),
        ("group[2].parent.engagement", "parent"),
        ("group[2].uses", "uses"),
        ("group[2].places", "places"),
        ("group[2].stage[3]", "stage"),
        ("group[2].stage[3].torque", "stage"),
        ("group[2].stage[3].torqe", "stage"),
        ("group[2].stage[3].windw", "stage.window"),
        ("group[2].stage[3].due.hours", "stage.due"),
        ("source.kind", "source"),
    ],
)
def test_an_error_takes_away_the_part_it_stands_in(key: str, part: str) -> None:
    assert unread_parts("group[2]", [Problem(key=key, message="wrong", mend="")]) == {part}


@pytest.mark.parametrize(
    "problem",
    [
        Problem(key="group[1].thread", message="wrong", mend=""),
        Problem(key="group[22].thread", message="wrong", mend=""),
        Problem(key="group[2].thread", message="odd", mend="", severity="warning"),
    ],
    ids=["another group", "a group whose number begins alike", "a warning"],
)
def test_what_is_no_error_of_the_group_takes_nothing_away(problem: Problem) -> None:
    assert unread_parts("group[2]", [problem]) == frozenset()
