"""Torque and clamp load against VDI 2230, Shigley, army capscrews and other printed examples."""

from __future__ import annotations

from statistics import mean, stdev
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.fastener.published import (
    FOOT_POUND_NM,
    INCH_POUND_NM,
    KSI_IN_MPA,
    POUND_FORCE_N,
    entry,
    grade,
    rows,
    thread,
)
from torqref.fastener.bearing import bearing_diameter_mm
from torqref.fastener.clamp import assembly_load_kN, clamp_load_kN, torque_factor, torque_Nm
from torqref.fastener.friction import tightening_factor
from torqref.fastener.geometry import Thread

# Tighter than asked of us for the preload, as asked for the torque: 0.5 % and 1.5 %.
PRELOAD, TORQUE = 0.005, 0.015


def long_form(on: Thread, yield_MPa: float, mu: float) -> tuple[float, float]:
    load = assembly_load_kN(on, yield_MPa=yield_MPa, thread_friction=mu)
    k = torque_factor(
        on, thread_friction=mu, bearing_friction=mu, bearing_diameter_mm=bearing_diameter_mm(on)
    )
    return load, torque_Nm(load, k, float(on.diameter_mm))


CELLS = [(row, name) for row in rows("vdi2230_fine") for name in ("8.8", "10.9", "12.9")]


def test_the_fine_table_has_its_162_cells() -> None:
    assert 2 * len(CELLS) == 162


@pytest.mark.parametrize(
    ("row", "name"), CELLS, ids=lambda one: one if isinstance(one, str) else f"{one['thread']} {one['mu']}"
)
def test_every_cell_of_the_vdi_fine_thread_table(row: dict[str, Any], name: str) -> None:
    on = thread(row["thread"])
    load, torque = long_form(on, grade(name, on).yield_MPa(on), row["mu"])
    column = name.replace(".", "_")
    assert load == pytest.approx(row[f"F_kN_{column}"], rel=PRELOAD)
    assert torque == pytest.approx(row[f"T_Nm_{column}"], rel=TORQUE)


@pytest.mark.parametrize(
    "row", rows("vdi2230_stainless"), ids=lambda row: f"{row['thread']} {row['class_']} {row['mu']}"
)
def test_the_vdi_stainless_rows(row: dict[str, Any]) -> None:
    on = thread(row["thread"])
    load, torque = long_form(on, grade(f"A2-{row['class_']}", on).yield_MPa(on), row["mu"])
    assert load == pytest.approx(row["F_kN"], rel=entry("vdi2230_stainless")["rel_tolerance_F"])
    assert torque == pytest.approx(row["T_Nm"], rel=entry("vdi2230_stainless")["rel_tolerance_T"])


@pytest.mark.parametrize(
    "row", rows("vdi2230_coarse_computed"), ids=lambda row: f"{row['thread']} {row['mu']}"
)
def test_coarse_threads_still_give_what_another_program_calculated(row: dict[str, Any]) -> None:
    # No oracle: these numbers are printed nowhere. They hold the coarse side against a second calculation.
    assert entry("vdi2230_coarse_computed")["use"] == "regression_only"
    on = thread(row["thread"])
    assert float(on.pitch_mm) == row["pitch"]
    for name in ("8.8", "10.9", "12.9"):
        load, torque = long_form(on, grade(name, on).yield_MPa(on), row["mu"])
        assert load == pytest.approx(row[f"F_kN_{name.replace('.', '_')}"], rel=0.002)
        assert torque == pytest.approx(row[f"T_Nm_{name.replace('.', '_')}"], rel=0.006)


def test_the_worked_m12_example() -> None:
    load, _ = long_form(thread("M12"), 640, 0.14)
    assert load == pytest.approx(
        entry("vdi_M12_88_mu014")["expected"], abs=entry("vdi_M12_88_mu014")["tolerance"]
    )


