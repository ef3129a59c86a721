"""Choosing from the rack: the best first with a reason, the blocked ones last with why."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from tests.wrench.bench import piece, scale, torque, wrench
from torqref.quantity.term import Torque
from torqref.wrench.choice import Offer, best, choose, overdue_words
from torqref.wrench.rack import Rack, Wrench, read_rack

TODAY = date(2027, 5, 1)
DEMO = Path(__file__).parents[2] / "demo" / "wrenches.toml"


def order(text: str, *wrenches: Wrench, unit: str | None = None) -> list[str]:
    return [
        offer.wrench.id
        for offer in choose(torque(text), Rack(wrenches=wrenches), today=TODAY, unit=unit)
        if not offer.blocked
    ]


def reasons(text: str, *wrenches: Wrench, direction: str = "clockwise") -> dict[str, str]:
    offers = choose(torque(text), Rack(wrenches=wrenches), today=TODAY, direction=direction)
    return {offer.wrench.id: offer.reason for offer in offers}


def test_nearest_the_middle_of_the_scale_comes_first() -> None:
    assert order("22–26 N·m", wrench("5", "25", "0.2", id="small"), wrench(id="middle")) == [
        "middle",
        "small",
    ]


def test_a_band_that_fits_the_window_beats_a_better_place_on_the_scale() -> None:
    loose = wrench("10", "90", "0.5", id="loose", tolerance=Fraction(10, 100))
    assert order("42–48 N·m", loose, wrench("10", "60", "0.5", id="tight")) == ["tight", "loose"]


def test_a_scale_in_the_printed_unit_beats_one_that_needs_converting() -> None:
    metric = wrench("20", "100", "0.5", id="metric")
    imperial = wrench("20", "60", "0.5", "ft-lb", id="imperial")
    assert order("40 ft-lb", metric, imperial) == ["imperial", "metric"]


def test_marks_too_far_apart_come_after_fine_ones_and_say_so() -> None:
    beam, click = wrench("10", "150", "10", id="beam", kind="beam"), wrench("5", "200", "0.5", id="click")
    assert order("65.5 N·m", beam, click) == ["click", "beam"]
    assert "nearest mark +6.9 % off" in reasons("65.5 N·m", beam, click)["beam"]


def test_of_two_that_will_do_the_one_whose_mark_lies_nearer_comes_first() -> None:
    # 8.0 kgf·m = 78.45 N·m: 78 is 0.6 % below, 80 is 2.0 % above and nearer the middle of its scale
    beam = wrench("10", "150", "5", id="beam", kind="beam")
    click = wrench("40", "200", "1", id="click")
    assert order("8.0 kgf·m", beam, click) == ["click", "beam"]
    assert order("80 N·m", beam, click) == ["beam", "click"], "both have that mark: the middle of the scale"


def test_marks_that_are_coarse_for_the_torque_come_after_fine_ones_though_both_have_its_mark() -> None:
    # marks of 5 are more than a tenth of 45: TM 1-1500-204-23-9, paragraph 8-3
    beam = wrench("10", "100", "5", id="beam", kind="beam")
    assert order("45 N·m", beam, wrench("10", "60", "0.5", id="click")) == ["click", "beam"]


def test_a_scale_in_the_unit_asked_for_comes_before_one_in_the_printed_unit() -> None:
    metric = wrench("20", "100", "0.5", id="metric")
    imperial = wrench("20", "60", "0.5", "ft-lb", id="imperial")
    assert order("40 ft-lb", metric, imperial, unit="N·m") == ["metric", "imperial"]
    assert order("60 N·m", metric, imperial, unit="ft-lb") == ["imperial", "metric"]
    assert order("60 N·m", metric, imperial, unit="kgf·m") == ["metric", "imperial"], "nobody has it"
    small = wrench("5", "20", "0.5", "ft-lb", id="small")
    assert order("60 N·m", metric, small, unit="ft-lb") == ["metric"], "it does not cover the value"


def test_in_date_comes_before_overdue_however_well_the_other_fits() -> None:
    late = wrench(id="late", calibration_due=date(2027, 4, 30))
    low = wrench("10", "200", "0.5", id="low", calibration_due=date(2027, 5, 1))
    assert order("35 N·m", late, low) == ["low", "late"]
    assert "calibration ran out 1 day ago" in reasons("35 N·m", late, low)["late"]
    offers = choose(torque("35 N·m"), Rack(wrenches=(late, low)), today=TODAY)
    assert overdue_words(offers[1], offers) == "late ran out 1 day ago. low covers this."
    assert overdue_words(offers[0], offers) == ""


def test_blocked_wrenches_stay_visible_with_why() -> None:
    told = reasons(
        "22–26 N·m",
        wrench("2", "16", "0.2", id="small"),
        wrench("40", "200", "1", id="large"),
        wrench("10", "60", "20", id="coarse"),
        wrench("30", "30", "0", id="fixed", kind="preset"),
        wrench(id="fits"),
    )
    assert told["small"] == "ends at 16.0 N·m"
    assert told["large"] == "starts at 40 N·m"
    assert told["coarse"] == "no mark meets 22.0 to 26.0 N·m"
    assert told["fixed"] == "is fixed at 30 N·m"
    assert told["fits"] == "40 % of scale, inside the window"


def test_the_wrong_direction_blocks() -> None:
    assert reasons("40 N·m", wrench(), direction="anticlockwise") == {"W2": "does not measure anticlockwise"}


def test_with_a_crowfoot_the_wrench_must_have_been_measured() -> None:
    offers = choose(
        torque("40 N·m"),
        Rack(wrenches=(wrench(id="bare", length=None), wrench(id="measured"))),
        (piece("32 mm"),),
        today=TODAY,
    )
    assert [(offer.wrench.id, offer.blocked) for offer in offers] == [("measured", False), ("bare", True)]


def test_nothing_is_taken_where_everything_is_blocked_or_the_rack_is_empty() -> None:
    assert best(choose(torque("500 N·m"), Rack(wrenches=(wrench(),)), today=TODAY)) is None
    assert best(choose(torque("40 N·m"), Rack(), today=TODAY)) is None


def test_the_demo_rack_covers_what_a_job_needs() -> None:
    rack, problems = read_rack(DEMO, thorough=True)
    assert problems == ()
    taken = {}
    for text in ("8 N·m", "82 in-lb", "22–26 N·m", "18 ft-lb", "110 N·m"):
        offer = best(choose(torque(text), rack, today=TODAY))
        assert offer is not None
        assert offer.setting is not None
        taken[text] = (offer.wrench.id, offer.setting.shown, offer.setting.unit)
    assert taken == {
        "8 N·m": ("W1", "8.0", "N·m"),
        "82 in-lb": ("W1", "82", "in-lb"),
        "22–26 N·m": ("W2", "24.0", "N·m"),
        "18 ft-lb": ("W2", "18.0", "ft-lb"),
        "110 N·m": ("W3", "110", "N·m"),
    }


# --- laws ------------------------------------------------------------------------------------------

WRENCHES = st.builds(
    lambda number, low, times, step, share, certified, ways, due: Wrench(
        id=f"W{number}",
        name="a wrench",
        kind="click",
        scales=(scale(str(low), str(low * times), step),),
        tolerance=share,
        certified_from=certified,
        directions=ways,
        calibration_due=due,
        length=piece("290 mm").offset,
    ),
    st.integers(0, 99),
    st.integers(1, 60),
    st.integers(2, 12),
    st.sampled_from(["0.1", "0.5", "1"]),
    st.fractions(Fraction(1, 100), Fraction(1, 10), max_denominator=100),
    st.fractions(0, Fraction(1, 2), max_denominator=10),
    st.sampled_from([("clockwise",), ("clockwise", "anticlockwise")]),
    st.dates(date(2026, 1, 1), date(2028, 12, 31)),
)


@given(
    st.lists(WRENCHES, max_size=6).map(tuple),
    st.fractions(2, 200, max_denominator=10),
    st.fractions(0, Fraction(1, 5), max_denominator=100),
    st.sampled_from(["clockwise", "anticlockwise"]),
    st.integers(0, 180),
)
def test_a_blocked_wrench_is_never_offered_and_an_offered_one_can_do_it(
    wrenches: tuple[Wrench, ...], target: Fraction, half: Fraction, direction: str, angle: int
) -> None:
    value = Torque(
        low=target * (1 - half),
        target=target,
        high=target * (1 + half),
        unit="N·m",
        decimals=1,
        text="a value",
    )
    offers = choose(
        value, Rack(wrenches=wrenches), (piece("32 mm", angle),), today=TODAY, direction=direction
    )
    assert len(offers) == len(wrenches)
    blocked = [offer.blocked for offer in offers]
    assert blocked == sorted(blocked), "every blocked one stands behind every other"
    for offer in offers:
        assert offer.reason
        check(offer, value, direction)
    taken = best(offers)
    assert taken is None or not taken.blocked
    in_date = [offer for offer in offers if not offer.blocked and not offer.overdue]
    assert taken is None or not taken.overdue or not in_date


def check(offer: Offer, value: Torque, direction: str) -> None:
    if offer.blocked:
        assert offer.setting is None
        return
    assert offer.setting is not None
    assert offer.setting.at_fastener is not None
    assert value.low is not None
    assert value.high is not None
    assert direction in offer.wrench.directions
    assert offer.wrench.scales[0].low <= offer.setting.dial <= offer.wrench.scales[0].high
    assert value.low <= offer.setting.at_fastener.target <= value.high
