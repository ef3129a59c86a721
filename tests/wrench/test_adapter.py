"""What an adapter does to the lever: published examples, statics, and the laws that hold for all of them."""

from __future__ import annotations

import cmath
import math
import random
import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.wrench.bench import exact_length, length, piece, torque
from torqref.document.refusal import Refusal
from torqref.quantity.term import Length
from torqref.wrench.adapter import (
    Extension,
    Joint,
    Multiplier,
    Part,
    Piece,
    arrival,
    arrival_span,
    cosine,
    factor,
    reach,
    swing,
    turned,
)

PUBLISHED = tomllib.loads((Path(__file__).parent / "published_adapters.toml").read_text(encoding="utf-8"))
HANDLES = st.fractions(150, 1200, max_denominator=20)
OFFSETS = st.fractions(0, 140, max_denominator=20)
ANGLES = st.fractions(0, 180, max_denominator=8)
PIECES = st.builds(lambda offset, angle: Piece(offset=exact_length(offset), angle=angle), OFFSETS, ANGLES)


def of(handle: Length, *parts: Part) -> Fraction:
    found = factor(handle, parts)
    assert isinstance(found, Fraction), found
    return found


def refusal(handle: Length | None, *parts: Part) -> str:
    found = factor(handle, parts)
    assert isinstance(found, Refusal)
    return found.message


# --- published -------------------------------------------------------------------------------------


@pytest.mark.parametrize("example", PUBLISHED["example"], ids=lambda example: str(example["id"]))
def test_published_examples_come_out_at_their_printed_digits(example: dict[str, Any]) -> None:
    pieces = tuple(piece(offset, angle) for offset, angle in example["pieces"])
    value, share = torque(example["torque"]).aim, of(length(example["length"]), *pieces)
    found = value / share if example.get("achieved") else value * share
    assert abs(float(found) - example["expected"]) <= example["tolerance"], example["source"]


def test_the_cosine_rule_of_tm_9_254_is_a_sum_of_lengths() -> None:
    # TM 9-254 (US Army), figure 4-6: L = l_T + l_A cos a; 10 in and 4 in at 60° make 12 in
    assert reach((piece("4 in", 60),), "in") == 2
    assert of(length("10 in"), piece("4 in", 60)) == Fraction(10, 12)


def test_an_adapter_that_points_back_is_subtracted() -> None:
    # TM 55-1945-205-24-4 (US Army), WP 0247: AT = DT·LT/(LT − AL) and DT·LT/(LT + AL)
    assert of(length("12 in"), piece("3 in", 180)) == Fraction(12, 9)
    assert of(length("12 in"), piece("3 in", 0)) == Fraction(12, 15)


def test_what_is_concentric_with_the_square_changes_nothing() -> None:
    # TM 1-1500-204-23-9 (US Army, 1992), figure 8-15
    assert factor(None, (Extension(),)) == 1
    assert of(length("10 in"), Extension(), piece("4 in"), Extension()) == of(length("10 in"), piece("4 in"))


# --- statics, by another road ----------------------------------------------------------------------


def by_moments(handle: float, pieces: list[tuple[float, float]], heading: float) -> float:
    """Setting per torque at the fastener from forces and moment arms, the whole rig turned by `heading`.

    The grip lies at -L from the square along the handle and the hand pulls square to it. The wrench shows
    the moment of the pull about the square, the fastener feels its moment about the fastener.
    """
    along = cmath.exp(1j * heading)
    square = complex(3, -2)
    grip = square - handle * along
    fastener = square + sum(offset * along * cmath.exp(1j * math.radians(turn)) for offset, turn in pieces)
    pull = 100 * along * 1j

    def moment(about: complex) -> float:
        lever = grip - about
        return lever.real * pull.imag - lever.imag * pull.real

    return moment(square) / moment(fastener)


def test_random_geometry_agrees_with_forces_and_moments() -> None:
    chance = random.Random(5)
    for _ in range(400):
        handle = chance.uniform(150, 900)
        rig = [(chance.uniform(0, 90), chance.uniform(0, 180)) for _ in range(chance.randint(1, 3))]
        pieces = [
            Piece(offset=exact_length(Fraction(offset)), angle=Fraction(angle)) for offset, angle in rig
        ]
        if handle + sum(offset * math.cos(math.radians(angle)) for offset, angle in rig) < 0.15 * handle:
            continue
        expected = by_moments(handle, rig, chance.uniform(0, 2 * math.pi))
        assert float(of(exact_length(Fraction(handle)), *pieces)) == pytest.approx(expected, rel=1e-12)


# --- laws ------------------------------------------------------------------------------------------


@given(HANDLES, ANGLES)
def test_no_offset_changes_nothing_at_any_angle(handle: Fraction, angle: Fraction) -> None:
    assert of(exact_length(handle), Piece(offset=exact_length(Fraction(0)), angle=angle)) == 1


@given(HANDLES, OFFSETS)
def test_across_the_handle_changes_nothing(handle: Fraction, offset: Fraction) -> None:
    assert of(exact_length(handle), Piece(offset=exact_length(offset), angle=Fraction(90))) == 1


@given(HANDLES, st.lists(PIECES, min_size=1, max_size=3))
def test_the_inverse_returns_exactly(handle: Fraction, pieces: list[Piece]) -> None:
    there, back = factor(exact_length(handle), tuple(pieces)), arrival(exact_length(handle), tuple(pieces))
    if isinstance(there, Fraction) and isinstance(back, Fraction):
        assert there * back == 1
    else:
        assert isinstance(there, Refusal)
        assert isinstance(back, Refusal)


