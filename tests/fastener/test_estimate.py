"""An estimate where no value exists: right by the published mechanics, and loudly no specification."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.fastener.published import FOOT_POUND_NM, POUND_FORCE_N, entry, grade, rows, thread
from torqref.document.refusal import Refusal
from torqref.fastener.estimate import USUAL_UTILISATION, Estimate, estimate
from torqref.fastener.factor import read_friction, read_k, read_utilisation
from torqref.fastener.friction import BY_NAME as CONDITIONS
from torqref.fastener.grade import GRADES
from torqref.fastener.parent import Hole, read_hole
from torqref.fastener.plausibility import judge
from torqref.fastener.series import METRIC_COARSE, METRIC_FINE, UNIFIED
from torqref.fastener.statement import statement
from torqref.fastener.stripping import BY_NAME as MATERIALS
from torqref.quantity.term import Torque


def found(
    size: str, name: str, *, k: float | None = None, condition: str = "", utilisation: float = 0.75
) -> Estimate:
    on = thread(size)
    known = CONDITIONS[condition] if condition else None
    answer = estimate(on, grade(name, on), k=k, condition=known, utilisation=utilisation)
    assert isinstance(answer, Estimate), answer
    return answer


def test_m8_8_8_by_hand() -> None:
    # 36.61 mm² · 580 MPa = 21.23 kN; three quarters of it 15.92 kN; 0.20 · 15.92 kN · 8 mm = 25.48 N·m.
    answer = found("M8", "8.8")
    assert answer.stress_area_mm2 == pytest.approx(36.61, abs=0.005)
    assert answer.proof_load_kN == pytest.approx(21.23, abs=0.005)
    assert answer.clamp_load_kN.target == pytest.approx(15.92, abs=0.01)
    assert answer.torque_Nm.target == pytest.approx(25.48, abs=0.01)


def test_a_printed_dry_chart_value_is_the_estimate() -> None:
    # A published metric chart: 8.8 dry 10.4, 25.5, 50.4, 88 N·m; wet 7.9, 19.1, 37.8, 66 N·m.
    for size, dry, wet in (("M6", 10.4, 7.9), ("M8", 25.5, 19.1), ("M10", 50.4, 37.8), ("M12", 88, 66)):
        assert found(size, "8.8").torque_Nm.target == pytest.approx(dry, rel=0.015)
        assert found(size, "8.8", condition="oiled").torque_Nm.target == pytest.approx(wet, rel=0.015)


def test_the_army_grade_8_capscrews_are_the_estimate() -> None:
    for row in rows("army_sae_torque_table"):
        answer = found(row["thread"], "8").torque_Nm.target / FOOT_POUND_NM
        assert answer == pytest.approx(
            row["grade8_lbf_ft"], rel=entry("army_sae_torque_table")["rel_tolerance"]
        )


def test_the_usual_share_is_that_of_joints_taken_apart_again() -> None:
    assert entry("shigley_preload_reuse")["expected"][0] == USUAL_UTILISATION


def test_one_bolt_two_lubricants_one_clamp_load() -> None:
    # Published for a 3/8-24 at 5788 lbf: 28.9 ft-lb dry plated and 19.9 ft-lb with moly.
    on = thread("3/8-24")
    proof = grade("8", on).proof_load_kN(on)
    share = 5788 * POUND_FORCE_N / 1000 / proof
    for k, printed in ((0.160, 28.9), (0.110, 19.9)):
        answer = found("3/8-24", "8", k=k, utilisation=share)
        assert answer.torque_Nm.target / FOOT_POUND_NM == pytest.approx(printed, abs=0.06)
    assert CONDITIONS["moly"].k == 0.11


def test_a_truck_wheel_shows_that_k_has_to_be_an_input() -> None:
    # 475 ft-lb and 50 000 lbf on M22x1.5 are K = 0.132; with the textbook 0.20 it would be 32 900 lbf.
    answer = found("M22x1.5", "10.9", k=0.1316)
    pounds = 50_000 * POUND_FORCE_N / 1000
    torque = 0.1316 * pounds * 22
    assert torque / FOOT_POUND_NM == pytest.approx(475, rel=0.001)
    clamp = answer.clamp_load_in(CONDITIONS["dry"]) / answer.clamp_load_kN.target * 50_000
    assert clamp == pytest.approx(32_905, rel=0.001)


def test_dry_guidance_for_threadlocker_and_oil() -> None:
    # A published answer: 40 N·m dry is 32 with threadlocker and 30 with oil, for one clamp load.
    for name, printed in (("threadlocker", 32.0), ("oiled", 30.0)):
        ratio = found("M8", "8.8", condition=name).torque_Nm.target / found("M8", "8.8").torque_Nm.target
        assert 40 * ratio == pytest.approx(printed)


def test_halving_k_doubles_the_clamp_load() -> None:
    rough, smooth = found("M8", "8.8", k=0.20), found("M8", "8.8", k=0.10)
    assert rough.clamp_load_kN.target / rough.torque_Nm.target * 2 == pytest.approx(
        smooth.clamp_load_kN.target / smooth.torque_Nm.target
    )
    # The scatter that the same answer named, about 30 %, lies between ours for lubricated and dry threads.
    assert CONDITIONS["oiled"].scatter < 0.30 < CONDITIONS["dry"].scatter


def test_a_given_k_is_one_value_and_a_condition_brings_its_scatter() -> None:
    alone = found("M8", "8.8", k=0.2)
    assert alone.torque_Nm.low == alone.torque_Nm.target == alone.torque_Nm.high
    assert alone.clamp_load_kN.low == alone.clamp_load_kN.target == alone.clamp_load_kN.high
    dry = found("M8", "8.8", k=0.2, condition="dry")
    assert dry.torque_Nm.low < dry.torque_Nm.target < dry.torque_Nm.high
    assert dry.clamp_load_kN.low == pytest.approx(0.65 * dry.clamp_load_kN.target)


def test_a_given_friction_goes_through_the_long_form() -> None:
    # VDI 2230 for M8x1 8.8, friction 0.12: 26.1 N·m for 20.2 kN, so 1.292 N·m for each kN.
    on = thread("M8x1")
    answer = estimate(on, grade("8.8", on), friction=0.12)
    assert isinstance(answer, Estimate)
    assert answer.torque_Nm.target / answer.clamp_load_kN.target == pytest.approx(26.1 / 20.2, rel=0.01)
    assert answer.torque_Nm.low == answer.torque_Nm.high


def test_a_soft_parent_without_engagement_is_refused() -> None:
    for parent, engagement in (("aluminium", ""), ("", "9mm")):
        answer = read_hole(parent, engagement, thread("M8"))
        assert isinstance(answer, Refusal)
        # two diameters of engagement are usual in aluminium
        assert ("16mm" if parent else engagement) in answer.readings[0]
    assert isinstance(read_hole("plastic", "20mm", thread("M8")), Refusal)
    assert isinstance(read_hole("aluminium", "long", thread("M8")), Refusal)


def test_a_thin_engagement_holds_the_torque_down() -> None:
    on = thread("M8")
    thin = estimate(on, grade("8.8", on), hole=Hole(material=MATERIALS["cast aluminium"], engagement_mm=9))
    deep = estimate(on, grade("8.8", on), hole=Hole(material=MATERIALS["cast aluminium"], engagement_mm=20))
    assert isinstance(thin, Estimate)
    assert isinstance(deep, Estimate)
    assert thin.limited
    assert not deep.limited
    assert thin.torque_Nm.target < 20 < deep.torque_Nm.target
    assert thin.stripping_load_kN is not None
    assert thin.clamp_load_kN.high < thin.stripping_load_kN
    assert "held down by 9 mm of thread in cast aluminium" in thin.basis
    hopeless = estimate(on, grade("8.8", on), hole=Hole(material=MATERIALS["steel"], engagement_mm=2))
    assert isinstance(hopeless, Refusal)


def test_a_pipe_thread_has_no_estimate() -> None:
    on = thread("G1/4")
    assert isinstance(estimate(on, GRADES[0]), Refusal)


@pytest.mark.parametrize("read", [read_k, read_friction, read_utilisation])
@pytest.mark.parametrize(
    "text", ["0", "-0.2", "−0.2", "nan", "inf", "3", "1e-1", "", "x", "0.0", "9" * 50, "%"]
)
def test_a_bad_number_is_refused_with_its_own_message(read: object, text: str) -> None:
    assert callable(read)
    answer = read(text)
    assert isinstance(answer, Refusal)
    assert "is expected, such as" in answer.message


def test_a_share_of_proof_load_may_be_a_percentage() -> None:
    assert read_utilisation("75 %") == read_utilisation("0.75") == read_utilisation("0,75") == 0.75
    answer = read_utilisation("75")
    assert isinstance(answer, Refusal)
    assert answer.readings == ("75 %",)


def test_the_statement_says_estimate_first_and_last_and_defers_to_the_maker() -> None:
    lines = statement(found("M8", "8.8"))
    assert lines[0].startswith("ESTIMATE, not a specification")
    assert lines[-1].startswith("ESTIMATE")
    assert "manufacturer's service information comes first" in lines[1]
    text = "\n".join(lines)
    assert "condition    dry" in text
    assert "oiled" in text
    assert "anti-seize   26.5 kN, 125 % of proof load: TOO MUCH" in text
    assert "25.5 N·m (18.8 ft-lb)" in text


def test_another_condition_is_told_as_clamp_load_and_never_as_another_torque() -> None:
    lines = statement(found("M8", "8.8", condition="dry"))
    after = lines[next(n for n, line in enumerate(lines) if line.startswith("The same")) + 1 :]
    others = [line for line in after if line.startswith("  ")]
    assert len(others) == 2
    assert all("kN" in line and "N·m" not in line for line in others)


def test_stainless_is_told_to_gall() -> None:
    assert any("gall" in line for line in statement(found("M8", "A2-70")))
    assert not any("gall" in line for line in statement(found("M8", "8.8")))


def test_an_inch_thread_has_inch_units_first() -> None:
    assert "44 ft-lb (59.1 N·m)" not in statement(found("M8", "8.8"))[3]
    torque = next(line for line in statement(found("3/8-16", "8")) if "torque" in line)
    assert torque.split()[2] == "ft-lb"


@pytest.mark.parametrize(
    ("thread", "grade", "unit", "other"),
    [("3/8-24", "8", "ft-lb", "N·m"), ("#6-32", "2", "in-lb", "N·m"), ("M8", "8.8", "N·m", "ft-lb")],
)
def test_one_answer_speaks_in_one_unit_and_the_other_stands_beside_it(
    thread: str, grade: str, unit: str, other: str
) -> None:
    """Every torque comes in the unit of the thread; the other unit is only found in brackets."""
    lines = [line.strip() for line in statement(found(thread, grade))]
    told = [line for line in lines if line.startswith(("torque ", "friction ", "The same"))]
    assert len(told) == 3
    for line in told:
        outside = re.sub(r"\([^)]*\)", "", line)
        assert unit in outside
        assert other not in outside
    # 49.6 and 103 N·m are 36.6 and 76.0 ft-lb (NIST SP 811: 1.355 818 N·m)
    fine = "\n".join(statement(found("3/8-24", "8")))
    assert "a smooth bolt needs 36.6 ft-lb, a rough one 76 ft-lb (49.6 and 103 N·m)" in fine


METRIC = [f"M{float(size):g}" for size in METRIC_COARSE if size >= 3]
METRIC += [f"M{float(size):g}x{float(row[0]):g}" for size, row in METRIC_FINE.items() if 8 <= size <= 39]
INCH = [f"{size}-{float(row[kind]):g}" for size, row in UNIFIED.items() for kind in (1, 2) if row[kind]]


@pytest.mark.parametrize("condition", ["", *CONDITIONS])
def test_estimate_then_judge_says_usual_for_every_thread_and_class(condition: str) -> None:
    count = 0
    for size in METRIC + INCH:
        on = thread(size)
        for name in GRADES:
            if not name.covers(on) or (name.family == "SAE") != (on.system == "unified"):
                continue
            answer = estimate(on, name, condition=CONDITIONS.get(condition))
            assert isinstance(answer, Estimate)
            target = Fraction(answer.torque_Nm.target)
            torque = Torque(low=None, target=target, high=None, unit="N·m", decimals=1, text="estimate")
            words = "" if not condition else answer.condition
            state = judge(torque, on, name, condition=words).state
            assert state == "usual", (size, name.name, condition)
            count += 1
    assert count > 700


@given(
    st.sampled_from(["M5", "M8x1", "M12", "M24", "1/4-28", "3/4-10"]),
    st.sampled_from(["8.8", "10.9", "12.9"]),
    st.floats(0.05, 0.4),
    st.floats(0.1, 0.8),
    st.floats(1.01, 1.2),
)
def test_more_is_more(size: str, name: str, k: float, share: float, more: float) -> None:
    base = found(size, name, k=k, utilisation=share)
    assert found(size, name, k=k * more, utilisation=share).torque_Nm.target > base.torque_Nm.target
    fuller = found(size, name, k=k, utilisation=share * more)
    assert fuller.clamp_load_kN.target > base.clamp_load_kN.target
    assert fuller.torque_Nm.target > base.torque_Nm.target


@given(st.sampled_from(METRIC + INCH), st.sampled_from(list(CONDITIONS)), st.floats(0.05, 1))
def test_a_band_is_always_in_order(size: str, condition: str, share: float) -> None:
    answer = found(size, "8.8", condition=condition, utilisation=share)
    for band in (answer.torque_Nm, answer.clamp_load_kN):
        assert 0 < band.low < band.target < band.high
