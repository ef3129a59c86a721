"""`torqref convert` as it is typed: what it prints, what a script gets, and how it says no."""

from __future__ import annotations

import json
from typing import Any

import pytest

from torqref.cli import main


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit code and both streams of one command."""
    code = main(["convert", *words])
    captured = capsys.readouterr()
    return code, captured.out, captured.err


def answer(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    """The JSON object of one command that succeeds."""
    code, out, err = run(capsys, *words, "--json")
    assert (code, err) == (0, "")
    payload: dict[str, Any] = json.loads(out)
    return payload


def test_a_range_is_shown_in_the_usual_units(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "22-26 Nm (16-19 ft-lb)")
    assert (code, err) == (0, "")
    assert out.splitlines() == [
        "22–26 N·m",
        "  = 16.23–19.17 ft-lb",
        "  = 195–230 in-lb",
        "  = 2.25–2.65 kgf·m",
        "twenty-two to twenty-six newton metres",
    ]


def test_a_chain_is_numbered_and_its_turns_are_counted(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "30 N·m + 90°", "ft-lb")
    assert code == 0
    assert out.splitlines() == [
        "1  30 N·m",
        "     = 22 ft-lb",
        "2  90°",
        "     = a quarter turn, one and a half flats of a hexagon, three points of a twelve-point",
        "thirty newton metres, then a further ninety degrees",
    ]


def test_notes_are_part_of_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "25 lbs/ft", "Nm")
    assert code == 0
    assert out.splitlines()[1] == "  = 34 N·m"
    assert out.splitlines()[-1].startswith('Note: "lbs/ft"')


@pytest.mark.parametrize("unit", ["Nm", "newton metres", "N.m", "n*m", "NM"])
def test_a_unit_is_known_in_any_spelling(capsys: pytest.CaptureFixture[str], unit: str) -> None:
    payload = answer(capsys, "12 ft-lb", unit)
    assert list(payload["stages"][0]["converted"]) == ["N·m"]


def test_a_script_gets_unrounded_numbers_and_rounded_text(capsys: pytest.CaptureFixture[str]) -> None:
    payload = answer(capsys, "22–26 N·m", "in-lb", "ft-lb")
    assert list(payload) == ["text", "reading", "stages", "notes"]
    assert payload["text"] == "22–26 N·m"
    assert payload["reading"] == "twenty-two to twenty-six newton metres"
    (stage,) = payload["stages"]
    assert {key: stage[key] for key in ("kind", "low", "target", "high", "unit")} == {
        "kind": "torque", "low": 22, "target": 24, "high": 26, "unit": "N·m"
    }  # fmt: skip
    assert list(stage["converted"]) == ["in-lb", "ft-lb"]
    inches = stage["converted"]["in-lb"]
    # 1 N·m is 8.850745791 lbf·in (1959 yard and pound agreement, 3rd CGPM 1901).
    assert inches["low"] == pytest.approx(22 * 8.850745791327185, rel=1e-14)
    assert inches["target"] == pytest.approx(24 * 8.850745791327185, rel=1e-14)
    assert inches["high"] == pytest.approx(26 * 8.850745791327185, rel=1e-14)
    assert inches["shown"] == "195–230 in-lb"
    assert payload["notes"] == []


def test_a_limit_that_is_not_given_is_null(capsys: pytest.CaptureFixture[str]) -> None:
    payload = answer(capsys, "max 12 N·m", "in-lb")
    (stage,) = payload["stages"]
    assert (stage["low"], stage["target"], stage["high"]) == (None, None, 12)
    assert stage["converted"]["in-lb"]["low"] is None


def test_a_nominal_with_tolerance_targets_its_nominal(capsys: pytest.CaptureFixture[str]) -> None:
    (stage,) = answer(capsys, "24 +2/-1 N·m")["stages"]
    assert (stage["low"], stage["target"], stage["high"]) == (23, 24, 26)


def test_turns_and_hand_stages_have_their_kinds(capsys: pytest.CaptureFixture[str]) -> None:
    payload = answer(capsys, "finger tight, 30 N·m, 2 flats back, 85–95°, 90° ± 5°")
    hand, torque, back, window, tolerance = payload["stages"]
    assert hand == {"kind": "hand"}
    assert torque["kind"] == "torque"
    assert back == {"kind": "angle", "degrees": -120}
    assert window == {"kind": "angle", "low": 85, "high": 95}
    assert tolerance == {"kind": "angle", "degrees": 90, "low": 85, "high": 95}


def test_without_a_unit_a_script_gets_the_usual_four(capsys: pytest.CaptureFixture[str]) -> None:
    (stage,) = answer(capsys, "24 N·m")["stages"]
    assert list(stage["converted"]) == ["N·m", "ft-lb", "in-lb", "kgf·m"]


def test_a_text_of_no_one_meaning_is_refused_on_the_other_stream(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "15 lbs")
    assert (code, out) == (1, "")
    assert err.splitlines() == [
        "15 lbs",
        "   ^",
        '"lbs" is a force, not a torque; a torque is a force times a length.',
        "  write: 15 ft-lb",
        "  write: 15 in-lb",
    ]


def test_a_refusal_for_a_script_stands_on_stdout(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "1,200 ft-lb", "--json")
    assert (code, err) == (1, "")
    assert json.loads(out) == {
        "refused": '"1,200" can be read in more than one way: is the mark for thousands or decimals',
        "readings": ["1200 ft-lb", "1.200 ft-lb"],
    }


def test_contradicting_equivalents_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "12 N·m (106 ft-lb)")
    assert code == 1
    assert "106 in-lb would fit" in err


def test_a_value_without_quotes_is_refused_with_the_quotes(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "24", "Nm")
    assert code == 1
    assert 'write: "24 Nm"' in err


def test_an_unknown_unit_is_refused_with_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "24 N·m", "ftlp", "--json")
    assert code == 1
    assert json.loads(out)["readings"] == ["ft-lb"]


def test_a_value_that_begins_with_a_minus_gets_our_own_message(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "-5Nm")
    assert code == 1
    assert "a negative value is not read" in err


@pytest.mark.parametrize("text", ["24 N·m\x1b[2J", "\ud800 N·m", "a" * 5000, "", "[/b"])
def test_hostile_text_is_refused_and_nothing_reaches_the_terminal(
    capsys: pytest.CaptureFixture[str], text: str
) -> None:
    for words in ((text,), (text, "--json")):
        code, out, err = run(capsys, *words)
        assert code == 1
        assert "\x1b" not in out + err
        assert "\ud800" not in out + err


def test_a_class_without_a_thread_is_wrong_usage(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "24 N·m", "--class", "8.8")
    assert code == 2
    assert "--class needs --thread" in err


def test_a_usual_value_is_left_in_peace(capsys: pytest.CaptureFixture[str]) -> None:
    payload = answer(capsys, "24 N·m", "--thread", "M8", "--class", "8.8")
    assert payload["plausibility"]["state"] == "usual"
    assert payload["plausibility"]["likely_slip"] == ""
    share = payload["plausibility"]["share_of_proof"]
    assert 0 < share["low"] < share["high"] < 1.2


def test_a_small_value_whose_purpose_nobody_said_may_be_that_of_an_adjusting_nut(
    capsys: pytest.CaptureFixture[str],
) -> None:
    # 55 N·m on the adjusting nut of a hub is right, and half a per cent of the proof of a clamp.
    bare = ("55 N·m", "--thread", "M60x2")
    assert run(capsys, *bare)[1].splitlines()[-1] == (
        "If it clamps, 55 N·m is far too little for M60x2. "
        "An adjusting nut, plug, drive or sensor may well have it."
    )
    assert run(capsys, *bare, "--purpose", "clamp")[1].splitlines()[-1].startswith("55 N·m is far too little")
    assert run(capsys, *bare, "--purpose", "adjust")[1].splitlines()[-1].startswith("55 N·m is usual")
    assert answer(capsys, *bare)["plausibility"]["state"] == "low"


def test_a_value_in_the_wrong_unit_cannot_be_right_and_the_slip_is_named(
    capsys: pytest.CaptureFixture[str],
) -> None:
    # 96 ft-lb is 130 N·m: more than ten times what an M6 of class 8.8 stands.
    code, out, _ = run(capsys, "96 ft-lb", "--thread", "M6", "--class", "8.8", "--json")
    payload = json.loads(out)
    assert code == 1
    assert list(payload["plausibility"]) == ["state", "share_of_proof", "likely_slip"]
    assert payload["plausibility"]["state"] == "cannot-be-right"
    assert "96 in-lb" in payload["plausibility"]["likely_slip"]


def test_a_purpose_that_does_not_exist_is_refused_with_those_that_do(
    capsys: pytest.CaptureFixture[str],
) -> None:
    words = ("24 N·m", "--thread", "M8", "--purpose", "clamping", "--json")
    code, out, _ = run(capsys, *words)
    assert code == 1
    assert "clamp" in json.loads(out)["readings"]


@pytest.mark.parametrize(("option", "value"), [("--thread", "M7.77x"), ("--thread", "\x1b")])
def test_a_thread_that_does_not_exist_is_refused(
    capsys: pytest.CaptureFixture[str], option: str, value: str
) -> None:
    code, out, err = run(capsys, "24 N·m", option, value)
    assert code == 1
    assert out == ""
    assert "\x1b" not in err


def test_an_unusual_pitch_is_told_beside_the_value_judged_for_it(capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(capsys, "25 Nm", "--thread", "M8x1.75", "--class", "8.8")
    assert found["notes"] == ["1.75 mm is no usual pitch of M8 (1.25, 1, 0.75); is it meant so?"]
    _, out, _ = run(capsys, "25 Nm", "--thread", "M8x30", "--class", "8.8")
    assert "30 is read as the length of the bolt" in out


@pytest.mark.parametrize("option", [("--class", "8.8"), ("--purpose", "seal")])
def test_what_says_more_about_a_thread_needs_the_thread(
    capsys: pytest.CaptureFixture[str], option: tuple[str, str]
) -> None:
    code, out, err = run(capsys, "25 Nm", *option)
    assert (code, out) == (2, "")
    assert f"{option[0]} needs --thread" in err


@pytest.mark.parametrize("word", ["to", "in", "as"])
def test_the_small_word_before_the_unit_may_be_said(capsys: pytest.CaptureFixture[str], word: str) -> None:
    assert run(capsys, "25 Nm", word, "ft-lb")[1].splitlines()[:2] == ["25 N·m", "  = 18.4 ft-lb"]


def test_no_value_at_all_is_answered_with_an_example(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys)
    assert (code, 'torqref convert "24 N·m" ft-lb' in err) == (2, True)


def test_a_mistyped_group_is_answered_with_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "exaust-manifold")
    assert code == 1
    assert "no value and no group" in err
    assert "  write: exhaust-manifold\n" in err
