"""What is dropped first: the table of parts, and that what must never go never goes."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from torqref.screens.layout import BESIDE, BIG, PARTS, ROWS, allot

WANTS = st.dictionaries(st.sampled_from(sorted(ROWS)), st.integers(0, 40))


def test_every_part_has_a_rank_of_its_own() -> None:
    assert sorted(part.keep for part in PARTS) == list(range(1, len(PARTS) + 1))
    assert len(ROWS) == len(PARTS)
    assert {*BESIDE, *BIG} <= set(ROWS)


def test_the_number_to_set_and_the_direction_are_kept_longest() -> None:
    assert [part.name for part in sorted(PARTS, key=lambda part: part.keep)][:2] == ["band", "bar"]


@given(height=st.integers(0, 60), wants=WANTS)
def test_no_more_lines_are_given_than_there_are(height: int, wants: dict[str, int]) -> None:
    rows = allot(height, wants)
    assert sum(rows.values()) <= height
    assert all(0 <= rows[name] <= wants[name] for name in rows)


@given(height=st.integers(1, 60), wants=WANTS)
def test_a_part_is_dropped_only_for_one_that_is_kept_longer(height: int, wants: dict[str, int]) -> None:
    rows = allot(height, wants)
    for name, count in rows.items():
        least = min(ROWS[name].least, wants[name])
        longer = sum(rows[other] for other in rows if ROWS[other].keep < ROWS[name].keep)
        assert count or longer + least > height or least == 0


@given(height=st.integers(0, 60), wants=WANTS)
def test_more_room_takes_a_part_away_only_for_one_that_is_kept_longer(
    height: int, wants: dict[str, int]
) -> None:
    less, more = allot(height, wants), allot(height + 1, wants)
    for name in less:
        if less[name] and not more[name]:
            assert any(more[other] > less[other] for other in more if ROWS[other].keep < ROWS[name].keep)
