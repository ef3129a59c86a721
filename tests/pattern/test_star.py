"""The cross round a ring against published orders and by its laws."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from tests.pattern.published import ORDERS, PUBLISHED
from torqref.pattern.order import circular, grouped, star
from torqref.pattern.star import apart, groups

CIRCLES = [entry for entry in ORDERS if entry["shape"] == "circle"]
EVEN = [entry for entry in CIRCLES if len(entry["order"]) % 2 == 0]
FROM_MEMORY = [entry for entry in CIRCLES if entry["provenance"] == "memory"]


def _pairs(labels: Any) -> list[tuple[int, int]]:
    return list(zip(labels[::2], labels[1::2], strict=True))


@pytest.mark.parametrize("entry", EVEN, ids=lambda entry: entry["id"])
def test_published_crosses_go_by_opposite_pairs_and_so_does_ours(entry: dict[str, Any]) -> None:
    bolts = len(entry["order"])
    for labels in (entry["order"], star(bolts).labels):
        assert sorted(labels) == list(range(1, bolts + 1))
        assert all((b - a) % bolts == bolts // 2 for a, b in _pairs(labels))


@pytest.mark.parametrize("entry", FROM_MEMORY, ids=lambda entry: entry["id"])
def test_crosses_recalled_go_by_quarter_turns_and_so_does_ours(entry: dict[str, Any]) -> None:
    # From memory: only the structure is compared, never the list itself.
    bolts = len(entry["order"])
    for labels in (entry["order"], star(bolts).labels):
        for start in range(0, bolts, 4):
            quad = labels[start : start + 4]
            assert {(label - quad[0]) % bolts for label in quad} == {
                0,
                bolts // 4,
                bolts // 2,
                3 * bolts // 4,
            }


def test_five_bolts_are_taken_every_other_one() -> None:
    published = next(entry for entry in CIRCLES if entry["id"] == "army-circle-5")
    assert list(star(5).labels) == published["order"]


@pytest.mark.parametrize("bolts", range(3, 201))
def test_every_bolt_is_visited_once_starting_at_one(bolts: int) -> None:
    labels = star(bolts).labels
    assert sorted(labels) == list(range(1, bolts + 1))
    assert labels[0] == 1


@pytest.mark.parametrize("bolts", range(4, 201, 2))
def test_an_even_cross_goes_from_each_bolt_to_its_opposite(bolts: int) -> None:
    assert all((b - a) % bolts == bolts // 2 for a, b in _pairs(star(bolts).labels))


@pytest.mark.parametrize("bolts", range(5, 201))
def test_no_neighbours_are_tightened_in_succession(bolts: int) -> None:
    assert all(apart(a, b, bolts) > 1 for a, b in pairwise(star(bolts).labels))


@pytest.mark.parametrize("power", range(2, 8))
def test_each_new_pair_halves_the_gaps(power: int) -> None:
    # Gasket maker's rule, read: 12-6, 3-9, 1:30-7:30 …: each new pair halves the angle left.
    bolts = 2**power
    for done in range(1, power + 1):
        visited = sorted(star(bolts).labels[: 2**done])
        gaps = {(b - a) % bolts for a, b in pairwise([*visited, visited[0] + bolts])}
        assert gaps == {bolts // 2**done}


@pytest.mark.parametrize("bolts", range(4, 201, 2))
def test_pairs_for_two_people_are_the_same_cross(bolts: int) -> None:
    paired = star(bolts, pairs=True)
    assert all(len(visit) == 2 for visit in paired.visits)
    assert paired.labels == star(bolts).labels


def test_forty_eight_bolts_in_groups_of_four_start_with_groups_one_and_seven() -> None:
    published = PUBLISHED["groups"]
    found = grouped(published["bolts"], published["size"])
    assert len(groups(published["bolts"], published["size"])) == published["groups"]
    firsts = [1 + published["size"] * (group - 1) for group in published["first_two_groups"]]
    assert [found.labels[0], found.labels[4]] == firsts
    assert found.generic


@pytest.mark.parametrize("bolts", range(8, 201, 3))
@pytest.mark.parametrize("size", [2, 3, 4, 6])
def test_groups_hold_every_bolt_once_and_differ_by_one_at_most(bolts: int, size: int) -> None:
    runs = groups(bolts, size)
    assert [place for run in runs for place in run] == list(range(bolts))
    assert len(runs) % 2 == 0
    assert max(map(len, runs)) - min(map(len, runs)) <= 1
    assert sorted(grouped(bolts, size).labels) == list(range(1, bolts + 1))


def test_a_circular_round_goes_clockwise() -> None:
    assert circular(6).labels == (1, 2, 3, 4, 5, 6)
