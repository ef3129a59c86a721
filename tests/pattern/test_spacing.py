"""Columns that keep their distance."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from torqref.pattern.spacing import columns, outward

lines_of_levels = st.lists(
    st.lists(st.integers(0, 14), min_size=1, max_size=8, unique=True).map(sorted), min_size=1, max_size=6
)


@settings(deadline=None)
@given(
    st.lists(st.integers(0, 60), min_size=15, max_size=15).map(sorted),
    lines_of_levels,
    st.integers(1, 9),
    st.integers(0, 120),
)
def test_columns_keep_their_order_their_distance_and_the_room(
    wanted: list[int], lines: list[list[int]], step: int, last: int
) -> None:
    found = columns(wanted, lines, step, last)
    longest = max(len(line) for line in lines)
    if found is None:
        assert (15 - 1) * step > last
        return
    assert (longest - 1) * step <= last
    assert all(0 <= column <= last for column in found) or max(wanted) > last
    assert all(one <= other for one, other in pairwise(found))
    assert all(found[right] - found[left] >= step for line in lines for left, right in pairwise(line))


def test_what_fits_as_wanted_stays_as_wanted() -> None:
    assert columns((0, 10, 20), [[0, 1, 2]], 4, 20) == (0, 10, 20)


def test_what_is_too_close_moves_apart_evenly() -> None:
    assert columns((9, 10, 11), [[0, 1, 2]], 4, 20) == (6, 10, 14)


def test_two_things_at_one_place_have_no_columns() -> None:
    assert columns((0, 5), [[1, 1]], 1, 90) is None


def test_halves_go_away_from_the_middle() -> None:
    assert [outward(value, 5.0) for value in (3.5, 4.2, 5.0, 5.8, 6.5)] == [3, 4, 5, 6, 7]
