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
DEMO_RACK = ("--rack", str(Path(__file__).parents[2] / "demo" / "wrenches.toml"))


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
    # the time is said once, as a person says it
    assert sum(line.startswith(("due today ", "due tomorrow ")) for line in said) == 1
    assert not any("+00:00" in line or ":00:00" in line for line in said)
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


def test_values_that_nobody_typed_twice_are_said_to_be_so_once_at_the_start(
    shop: Shop, tmp_path: Path
) -> None:
    (tmp_path / "lid.toml").write_text(
        'format = 1\nassembly = "Zebu"\n[source]\nkind = "shop"\ntitle = "own sheet"\n[[group]]\nid = "lid"\n'
        'name = "Lid"\ncount = 5\n[[group.stage]]\ntorque = "9 N·m"\n[[group.stage]]\ntorque = "12 N·m"\n',
        encoding="utf-8",
    )
    said = shop.walk("lid", "--specs", str(tmp_path), lines="\n" * 8)
    assert said[:2] == ["Lid", "UNVERIFIED: no second person has typed these values from the page"]
    assert sum("UNVERIFIED" in line for line in said) == 1


def test_a_word_that_is_not_known_is_answered_with_the_nearest_one(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="puase\n")
    assert any('Did you mean "pause"?' in line for line in said)


# --- more of the protocol ----------------------------------------------------------------------------


def test_an_angle_is_turned_and_never_set(shop: Shop) -> None:
    said = shop.walk("cylinder-head", lines="\n" * 29)
    assert "TURN 90°" in said
    assert not any("SET 90" in line for line in said)
    assert any(line.startswith("bolt 1, TURN 90°, clockwise") for line in said)


def test_a_back_off_and_a_way_back_say_how_far_and_which_way(shop: Shop) -> None:
    said = shop.walk("front-hub-bearing", lines="\n" * 9)
    assert any(line.endswith("TURN BACK 180°, anticlockwise (0 of 1 done)") for line in said)
    assert "TURN BACK AT MOST 45°" in said


def test_every_line_of_the_shipped_groups_is_short(shop: Shop) -> None:
    for group in BRINDLE:
        said = shop.walk(group, lines=("\n" * 60 + "measure 0.08 mm\nverify marks\n") * 3)
        assert max(len(line) for line in said) <= 130, max(said, key=len)


def test_the_words_of_a_walk_are_listed_with_their_digits(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="\n\n\nhelp\n")
    assert "later = not reachable yet" in said
    assert "  trouble 1 = stripped" in said
    assert shop.record()["walks"][0]["events"][-2]["kind"] == "gate", "asking changes nothing"


def test_why_is_answered_and_help_says_that_it_can_be_asked(shop: Shop) -> None:
    said = shop.walk("coolant-pump", lines="\n\n\n\nhelp\nwhy\n")
    assert "why = why this round, this number and this order" in said
    assert any("takes load from its neighbours" in line for line in said)
    (walk,) = shop.record()["walks"]
    assert "check-off" not in {event["kind"] for event in walk["events"]}


def test_show_says_everything_that_a_stop_had_no_room_for(shop: Shop) -> None:
    said = shop.walk("cylinder-head", lines="\n\nshow\n")
    assert "new bolts 150 mm long, beside an old one" in said


def test_what_is_told_of_a_reading_is_said_at_once(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="\n" * 14 + "actual 30 N·m\n")
    assert any("ABOVE the window 22–26 N·m" in line for line in said)
    assert _bolts(said)[-2:] == ["bolt 1", "bolt 1"]


def test_undo_says_what_it_took_back(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="\n\n\n\nundo\n")
    assert "taken back: check-off of bolt 1" in said


