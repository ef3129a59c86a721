"""Audit of tightening orders: what is impossible, what is unusual, and what is left in peace."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.pattern.published import HEAD, MANIFOLD, ORDERS, PUMP, drawn, layout, order
from torqref.pattern.audit import audit
from torqref.pattern.fault import Fault
from torqref.pattern.layout import Layout
from torqref.pattern.order import circular, generic_order, grouped, listed, star
from torqref.pattern.shape import circle, count, points, rows


def told(value: str | list[object], pattern: object) -> tuple[Fault, ...]:
    return audit(order(value), layout(pattern))


def only(faults: tuple[Fault, ...]) -> Fault:
    assert len(faults) == 1, faults
    return faults[0]


@pytest.mark.parametrize("entry", ORDERS, ids=lambda entry: entry["id"])
def test_published_orders_pass_in_silence(entry: dict[str, Any]) -> None:
    bolts = len(entry["order"])
    pattern = circle(bolts) if entry["shape"] == "circle" else rows((bolts,))
    assert told(entry["order"], pattern) == ()


@pytest.mark.parametrize("text", [HEAD, MANIFOLD, PUMP])
def test_orders_as_pages_print_them_pass_in_silence(text: str) -> None:
    assert audit(listed(drawn(text)), drawn(text)) == ()


def test_an_order_typed_round_a_circle_is_told_with_the_usual_cross() -> None:
    fault = only(told("1 2 3 4 5 6 7 8", circle(8)))
    assert "neighbour to neighbour in 7 of 7 steps" in fault.message
    assert "usual cross here would be 1 5 3 7 2 6 4 8" in fault.mend
    assert fault.severity == "warning"


@pytest.mark.parametrize("bolts", [4, 5, 6, 12, 24, 48, 200])
def test_going_round_is_told_on_every_size_of_circle(bolts: int) -> None:
    assert any("neighbour to neighbour" in f.message for f in audit(circular(bolts), layout(circle(bolts))))


def test_going_round_a_drawn_ring_is_told_too() -> None:
    ring = drawn("    1\n 8     2\n7       3\n 6     4\n    5")
    assert "1 5 3 7 2 6 4 8" in only(audit(listed(ring), ring)).mend


def test_four_corners_typed_round_are_told() -> None:
    square = drawn("1   2\n\n4   3")
    assert "1 3 2 4" in only(audit(listed(square), square)).mend


def test_five_clamps_on_a_rail_starting_at_an_edge_are_left_in_peace() -> None:
    assert told("1 2 3 4 5", rows((5,))) == ()
    assert told("5 4 3 2 1", rows((5,))) == ()
    assert audit(listed(drawn("1  2  3  4  5")), drawn("1  2  3  4  5")) == ()


def test_a_long_line_that_starts_at_an_edge_is_a_hint() -> None:
    fault = only(told("1 2 3 4 5 6 7 8 9", rows((9,))))
    assert "starts at an edge, with 1" in fault.message
    assert "5 6 4 7 3 8 2 9 1" in fault.mend
    assert fault.severity == "hint"


def test_rows_worked_one_after_the_other_start_at_an_edge_and_leave_one_side() -> None:
    found = told("1 2 3 4 5 6 7 8 9 10", rows((5, 5)))
    assert ["starts at an edge" in f.message for f in found] == [True, False]
    assert "the upper side is finished when 0 of 5 on the lower side are tightened" in found[1].message


def test_one_side_first_is_told_from_left_to_right_too() -> None:
    found = told("3 8 2 7 1 6 4 9 5 10", rows((5, 5)))
    assert "left side is finished when 0 of 4 on the right side" in only(found).message


def test_a_few_neighbours_in_succession_are_a_hint() -> None:
    fault = told("1 5 3 7 6 2 4 8", circle(8))[0]
    assert fault.severity == "hint"
    assert "one after the other: 7 then 6" in fault.message


@pytest.mark.parametrize(
    ("typed", "pattern", "words", "labels"),
    [
        ("1 3 5 2", circle(5), "leaves out position 4", (4,)),
        ("1 3", circle(5), "leaves out positions 2, 4, 5", (2, 4, 5)),
        ("1 3 5 2 4 3", circle(5), "visits 3 2 times", (3,)),
        ("1 3 5 2 4 6", circle(5), "visits position 6, which the pattern does not have", (6,)),
        ("1+3 2+2", None, None, ()),
    ],
)
def test_what_is_impossible_is_an_error(
    typed: str, pattern: object, words: str | None, labels: tuple[int, ...]
) -> None:
    if words is None:
        with pytest.raises(AssertionError, match="twice at once"):
            order(typed)
        return
    fault = only(told(typed, pattern))
    assert words in fault.message
    assert (fault.severity, fault.labels) == ("error", labels)
    assert fault.mend


def test_errors_are_all_told_and_nothing_else_is() -> None:
    found = told("1 2 2 4 9", circle(5))
    assert [fault.severity for fault in found] == ["error"] * 3


def test_a_number_missing_from_a_drawn_order_is_an_error() -> None:
    gap = drawn("1  2  4\n5  7  8")
    fault = only(audit(listed(gap), gap))
    assert "from 1 to 8 without 3, 6" in fault.message
    assert fault.severity == "error"
    assert audit(order("2 7 1 8 5 4"), gap) == ()


def test_a_word_that_looks_like_a_bolt_is_told() -> None:
    pattern = drawn("1  (2)  3\n\n4   5   6")
    found = audit(order("5 4 6 1 3"), pattern)
    assert any('"(2)" is read as a word' in fault.message for fault in found)


def test_numbers_that_begin_above_one_are_a_hint() -> None:
    fault = only(audit(listed(drawn("11   12")), drawn("11   12")))
    assert (fault.severity, fault.message) == ("hint", "the numbers begin with 11, not with 1")


@pytest.mark.parametrize("word", ["-2", "2)", "|2|"])
def test_a_bolt_written_in_another_way_is_told(word: str) -> None:
    messages = [fault.message for fault in audit(listed(drawn(f"1  {word}")), drawn(f"1  {word}"))]
    assert messages == [f'"{word}" is read as a word and not as a bolt']


def test_numbers_stamped_at_the_places_typed_as_the_order_are_asked_about() -> None:
    # The labels of the Army figure, clockwise from the top: a poor cross when read as the order.
    found = told([1, 5, 12, 3, 9, 7, 2, 6, 11, 4, 10, 8], circle(12))
    assert "1 7 4 10 2 8 6 12 5 11 9 3" in found[-1].mend


def test_a_list_that_does_not_start_at_one_shows_its_other_meaning() -> None:
    found = told([9, 5, 1, 3, 7, 11, 12, 8, 4, 2, 6, 10], circle(12))
    hint = found[-1]
    assert "starts at 9" in hint.message
    assert "3 10 4 9 2 11 5 8 1 12 6 7" in hint.mend
    assert hint.severity == "hint"


@pytest.mark.parametrize("bolts", range(3, 201))
def test_the_usual_cross_is_never_told(bolts: int) -> None:
    assert audit(star(bolts), layout(circle(bolts))) == ()


@pytest.mark.parametrize("bolts", range(4, 201, 2))
def test_opposite_pairs_are_never_told(bolts: int) -> None:
    assert audit(star(bolts, pairs=True), layout(circle(bolts))) == ()


@pytest.mark.parametrize("bolts", [24, 32, 48, 60, 96, 200])
def test_groups_of_neighbours_on_a_large_circle_are_not_told(bolts: int) -> None:
    assert audit(grouped(bolts), layout(circle(bolts))) == ()


@pytest.mark.parametrize(
    "counts", [(2,), (3, 3), (4, 4), (5, 5), (6, 6), (3, 3, 3), (4, 5, 4), (12,), (20, 20)]
)
def test_the_way_from_the_centre_outward_is_never_told(counts: tuple[int, ...]) -> None:
    pattern = layout(rows(counts))
    assert audit(generic_order(pattern), pattern) == ()


def test_bolts_without_a_picture_are_judged_by_their_numbers_only() -> None:
    assert told("1 2 3 4 5 6 7 8", count(8)) == ()
    assert only(told("1 2 3", count(4))).severity == "error"


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.tuples(st.integers(0, 60), st.integers(0, 40)), min_size=1, max_size=16, unique=True),
    st.randoms(use_true_random=False),
)
def test_any_permutation_is_possible_and_at_most_unusual(places: list[tuple[int, int]], random: Any) -> None:
    pattern: Layout = layout(points(places))
    labels = list(pattern.labels)
    random.shuffle(labels)
    assert all(fault.severity != "error" and fault.mend for fault in told(list(labels), pattern))
