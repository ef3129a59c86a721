"""Questions people who tighten bolts ask: order, angle and yield, damage, records. Facts in our own words.

Published facts carry their source beside them; common practice is marked so; the rest is made for this list.
"""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Walk, group, rack
from torqref.walk.event import Event
from torqref.walk.planner import Bench
from torqref.walk.view import parts_of_a_turn


def walked(walk: Walk) -> Walk:
    while walk.asks not in ("finished", "wait", "second-check"):
        assert not walk.press(), walk.asks
    return walk


def rounds_of(walk: Walk) -> list[list[int]]:
    """The bolts of each round in the order in which they were ticked."""
    found: dict[int, list[int]] = {}
    for event in walk.events:
        if event.kind == "check-off":
            found.setdefault(event.round, []).extend(event.bolts)
    return list(found.values())


# --- order -------------------------------------------------------------------------------------------


def test_five_wheel_nuts_go_in_a_star_in_three_passes_and_are_looked_at_again(tmp_path: Path) -> None:
    """Every second nut of five: 1 3 5 2 4; snug, full, and again after driving: common practice, no source."""
    text = 'layout = { circle = 5 }\n[[group.stage]]\ntorque = "50 N·m"\n[[group.stage]]\ntorque = "110 N·m"\n[[group.stage]]\nwait = "driven"\ndue = { miles = 50 }\n[[group.stage]]\ntorque = "110 N·m"\nrecheck = true\n'
    walk = walked(Walk(group(text), tmp_path))
    assert walk.asks == "wait"
    assert "50 miles" in walk.lines[0]
    walk.say("1")
    walked(walk)
    assert rounds_of(walk) == [[1, 3, 5, 2, 4]] * 3


def test_numbers_drawn_at_their_places_are_the_order_of_visiting(tmp_path: Path) -> None:
    """A row of labels is read as a picture and visited 1, 2, 3; read as an order it would begin at 9."""
    picture = "diagram = '''\n 9 5 1 3 7 11\n 12 8 4 2 6 10\n'''\n"
    walk = walked(Walk(group(picture + '[[group.stage]]\ntorque = "25 ft-lb"\n'), tmp_path))
    assert rounds_of(walk) == [list(range(1, 13))]
    places = {
        position.label: (position.y, position.x) for position in walk.session.progress.plan.layout.positions
    }
    in_rows = sorted(places, key=lambda label: places[label])
    # counted along the rows, bolt 1 is the third place, bolt 2 the tenth
    assert [in_rows.index(label) + 1 for label in range(1, 13)] == [3, 10, 4, 9, 2, 11, 5, 8, 1, 12, 6, 7]


def test_two_sizes_in_one_pattern_stop_before_the_first_of_the_other_size(tmp_path: Path) -> None:
    subset = '[[group.fastener]]\nat = "11 12"\ntorque = "15–22 N·m"\n'
    walk = Walk(group(f'count = 12\n{subset}[[group.stage]]\ntorque = "88–98 N·m"\n'), tmp_path)
    walk.press(11)
    assert (walk.asks, walk.shown.bolt) == ("stop", "11")
    assert (walk.shown.number, walk.shown.spec) == ("18.5", "15–22 N·m")


def test_a_bolt_out_of_turn_is_not_ticked_and_both_the_tick_and_its_undo_are_kept(tmp_path: Path) -> None:
    text = 'layout = { circle = 8 }\norder = "1 5 3 7 2 6 4 8"\n[[group.stage]]\ntorque = "24 N·m"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(2)
    assert walk.bolt == (5,)
    assert "not known here" in walk.say("done4")
    assert walk.ticks() == [(1,)]
    walk.say("", "undo")
    assert walk.kinds()[-2:] == ["check-off", "undo"]
    assert walk.bolt == (5,)


def test_called_away_before_the_last_nut_the_stage_is_not_complete(tmp_path: Path) -> None:
    """The last confirmed bolt and the one before are looked at again: common practice, no source."""
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(12)
    walk.say("pause")
    walk.again(minutes=45)
    assert walk.session.progress.round == 1
    assert walk.lines[0] == "back after 45 min: click 8 and 9 again, then 10"


def test_loosening_is_the_reverse_in_small_turns_over_several_rounds(tmp_path: Path) -> None:
    """Common practice, no source."""
    walk = walked(Walk(group(TWO_ROUNDS), tmp_path, bench=Bench(today=MORNING.date(), action="loosen")))
    assert rounds_of(walk) == [list(range(10, 0, -1))] * 2
    turns = [
        step.degrees
        for round_ in walk.session.progress.plan.rounds
        for step in round_.steps[:1]
        if step.degrees
    ]
    assert turns == [-90, -180]