@given(HANDLES, OFFSETS, OFFSETS, ANGLES)
def test_a_longer_piece_lowers_the_setting_ahead_and_raises_it_behind(
    handle: Fraction, one: Fraction, other: Fraction, angle: Fraction
) -> None:
    short, long = sorted((one, other))
    less = arrival(exact_length(handle), (Piece(offset=exact_length(short), angle=angle),))
    more = arrival(exact_length(handle), (Piece(offset=exact_length(long), angle=angle),))
    if isinstance(less, Fraction) and isinstance(more, Fraction):
        assert more >= less if angle <= 90 else more <= less


@given(HANDLES, OFFSETS, ANGLES, ANGLES)
def test_folding_back_raises_the_setting(
    handle: Fraction, offset: Fraction, one: Fraction, other: Fraction
) -> None:
    opened, folded = sorted((one, other))
    first = arrival(exact_length(handle), (Piece(offset=exact_length(offset), angle=opened),))
    second = arrival(exact_length(handle), (Piece(offset=exact_length(offset), angle=folded),))
    if isinstance(first, Fraction) and isinstance(second, Fraction):
        assert float(second) <= float(first) + 1e-12


@given(HANDLES, st.lists(PIECES, min_size=2, max_size=4))
def test_pieces_in_a_row_add_along_the_handle_in_any_order(handle: Fraction, pieces: list[Piece]) -> None:
    each = sum(reach((one,), "mm") for one in pieces)
    assert reach(tuple(pieces), "mm") == each
    assert reach(tuple(reversed(pieces)), "mm") == each


@given(HANDLES, st.lists(PIECES, min_size=1, max_size=3))
def test_what_is_not_known_exactly_widens_the_band_and_never_narrows_it(
    handle: Fraction, pieces: list[Piece]
) -> None:
    nominal = arrival(exact_length(handle), tuple(pieces))
    if isinstance(nominal, Refusal):
        return
    low, high = arrival_span(exact_length(handle), tuple(pieces))
    assert low <= nominal <= high
    wider = arrival_span(exact_length(handle), (*pieces, Joint(bend=Fraction(15))))
    assert wider[0] <= low
    assert wider[1] >= high


@given(HANDLES, st.lists(PIECES, min_size=1, max_size=3), st.randoms(use_true_random=False))
def test_whatever_the_true_lengths_and_angles_are_the_span_holds_what_arrives(
    handle: Fraction, pieces: list[Piece], chance: random.Random
) -> None:
    if isinstance(arrival(exact_length(handle), tuple(pieces)), Refusal):
        return
    low, high = arrival_span(exact_length(handle), tuple(pieces))
    true_handle = float(handle) + chance.uniform(-0.05, 0.05)
    true_reach = sum(
        max(float(one.offset.value) + chance.uniform(-0.05, 0.05), 0) * (one.offset.value > 0)
        * math.cos(math.radians(float(one.angle) + chance.uniform(-10, 10)))
        for one in pieces
    )  # fmt: skip
    assert float(low) - 1e-9 <= max(1 + true_reach / true_handle, 0) <= float(high) + 1e-9


# --- exactness, units, refusals --------------------------------------------------------------------


@pytest.mark.parametrize(("angle", "exact"), [(0, "1"), (60, "1/2"), (90, "0"), (120, "-1/2"), (180, "-1")])
def test_angles_with_a_rational_cosine_stay_exact(angle: int, exact: str) -> None:
    assert cosine(Fraction(angle)) == Fraction(exact)


def test_inches_on_a_metric_handle_are_converted_exactly() -> None:
    assert of(length("450 mm"), piece("2.25 in")) == Fraction(450) / (450 + Fraction("57.15"))


def test_an_adapter_that_reaches_the_hand_is_refused() -> None:
    message = refusal(length("6 in"), piece("6 in", 180))
    assert "no lever" in message
    assert "90°" in message
    assert "no lever" in refusal(length("6 in"), piece("5.5 in", 180)), "not clearly above zero"


def test_without_the_length_of_the_wrench_only_a_crowfoot_across_can_be_worked_out() -> None:
    assert "effective length" in refusal(None, piece("38 mm"))
    assert factor(None, (piece("38 mm", 90),)) == 1


def test_a_multiplier_divides_by_ratio_and_efficiency() -> None:
    # T_in = T_out / (ratio · efficiency): 400 through 4:1 at 80 % is 125
    found = factor(None, (Multiplier(ratio=Fraction(4), efficiency=Fraction(8, 10)),))
    assert found == Fraction(125, 400)


def test_a_crowfoot_before_the_multiplier_counts_and_after_it_is_refused() -> None:
    box = Multiplier(ratio=Fraction(4))
    assert of(length("300 mm"), piece("100 mm"), box) == Fraction(3, 4) / 4
    assert "reaction arm" in refusal(length("300 mm"), box, piece("100 mm"))


def test_a_universal_joint_is_never_corrected_for_and_swings_both_ways() -> None:
    joint = Joint(bend=Fraction(15))
    assert factor(None, (joint,)) == 1
    low, high = swing((joint,))
    # single cardan joint: ratio between cos β and 1/cos β
    assert float(low) == pytest.approx(math.cos(math.radians(15)))
    assert float(high) == pytest.approx(1 / math.cos(math.radians(15)))


def test_a_universal_joint_bent_too_far_is_refused() -> None:
    assert "45°" in refusal(None, Joint(bend=Fraction(50)))


def test_turning_the_parts_turns_only_the_offsets() -> None:
    parts = (piece("38 mm"), Extension())
    assert turned(parts, Fraction(90)) == (piece("38 mm", 90), Extension())
