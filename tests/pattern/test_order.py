"""Orders: as listed, generic, reversed."""

from __future__ import annotations

import pytest

from torqref.pattern.layout import Layout
from torqref.pattern.order import generic_order, reverse, star
from torqref.pattern.shape import circle, rows


def _layout(made: object) -> Layout:
    assert isinstance(made, Layout)
    return made


@pytest.mark.parametrize("bolts", range(3, 201))
def test_the_star_visits_every_bolt_once_and_starts_at_one(bolts: int) -> None:
    labels = star(bolts).labels
    assert sorted(labels) == list(range(1, bolts + 1))
    assert labels[0] == 1


@pytest.mark.parametrize("bolts", range(4, 201, 2))
def test_an_even_star_goes_from_each_bolt_to_its_opposite(bolts: int) -> None:
    labels = star(bolts).labels
    assert all((b - a) % bolts == bolts // 2 for a, b in zip(labels[::2], labels[1::2], strict=True))


def test_the_straight_line_of_nine_goes_from_the_centre_outward() -> None:
    # US Army "Torque Limits" work package, e.g. TM 5-3805-298-23-2 WP 0176, straight torque pattern.
    assert generic_order(_layout(rows((9,)))).labels == (5, 6, 4, 7, 3, 8, 2, 9, 1)


def test_the_reverse_of_a_reverse_is_the_order_itself() -> None:
    order = generic_order(_layout(circle(12)))
    assert reverse(reverse(order)) == order
    assert reverse(order).labels == order.labels[::-1]