def test_a_hand_over_names_the_five_things_the_next_person_needs(tmp_path: Path) -> None:
    """Stage, last bolt, tool, setting and open notes; the next person looks at the setting anew."""
    bench = Bench(today=MORNING.date(), rack=rack(tmp_path), wrench="W1")
    walk = Walk(
        group('layout = { circle = 6 }\n[[group.stage]]\ntorque = "12 N·m"\n'),
        tmp_path / "r",
        bench=bench,
        by="Ada",
    )
    walk.press(3)
    walk.say("note seat cleaned", "pause")
    walk.again(by="Ben")
    shown = walk.shown
    said = " ".join((*shown.lines, shown.wrench, shown.number))
    for wanted in ("stage ONE (12 N·m): 2 of 6", "last bolt 4", "W1, blue tape", "12.0", "seat cleaned"):
        assert wanted in said
    assert walk.asks == "stop"


def test_a_figure_that_a_whole_crew_misread_is_shown_twice_and_typed_by_the_second(tmp_path: Path) -> None:
    from torqref.walk.second import second_unit_text

    walk = Walk(group('second_check = "typed"\ncount = 4\n[[group.stage]]\ntorque = "500 ft-lb"\n'), tmp_path)
    assert "N·m" in second_unit_text(walk.session.progress, walk.shown)
    walk.press(5)
    assert walk.asks == "second-check"
    assert walk.say("")
    assert "five hundred foot-pounds" in walk.say("verify 440 ft-lb")
    assert not walk.say("verify 500 ft-lb")


# --- angle and yield ---------------------------------------------------------------------------------


def test_each_angle_is_one_trip_round_all_bolts(tmp_path: Path) -> None:
    """A low torque, then 90 and 90: three trips, and never both turns on one bolt: common practice, no source."""
    walk = walked(
        Walk(
            group('one_time = "bolts"\ncount = 4\n[[group.stage]]\nchain = "30 N·m + 90° + 90°"\n'), tmp_path
        )
    )
    assert rounds_of(walk) == [[1, 2, 3, 4]] * 3


def test_angles_add_up(tmp_path: Path) -> None:
    """Contact, 60 and 30 more: 90 in all, in two trips."""
    text = 'one_time = "bolts"\ncount = 4\n[[group.stage]]\nhand = "contact"\n[[group.stage]]\nangle = "60°"\n[[group.stage]]\nangle = "30°"\n'
    walk = Walk(group(text), tmp_path)
    seen = []
    while walk.asks != "finished":
        if walk.asks == "marks":
            seen.append(walk.lines[0].split("°")[0].split()[-1])
        walk.press()
    assert seen == ["60", "90"]


@pytest.mark.parametrize(
    ("degrees", "words"),
    [
        # a turn is 360°, a flat of a hexagon 60°, a point of a 12-point 30°
        (Fraction(90), "1/4 turn, 1 1/2 flats of a hex, 3 points of a 12-point"),
        (Fraction(-120), "1/3 turn, 2 flats of a hex, 4 points of a 12-point"),
        (Fraction(45, 2), "1/16 turn, 3/8 flat of a hex, 3/4 point of a 12-point"),
        (Fraction(270), "3/4 turn, 4 1/2 flats of a hex, 9 points of a 12-point"),
    ],
)
def test_an_angle_is_said_in_turns_flats_and_points(degrees: Fraction, words: str) -> None:
    assert parts_of_a_turn(degrees) == words


def test_two_flats_back_are_a_hundred_and_twenty_degrees(tmp_path: Path) -> None:
    text = 'purpose = "adjust"\ncount = 1\n[[group.stage]]\ntorque = "55 N·m"\n[[group.stage]]\nback_off = "2 flats"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(2)
    assert (walk.shown.verb, walk.shown.number, walk.shown.direction) == ("TURN BACK", "120", "anticlockwise")


def test_which_bolt_was_turned_is_known_by_mark_and_check_off(tmp_path: Path) -> None:
    """A wrench cannot tell; without either the doubtful ones go back to the first stage: common practice, no source."""
    text = (
        'one_time = "bolts"\ncount = 6\n[[group.stage]]\ntorque = "30 N·m"\n[[group.stage]]\nangle = "90°"\n'
    )
    walk = Walk(group(text), tmp_path)
    walk.press(7)
    assert any("paint every mark" in line for line in walk.lines)
    walk.press(5)
    walk.again()
    assert walk.bolt == (5,)
    walk.say("3", "")
    assert walk.session.progress.round == 0


def test_new_bolts_are_asked_for_and_the_answer_is_kept(tmp_path: Path) -> None:
    text = 'one_time = "bolts"\ncount = 4\n[[group.stage]]\nangle = "90°"\n'
    fitted = Walk(group(text), tmp_path / "a")
    fitted.press()
    assert "new bolts fitted" in fitted.events[-1].text
    used = Walk(group(text), tmp_path / "b")
    used.say("old 2")
    assert "used again: measured" in used.events[-1].text


