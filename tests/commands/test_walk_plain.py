"""A walk by lines, through the real command line: the protocol that scripts and pedals rely on."""

from __future__ import annotations

import io
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from torqref.cli import main

BRINDLE = (
    "exhaust-manifold", "cylinder-head", "valve-cover", "coolant-pump", "front-case", "fuel-pipe",
    "fan-hub", "thermostat-cover", "down-pipe-bracket", "rear-wheel", "front-hub-bearing",
)  # fmt: skip


@dataclass(slots=True)
class Shop:
    """A shop without a rack or a library of its own, and a folder of records."""

    records: Path
    monkeypatch: pytest.MonkeyPatch
    capsys: pytest.CaptureFixture[str]
    err: str = ""

    def run(self, *words: str, lines: str = "") -> tuple[int, list[str]]:
        """One call of the program; returns the exit code and the lines it said."""
        self.monkeypatch.setattr("sys.stdin", io.StringIO(lines))
        code = main([*words, "--records", str(self.records)])
        said = self.capsys.readouterr()
        self.err = said.err
        return code, said.out.splitlines()

    def walk(self, *words: str, lines: str = "") -> list[str]:
        """A walk by lines that must come to a proper end."""
        code, said = self.run("walk", *words, "--plain", lines=lines)
        assert code == 0, (said, self.err)
        assert said[-1] in ("finished", "paused", "due", "abandoned")
        return said

    def record(self) -> dict[str, Any]:
        code, said = self.run("record", "--json")
        assert code == 0
        found: dict[str, Any] = json.loads(said[0])
        return found


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Shop:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return Shop(records=tmp_path / "records", monkeypatch=monkeypatch, capsys=capsys)


def _bolts(said: list[str]) -> list[str]:
    return [line.split(",")[0] for line in said if line.startswith("bolt ")]


def test_the_first_line_opens_the_stop_the_second_does_the_hand_round_the_third_opens_the_next(
    shop: Shop,
) -> None:
    assert "HAND: run down until seated" not in shop.walk("exhaust-manifold")
    said = shop.walk("exhaust-manifold", lines="\n")
    assert said[-3:] == ["HAND: run down until seated", "enter = whole round done", "paused"]
    said = shop.walk("exhaust-manifold", lines="\n")
    assert "SET 12 N·m" in said
    assert not _bolts(said)
    said = shop.walk("exhaust-manifold", lines="\n")
    assert _bolts(said) == ["bolt 1"]


def test_each_further_line_checks_one_bolt_off_and_the_end_of_input_pauses(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="\n\n\n\n\n")
    assert _bolts(said) == ["bolt 1", "bolt 2", "bolt 3"]
    assert said[-1] == "paused"
    (walk,) = shop.record()["walks"]
    ticks = [event for event in walk["events"] if event["kind"] == "check-off"]
    assert [(event["bolts"], event["round"], event["value"]) for event in ticks] == [
        ([1], 2, "set 12 N·m"),
        ([2], 2, "set 12 N·m"),
    ]
    assert walk["state"] == "open"


def test_the_next_call_goes_on_at_the_next_bolt(shop: Shop) -> None:
    shop.walk("exhaust-manifold", lines="\n\n\n\n\n")
    said = shop.walk("exhaust-manifold", lines="\n")
    assert _bolts(said) == ["bolt 3", "bolt 4"]
    assert "last 2, now 3" in said
    (walk,) = shop.record()["walks"]
    assert [event["kind"] for event in walk["events"]] == [
        "opened", "gate", "round", "gate", "check-off", "check-off", "pause",
        "opened", "check-off", "pause",
    ]  # fmt: skip


def test_a_wait_is_not_passed_before_it_is_due(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="\n" * 26)
    assert said[-1] == "due"
    assert said[-2].startswith("due ")
    said = shop.walk("exhaust-manifold", lines="\n")
    assert said[-1] == "due"
    (walk,) = shop.record()["walks"]
    assert walk["state"] == "due"
    assert sum(event["kind"] == "check-off" for event in walk["events"]) == 20


def test_a_walk_to_its_end_says_finished(shop: Shop) -> None:
    assert shop.walk("thermostat-cover", lines="\n" * 5)[-1] == "finished"
    (walk,) = shop.record()["walks"]
    assert walk["state"] == "finished"
    assert walk["events"][-1]["kind"] == "finished"


@pytest.mark.parametrize("group", BRINDLE)
def test_every_group_of_the_shipped_library_is_walked_to_its_end_or_to_a_wait(shop: Shop, group: str) -> None:
    # a word that does not fit the moment is refused and changes nothing
    said = shop.walk(group, lines=("\n" * 60 + "measure 0.08 mm\nverify marks\n") * 4)
    assert said[-1] in ("finished", "due")
    shown = " ".join(said)
    assert "Traceback" not in shown
    assert "PRACTICE VALUES" in shown


def test_a_word_that_is_not_known_is_answered_with_the_nearest_one(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="puase\n")
    assert any('Did you mean "pause"?' in line for line in said)
