"""The job screen as the technician works it: one test for each key, and for what no key may pass."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.events import Key

from tests.screens.job_stage import GROUPS, QUIET, Seen, Stage, job
from tests.screens.stage import SIZES
from tests.walk.workshop import group
from torqref.screens.line import width_of
from torqref.screens.look import Look
from torqref.walk.choice import ABANDON_REASONS, STEP_SKIP_REASONS
from torqref.walk.job_archive import read_job_record

SAFE = '[[step]]\nsafe = "key out"\n[[step]]\nsafe = "minus off"\n'
PAGES = '[[step]]\ntext = "first"\nalone = true\n[[step]]\ntext = "second"\nalone = true\n'
GAP = '[[step]]\ncheck = "gap"\nband = "0.1–0.3 mm"\n[[step]]\ntext = "sweep up"\n'
FLANGE = '[[step]]\ndo = "flange"\n[[step]]\ntext = "sweep up"\n'
WAIT = '[[step]]\nwait = "glue set"\ndue = { minutes = 30 }\n[[step]]\ntext = "sweep up"\n'
TURNS = (
    '[[step]]\ndo = "flange"\nto_stage = 1\n[[step]]\ndo = "cover"\n[[step]]\ndo = "flange"\n'
    '[[step]]\ntext = "sweep up"\n'
)
END = '[[step]]\ntext = "sweep up"\nalone = true\n'
RECHECKS = (
    END + '[[recheck]]\ntext = "level"\ndue = { km = 500 }\nband = "-0.3–0.0 L"\n'
    '[[recheck]]\ntext = "leaks"\ndue = { days = 14 }\n'
)


@pytest.fixture
def stage(tmp_path: Path) -> Stage:
    return Stage(tmp_path / "records")


# --- the main key -------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", ["enter", "space"])
def test_the_main_key_or_a_foot_switch_reads_the_cautions_and_ticks_a_page(stage: Stage, key: str) -> None:
    async def script(seen: Seen) -> None:
        assert "CAUTIONS" in seen.text
        assert "Wear goggles" in seen.text
        await seen.press(key)
        assert "READ AND DO" in seen.text
        await seen.press(key)
        assert (seen.step, seen.kinds()[-1]) == (2, "step")
        assert "step 2 of 2" in seen.text

    stage.show('cautions = ["Wear goggles"]\n' + PAGES, script)


@pytest.mark.parametrize(("size", "told"), [((80, 24), True), ((44, 18), False)], ids=["wide", "narrow"])
def test_steps_for_another_engine_are_told_beside_the_count(
    stage: Stage, size: tuple[int, int], told: bool
) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert seen.asks == "fact"
        await seen.press("1")
        assert "0 of 2 done" in seen.text
        assert ("0 of 2 done, 1 not for this one" in seen.text) is told

    applies = '[[step]]\ncheck = "fan of engine R"\napplies = { engine = ["R"] }\n'
    stage.show('[facts]\nengine = ["Q", "R"]\n' + GAP + applies, script, size=size)


def test_cautions_that_do_not_fit_are_read_page_by_page(stage: Stage) -> None:
    cautions = ", ".join(
        f'"caution number {n} in so many words that it takes two lines"' for n in range(1, 13)
    )

    async def script(seen: Seen) -> None:
        read = seen.text
        for _ in range(9):
            if "more," not in seen.text:
                break
            await seen.press("enter")
            assert seen.asks == "opening", "nothing is passed before all of it was shown"
            read += seen.text
        assert all(f"number {n} " in read for n in range(1, 13))
        await seen.press("enter")
        assert seen.asks == "alone"

    stage.show(f"cautions = [{cautions}]\n{PAGES}", script, size=(40, 12))


def test_a_bounce_of_the_foot_switch_ticks_one_page_only(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        await seen.hand("enter")
        await seen.pilot.pause()
        assert seen.step == 2
        assert "Double press ignored. Step 2 is still asked for." in seen.text

    stage.show(PAGES, script)


# --- made safe ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", ["enter", "space", "l", "s", "q2", "3", "0", "x"])
def test_what_must_be_safe_is_not_passed_by_any_other_key(stage: Stage, key: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", key[0])
        assert (seen.asks, seen.step) == ("safe", 1)
        assert "step" not in seen.kinds()

    stage.show(SAFE, script)


def test_a_digit_says_that_it_is_safe_and_each_step_takes_its_own(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "1")
        assert seen.step == 2
        for _ in range(10):  # a key that is held down
            await seen.hand("1")
        assert seen.step == 2
        await seen.press("1")
        assert seen.asks == "sign-off"

    stage.show(SAFE, script)


def test_a_digit_that_was_pressed_before_the_step_could_be_read_says_nothing(stage: Stage) -> None:
    async def first(seen: Seen) -> None:
        await seen.press("enter", "q")

    async def second(seen: Seen) -> None:
        early = Key("1", "1")
        early.time = (seen.screen.seen_from or 0) - 1
        await seen.screen.on_key(early)
        await seen.pilot.pause()
        assert "Pressed before it could be read" in seen.text
        assert seen.step == 1
        await seen.press("1")
        assert seen.step == 2

    stage.show(SAFE, first)
    stage.clock.go(minutes=1)
    stage.show(SAFE, second)


def test_a_bounce_at_a_safe_step_is_told(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "1")
        await seen.hand("1")
        await seen.pilot.pause()
        assert "Double press ignored. Step 2 is still asked for." in seen.text

    stage.show(SAFE, script)


def test_the_digit_for_not_yet_puts_the_job_down(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "2")
        assert seen.app.last_words == "paused"

    session = stage.show(SAFE, script)
    assert session.events[-1].kind == "pause"


def test_a_long_safe_step_is_read_to_its_end_before_a_digit_answers(stage: Stage) -> None:
    words = " ".join(f"word{n}" for n in range(90))

    async def script(seen: Seen) -> None:
        await seen.press("enter", "1")
        assert seen.step == 1
        assert "There is more to read" in seen.flat
        await seen.press("enter", times=3)
        assert "word89" in seen.text
        await seen.press("1")
        assert seen.asks == "sign-off"

    stage.show(f'[[step]]\nsafe = "{words}"\n', script, size=(40, 12))


# --- facts, readings ----------------------------------------------------------------------------------


def test_a_digit_says_which_engine_it_is(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert "ENGINE: which one?" in seen.text
        await seen.press("2")
        assert seen.session.progress.facts == {"engine": "R"}

    stage.show('[facts]\nengine = ["Q", "R"]\n' + PAGES.replace("[facts]", ""), script)


def test_more_answers_than_digits_are_typed_as_a_number(stage: Stage) -> None:
    words = ", ".join(f'"E{n}"' for n in range(1, 13))

    async def script(seen: Seen) -> None:
        await seen.press("enter", "1", "2", "enter")
        assert seen.session.progress.facts == {"engine": "E12"}

    stage.show(f"[facts]\nengine = [{words}]\n{PAGES}", script)


@pytest.mark.parametrize("first", ["", "enter"])
def test_a_digit_or_the_main_key_begins_a_reading(stage: Stage, first: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", *([first] if first else []))
        await seen.type("0.2 mm")
        assert seen.session.progress.readings[1] == ("0.2 mm", "")
        assert seen.step == 2

    stage.show(GAP, script)


def test_a_minus_begins_a_reading_too(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        await seen.type("-0.1 L")
        assert seen.session.progress.readings[1] == ("-0.1 L", "")

    stage.show('[[step]]\ncheck = "level"\nband = "-0.3–0.0 L"\n', script)


def test_a_reading_outside_its_band_stays_open_and_stands_out(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        await seen.type("0.5 mm")
        assert seen.step == 1
        assert "0.5 mm: outside 0.1–0.3 mm; it stays open" in seen.flat
        assert "last reading 0.5 mm: outside 0.1–0.3 mm" in seen.flat

    stage.show(GAP, script)


@pytest.mark.parametrize("typed", ["0.2", "0.2 °C", "0.1-0.2 mm", "7x"])
def test_what_is_no_reading_is_refused_with_what_is_expected(stage: Stage, typed: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        await seen.type(typed)
        assert seen.step == 1
        assert "measure" not in seen.kinds()
        assert "expected" in seen.flat or "no unit" in seen.flat

    stage.show(GAP, script)


def test_a_line_that_is_refused_stays_to_be_mended(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        await seen.type("0.2")
        assert "0.2_" in seen.text
        await seen.press("s", "z", "backspace", "backspace")
        await seen.type(" mm")
        assert seen.session.progress.readings[1] == ("0.2 mm", "")
        assert seen.kinds().count("skip") == 0

    stage.show(GAP, script)


def test_a_step_that_is_not_there_is_refused_and_its_number_mended(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "j")
        await seen.type("9")
        assert "9_" in seen.text
        await seen.press("backspace")
        await seen.type("2")
        assert seen.step == 2

    stage.show(PAGES, script)


def test_an_empty_line_takes_the_reading_back(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "enter")
        assert (seen.step, seen.screen.prompt) == (1, None)

    stage.show(GAP, script)


# --- the walk of a group ------------------------------------------------------------------------------


def test_the_main_key_opens_the_walk_and_its_end_comes_back_to_the_next_step(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert "TIGHTEN" in seen.text
        await seen.press("enter")
        assert seen.name == "JobWalkScreen"
        assert "1 of 2: flange" in seen.text
        await seen.press("enter", times=4)
        assert seen.name == "JobScreen"
        assert seen.step == 2
        assert "done: flange; then: look for drops" in seen.flat

    stage.show(FLANGE, script)


def test_two_groups_take_turns_and_each_walk_goes_on_where_it_stood(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        seen_steps = []
        while seen.asks == "group":
            seen_steps.append(seen.step)
            await seen.press("enter")
            assert seen.name == "JobWalkScreen"
            while seen.name == "JobWalkScreen":
                await seen.press("enter")
        assert seen_steps == [1, 2, 3]
        record, _ = read_job_record(seen.session.journal.path)
        assert record is not None
        assert {walk.state for walk in record.walks.values()} == {"finished"}
        assert len(record.walks) == 2

    stage.show(TURNS, script)


def test_q_in_a_walk_comes_back_to_the_job_where_it_stood(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "enter", "enter", "q")
        assert (seen.name, seen.step) == ("JobScreen", 1)
        assert "flange: put down at stage 2" in seen.flat
        await seen.press("enter")
        assert "stage 2" in seen.text

    stage.show(FLANGE.replace("[[step]]\ntext", "[[step]]\ntext"), script)


# --- the job seen from inside a walk ------------------------------------------------------------------

TURNED = group('count = 4\n[[group.stage]]\ntorque = "20 N·m"\n[[group.stage]]\nangle = "90°"\n', "turned")
BUSY = (
    '[[step]]\nid = "bead"\ntext = "bead"\nalone = true\n[[step]]\ndo = "cold"\n[[step]]\ndo = "turned"\n'
    '[[step]]\ntext = "cover on"\nalone = true\nsince = "bead"\nwithin = "30 min"\n'
    '[[step]]\ntext = "sweep up"\nalone = true\n'
)


@pytest.fixture
def busy(stage: Stage) -> Stage:
    """A job with a walk that waits, a deadline that runs, and an angle round to be in."""
    stage.groups = {**GROUPS, "turned": TURNED}
    return stage


async def into_the_angle_round(seen: Seen) -> None:
    """The bead, the first pulls of the walk that waits then, and into the angle round of the other."""
    await seen.press("enter", "enter", "enter", "enter", "enter")
    assert (seen.step, seen.asks) == (2, "wait")
    await seen.press("l", "enter", "enter", "enter", "enter", "enter", "enter", "enter", "enter")
    assert seen.name == "JobWalkScreen"
    assert "TURN" in seen.text
    assert "1 of 4 done" in seen.flat


def test_the_colon_shows_the_whole_repair_and_the_walk_is_not_put_down_for_it(busy: Stage) -> None:
    async def script(seen: Seen) -> None:
        await into_the_angle_round(seen)
        before = seen.lines
        await seen.press(":")
        assert "1 of 5 done" in seen.text
        assert "step 4, cover on: until 08:30: 29 min left" in seen.flat
        assert "step 2, cold: due today 09:0" in seen.flat
        assert re.search(r"> +3 turned +stage 2", seen.text)
        assert seen.text.index("sweep up") < seen.text.index("bead"), "what is over stands last"
        await seen.press("x")
        assert seen.lines == before, "no pause, and no question about the mark"

    busy.show(BUSY, script)
    walk = next(path for path in busy.folder.glob("*turned.walk")).read_text(encoding="utf-8")
    assert '"kind":"pause"' not in walk.replace(" ", "")


def test_l_there_leaves_the_walk_for_other_steps(busy: Stage) -> None:
    async def script(seen: Seen) -> None:
        await into_the_angle_round(seen)
        await seen.press(":", "l")
        assert (seen.name, seen.step) == ("JobScreen", 4)
        assert "turned: put down at stage 2" in seen.flat

    busy.show(BUSY, script)


def test_j_there_goes_to_a_step_by_its_number(busy: Stage) -> None:
    async def script(seen: Seen) -> None:
        await into_the_angle_round(seen)
        await seen.press(":", "j")
        assert "its number:" in seen.text
        await seen.type("5")
        assert (seen.name, seen.step) == ("JobScreen", 5)

    busy.show(BUSY, script)


@pytest.mark.parametrize(("number", "told"), [("99", "Name a step by its number"), ("", "bolt 2")])
def test_a_number_that_is_no_step_stays_in_the_walk(busy: Stage, number: str, told: str) -> None:
    async def script(seen: Seen) -> None:
        await into_the_angle_round(seen)
        await seen.press(":", "j")
        await seen.type(number)
        if not number:
            await seen.press("q")
        assert seen.name == "JobWalkScreen"
        assert told in seen.flat

    busy.show(BUSY, script)


@pytest.mark.parametrize("size", SIZES)
def test_the_whole_repair_fits_every_size_and_its_keys_are_on_it(busy: Stage, size: tuple[int, int]) -> None:
    async def script(seen: Seen) -> None:
        await into_the_angle_round(seen)
        await seen.press(":")
        read = ""
        for _ in range(9):
            assert {width_of(line) for line in seen.screen.painter.lines} == {size[0]}
            last = " more " not in seen.lines[-1]
            assert all(key in seen.lines[-1] for key in (" l ", " j ", " back " if last else " q "))
            read += seen.text
            if last:
                break
            await seen.press("enter")
        for text in ("1 of 5 done", "until 08:30", "sweep up", "bead"):
            assert text in read
        await seen.press("enter")
        assert seen.name == "JobWalkScreen"

    busy.show(BUSY, script, size=size)


def test_due_tells_the_deadlines_that_run_on_the_job_screen_too(busy: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "d")
        assert "step 4, cover on: until 08:30" in seen.flat

    busy.show(BUSY, script)


def test_a_bounce_of_the_press_that_opens_a_walk_passes_no_stop(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        await seen.hand("enter")
        await seen.pilot.pause()
        assert "STOP" in seen.text
        assert "Double press ignored" in seen.text

    stage.show(FLANGE, script)


def test_a_walk_that_waits_comes_back_and_other_steps_go_on(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "enter", "enter")
        assert (seen.name, seen.asks) == ("JobScreen", "wait")
        assert "cold: due today 09:00" in seen.flat
        await seen.press("l")
        assert seen.step == 2
        await seen.press("enter")
        assert (seen.step, seen.asks) == (1, "wait")
        seen.clock.go(hours=2)
        await seen.press("c")
        assert seen.asks == "group"
        await seen.press("enter")
        assert seen.name == "JobWalkScreen"

    stage.show('[[step]]\ndo = "cold"\n[[step]]\ntext = "sweep up"\n', script)


def test_the_deadline_of_a_step_is_seen_inside_its_walk(stage: Stage) -> None:
    text = (
        '[[step]]\nid = "bead"\ntext = "bead"\nalone = true\n[[step]]\ndo = "cover"\nwithin = "10 min"\n'
        'since = "bead"\n'
    )

    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        seen.clock.go(seconds=30)
        await seen.press("x")
        assert "until 08:10: 9 min left" in seen.flat
        await seen.press("enter")
        assert seen.name == "JobWalkScreen"
        assert "until 08:10: 9 min left" in seen.flat
        seen.clock.go(minutes=15)
        await seen.press("enter")
        assert "LATE: was due 08:10" in seen.flat

    stage.show(text, script)


def test_a_deadline_that_passes_rings_once(stage: Stage) -> None:
    rung: list[int] = []
    text = (
        '[[step]]\nid = "bead"\ntext = "bead"\nalone = true\n[[step]]\ntext = "cover on"\nwithin = "10 min"\n'
    )

    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        assert "left" in seen.text
        seen.app.bell = lambda: rung.append(1)  # type: ignore[method-assign]  # to hear it
        for minutes in (9.9, 0.5, 1):
            seen.clock.go(minutes=minutes)
            seen.screen.look_at_clock()  # type: ignore[attr-defined]  # the timer of the screen
            await seen.pilot.pause(0.3)
        assert "LATE: was due 08:10" in seen.text
        assert len(rung) == 2

    stage.show(text, script, look=Look())


def test_no_name_is_asked_at_the_end_of_a_walk_inside_a_job(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", times=6)
        assert seen.name == "JobScreen"
        assert seen.screen.prompt is None

    stage.show(FLANGE, script)


def test_a_group_that_cannot_be_opened_says_why_and_w_takes_another_adapter(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        assert seen.name == "JobScreen"
        assert "foot" in seen.flat
        await seen.press("w")
        await seen.type("none")
        await seen.press("enter")
        assert seen.name == "JobWalkScreen"

    stage.show('[[step]]\ndo = "cover"\nadapter = "foot-17"\n', script)


# --- other steps first --------------------------------------------------------------------------------


def test_l_goes_on_with_other_steps_and_comes_back(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "l")
        assert seen.step == 2
        assert "put off" in seen.text
        await seen.press("enter")
        assert seen.step == 1

    stage.show(PAGES, script)


def test_j_and_a_number_do_another_step_now(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "j")
        assert "ALL STEPS" in seen.text
        await seen.type("2")
        assert seen.step == 2
        assert "ALL STEPS" not in seen.text

    stage.show(PAGES, script)


def test_a_and_a_number_do_a_step_once_more(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "a")
        await seen.type("1")
        assert seen.step == 1

    stage.show(PAGES, script)


def test_s_and_a_digit_leave_a_step_out_with_the_reason(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "s")
        assert STEP_SKIP_REASONS[0] in seen.text
        await seen.press("2")
        assert seen.session.progress.left_out == {1: STEP_SKIP_REASONS[1]}

    stage.show(PAGES, script)


@pytest.mark.parametrize("key", ["enter", "9", "x", "q", "u", "l"])
def test_any_other_key_after_s_leaves_nothing_out(stage: Stage, key: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "s", key)
        assert STEP_SKIP_REASONS[0] not in seen.text
        assert (seen.step, seen.session.progress.left_out) == (1, {})
        assert seen.app.last_words == ""

    stage.show(PAGES, script)


def test_u_takes_the_last_press_back_even_in_the_walk_just_left(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "u")
        assert seen.step == 1
        assert "taken back" in seen.text
        await seen.press("l", "enter", *["enter"] * 4)

    stage.show(PAGES, script)

    async def walked(seen: Seen) -> None:
        await seen.press("enter", *["enter"] * 5)
        assert seen.step == 2
        await seen.press("u")
        assert seen.step == 1

    Stage(stage.folder / "other").show(FLANGE, walked)


def test_n_keeps_a_remark(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "n")
        await seen.type("rust at the seat")
        assert seen.session.progress.notes == ("rust at the seat",)

    stage.show(PAGES, script)


def test_z_and_a_digit_end_the_job_unfinished(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "z")
        assert ABANDON_REASONS[0] in seen.text
        await seen.press("1")
        assert "ABANDONED" in seen.text
        await seen.press("enter")
        assert seen.app.last_words == "abandoned"

    stage.show(PAGES, script)


# --- looking ------------------------------------------------------------------------------------------


def test_d_shows_what_is_waiting_and_any_key_goes_back(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert "1 due: d shows what is waiting" in seen.text
        await seen.press("d")
        assert "step 1, glue set: due today 08:30" in seen.flat
        await seen.press("enter")
        assert seen.asks == "wait"
        assert "WAIT" in seen.text

    stage.show(WAIT, script)


def test_p_shows_all_steps_page_by_page_from_the_present_one(stage: Stage) -> None:
    steps = "".join(f'[[step]]\ntext = "thing {n}"\nalone = true\n' for n in range(1, 41))

    async def script(seen: Seen) -> None:
        await seen.press("enter", *["enter"] * 25, "p")
        assert "> 26 thing 26" in seen.text
        await seen.press("enter")
        assert "> 26" not in seen.text
        assert "thing 1 " in seen.flat + " "
        await seen.press("enter")
        assert "> 26 thing 26" in seen.text
        await seen.press("q")
        assert "ALL STEPS" not in seen.text
        assert (seen.app.last_words, seen.step) == ("", 26)

    stage.show(steps, script)


def test_f_shows_parts_and_fluids(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "f")
        assert "1 x flange seal, NEW: used once only; for flange" in seen.flat
        assert "coolant, 8.5 L" in seen.text
        await seen.press("x")
        assert "PARTS" not in seen.text
        assert seen.step == 1

    stage.show('fluids = [{ name = "coolant", amount = "8.5 L" }]\n' + FLANGE, script)


@pytest.mark.parametrize("key", ["h", "?"])
def test_h_shows_every_key_in_the_words_of_the_job(stage: Stage, key: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", key)
        assert seen.name == "HelpScreen"
        for word in ("go on with other steps first", "what is waiting", "leave this step out"):
            assert word in seen.flat
        await seen.press("q")
        assert seen.name == "JobScreen"

    stage.show(PAGES, script, size=(100, 40))


def test_c_changes_the_colours_and_y_the_bell(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("c")
        assert seen.app.look.theme == "light"
        await seen.press("y")
        assert seen.app.look.bell
        assert "bell on" in seen.text
        assert seen.asks == "opening"

    stage.show(PAGES, script)


def test_a_letter_that_means_nothing_is_told(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "b")
        assert '"b" does nothing here; h shows the keys.' in seen.text

    stage.show(PAGES, script)


def test_caps_lock_does_no_harm(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "L")
        assert seen.step == 2

    stage.show(PAGES, script)


# --- waiting ------------------------------------------------------------------------------------------


def test_a_wait_is_not_passed_by_the_main_key_but_put_down(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        assert seen.app.last_words == "due"

    session = stage.show(WAIT, script)
    assert "step" not in [event.kind for event in session.events]


def test_when_a_wait_is_over_the_screen_says_so_by_itself_and_rings(stage: Stage) -> None:
    rung: list[int] = []

    async def script(seen: Seen) -> None:
        await seen.press("enter")
        seen.app.bell = lambda: rung.append(1)  # type: ignore[method-assign]  # to hear it
        seen.clock.go(minutes=31)
        seen.screen.look_at_clock()  # type: ignore[attr-defined]  # the timer of the screen
        await seen.pilot.pause(0.3)
        assert "WAITED" in seen.text
        assert len(rung) == 2
        await seen.press("enter")
        assert seen.step == 2

    stage.show(WAIT, script, look=Look())


# --- sign-off -----------------------------------------------------------------------------------------


def test_the_end_asks_for_the_work_order_and_the_name(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        assert "SIGN-OFF" in seen.text
        await seen.press("enter")
        await seen.type("4711")
        await seen.type("Ada")
        assert "SIGNED" in seen.text
        await seen.press("enter")
        assert seen.app.last_words == "finished"

    session = stage.show(END, script)
    assert session.progress.work_order == "4711"
    assert [name for name, _ in session.progress.signed] == ["Ada"]


def test_the_main_key_alone_never_signs_however_often_it_is_pressed(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", times=20)
        assert seen.session.progress.signed == ()
        assert seen.asks == "sign-off"

    stage.show(END, script, by="Ada")


def test_g_signs_with_the_name_that_is_known(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "g", "enter")
        assert [name for name, _ in seen.session.progress.signed] == ["Ada"]

    stage.show(END, script, by="Ada")


def test_a_known_work_order_is_not_asked_for(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "enter")
        assert seen.screen.prompt is not None
        assert seen.screen.prompt.word == "sign"

    stage.show(END, script, work_order="4711")


def test_o_keeps_the_work_order_at_any_time(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "o")
        await seen.type("4711")
        assert seen.session.progress.work_order == "4711"
        assert seen.screen.prompt is None

    stage.show(PAGES, script)


def test_two_signatures_are_of_two_people(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "g")
        await seen.type("Ada")
        await seen.press("g")
        await seen.type("ada")
        assert "another person signs now" in seen.flat
        await seen.press("g")
        await seen.type("Bo")
        assert "SIGNED" in seen.text

    stage.show("signatures = 2\n" + END, script)


def test_r_and_a_digit_keep_what_was_seen_at_a_recheck(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter", "g")
        await seen.type("Ada")
        assert "rechecks stay due" in seen.flat
        await seen.press("r", "1")
        await seen.type("-0.5 L")
        assert "it stays open" in seen.flat
        await seen.press("r", "1")
        await seen.type("-0.1 L")
        assert seen.session.progress.rechecked == {1: "-0.1 L"}
        await seen.press("r")
        assert "leaks" in seen.text
        await seen.press("1")
        await seen.type("dry")
        assert seen.asks == "finished"

    stage.show(RECHECKS, script)


# --- leaving and coming back --------------------------------------------------------------------------


def test_q_puts_the_job_down_and_it_goes_on_days_later_at_the_same_step(stage: Stage) -> None:
    async def first(seen: Seen) -> None:
        await seen.press("enter", "enter", "q")
        assert seen.app.last_words == "paused"

    async def second(seen: Seen) -> None:
        assert (seen.step, seen.asks) == (2, "alone")
        await seen.press("enter")
        assert seen.asks == "sign-off"

    stage.show(PAGES, first)
    stage.clock.go(hours=50)
    stage.show(PAGES, second)


def test_left_by_ctrl_c_inside_a_walk_and_in_the_job_it_goes_on_at_the_same_bolt(stage: Stage) -> None:
    async def first(seen: Seen) -> None:
        await seen.press("enter", "enter", "enter", "enter", "ctrl+c")
        assert seen.name == "JobScreen"
        await seen.press("ctrl+c")

    async def second(seen: Seen) -> None:
        await seen.press("enter")
        assert "stage 2" in seen.text

    stage.show(FLANGE, first)
    stage.clock.go(minutes=5)
    stage.show(FLANGE, second)


def test_a_disk_that_is_full_is_told_and_ticks_nothing(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    from torqref.walk.journal import Journal, JournalError

    async def script(seen: Seen) -> None:
        await seen.press("enter")
        with monkeypatch.context() as broken:

            def full(self: Journal, events: object) -> None:
                raise JournalError("NOT recorded: no space left on the disk.")

            broken.setattr(Journal, "keep", full)
            await seen.press("enter")
            assert seen.step == 1
            assert "NOT recorded: no space left" in seen.flat
        await seen.press("enter")
        assert seen.step == 2

    stage.show(PAGES, script)


@pytest.mark.parametrize("size", SIZES)
def test_a_job_can_be_worked_at_every_size_and_look(stage: Stage, size: tuple[int, int]) -> None:
    async def script(seen: Seen) -> None:
        for _ in range(40):
            if seen.session.progress.signed:
                break
            assert len(seen.lines) == size[1]
            await _answer(seen)
        assert seen.session.progress.signed

    for number, look in enumerate(
        (QUIET, Look(theme="light", bell=False), Look(theme="one colour", ascii_only=True))
    ):
        Stage(stage.folder / str(number)).show(SAFE + GAP + TURNS, script, size=size, look=look)


async def _answer(seen: Seen) -> None:
    """What a careful technician does at this moment."""
    if seen.name == "JobWalkScreen" or seen.asks not in ("safe", "reading", "sign-off"):
        await seen.press("enter")
    elif seen.asks == "safe":
        await seen.press("1")
    elif seen.asks == "reading":
        await seen.type("0.2 mm")
    else:
        await seen.press("g")
        await seen.type("Ada")


def test_resizing_in_the_middle_keeps_the_step(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter", "1")
        for width, height in ((40, 12), (100, 30), (3, 2), (80, 24)):
            await seen.pilot.resize_terminal(width, height)
            await seen.pilot.pause()
            assert len(seen.lines) == height
        assert "step 2 of 2" in seen.text

    stage.show(SAFE, script)


def test_the_words_of_a_file_are_shown_and_never_obeyed(stage: Stage) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert "[red]turn[/red]" in seen.text
        assert "\x1b" not in seen.text

    stage.show('[[step]]\ntext = "[red]turn[/red] \\u001b[2J"\n', script)


def test_every_group_of_these_tests_is_named_by_one() -> None:
    text = SAFE + GAP + FLANGE + TURNS + '[[step]]\ndo = "cold"\n'
    assert set(job(text).groups) == set(GROUPS)


# --- for the ear --------------------------------------------------------------------------------------


def test_with_a_voice_each_step_is_heard_once_and_the_walk_inside_says_its_bolts(stage: Stage) -> None:
    heard: list[str] = []

    async def script(seen: Seen) -> None:
        assert heard == ["cautions; Wear goggles; " + heard[0].rpartition("; ")[2]]
        await seen.press("enter", "x", "h", "q")
        assert heard[1:] == ["step 1 of 2; tighten: flange"]
        await seen.press("enter", "enter", "q")
        assert heard[2:] == [
            "stop; ten newton metres",
            "card: bolts 1, 2",
            "flange: put down at stage 1; step 1 of 2; tighten: flange",
        ]
        await seen.press("enter", times=4)
        assert heard[-1] == "done: flange; then: look for drops; step 2 of 2; sweep up"

    stage.show('cautions = ["Wear goggles"]\n' + FLANGE, script, say=heard.append)


def test_a_voice_says_that_a_deadline_has_passed_and_does_not_count_the_minutes(stage: Stage) -> None:
    heard: list[str] = []
    text = (
        '[[step]]\nid = "bead"\ntext = "bead"\nalone = true\n[[step]]\ntext = "cover on"\nwithin = "10 min"\n'
    )

    async def script(seen: Seen) -> None:
        await seen.press("enter", "enter")
        for minutes in (2, 3, 6, 1):
            seen.clock.go(minutes=minutes)
            seen.screen.look_at_clock()  # type: ignore[attr-defined]  # the timer of the screen
        assert heard[2:] == [
            "step 2 of 2; cover on; until 08:10",
            "step 2 of 2; cover on; late: was due 08:10",
        ]

    stage.show(text, script, say=heard.append)
