"""`torqref crowfoot` as a technician and as a script use it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from torqref.cli import main

RACK = str(Path(__file__).parents[2] / "demo" / "wrenches.toml")
CONTRACT = {"target", "setting", "factor", "unit", "shown", "at_fastener", "verdict", "notes"}


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str]) -> Asker:
    return Asker(capsys)


class Asker:
    """Runs the command and keeps what it said."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self.capsys = capsys
        self.code = -1
        self.said = self.told = ""

    def run(self, *words: str) -> int:
        self.code = main(["crowfoot", *words])
        self.said, self.told = self.capsys.readouterr()
        return self.code

    def json(self, *words: str) -> dict[str, Any]:
        self.run(*words, "--json")
        answer: dict[str, Any] = json.loads(self.said)
        return answer


def test_the_number_to_set_stands_first_and_90_degrees_next(ask: Asker) -> None:
    assert ask.run("40 N·m", "--offset", "38mm", "--length", "300mm") == 0
    lines = ask.said.splitlines()
    assert lines[0] == "SET 35.5 N·m"
    assert lines[1] == "If there is room, turn it across the handle (90°): set 40, no sum."
    assert any(line.startswith("±10° of angle") for line in lines)
    assert any(line.startswith("Hand 30 mm off the mark") for line in lines)
    assert "service information comes first" in lines[-1]


def test_the_contract_of_the_json_answer(ask: Asker) -> None:
    answer = ask.json("40 N·m", "--offset", "38mm", "--angle", "0", "--length", "300mm")
    assert set(answer) >= CONTRACT
    assert answer["target"] == 40
    assert answer["setting"] == pytest.approx(40 * 300 / 338, rel=1e-15), "not rounded"
    assert answer["factor"] == pytest.approx(300 / 338)
    assert (answer["unit"], answer["shown"]) == ("N·m", "35.5")
    assert answer["at_fastener"] is None
    assert answer["verdict"] == "no window"
    assert all(isinstance(note, str) for note in answer["notes"])


def test_with_a_wrench_the_number_is_on_a_mark_and_the_band_is_known(ask: Asker) -> None:
    answer = ask.json("26–30 N·m", "--adapter", "flare-17", "--wrench", "W2", "--rack", RACK)
    assert answer["shown"] == "25.0"
    assert answer["setting"] == pytest.approx(28 * 290 / 322)
    assert answer["at_fastener"]["target"] == pytest.approx(25 * 322 / 290)
    assert answer["at_fastener"]["low"] < 25 * 322 / 290 < answer["at_fastener"]["high"]
    assert answer["verdict"] == "inside"
    assert ask.run("26–30 N·m", "--adapter", "flare-17", "--wrench", "W2", "--rack", RACK) == 0
    assert ask.said.startswith(
        "SET 25.0 N·m   W2, yellow tape\nAt the fastener: 27.8 N·m; it may be 26.3 to 29.2"
    )


def test_what_arrived_when_the_setting_was_not_corrected(ask: Asker) -> None:
    # TM 9-254 (US Army), figure 4-5: 60 in-lb on a 12 in wrench with 2 in delivers 70 in-lb
    answer = ask.json("60 in-lb", "--offset", "2 in", "--length", "12 in", "--achieved")
    assert set(answer) >= CONTRACT
    assert (answer["setting"], answer["achieved"], answer["target"]) == (60, 70, None)
    assert ask.run("60 in-lb", "--offset", "2 in", "--length", "12 in", "--achieved") == 0
    assert ask.said.startswith("Set to 60, the fastener gets 70.0 in-lb (+16.7 %).")
    assert "SET" not in ask.said


def test_pieces_in_a_row_each_take_their_own_angle(ask: Asker) -> None:
    # 75 · 18 / (18 + 6 + 0) = 56.25
    row = ("--offset", "6in", "--offset", "1.5in", "--angle", "90")
    assert ask.json("75 ft-lb", *row, "--length", "18in")["setting"] == 56.25
    # 75 · 18 / (18 + 0 + 1.5) = 69.23
    other = ("--offset", "6in", "--angle", "90", "--offset", "1.5in")
    assert ask.json("75 ft-lb", *other, "--length", "18in")["setting"] == pytest.approx(75 * 18 / 19.5)
    first = ("--angle", "90", "--offset", "6in", "--offset", "1.5in", "--angle", "0")
    assert ask.json("75 ft-lb", *first, "--length", "18in")["setting"] == pytest.approx(75 * 18 / 19.5)
    assert ask.json("75 ft-lb", "--offset", "6in+1.5in@90", "--length", "18in")["setting"] == 56.25


@pytest.mark.parametrize("angle", ["45", "45°", "45 deg", "45º"])
def test_angles_are_degrees_with_or_without_their_sign(ask: Asker, angle: str) -> None:
    answer = ask.json("20 N·m", "--offset", "50mm", "--angle", angle, "--length", "250mm")
    assert answer["setting"] == pytest.approx(17.52, abs=0.005)


def test_drag_unit_and_direction(ask: Asker) -> None:
    drag = ask.json("160 in-lb", "--offset", "1.5in", "--length", "10in", "--drag", "12 in-lb")
    assert drag["setting"] == pytest.approx(149.57, abs=0.005)
    other = ask.json("96 in-lb", "--offset", "38mm", "--angle", "90", "--length", "300mm", "--unit", "ft lbs")
    assert (other["setting"], other["unit"], other["target"], other["printed"]) == (8, "ft-lb", 8, "96 in-lb")
    words = ("--adapter", "flare-17", "--wrench", "W3", "--rack", RACK, "--anticlockwise")
    assert ask.run("110 N·m", *words) == 1
    assert "does not measure anticlockwise" in ask.told