def test_old_parts_are_chosen_by_digit(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", lines="old\nold 2\n")
    assert any(line.startswith("nuts used again? Write old and a digit") for line in said)
    assert "HAND: run down until seated" in said


def test_the_drag_of_a_locking_nut_is_an_option_and_a_word(shop: Shop) -> None:
    assert "SET 13.5 N·m" in shop.walk("exhaust-manifold", "--drag", "1.5 N·m", lines="\n\n")
    said = shop.walk("exhaust-manifold", "--new", lines="\n\ndrag 2 N·m\n")
    assert "SET 14.0 N·m" in said
    assert "that is 10.3 ft-lb" in said  # 14 N·m over 1.3558 N·m a foot-pound
    assert any("drag of the locking nut" in line for line in said)


def test_a_drag_that_is_none_is_refused(shop: Shop) -> None:
    code, _ = shop.run("walk", "exhaust-manifold", "--plain", "--drag", "1.5")
    assert code == 1
    assert "1.5 N·m" in shop.err


def test_a_practice_walk_says_so_and_writes_nothing(shop: Shop) -> None:
    said = shop.walk("thermostat-cover", "--practice", lines="\n" * 5)
    assert any("PRACTICE WALK: no record is kept" in line for line in said)
    assert said[-1] == "finished"
    assert shop.record()["walks"] == []


def test_entries_from_paper_are_named_so_in_the_record(shop: Shop) -> None:
    shop.walk("exhaust-manifold", lines="\n\n\nafterwards\n\n\n")
    (walk,) = shop.record()["walks"]
    ticks = [event for event in walk["events"] if event["kind"] == "check-off"]
    assert [event.get("afterwards") for event in ticks] == [True, True]


def test_an_abandoned_walk_ends_with_its_reason(shop: Shop) -> None:
    assert shop.walk("exhaust-manifold", lines="\nabandon 2\n")[-1] == "abandoned"
    (walk,) = shop.record()["walks"]
    assert (walk["state"], walk["events"][-1]["text"]) == ("abandoned", "parts missing")


def test_a_wait_that_no_clock_counts_says_what_it_waits_for(shop: Shop) -> None:
    said = shop.walk("rear-wheel", lines="\n" * 60)
    assert said[-1] == "due"
    assert said[-2].startswith("due when it is so: 80 km driven")
    assert "  1 = it is so now" in said
    said = shop.walk("rear-wheel", lines="1\n")
    assert _bolts(said) == ["bolt 1: click it again"] or _bolts(said)[0].startswith("bolt 1")


def test_a_folder_that_cannot_be_written_is_refused_before_the_first_stop(shop: Shop, tmp_path: Path) -> None:
    shop.records.write_text("a file", encoding="utf-8")
    code, said = shop.run("walk", "exhaust-manifold", "--plain", lines="\n")
    assert (code, said) == (1, [])
    assert "--records DIR" in shop.err


def test_a_full_disk_refuses_the_tick_and_the_pause_and_ends_with_a_no(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.walk("exhaust-manifold", lines="\n\n\n\n")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as disk:
        disk.setattr("torqref.walk.journal.os.fsync", full)
        code, _ = shop.run("walk", "exhaust-manifold", "--plain", lines="\n")
        assert code == 1
        assert "No space left on device" in shop.err
    (walk,) = shop.record()["walks"]
    assert sum(event["kind"] == "check-off" for event in walk["events"]) == 1


def test_a_walk_that_another_window_has_open_is_refused(shop: Shop) -> None:
    from torqref.walk.archive import journals
    from torqref.walk.journal import open_journal

    shop.walk("exhaust-manifold", lines="\n\n\n\n")
    (path,) = journals(shop.records)
    journal, _ = open_journal(path)
    code, _ = shop.run("walk", "exhaust-manifold", "--plain", lines="\n")
    journal.close()
    assert code == 1
    assert "open in another window or bay" in shop.err


def test_loosening_says_so_and_goes_in_reverse(shop: Shop) -> None:
    said = shop.walk("exhaust-manifold", "--loosen", lines="\n\n")
    assert said[0] == "LOOSEN: Exhaust manifold to cylinder head"
    assert [line.split(":")[0] for line in said if line.startswith("bolt ")] == ["bolt 10", "bolt 9"]


@pytest.mark.parametrize(
    "line", ["\x1b[2J", "note \x1b]0;x\x07", "‮abc", "\0", "trouble \x9b1", "x" * 100_000]
)
def test_nothing_that_is_typed_can_steer_the_terminal(shop: Shop, line: str) -> None:
    said = shop.walk("exhaust-manifold", lines=f"\n\n\n{line}\n")
    assert not any(char in text for text in said for char in "\x1b\x9b\x07\0‮")
    code, told = shop.run("record", "exhaust")
    assert code == 0
    assert not any(char in text for text in told for char in "\x1b\x9b\x07\0‮")


def test_a_unit_nobody_knows_is_refused_and_any_spelling_of_a_known_one_is_taken(shop: Shop) -> None:
    code, _ = shop.run("walk", "exhaust-manifold", "--plain", "--unit", "furlong")
    assert (code, "no unit of torque" in shop.err) == (1, True)
    said = shop.walk("exhaust-manifold", "--unit", "lbs ft", lines="\n\n")
    assert "SET 8.85 ft-lb" in said


@pytest.mark.parametrize(
    ("words", "shown", "why"),
    [
        # 35 ft-lb = 47.45 N·m; W2 and W4 have scales in both units, none has one in kgf·m
        (("--wrench", "W2", "--unit", "N·m"), "SET 47.5 N·m", ""),
        (("--wrench", "W2"), "SET 35.0 ft-lb", ""),
        (("--unit", "N·m"), "SET 47.5 N·m", ""),
        (
            ("--wrench", "W2", "--unit", "kgf·m"),
            "SET 35.0 ft-lb",
            "no scale in kgf·m on W2; it has N·m, ft-lb",
        ),
        (("--unit", "kgf·m"), "SET 35.0 ft-lb", "no scale in kgf·m on W2; it has N·m, ft-lb"),
    ],
)
def test_a_unit_asked_for_is_that_of_the_dial_or_one_line_says_why_not(
    shop: Shop, words: tuple[str, ...], shown: str, why: str
) -> None:
    for walk in (("down-pipe-bracket",), ("--quick", "35 ft-lb", "--circle", "4")):
        code, said = shop.run("walk", *walk, "--plain", "--new", *DEMO_RACK, *words, lines="\n\n\n")
        assert code == 0
        assert shown in said
        assert sum("no scale in" in line for line in said) == bool(why)
        assert not why or any(line.startswith(f"take W2, yellow tape; {why}") for line in said)


def test_tools_named_for_a_walk_that_goes_on_with_others_are_told_to_change_nothing(shop: Shop) -> None:
    rack = DEMO_RACK
    shop.walk("exhaust-manifold", *rack)
    shop.walk("exhaust-manifold", *rack, "--wrench", "W1")
    assert shop.err == ""
    shop.walk("exhaust-manifold", *rack, "--wrench", "W4", "--unit", "ft-lb")
    assert "goes on with its own tools, without --wrench and --unit" in shop.err
    code, _ = shop.run("walk", "exhaust-manifold", "--plain", "--wrench", "W7", *rack)
    assert (code, 'no wrench "W7" in the rack; there are: W1' in shop.err) == (1, True)
    code, _ = shop.run("walk", "exhaust-manifold", "--plain", "--wrench", "W7")
    assert (code, "--rack FILE" in shop.err) == (1, True)


def _stop(said: list[str]) -> list[str]:
    """The lines of the last stop, below the way to turn and above what the main key does."""
    start = len(said) - 1 - said[::-1].index("STOP")
    turn = next(at for at in range(start, len(said)) if said[at].startswith("turn "))
    return said[turn + 1 : said.index("enter = set and ready", turn)]


def test_a_stop_with_a_crowfoot_says_where_it_points_and_what_it_costs_to_be_off(shop: Shop) -> None:
    # L 290 mm, E 32 mm: 28 · 290/322 = 25.2 away, 28 · 290/258 = 31.5 back; 28 · 322/290 = 31.1 without
    # the sum; 10° off: 32 · (cos 10° − 1) / 322 = −0.15 %
    said = shop.walk("fuel-pipe", "--crowfoot", "flare-17@0", *DEMO_RACK, lines="\n\n\n")
    assert "SET 25.0 N·m" in said
    stop = _stop(said)
    assert len(stop) == 3
    told = "; ".join(stop)
    for words in (
        "take W2, yellow tape",
        "hold the injector hexagon with 15 mm",
        "across (90°): set 28.0, no sum",
        "AWAY from your hand 25.0, BACK 31.5",
        "±10°: −0.2 % to 0 %",
        "uncorrected 28.0 gives 31.1 (+11 %)",
        "25.0 gives 27.8, 25.5 gives 28.3",
    ):
        assert words in told, words


def test_a_quick_walk_with_a_crowfoot_says_it_all_at_its_first_stop(shop: Shop) -> None:
    quick = ("--quick", "28 N·m", "--circle", "4")
    told = "; ".join(_stop(shop.walk(*quick, "--crowfoot", "flare-17@0", *DEMO_RACK, lines="\n")))
    for words in (
        "across (90°)",
        "AWAY",
        "BACK 31.5",
        "±10°",
        "uncorrected 28.0 gives 31.1",
        "25.0 gives 27.8",
    ):
        assert words in told, words


def test_a_setting_between_marks_says_what_each_mark_delivers_though_the_unit_is_converted(
    shop: Shop,
) -> None:
    # 8.0 · 9.80665 = 78.45 N·m: W3 has marks of 1, W4 marks of 5
    said = shop.walk("--quick", "M12x1.25 8.8 8.0 kgf·m", "--circle", "4", *DEMO_RACK, lines="\n")
    assert "SET 78 N·m" in said
    taken = "take W3, red tape; 8.0 kgf·m is 78.5 N·m; between marks: 78 gives 78.0, 79 gives 79.0"
    assert taken in _stop(said)
