"""The walk on the screen, key by key, named by what the technician does."""

from __future__ import annotations

import resource
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.screens.stage import QUIET, Screen, Theatre, shipped
from tests.walk.workshop import MORNING, TWO_ROUNDS, group
from torqref.screens.look import Look
from torqref.walk.fitted import Fitted, adapter_of
from torqref.walk.planner import Bench
from torqref.wrench.rack import read_rack

RACK = Path(__file__).parents[2] / "demo" / "wrenches.toml"
PULL = "diagram = '''\n 1 2 3 4 5\n'''\n[[group.stage]]\ntorque = \"12 N·m\"\n"
RECHECK = PULL + '[[group.stage]]\ntorque = "12 N·m"\nrecheck = true\n'
ANGLE = "diagram = '''\n  FRONT\n 1 2 3 4\n'''\n[[group.stage]]\ntorque = \"30 N·m\"\n[[group.stage]]\nangle = \"90°\"\nwindow = \"±5°\"\n"


def test_enter_opens_the_stop_does_the_hand_round_and_ticks_each_bolt(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        assert "STOP" in screen.text
        await screen.press("enter")
        assert "HAND: run down until seated" in screen.text
        await screen.press("enter")
        assert "12 N·m" in screen.text
        await screen.press("enter", "enter")
        assert screen.walk.ticks() == [(1,)]
        assert "1 of 10 done" in screen.text
        assert "[2]" in screen.text

    theatre.show(theatre.walk(group(TWO_ROUNDS)), script)


def test_space_or_a_foot_switch_is_the_main_key_too(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("space", times=2)
        assert screen.walk.ticks() == [(1,)]

    theatre.show(theatre.walk(group(PULL)), script)


def test_a_bounce_of_the_foot_switch_cannot_pass_a_stop(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        screen.walk.clock.go(seconds=1)
        await screen.pilot.press("enter")
        screen.walk.clock.go(seconds=0.1)
        await screen.pilot.press("enter")
        assert screen.asks == "stop"
        assert "Double press ignored" in screen.text

    theatre.show(theatre.walk(group(TWO_ROUNDS)), script)


def test_u_takes_the_last_tick_back(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "enter", "u")
        assert "0 of 5 done" in screen.text
        assert screen.walk.kinds()[-1] == "undo"

    theatre.show(theatre.walk(group(PULL)), script)


def test_l_puts_a_bolt_off_and_the_round_comes_back_to_it(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "l")
        assert "1~" in screen.text
        assert screen.walk.bolt == (2,)
        await screen.foot(4)
        assert screen.walk.bolt == (1,)
        assert "[1]" in screen.text

    theatre.show(theatre.walk(group(PULL)), script)


def test_t_and_a_digit_tell_a_trouble(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "t")
        assert "stripped" in screen.text
        await screen.press("1")
        assert screen.asks == "stop"
        assert "1!" in screen.text
        assert screen.walk.events[-1].text == "stripped"

    theatre.show(theatre.walk(group(PULL)), script)


def test_any_other_key_after_t_goes_back_without_trouble(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "t", "enter")
        assert "stripped" not in screen.text
        assert screen.walk.kinds() == ["opened", "gate"], "the key that goes back does nothing else"
        await screen.press("1")
        assert screen.walk.kinds() == ["opened", "gate"]

    theatre.show(theatre.walk(group(PULL)), script)


def test_s_leaves_a_bolt_out_and_says_that_u_takes_it_back(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "s")
        assert "left out" in screen.text
        assert "1-" in screen.text
        await screen.press("u")
        assert screen.walk.bolt == (1,)

    theatre.show(theatre.walk(group(PULL)), script)


def test_s_asks_for_the_reason_by_digit_where_a_group_is_checked_twice(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "s")
        assert "part missing" in screen.flat
        await screen.press("2")
        assert (screen.walk.events[-1].kind, screen.walk.events[-1].text) == ("skip", "part missing")

    theatre.show(theatre.walk(group('second_check = "typed"\n' + PULL)), script)


@pytest.mark.parametrize(("key", "kind"), [("s", "skip"), ("l", "later")])
def test_on_a_card_a_digit_names_the_bolt(theatre: Theatre, key: str, kind: str) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", key)
        assert "bolt 3" in screen.text
        await screen.press("2")
        assert (screen.walk.events[-1].kind, screen.walk.events[-1].bolts) == (kind, (2,))

    theatre.show(theatre.walk(shipped()["thermostat-cover"]), script)


def test_on_a_card_trouble_names_the_bolt_and_then_the_reason(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "t", "3")
        assert "stripped" in screen.text
        await screen.press("1")
        told = screen.walk.events[-1]
        assert (told.kind, told.bolts, told.text) == ("trouble", (3,), "stripped")

    theatre.show(theatre.walk(shipped()["thermostat-cover"]), script)


def test_a_digit_that_is_no_choice_is_refused(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "t", "9")
        assert "9 is none of the choices" in screen.text
        assert screen.walk.kinds() == ["opened", "gate"]

    theatre.show(theatre.walk(group(PULL)), script)


def test_o_says_that_the_parts_are_not_new(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("o")
        assert "within what the page allows" in screen.flat
        await screen.press("2")
        assert "used again" in screen.walk.events[-1].text

    theatre.show(theatre.walk(group('one_time = "bolts"\n' + PULL)), script, size=(60, 20))


def test_o_and_no_new_parts_puts_the_walk_down(theatre: Theatre) -> None:
    walk = theatre.walk(group('one_time = "bolts"\n' + PULL))

    async def script(screen: Screen) -> None:
        await screen.press("o", "1")

    assert theatre.show(walk, script) == 0
    assert walk.kinds()[-1] == "pause"


def test_z_and_a_digit_end_the_walk_unfinished(theatre: Theatre) -> None:
    walk = theatre.walk(group(PULL), by="Ada")

    async def script(screen: Screen) -> None:
        await screen.press("enter", "z", "2")
        assert walk.session.progress.abandoned
        await screen.press("enter")
        assert screen.app.last_words == "abandoned"

    assert theatre.show(walk, script) == 0


def test_e_says_that_entries_are_made_afterwards(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "e", "enter")
        assert screen.walk.events[-1].afterwards

    theatre.show(theatre.walk(group(PULL)), script)


def test_g_adds_the_measured_drag_of_a_locking_nut(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "g")
        await screen.type("2 Nm")
        await screen.press("enter")
        # NAVEDTRA 14001: final torque = torque of the page + drag; 12 + 2 = 14
        assert "was 12 N·m" in screen.text
        assert screen.walk.session.progress.dials[0].value == 14

    theatre.show(theatre.walk(group("locking = true\n" + PULL)), script)


def test_u_at_the_marks_takes_the_tick_of_one_bolt_back(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.foot(1 + 4 + 1 + 4)
        assert screen.asks == "marks"
        await screen.press("u")
        await screen.type("3")
        await screen.press("enter")
        assert (screen.asks, screen.walk.bolt) == ("bolt", (3,))

    theatre.show(theatre.walk(group(ANGLE)), script)


def test_m_tells_that_a_bolt_moved_in_a_recheck(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.foot(6)
        await screen.press("m", times=1)
        assert "m" not in [event.kind for event in screen.walk.events if event.kind == "moved"]
        await screen.press("enter")
        await screen.press("m")
        assert "moved" in screen.walk.kinds()
        assert "1m" in screen.text

    theatre.show(theatre.walk(group(RECHECK)), script)


def test_n_keeps_a_remark(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "n")
        await screen.type("stud 4 bent")
        await screen.press("enter")
        assert screen.walk.events[-1].text == "stud 4 bent"

    theatre.show(theatre.walk(group(PULL)), script)


def test_an_empty_line_takes_the_question_back(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "n")
        assert "note:" in screen.text
        await screen.press("enter")
        assert "note:" not in screen.text
        assert screen.walk.kinds() == ["opened", "gate"]

    theatre.show(theatre.walk(group(PULL)), script)


def test_f_keeps_what_a_bolt_had_before(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "f")
        await screen.type("9 Nm")
        await screen.press("enter")
        assert (screen.walk.events[-1].kind, screen.walk.events[-1].value) == ("found", "9 Nm")

    theatre.show(theatre.walk(group(PULL)), script)


def test_a_keeps_what_was_reached_and_ticks_the_bolt(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "a")
        await screen.type("12 Nm")
        await screen.press("enter")
        assert screen.walk.kinds()[-2:] == ["actual", "check-off"]

    theatre.show(theatre.walk(group(PULL)), script)


def test_an_electronic_wrench_types_its_reading_at_the_bolt(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        await screen.type("21 Nm")
        await screen.press("enter")
        assert "BELOW the window" in screen.text
        assert screen.walk.ticks() == [], "a reading outside the window ticks nothing"
        await screen.type("24.1 Nm")
        await screen.press("enter")
        assert screen.walk.ticks() == [(1,)]

    theatre.show(theatre.walk(group(PULL.replace("12 N·m", "22–26 N·m"))), script)


def test_a_value_that_cannot_be_read_is_refused_on_the_screen(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "a")
        await screen.type("15 lbs")
        await screen.press("enter")
        assert "15 ft-lb" in screen.text
        assert screen.walk.ticks() == []

    theatre.show(theatre.walk(group(PULL)), script, size=(100, 30))


@pytest.mark.parametrize(
    ("key", "wrong", "more"),
    [
        ("p", "14", " Nm"),
        ("a", "12", " Nm"),
        ("f", "8 lb", "-ft"),
        ("w", "unit ft", "-lb"),
        ("g", "1.5", " Nm"),
    ],
)
def test_a_line_that_is_refused_stays_to_be_mended_and_its_keys_do_nothing_else(
    theatre: Theatre, key: str, wrong: str, more: str
) -> None:
    walk = theatre.walk(group("locking = true\n" + PULL))

    async def script(screen: Screen) -> None:
        await screen.press("enter", key)
        await screen.type(wrong)
        before = screen.walk.kinds()
        await screen.press("enter")
        assert f"{wrong}_" in screen.text
        # what would have been keys: left out, trouble, abandoned
        await screen.type("stz")
        assert screen.walk.kinds() == before
        await screen.press("backspace", times=3)
        await screen.type(more)
        await screen.press("enter")
        assert len(screen.walk.kinds()) > len(before)
        assert walk.session.progress.current is not None

    theatre.show(walk, script, size=(100, 30))


@pytest.mark.parametrize("way", [("ctrl+u", "enter"), ("escape",)])
def test_a_line_that_was_refused_is_taken_back_when_left_empty(
    theatre: Theatre, way: tuple[str, ...]
) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "p")
        await screen.type("15 lbs")
        await screen.press("enter", *way)
        await screen.press("enter")
        assert screen.walk.ticks() == [(1,)]

    theatre.show(theatre.walk(group(PULL)), script)


def test_p_walks_on_with_what_the_page_says(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "p")
        await screen.type("14 Nm")
        await screen.press("enter")
        assert "was 12 N·m" in screen.text
        assert screen.asks == "stop"

    theatre.show(theatre.walk(group(PULL)), script)


def test_r_ticks_the_rest_and_the_record_says_so(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "enter", "r")
        assert [event.afterwards for event in screen.walk.events if event.kind == "check-off"] == [
            False, True, True, True, True,
        ]  # fmt: skip

    theatre.show(theatre.walk(group(PULL)), script)


def test_w_takes_another_wrench_by_digit(theatre: Theatre) -> None:
    rack, _ = read_rack(RACK)
    bench = Bench(today=MORNING.date(), rack=rack, wrench="W1")

    async def script(screen: Screen) -> None:
        await screen.press("enter", "w")
        assert "W2, yellow tape" in screen.text
        await screen.press("2")
        assert screen.asks == "stop"
        assert "W2, yellow tape" in screen.text

    theatre.show(theatre.walk(group(PULL), bench=bench), script)


def test_w_twice_takes_a_crowfoot_that_is_typed(theatre: Theatre) -> None:
    rack, _ = read_rack(RACK)
    bench = Bench(today=MORNING.date(), rack=rack, wrench="W2")

    async def script(screen: Screen) -> None:
        await screen.press("enter", "w", "w")
        await screen.type("crowfoot 38 mm")
        await screen.press("enter")
        assert "with crowfoot 38 mm" in screen.flat

    theatre.show(theatre.walk(group(PULL), bench=bench), script, size=(60, 20))


def test_k_sets_the_same_value_in_the_other_unit(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "k")
        assert "SET ft-lb" in screen.text
        assert "was 12 N·m" in screen.text
        assert "SPEC 12 N·m" in screen.text

    theatre.show(theatre.walk(group(PULL)), script)


def test_d_turns_the_picture_a_quarter_and_x_mirrors_it(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        across = next(line for line in screen.lines if "[1]" in line)
        assert "5" in across
        await screen.press("d")
        assert "5" not in next(line for line in screen.lines if "[1]" in line)
        assert "turned 90" in screen.text
        await screen.press("d", "d", "d", "x")
        across = next(line for line in screen.lines if "[1]" in line)
        assert across.index("5") < across.index("[1]")
        assert "MIRRORED" in screen.text

    theatre.show(theatre.walk(group(PULL)), script)


def test_b_shows_only_what_must_be_read_from_afar(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        small = screen.text.count("█")
        await screen.press("b")
        assert screen.text.count("█") > small
        assert "CLOCKWISE" in screen.text
        assert "SET N·m" in screen.text
        assert "SPEC" not in screen.text
        await screen.press("b")
        assert "SPEC" in screen.text

    theatre.show(theatre.walk(group(PULL)), script)


def test_c_goes_through_the_themes_and_says_nothing_else(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        before = screen.lines
        for theme in ("light", "one colour", "dark"):
            await screen.press("c")
            assert screen.walking.painter.theme == theme
            assert screen.lines == before

    theatre.show(theatre.walk(group(PULL)), script)


def test_j_says_why_it_is_done_so_and_any_key_goes_back(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        await screen.press("j")
        assert "By fingers first" in screen.flat
        assert "come first" in screen.flat
        assert "ctrl+l" not in screen.text
        await screen.press("x")
        assert "HAND" in screen.text

    theatre.show(theatre.walk(group(TWO_ROUNDS)), script)


@pytest.mark.parametrize("key", ["h", "?"])
def test_h_lists_the_keys(theatre: Theatre, key: str) -> None:
    async def script(screen: Screen) -> None:
        await screen.press(key)
        assert "keys and help" in screen.text

    theatre.show(theatre.walk(group(TWO_ROUNDS)), script)


def test_y_switches_the_bell(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("y")
        assert "bell on" in screen.text
        await screen.press("y")
        assert "bell off" in screen.text

    theatre.show(theatre.walk(group(PULL)), script)


def test_question_mark_tells_every_key_and_the_walk_comes_back(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "question_mark")
        for word in ("later", "trouble", "skip", "undo", "mirror", "leave"):
            assert word in screen.text
        await screen.press("q")
        assert "SET N·m" in screen.text
        assert screen.walk.kinds() == ["opened", "gate"]

    theatre.show(theatre.walk(group(PULL)), script, size=(100, 40))


@pytest.mark.parametrize("key", ["q", "ctrl+c", "ctrl+q"])
def test_leaving_pauses_the_walk_and_gives_its_file_free(theatre: Theatre, key: str) -> None:
    walk = theatre.walk(group(PULL))

    async def script(screen: Screen) -> None:
        await screen.press("enter", "enter", key)
        assert screen.app.last_words == "paused"

    assert theatre.show(walk, script) == 0
    assert walk.kinds()[-1] == "pause"
    walk.open()
    assert walk.bolt == (2,), "the same bolt, and the file could be opened again"


def test_an_unknown_key_is_told_and_does_nothing(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "m")
        assert '"m" does nothing here' in screen.text
        await screen.press("escape", "f5", "up")
        assert screen.walk.kinds() == ["opened", "gate"]

    theatre.show(theatre.walk(group(PULL)), script)


def test_a_stuck_caps_lock_does_no_harm(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter", "L")
        assert screen.walk.kinds()[-1] == "later"

    theatre.show(theatre.walk(group(PULL)), script)


def test_a_digit_answers_a_question_and_the_main_key_never_does(theatre: Theatre) -> None:
    walk = theatre.walk(group(ANGLE))
    walk.press(1 + 4 + 1 + 1)
    walk.again(minutes=20)

    async def script(screen: Screen) -> None:
        assert "look at the mark of bolt 2" in screen.flat
        await screen.press("enter")
        assert "This needs a digit" in screen.text
        assert screen.asks == "question"
        await screen.press("1")
        assert (screen.asks, screen.walk.bolt) == ("bolt", (2,))

    theatre.show(walk, script)


def test_half_an_angle_says_what_is_left(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.foot(6)
        assert "TURN" in screen.text
        await screen.type("50")
        await screen.press("enter")
        assert "40° LEFT" in screen.text

    theatre.show(theatre.walk(group(ANGLE)), script)


def test_an_angle_round_ends_with_where_every_mark_should_point(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.foot(1 + 4 + 1)
        assert "pointing right" in screen.flat
        await screen.foot(4)
        assert screen.asks == "marks"
        for bolt in "1234":
            assert f"{bolt}→" in screen.text
        await screen.press("enter")
        assert "FINISHED" in screen.text

    theatre.show(theatre.walk(group(ANGLE)), script)


def test_lengths_stand_at_their_holes_in_the_place_round(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        assert sum(line.count("25 mm ") + line.endswith("25 mm") for line in screen.lines[:20]) >= 2
        assert screen.text.count("45 mm") >= 4 + 1

    theatre.show(theatre.walk(shipped()["coolant-pump"]), script)


def test_a_card_is_done_by_one_key(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        assert "CARD: bolts 1, 2, 3" in screen.text
        await screen.press("enter")
        assert screen.walk.ticks() == [(1,), (2,), (3,)]

    theatre.show(theatre.walk(shipped()["thermostat-cover"]), script)


def test_a_measurement_is_typed_and_out_of_band_goes_back(theatre: Theatre) -> None:
    text = 'count = 1\n[[group.stage]]\ntorque = "12 N·m"\n[[group.stage]]\nmeasure = "end play"\nband = "0.03–0.13 mm"\nelse = "stage 1"\n'

    async def script(screen: Screen) -> None:
        await screen.press("enter", "enter")
        assert "MEASURE: end play" in screen.text
        await screen.press("enter")
        await screen.type("0.2 mm")
        await screen.press("enter")
        assert "stage 1 of 2" in screen.text
        await screen.press("enter", "enter")
        await screen.type("0.08 mm")
        await screen.press("enter")
        assert "FINISHED" in screen.text

    theatre.show(theatre.walk(group(text)), script)


def test_a_wait_is_put_down_by_the_main_key_and_comes_due_by_the_clock(theatre: Theatre) -> None:
    text = PULL + '[[group.stage]]\nwait = "cold again"\ndue = { hours = 4 }\n' + PULL[PULL.index("[[") :]
    walk = theatre.walk(group(text))
    walk.press(6)

    async def script(screen: Screen) -> None:
        assert "in 4 h" in screen.text or "in 3 h" in screen.text
        assert "SET" not in screen.text, "nothing is set while one waits"
        screen.walk.clock.go(hours=5)
        screen.walking.look_at_clock()
        assert "cold again: is it so now?" in screen.text
        screen.walk.clock.go(hours=-5)
        screen.walking.look_at_clock()
        await screen.press("enter")
        assert screen.app.last_words == "due"

    assert theatre.show(walk, script) == 0


def test_a_press_after_a_long_pause_does_not_open_what_was_never_shown(theatre: Theatre) -> None:
    walk = theatre.walk(group(PULL))

    async def script(screen: Screen) -> None:
        await screen.press("enter", "enter", "enter")
        screen.walk.clock.go(minutes=40)
        await screen.pilot.press("enter")
        assert "look again" in screen.text
        assert "click 1 and 2 again" in screen.flat
        assert screen.walk.kinds()[-1] == "check-off"
        await screen.press("enter")
        assert screen.walk.kinds()[-1] == "gate"

    theatre.show(walk, script, size=(60, 20))


def test_v_gives_the_second_check_and_another_value_is_refused(theatre: Theatre) -> None:
    walk = theatre.walk(group('second_check = "typed"\n' + PULL))
    walk.press(6)

    async def script(screen: Screen) -> None:
        assert "SECOND CHECK" in screen.text
        await screen.press("v")
        await screen.type("15 Nm")
        await screen.press("enter")
        assert "Look at the page together" in screen.text
        await screen.press("ctrl+u")
        await screen.type("12 Nm")
        await screen.press("enter")
        assert "FINISHED" in screen.text

    theatre.show(walk, script)


def test_v_says_that_the_marks_were_seen_by_another_person(theatre: Theatre) -> None:
    walk = theatre.walk(group('second_check = "marks"\n' + PULL), by="Ada")
    walk.press(6)

    async def script(screen: Screen) -> None:
        for name in ("", "ada"):
            await screen.press("v")
            await screen.type(name)
            await screen.press("enter")
            assert "has pulled them" in screen.text
        await screen.press("ctrl+u")
        await screen.type("Grace")
        await screen.press("enter")
        assert "FINISHED" in screen.text
        told = next(event for event in walk.events if event.kind == "verify")
        assert told.by == "Grace"

    theatre.show(walk, script)


def test_a_nameless_walk_asks_for_the_name_once_at_its_end(theatre: Theatre) -> None:
    walk = theatre.walk(group(PULL))

    async def script(screen: Screen) -> None:
        await screen.foot(6)
        assert "your name" in screen.text
        await screen.type("Ada")
        await screen.press("enter")
        assert screen.walk.events[-1].by == "Ada"
        assert "your name" not in screen.text
        await screen.press("enter")
        assert screen.app.last_words == "finished"

    assert theatre.show(walk, script) == 0


def test_a_walk_with_a_name_asks_for_none(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.foot(6)
        assert "FINISHED" in screen.text
        assert "your name" not in screen.text

    theatre.show(theatre.walk(group(PULL), by="Ada"), script)


@contextmanager
def no_more_room() -> Iterator[None]:
    """No file of this process may grow: the nearest thing to a full disk that needs no disk."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    ignored = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
        signal.signal(signal.SIGXFSZ, ignored)


def test_a_tick_that_cannot_be_kept_is_told_and_not_shown(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        with no_more_room():
            await screen.press("enter")
        assert "NOT recorded" in screen.text
        assert "0 of 5 done" in screen.text
        assert "[1]" in screen.text
        await screen.press("enter")
        assert "1 of 5 done" in screen.text

    theatre.show(theatre.walk(group(PULL)), script)


def test_ctrl_l_paints_everything_again(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        await screen.press("enter")
        before = screen.lines
        await screen.press("ctrl+l")
        assert screen.lines == before
        assert screen.walk.kinds() == ["opened", "gate"]

    theatre.show(theatre.walk(group(PULL)), script)


def test_text_from_a_file_is_never_taken_for_markup_or_obeyed(theatre: Theatre) -> None:
    text = 'condition = "[/b] [red]dry[/] [@click=app.quit]x[/]"\n' + PULL

    async def script(screen: Screen) -> None:
        assert "[/b] [red]dry[/] [@click=app.quit]x[/]" in screen.flat
        screen.walking.message = "told: \x1b[2J\x07 end"
        screen.walking.repaint()
        assert "<U+001B>[2J<U+0007> end" in screen.text

    theatre.show(theatre.walk(group(text)), script)


def test_an_ascii_screen_has_only_ascii_on_it(theatre: Theatre) -> None:
    async def script(screen: Screen) -> None:
        for _ in range(1 + 4 + 1 + 4):
            assert screen.text.isascii(), screen.text
            await screen.press("enter")
        assert "1>" in screen.text, "where the mark points, by a sign of the keyboard"
        assert screen.text.isascii()

    theatre.show(theatre.walk(group(ANGLE)), script, look=Look(ascii_only=True, bell=False))


def test_the_bell_rings_once_for_a_tick_twice_to_look_and_thrice_for_no(theatre: Theatre) -> None:
    rung: list[int] = []

    async def script(screen: Screen) -> None:
        count = 0

        def bell() -> None:
            nonlocal count
            count += 1

        screen.app.bell = bell  # type: ignore[method-assign]  # counted instead of heard
        for keys in (("enter",), ("enter",), ("m",), ("enter",) * 4):
            count = 0
            await screen.press(*keys[:-1])
            count = 0
            await screen.press(keys[-1])
            await screen.pilot.pause(0.6)
            rung.append(count)

    theatre.show(theatre.walk(group(PULL), by="Ada"), script, look=Look(bell=True))
    assert rung == [0, 1, 3, 2]
    assert QUIET.bell is False


def test_a_stop_with_a_crowfoot_shows_on_the_screen_where_it_points_and_what_it_costs(
    theatre: Theatre,
) -> None:
    rack, _ = read_rack(RACK)
    fitted = adapter_of("flare-17@0", rack)
    assert isinstance(fitted, Fitted)
    bench = Bench(today=MORNING.date(), rack=rack, parts=fitted.parts, adapter=fitted.words)

    async def script(screen: Screen) -> None:
        await screen.press("enter", "enter", "enter")
        for words in ("across (90°)", "AWAY from your hand", "BACK 31.5", "±10°", "uncorrected 28.0"):
            assert words in screen.flat

    theatre.show(theatre.walk(shipped()["fuel-pipe"], bench=bench), script, size=(60, 20))