# --- damage ------------------------------------------------------------------------------------------


def test_wheel_nuts_found_far_over_are_kept_stud_by_stud_before_they_are_loosened(tmp_path: Path) -> None:
    """Studs taken to about twice their value are suspect: judgement, no source."""
    text = 'layout = { circle = 5 }\n[[group.stage]]\ntorque = "73 ft-lb"\nwindow = "72–74 ft-lb"\n'
    walk = Walk(group(text), tmp_path, bench=Bench(today=MORNING.date(), action="loosen"))
    walk.press()
    told = [
        walk.session.do("found", f"{value} ft-lb at {stud}").told
        for stud, value in ((1, 140), (2, 150), (3, 73))
    ]
    assert ["ABOVE" in told[0], "stretched" in told[1], told[2]] == [True, True, ""]
    assert [event.bolts for event in walk.events if event.kind == "found"] == [(1,), (2,), (3,)]
    assert walk.ticks() == []


def test_a_stud_that_shears_on_the_way_off_is_kept_as_found(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path, bench=Bench(today=MORNING.date(), action="loosen"))
    walk.press(2)
    walk.say("found 60 N·m", "trouble 2", "note last fitted elsewhere, see the photo of 8:10")
    assert [(event.kind, event.bolts) for event in walk.events[-3:]] == [
        ("found", (9,)),
        ("trouble", (9,)),
        ("note", ()),
    ]


def test_bolts_that_spring_back_are_seized_and_not_forced(tmp_path: Path) -> None:
    """Steel in aluminium: the head moves and comes back: common practice, no source."""
    walk = Walk(group(TWO_ROUNDS), tmp_path, bench=Bench(today=MORNING.date(), action="loosen"))
    assert "a head that moves and springs back is seized: stop there" in walk.lines[0]


def test_a_left_hand_thread_is_said_in_words(tmp_path: Path) -> None:
    """A left pedal tightens anticlockwise."""
    walk = Walk(group('left_hand = true\ncount = 1\n[[group.stage]]\ntorque = "35 N·m"\n'), tmp_path)
    assert walk.shown.direction == "anticlockwise"
    assert walk.lines[0].startswith("LEFT-HAND THREAD")


# --- records -----------------------------------------------------------------------------------------


def test_two_people_sign_with_separate_entries(tmp_path: Path) -> None:
    text = 'second_check = "typed"\ncount = 4\n[[group.stage]]\ntorque = "110 N·m"\n'
    walk = walked(Walk(group(text), tmp_path, by="Ada"))
    walk.say("verify 110 N·m by Ben")
    assert {event.by for event in walk.events if event.kind == "check-off"} == {"Ada"}
    assert [(event.by, event.value) for event in walk.events if event.kind == "verify"] == [
        ("Ben", "110 N·m")
    ]


def test_a_paint_mark_is_asked_for_after_the_last_stage(tmp_path: Path) -> None:
    """It shows later movement: common practice, no source."""
    walk = walked(Walk(group(TWO_ROUNDS), tmp_path))
    assert any("paint a mark across each one now" in line for line in walk.lines)


def test_a_recheck_stays_open_until_it_is_done(tmp_path: Path) -> None:
    text = 'layout = { circle = 5 }\n[[group.stage]]\ntorque = "110 N·m"\n[[group.stage]]\nwait = "driven"\ndue = { km = 80 }\n[[group.stage]]\ntorque = "110 N·m"\nrecheck = true\n'
    walk = walked(Walk(group(text), tmp_path))
    for _ in range(3):
        walk.say("pause")
        walk.again(minutes=60 * 24)
        assert walk.asks == "wait"
    walk.say("1")
    walked(walk)
    assert walk.asks == "finished"


def test_the_record_names_the_wrench_its_due_date_and_how_each_value_is_known(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date() - timedelta(days=60), rack=rack(tmp_path), wrench="W2")
    walk = Walk(group(TWO_ROUNDS), tmp_path / "r", bench=bench)
    walk.clock.now = MORNING - timedelta(days=60)
    walk.press(4)
    walk.say("actual 12.1 N·m", "round")
    (facts,) = walk.session.progress.plan.wrenches
    assert (facts.id, facts.calibration_due) == ("W2", "2026-01-27")
    ticks = [event for event in walk.events if event.kind == "check-off"]
    assert {event.wrench for event in ticks} == {"W2"}
    assert [how(event) for event in ticks[:3]] == ["set", "measured", "as a whole"]


def how(event: Event) -> str:
    """How the record knows of a tick."""
    if event.text.startswith("measured"):
        return "measured"
    return "as a whole" if event.afterwards else "set"
