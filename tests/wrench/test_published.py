"""Published facts about wrenches, held against the figures the room works with."""

from __future__ import annotations

import tomllib
from datetime import date
from fractions import Fraction
from pathlib import Path

from tests.wrench.bench import length, said, setting, torque, wrench
from torqref.wrench import iso6789
from torqref.wrench.adapter import Extension
from torqref.wrench.band import error_of
from torqref.wrench.choice import BEST_FROM, BEST_TO, choose
from torqref.wrench.fitting import read_share
from torqref.wrench.rack import ORDINARY_CERTIFIED_FROM, ORDINARY_TOLERANCE, Rack
from torqref.wrench.scale import COARSEST
from torqref.wrench.weight import Weight, WeightCheck, check_with, read_weight

FACTS = tomllib.loads((Path(__file__).parent / "published_tolerances.toml").read_text(encoding="utf-8"))
ARMY, CLASS, ARTICLES = FACTS["army"], FACTS["iso_type_2_class_a"], FACTS["iso_articles"]


def share(text: str) -> Fraction:
    found = read_share(text)
    assert isinstance(found, Fraction)
    return found


def test_an_ordinary_wrench_is_off_by_four_percent_from_a_fifth_of_scale() -> None:
    assert share(ARMY["accuracy"]) == ORDINARY_TOLERANCE
    assert share(ARMY["certified_from"]) == ORDINARY_CERTIFIED_FROM


def test_the_band_of_100_at_four_percent() -> None:
    # half a graduation is kept out of this sum by a scale without steps
    tool = wrench("20", "250", "0")
    band = error_of(tool, tool.scales[0], "clockwise").at(Fraction(100))
    assert [100 - band, 100 + band] == FACTS["arithmetic"]["band"], FACTS["arithmetic"]["source"]


def test_a_fifth_of_250_ft_lb_is_where_the_certified_range_begins() -> None:
    tool = wrench("10", "250", "1", "ft-lb")
    assert error_of(tool, tool.scales[0], "clockwise").floor == FACTS["arithmetic"]["lowest"]
    assert "Below a fifth of scale" in said(setting("49 ft-lb", tool))
    assert "Below" not in said(setting("50 ft-lb", tool))


def test_the_middle_of_the_scale_is_preferred() -> None:
    assert [share(text) for text in ARMY["best"]] == [BEST_FROM, BEST_TO]
    # NAVEDTRA 14001, 14003 and 14113 (US Navy): choose the wrench that reads near mid-range
    rack = Rack(
        wrenches=(
            wrench("20", "210", id="long"),
            wrench("10", "90", id="middle"),
            wrench("10", "48", id="short"),
        )
    )
    assert [offer.wrench.id for offer in choose(torque("45 N·m"), rack, today=date(2027, 1, 1))] == [
        "middle",
        "long",
        "short",
    ]


def test_marks_wider_than_a_tenth_of_the_torque_are_called_coarse() -> None:
    assert share(ARMY["coarsest_graduation"]) == COARSEST
    tool = wrench("10", "60", "5")
    assert "coarse" in said(setting("45 N·m", tool)), "5 is more than a tenth of 45"
    assert "coarse" not in said(setting("50 N·m", tool))


def test_type_2_class_a_goes_by_the_largest_value_of_the_tool() -> None:
    above = iso6789.tolerance_of("Type II Class A", Fraction("10.5"))
    upto = iso6789.tolerance_of("II A", Fraction(10))
    assert (above, upto) == (share(CLASS["above_10"]), share(CLASS["to_10"])), CLASS["source"]


def test_the_figures_of_a_check_are_those_of_the_standard() -> None:
    assert [share(text) for text in CLASS["test_points"]] == list(iso6789.TEST_POINTS)
    assert CLASS["temperature"] == list(iso6789.TEMPERATURE)
    assert CLASS["load_seconds"] == [float(second) for second in iso6789.LOAD_SECONDS]
    assert FACTS["iso_calibrator"]["times_better"] == iso6789.TIMES_BETTER
    assert share(FACTS["iso_overload"]["share"]) == iso6789.OVERLOAD
    weight = read_weight("10 kg")
    assert isinstance(weight, Weight)
    check = check_with(wrench("12", "60"), weight, length("290 mm"))
    assert isinstance(check, WeightCheck)
    assert "12.0, 36.0, 60.0 N·m" in "\n".join(check.notes)


def test_calibration_runs_out_after_twelve_months_or_5000_pulls() -> None:
    assert (ARTICLES["months"], ARTICLES["pulls"]) == (iso6789.INTERVAL_MONTHS, iso6789.INTERVAL_PULLS)
    assert share(ARTICLES["finest_digit"]) == iso6789.FINEST_DIGIT


def test_a_10_to_100_wrench_was_certified_from_20_and_now_from_10() -> None:
    low, high = ARTICLES["range_2017"]
    older = wrench(str(low), str(high), "1")
    newer = wrench(str(low), str(high), "1", certified_from=Fraction(low, high))
    assert error_of(older, older.scales[0], "clockwise").floor == ARTICLES["range_2003"][0]
    assert error_of(newer, newer.scales[0], "clockwise").floor == low
    assert "Below" in said(setting("15 N·m", older))
    assert "Below" not in said(setting("15 N·m", newer))


def test_an_extension_in_line_needs_no_correction() -> None:
    # TM 9-2815-220-24 (US Army), WP 0133: what is coaxial with the fastener needs no compensation
    assert setting("40 N·m", wrench(), Extension()).value == 40