def test_the_worked_tightening_factor() -> None:
    example = entry("vdi_alpha_example")
    # A tightening factor of 1.8 is a scatter of 0.8 / 2.8 either way.
    factor = tightening_factor(0.8 / 2.8)
    assert factor == pytest.approx(example["inputs"]["alpha_A"])
    assert example["inputs"]["F_max_kN"] / factor == pytest.approx(
        example["expected"], abs=example["tolerance"]
    )


@pytest.mark.parametrize("row", rows("army_sae_torque_table"), ids=lambda row: row["thread"])
def test_the_army_capscrew_table(row: dict[str, Any]) -> None:
    """Dry capscrews at three quarters of proof load with K = 0.20."""
    on = thread(row["thread"])
    for name in ("5", "8"):
        # Grade 5 at 7/8 and 1 in is printed 8 % lower than the rule that fits all other rows.
        if name == "5" and row["thread"].split("-")[0] in ("7/8", "1"):
            slack = 0.09
        else:
            slack = entry("army_sae_torque_table")["rel_tolerance"]
        found = (
            torque_Nm(0.75 * grade(name, on).proof_load_kN(on), 0.20, float(on.diameter_mm)) / FOOT_POUND_NM
        )
        assert row[f"grade{name}_lbf_ft"] == pytest.approx(found, rel=slack)


def test_shigley_example_short_form() -> None:
    example = entry("shigley_8_3_T_short")
    load, diameter = example["inputs"]["F_lbf"], float(thread("3/4-16").diameter_mm)
    found = torque_Nm(load * POUND_FORCE_N / 1000, example["inputs"]["K"], diameter) / INCH_POUND_NM
    assert found == pytest.approx(example["expected"], abs=example["tolerance"])


def test_shigley_example_long_form() -> None:
    example = entry("shigley_8_3_T_long")
    on = thread("3/4-16")
    k = torque_factor(
        on,
        thread_friction=example["inputs"]["f"],
        bearing_friction=example["inputs"]["fc"],
        bearing_diameter_mm=bearing_diameter_mm(on),
    )
    found = (
        torque_Nm(example["inputs"]["F_lbf"] * POUND_FORCE_N / 1000, k, float(on.diameter_mm)) / INCH_POUND_NM
    )
    assert found == pytest.approx(example["expected"], abs=example["tolerance"])
    assert on.root_area_mm2 / 645.16 == pytest.approx(example["inputs"]["Ar_in2"], abs=0.0005)


def test_shigley_example_stress() -> None:
    example = entry("shigley_8_3_stress")
    area = thread("3/4-16").stress_area_mm2
    stress = 25 * POUND_FORCE_N * 1000 / area / KSI_IN_MPA
    # The book divides by the rounded area 0.373 in²; the exact one is 0.01 % smaller.
    assert stress == pytest.approx(example["expected"], rel=2e-4)
    assert area / 645.16 == pytest.approx(example["inputs"]["At_in2"], abs=0.0005)


def test_shigley_example_joint_numbers_hang_together() -> None:
    # The stiffness of the joint is no part of torqref; the printed figures are kept as one consistent set.
    constant = entry("shigley_8_3_C")
    assert pytest.approx(constant["expected"], abs=constant["tolerance"]) == 6.50 / (6.50 + 13.8)
    service = entry("shigley_8_3_service")
    load = service["inputs"]["C"] * service["inputs"]["P_kip"] + 25
    assert load / service["inputs"]["At_in2"] == pytest.approx(service["expected"], abs=service["tolerance"])


@pytest.mark.parametrize("name", ["speck_K0.3", "speck_K0.25", "speck_K0.2", "speck_K0.15", "speck_K0.1"])
def test_one_load_at_five_torque_factors(name: str) -> None:
    given_values = entry(name)["inputs"]
    diameter = float(thread("#10-24").diameter_mm)
    assert diameter == pytest.approx(given_values["d_in"] * 25.4)
    found = (
        torque_Nm(given_values["F_lbf"] * POUND_FORCE_N / 1000, given_values["K"], diameter) / INCH_POUND_NM
    )
    assert found == pytest.approx(entry(name)["expected"], abs=entry(name)["tolerance"] + 1e-9)


