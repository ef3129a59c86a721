"""`torqref wrench-check`: a weight at a measured arm against what the wrench shows."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from torqref.cli import main

RACK = str(Path(__file__).parents[2] / "demo" / "wrenches.toml")
HANGING = ("--weight", "10 kg", "--arm", "290mm", "--rack", RACK)


def test_the_expected_reading_and_the_allowed_span(capsys: pytest.CaptureFixture[str]) -> None:
    # 10 · 9.80665 · 0.29 = 28.44 N·m; W2: ±4 % and half of 0.5
    assert main(["wrench-check", "W2", *HANGING]) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "W2, yellow tape: should read 28.4 N·m; 27.1 to 29.8 is allowed."
    assert said[1].startswith("A check, not a calibration")


@pytest.mark.parametrize(
    ("reading", "code", "verdict"),
    [("28 N·m", 0, "inside"), ("31 N·m", 1, "outside"), ("25 N·m", 1, "outside")],
)
def test_a_reading_is_judged(
    capsys: pytest.CaptureFixture[str], reading: str, code: int, verdict: str
) -> None:
    assert main(["wrench-check", "W2", *HANGING, "--reading", reading, "--json"]) == code
    answer = json.loads(capsys.readouterr().out)
    assert answer["verdict"] == verdict
    assert answer["expected"] == pytest.approx(28.439285)
    assert answer["kind"] == "check, not a calibration"


def test_pounds_and_feet_on_the_foot_pound_scale(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--weight", "25 lb", "--arm", "1 ft", "--reading", "25 ft-lb", "--rack", RACK, "--json"]
    assert main(["wrench-check", "W2", *words]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert (answer["expected"], answer["unit"]) == (25, "ft-lb")


def test_checks_are_kept_as_lines(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    folder = tmp_path / "records"
    for reading in ("28 N·m", "31 N·m"):
        main(["wrench-check", "W2", *HANGING, "--reading", reading, "--records", str(folder), "--by", "A"])
    lines = (folder / "wrench-checks.jsonl").read_text(encoding="utf-8").splitlines()
    kept = [json.loads(line) for line in lines]
    assert [(one["reading"], one["verdict"], one["by"]) for one in kept] == [
        (28, "inside", "A"),
        (31, "outside", "A"),
    ]
    assert all(one["time"].endswith("+00:00") for one in kept)
    assert {one["serial"] for one in kept} == {"PRACTICE-0102"}


def test_a_check_that_cannot_be_kept_is_refused_and_not_shown(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("in the way")
    assert main(["wrench-check", "W2", *HANGING, "--reading", "28 N·m", "--records", str(blocked)]) == 1
    said, told = capsys.readouterr()
    assert not said
    assert "could not be recorded" in told


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["W9", *HANGING], 1, "there are: W1, W2, W3, W4"),
        (["W2", "--weight", "10", "--arm", "290mm", "--rack", RACK], 1, "no unit"),
        (["W2", "--weight", "10 kg", "--arm", "290", "--rack", RACK], 1, "has no unit"),
        (["W2", "--weight", "10 mm", "--arm", "290mm", "--rack", RACK], 1, "is no weight"),
        (["W2", "--weight", "50 kg", "--arm", "290mm", "--rack", RACK], 1, "take less weight"),
        (["W2", *HANGING, "--reading", "28"], 1, "has no unit"),
        (
            ["W3", "--weight", "30 kg", "--arm", "460mm", "--rack", RACK, "--anticlockwise"],
            1,
            "anticlockwise",
        ),
        (["W2", "--weight", "10 kg", "--rack", RACK], 2, "--arm"),
    ],
)
def test_each_wrong_input_has_its_own_message(
    capsys: pytest.CaptureFixture[str], words: list[str], code: int, says: str
) -> None:
    assert main(["wrench-check", *words]) == code
    said, told = capsys.readouterr()
    assert not said
    assert says in told


def test_a_weight_without_a_unit_is_refused_with_the_units(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["wrench-check", "W2", "--weight", "10", "--arm", "290mm", "--rack", RACK, "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["readings"] == ["10 kg", "10 lb", "10 N"]


# Practice told by technicians: 300 lbf·ft by a person of 150 lb is 2 ft; 18 lb at half a foot is 9 lbf·ft.
@pytest.mark.parametrize(
    ("words", "said", "arm", "torque"),
    [
        (("150 lb", "--torque", "300 ft-lb"), "24 in from the centre", 24.0, 300.0),
        (("18 lb", "--arm", "6 in"), "9 ft-lb", 6.0, 9.0),
    ],
)
def test_a_weight_on_a_bar_without_any_wrench_is_an_estimate(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], said: str, arm: float, torque: float
) -> None:
    asked = ["wrench-check", "--weight", *words]
    assert main(asked) == 0
    lines = capsys.readouterr().out.splitlines()
    assert said in lines[0]
    assert lines[1].startswith("An estimate")
    assert main([*asked, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert (answer["estimate"], answer["arm"], answer["torque"]) == (True, arm, torque)


@pytest.mark.parametrize(
    "words",
    [(), ("--arm", "6 in", "--torque", "9 ft-lb"), ("W2",), ("W2", "--torque", "9 ft-lb")],
)
def test_a_bar_needs_one_of_arm_and_torque_and_a_wrench_its_arm(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    assert main(["wrench-check", "--weight", "18 lb", *words]) == 2
    assert "--torque" in capsys.readouterr().err


def test_a_bar_longer_than_any_is_refused_like_any_length(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["wrench-check", "--weight", "18 lb", "--arm", "6"]) == 1
    assert "6 in" in capsys.readouterr().err