def test_a_length_given_beside_a_wrench_is_the_one_used(ask: Asker) -> None:
    words = ("--offset", "32mm", "--wrench", "W2", "--rack", RACK, "--length", "320mm")
    assert ask.json("40 N·m", *words)["factor"] == pytest.approx(320 / 352)


# words, exit code, what is said
WRONG = [
    (("40 N·m", "--length", "300mm"), 2, "give --offset E"),
    (("40 N·m", "--offset", "38mm"), 2, "give the length of the wrench"),
    (("40 N·m", "--angle", "45", "--length", "300mm"), 2, "every --angle belongs to an --offset"),
    (("40 N·m", "--offset", "38mm", "--angle", "1", "--angle", "2", "--length", "300mm"), 2, "belongs to an"),
    (("--offset", "38mm", "--length", "300mm"), 2, "TORQUE"),
    (("40", "--offset", "38mm", "--length", "300mm"), 1, "has no unit"),
    (("-40 N·m", "--offset", "38mm", "--length", "300mm"), 1, "negative"),
    (("40 N·m", "--offset", "38", "--length", "300mm"), 1, '"38" has no unit'),
    (("40 N·m", "--offset", "38mm", "--length", "300"), 1, '"300" has no unit'),
    (("40 N·m", "--offset", "-38mm", "--length", "300mm"), 1, "points back has an angle of 180°"),
    (("40 N·m", "--offset", "38mm", "--length", "-300mm"), 1, "is no length of a wrench"),
    (("40 N·m", "--offset", "38mm", "--angle", "270", "--length", "300mm"), 1, "it is 90°"),
    (("40 N·m", "--offset", "38mm", "--angle", "-45", "--length", "300mm"), 1, "it is 45°"),
    (("40 N·m", "--offset", "38mm", "--angle", "steep", "--length", "300mm"), 1, "is not an angle"),
    (("40 N·m", "--offset", "300mm", "--angle", "180", "--length", "300mm"), 1, "no lever"),
    (("40 N·m", "--offset", "38mm", "--length", "300mm", "--unit", "J"), 1, "no unit of torque"),
    (("40 N·m", "--offset", "38mm", "--length", "300mm", "--drag", "12"), 1, "has no unit"),
    (("20–25 N·m", "--offset", "38mm", "--length", "300mm", "--achieved"), 1, "one number is expected"),
    (("40 N·m", "--offset", "38mm", "--wrench", "W9", "--rack", RACK), 1, "there are: W1, W2, W3, W4"),
    (("40 N·m", "--adapter", "flare-19", "--wrench", "W2", "--rack", RACK), 1, "no adapter in the rack"),
    (("400 N·m", "--adapter", "flare-17", "--wrench", "W3", "--rack", RACK), 1, "take a larger wrench"),
    (("40 N·m", "--offset", "38mm", "--wrench", "W2", "--rack", "/nowhere.toml"), 1, "no wrench can be read"),
]


@pytest.mark.parametrize(("words", "code", "says"), WRONG)
def test_each_wrong_input_has_its_own_message(
    ask: Asker, words: tuple[str, ...], code: int, says: str
) -> None:
    assert ask.run(*words) == code
    assert not ask.said
    assert says in ask.told
    refused = ask.json(*words)
    assert ask.code == code
    assert set(refused) == {"refused", "readings"}


def test_an_angle_left_empty_is_no_angle_of_nought(capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["crowfoot", "40 N·m", "--offset", "38mm", "--angle", "", "--length", "300mm"])
    assert (code, "an angle is missing" in capsys.readouterr().err) == (1, True)


def test_a_wrench_past_its_date_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rack = tmp_path / "rack.toml"
    rack.write_text(
        'format = 1\n[[wrench]]\nid = "A1"\nname = "click"\nkind = "click"\ntolerance = "4 %"\n'
        'length = "280 mm"\ncalibration_due = 2020-01-01\n[[wrench.scale]]\nrange = "10-60 N·m"\n'
        'graduation = "0.5 N·m"\n',
        encoding="utf-8",
    )
    words = ["crowfoot", "28 N·m", "--offset", "38mm", "--wrench", "A1", "--rack", str(rack), "--json"]
    assert main(words) == 0
    notes = json.loads(capsys.readouterr().out)["notes"]
    assert notes[-1].startswith("A1: its calibration ran out ")


def test_a_multiplier_takes_its_efficiency_and_without_one_the_best_case_is_told(ask: Asker) -> None:
    # 400 / (4 · 0.9) = 111.1; without loss 400 / 4 = 100
    assert ask.run("400 ft-lb", "--offset", "4:1 90 %", "--length", "18in") == 0
    assert ask.said.startswith("SET 111 ft-lb\n")
    assert ask.run("400 ft-lb", "--offset", "4:1", "--length", "18in") == 0
    first, second = ask.said.splitlines()[:2]
    assert first == "SET 100 ft-lb"
    assert second.startswith("NO LOSS COUNTED: 4:1 at 100 % is the best case")
    assert "111 ft-lb (90 %: common practice, no source)" in second
    assert ask.json("400 ft-lb", "--offset", "4:1 ninety", "--length", "18in")["readings"] == ["4:1 90 %"]