@pytest.mark.parametrize("row", rows("pcc1_table1"), ids=lambda row: row["size"])
def test_the_flange_table_is_the_root_area_at_50_ksi(row: dict[str, Any]) -> None:
    on = thread(f"{row['size']}-{row['tpi']}")
    load = 50 * KSI_IN_MPA * on.root_area_mm2 / 1000
    # K is about 0.22 without coating and 0.17 with it; 0.166 is the middle of what the coated rows imply.
    for k, printed in ((0.22, row["noncoated_lbf_ft"]), (0.166, row["coated_lbf_ft"])):
        found = torque_Nm(load, k, float(on.diameter_mm)) / FOOT_POUND_NM
        assert printed == pytest.approx(found, rel=entry("pcc1_table1")["rel_tolerance"])


def test_clamp_load_back_from_torque() -> None:
    example = entry("preload_inverse")
    given_values = example["inputs"]
    pounds = (
        clamp_load_kN(
            given_values["T_lbf_ft"] * FOOT_POUND_NM, given_values["K"], given_values["d_in"] * 25.4
        )
        * 1000
        / POUND_FORCE_N
    )
    assert pounds == pytest.approx(example["expected"], abs=example["tolerance"])


def test_less_friction_is_more_clamp_load() -> None:
    ratio = clamp_load_kN(50, 0.15, 10) / clamp_load_kN(50, 0.20, 10)
    assert ratio == pytest.approx(entry("ksensitivity")["expected"], abs=entry("ksensitivity")["tolerance"])


def test_ten_bolts_at_one_torque_scatter() -> None:
    """Ten lubricated bolts, measured: inside the scatter that is reckoned with for lubricated threads."""
    measured = entry("shigley_scatter")["inputs"]["kN"]
    middle, spread = entry("shigley_scatter")["expected"]
    assert mean(measured) == pytest.approx(middle, abs=0.005)
    assert stdev(measured) == pytest.approx(spread, abs=0.005)
    scatter = 0.25
    assert middle * (1 - scatter) < min(measured) < max(measured) < middle * (1 + scatter)


@given(st.floats(1, 500), st.floats(0.05, 0.5), st.floats(3, 60))
def test_torque_and_clamp_load_undo_each_other(load: float, k: float, diameter: float) -> None:
    assert clamp_load_kN(torque_Nm(load, k, diameter), k, diameter) == pytest.approx(load)


@given(
    st.sampled_from(["M5", "M8", "M12x1.25", "M20", "1/4-20", "3/4-16"]),
    st.floats(0.03, 0.4),
    st.floats(1.05, 2),
)
def test_more_friction_needs_more_torque_and_leaves_less_load(size: str, mu: float, more: float) -> None:
    on = thread(size)
    smooth, rough = (
        torque_factor(
            on, thread_friction=one, bearing_friction=one, bearing_diameter_mm=bearing_diameter_mm(on)
        )
        for one in (mu, mu * more)
    )
    assert rough > smooth
    tight, slack = (assembly_load_kN(on, yield_MPa=640, thread_friction=one) for one in (mu, mu * more))
    assert slack < tight < 0.9 * 640 * on.stress_area_mm2 / 1000


@given(st.sampled_from(["M6", "M8", "M10", "M16", "3/8-16"]))
def test_without_friction_the_torque_only_lifts_the_load(size: str) -> None:
    """Work in is work out: one turn of torque T lifts F by one pitch, so T = F · P / 2π."""
    on = thread(size)
    k = torque_factor(on, thread_friction=0, bearing_friction=0, bearing_diameter_mm=20)
    assert torque_Nm(1, k, float(on.diameter_mm)) == pytest.approx(
        float(on.pitch_mm) / (2 * 3.141592653589793)
    )
