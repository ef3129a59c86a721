"""`torqref estimate` as a technician and as a script call it."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

import pytest

from torqref.cli import main


def run(*words: str) -> int:
    return main(["estimate", *words])


def answer(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert run(*words, "--json") == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def refusal(capsys: pytest.CaptureFixture[str], *words: str, code: int = 1) -> dict[str, Any]:
    assert run(*words, "--json") == code
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def test_the_keys_of_the_contract(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(capsys, "M8", "8.8")
    # ISO 898-1: 36.6 mm² and 21 200 N; three quarters at K 0.20 is the printed dry chart value of 25.5 N·m.
    assert found["estimate"] is True
    assert found["stress_area_mm2"] == pytest.approx(36.6, abs=0.05)
    assert found["proof_load_kN"] == pytest.approx(21.2, abs=0.05)
    assert found["torque_Nm"]["target"] == pytest.approx(25.5, abs=0.05)
    assert set(found["clamp_load_kN"]) == set(found["torque_Nm"]) == {"low", "target", "high"}
    assert found["torque_Nm"]["low"] < found["torque_Nm"]["target"] < found["torque_Nm"]["high"]
    assert "75 % of the proof load" in found["basis"]


def test_k_alone_is_one_value(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(capsys, "1/2-13", "8", "--k", "0.2")
    torque = found["torque_Nm"]
    assert torque["low"] == torque["target"] == torque["high"]
    # Army capscrew table: 105 ft-lb, within its 5.5 %.
    assert torque["target"] / 1.3558179483314004 == pytest.approx(105, rel=0.055)
    assert found["class"] == "SAE grade 8"


def test_utilisation_is_a_share_of_proof_load(capsys: pytest.CaptureFixture[str]) -> None:
    half = answer(capsys, "M10", "10.9", "--utilisation", "50 %")
    assert half["clamp_load_kN"]["target"] == pytest.approx(half["proof_load_kN"] / 2)
    same = answer(capsys, "M10", "10.9", "--utilisation", "0.5")
    assert same == half


def test_bare_m6_is_coarse_and_grade_8_is_two_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert answer(capsys, "M6", "8.8")["thread"] == "M6x1"
    assert answer(capsys, "3/8-16", "grade", "8")["class"] == "SAE grade 8"
    assert answer(capsys, "3/8", "8")["notes"] == ["3/8 alone is read as coarse, 3/8-16 UNC."]


def test_the_condition_is_shown_and_changes_the_torque(capsys: pytest.CaptureFixture[str]) -> None:
    dry, oiled = answer(capsys, "M8", "8.8"), answer(capsys, "M8", "8.8", "--condition", "oiled")
    assert oiled["torque_Nm"]["target"] == pytest.approx(0.75 * dry["torque_Nm"]["target"])
    assert "oiled" in oiled["condition"]


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("M8", "8.8", "--k", "0"), "torque factor"),
        (("M8", "8.8", "--k", "-0.2"), "torque factor"),
        (("M8", "8.8", "--k", "nan"), "torque factor"),
        (("M8", "8.8", "--k", "3"), "torque factor"),
        (("M8", "8.8", "--friction", "3"), "coefficient of friction"),
        (("M8", "8.8", "--friction", "-0.1"), "coefficient of friction"),
        (("M8", "8.8", "--utilisation", "0"), "share of proof load"),
        (("M8", "8.8", "--utilisation", "3"), "share of proof load"),
        (("M8", "8.8", "--condition", "sticky"), "condition"),
        (("M8", "8.8", "--parent", "aluminium"), "engagement"),
        (("M8", "8.8", "--engagement", "9mm"), "parent"),
        (("M8", "8.8", "--parent", "plastic", "--engagement", "9mm"), "plastic"),
        (("13mm", "8.8"), "hexagon"),
        (("M8x125", "8.8"), "pitch"),
        (("M8", "8"), "property class"),
        (("G1/4", "8.8"), "nothing can be estimated"),
    ],
)
def test_what_cannot_be_answered_is_refused(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], part: str
) -> None:
    assert part in refusal(capsys, *words)["refused"]


def test_a_spanner_size_comes_back_with_its_thread(capsys: pytest.CaptureFixture[str]) -> None:
    assert refusal(capsys, "17 mm hex", "8.8")["readings"][0] == "M10"
    assert refusal(capsys, "14 mm bolt", "8.8")["readings"] == ["M10", "M8", "M14"]


def test_k_and_friction_exclude_each_other(capsys: pytest.CaptureFixture[str]) -> None:
    assert "not allowed" in refusal(capsys, "M8", "8.8", "--k", "0.2", "--friction", "0.1", code=2)["refused"]


def test_plain_output_is_loud_and_messages_go_beside(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("M8", "8.8") == 0
    out = capsys.readouterr().out
    assert out.startswith("ESTIMATE, not a specification: M8x1.25 8.8\n")
    assert "service information comes first" in out
    assert run("M8", "8.8", "--k", "0") == 1
    streams = capsys.readouterr()
    assert streams.out == ""
    assert "is not above zero" in streams.err


def test_no_screen_library_is_loaded_for_an_estimate() -> None:
    code = "import sys; from torqref.cli import main; main(['estimate', 'M8', '8.8', '--json']); print([m for m in ('textual', 'rich', 'pint', 'tomli') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
