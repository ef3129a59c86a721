"""The words beside the main key: what they write, what they refuse, and what they leave open."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.walk.workshop import TWO_ROUNDS, Walk, group

CARD = 'count = 3\n[[group.stage]]\ntorque = "10 N·m"\n'
EACH = 'count = 3\none_time = "bolts"\n[[group.stage]]\nchain = "30 N·m + 90°"\neach_bolt = true\n'
ONE_TIME = 'one_time = "nuts"\n' + TWO_ROUNDS


def at_bolt(walk: Walk) -> Walk:
    walk.press(3)
    assert (walk.asks, walk.bolt) == ("bolt", (1,))
    return walk


# --- undo --------------------------------------------------------------------------------------------


def test_undo_takes_the_last_tick_back_and_keeps_both(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(2)
    before = walk.session.progress
    walk.press()
    assert not walk.say("undo")
    assert walk.bolt == (3,)
    assert walk.session.progress.done == before.done
    assert walk.kinds()[-2:] == ["check-off", "undo"]


def test_undo_goes_back_through_stops_and_rounds_to_the_very_first(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(16)
    for _ in range(16):
        assert not walk.say("undo")
    assert walk.moment.gate == "opening"
    assert walk.say("undo") == "Nothing to undo."


def test_undo_of_a_card_takes_all_its_ticks_back(tmp_path: Path) -> None:
    walk = Walk(group(CARD), tmp_path)
    walk.press()
    walk.press()
    assert walk.asks == "finished"
    assert not walk.say("undo")
    assert walk.asks == "card"
    assert walk.session.progress.done == frozenset()


def test_undo_of_the_last_bolt_before_a_wait_takes_the_due_time_back(tmp_path: Path) -> None:
    walk = Walk(
        group(
            'count = 4\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nwait = "cold"\ndue = { hours = 4 }\n'
        ),
        tmp_path,
    )
    walk.press(5)
    assert walk.asks == "wait"
    assert not walk.say("undo")
    assert (walk.bolt, walk.session.progress.due) == ((4,), "")
    walk.clock.go(minutes=10)
    walk.press()
    assert walk.session.progress.due.startswith("2026-03-02T12:10")


def test_one_bolt_of_the_round_can_be_taken_back_and_comes_next(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(5)
    assert not walk.say("undo 2")
    assert walk.bolt == (2,)
    walk.press()
    assert walk.bolt == (6,)
    assert walk.session.progress.round == 1


def test_undo_of_a_bolt_that_is_not_ticked_is_refused(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press()
    for label in ("2", "77", "bolt"):
        assert "no bolt that is ticked in this round" in walk.say(f"undo {label}")


# --- not reachable yet, left out ---------------------------------------------------------------------


def test_a_bolt_put_off_comes_last_and_the_round_cannot_close_without_it(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(3)
    assert not walk.say("later")
    walk.press(6)
    assert walk.bolt == (4,)
    assert walk.lines == ("bolt 4 is open: the round cannot close without it",)
    assert walk.say("later") == "Bolt 4 is open. The round cannot close without it."
    walk.press()
    assert walk.session.progress.round == 2


def test_bolts_put_off_are_said_while_the_others_are_pulled(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.say("later", "", "later", "")
    assert walk.lines == ("put off: 1, 3; the round cannot close without",)


def test_a_bolt_of_a_card_can_be_put_off_by_its_number(tmp_path: Path) -> None:
    walk = Walk(group(CARD), tmp_path)
    walk.press()
    assert walk.say("later") == "Which bolt? Write later and its number."
    assert not walk.say("later 2")
    assert (walk.asks, walk.bolt) == ("bolt", (1,))
    walk.press(3)
    assert walk.ticks() == [(1,), (3,), (2,)]


def test_in_a_round_of_one_bolt_after_the_other_all_of_a_bolt_is_put_off(tmp_path: Path) -> None:
    walk = Walk(group(EACH), tmp_path)
    walk.press()
    assert not walk.say("later")
    assert walk.bolt == (2,)
    walk.press(6)
    assert walk.ticks() == [(2,), (2,), (3,), (3,), (1,), (1,)]
    assert walk.asks == "finished"


def test_in_a_round_of_one_bolt_after_the_other_all_of_a_bolt_is_left_out(tmp_path: Path) -> None:
    walk = Walk(group(EACH), tmp_path)
    walk.press()
    assert not walk.say("skip 1")
    walk.press(4)
    assert walk.ticks() == [(2,), (2,), (3,), (3,)]
    assert walk.asks == "finished"
    assert walk.events[-1].text == "left out: 1"


def test_a_bolt_visited_twice_in_a_round_is_put_off_once(tmp_path: Path) -> None:
    walk = Walk(
        group('count = 4\n[[group.stage]]\ntorque = "24 N·m"\norder = "1 2 3 4 1 2"\nrevisit = true\n'),
        tmp_path,
    )
    walk.press()
    walk.say("later")
    walk.press(6)
    assert walk.ticks() == [(2,), (3,), (4,), (1,), (2,), (1,)]


def test_a_bolt_left_out_is_told_and_named_at_the_end(tmp_path: Path) -> None:
    walk = Walk(group('count = 4\n[[group.stage]]\ntorque = "24 N·m"\n'), tmp_path)
    walk.press(2)
    assert not walk.say("skip 3")
    assert "1 left out" in walk.shown.count
    assert dict(walk.shown.marks)[3] == "skipped"
    walk.press(2)
    assert walk.asks == "finished"
    assert walk.events[-1].text == "left out: 3"


@pytest.mark.parametrize("words", ["skip", "skip 11", "skip 2 ", "skip two"])
def test_leaving_out_what_is_not_open_is_refused_with_what_is(tmp_path: Path, words: str) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(2)
    assert "one of: 3, 4, 5, 6, 7, 8, 9, 10" in walk.say(words)


def test_leaving_out_where_two_people_check_needs_a_reason_by_digit(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group('second_check = "typed"\n' + TWO_ROUNDS), tmp_path))
    assert "checked twice: skip 1 and a reason: 1 = not reachable" in walk.say("skip 1")
    assert not walk.say("skip 1 2")
    assert (walk.events[-1].text, walk.events[-1].reason) == ("part missing", 2)
    assert not walk.say("skip 2 the bracket is in the way")
    assert walk.events[-1].text == "the bracket is in the way"


# --- trouble -----------------------------------------------------------------------------------------


def test_trouble_by_digit_follows_what_the_group_says(tmp_path: Path) -> None:
    for after, place in (("restart", (0, ())), ("round again", (1, ())), ("this place", (1, (1, 2)))):
        walk = Walk(group(f'after_trouble = "{after}"\n' + TWO_ROUNDS), tmp_path / after)
        walk.press(5)
        assert not walk.say("trouble 1")
        assert walk.asks == "stop"
        assert walk.lines[0] == "bolt 3: stripped"
        walk.press()
        progress = walk.session.progress
        done = (
            tuple(progress.current.steps[at].labels[0] for at in sorted(progress.done))
            if progress.current
            else ()
        )
        assert (progress.round, done) == place


def test_trouble_without_a_digit_lists_the_reasons(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    for words in ("trouble", "trouble 9", "trouble stripped", "trouble 0"):
        refused = walk.say(words)
        assert "1 = stripped; 2 = snapped" in refused
        assert "7 = overshot" in refused


def test_the_shop_may_write_its_own_reasons(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group('trouble_reasons = ["cracked ear"]\n' + TWO_ROUNDS), tmp_path))
    assert not walk.say("trouble 1")
    assert walk.lines[0] == "bolt 1: cracked ear"


def test_trouble_can_name_another_bolt(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(4)
    assert not walk.say("trouble 3 2")
    assert walk.events[-1].bolts == (2,)


def test_trouble_that_was_none_is_taken_back(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(4)
    walk.say("trouble 5", "undo")
    assert (walk.asks, walk.bolt) == ("bolt", (5,))


def test_going_back_at_one_place_leaves_the_other_places_done(tmp_path: Path) -> None:
    text = 'places = ["left", "right"]\ncount = 4\n[[group.stage]]\ntorque = "12 N·m"\n[[group.stage]]\ntorque = "24 N·m"\nstate = "weight on wheels"\n'
    walk = Walk(group(text), tmp_path)
    walk.press(10)  # opening, both places at 12, and the stop of the 24 at the left
    walk.press(5)  # the left at 24 and one of the right
    assert walk.session.progress.current is not None
    assert walk.session.progress.current.place == "right"
    walk.say("trouble 1", "")
    ticks = len(walk.ticks())
    while walk.asks != "finished":
        assert not walk.press()
    assert list(walk.ticks()[ticks:]) == [(1,), (2,), (3,), (4,)] * 2


# --- parts that are used once ------------------------------------------------------------------------


def test_the_main_key_says_that_new_parts_are_fitted(tmp_path: Path) -> None:
    walk = Walk(group(ONE_TIME), tmp_path)
    walk.press()
    assert walk.events[-1].text == "opening, new nuts fitted"


@pytest.mark.parametrize(("digit", "goes_on"), [(1, False), (2, True), (3, True)])
def test_another_key_opens_the_choices_for_parts_that_are_not_new(
    tmp_path: Path, digit: int, goes_on: bool
) -> None:
    walk = Walk(group(ONE_TIME), tmp_path)
    assert "1 = no new ones here yet: pause" in walk.say("old")
    assert not walk.say(f"old {digit}")
    assert walk.session.progress.paused is not goes_on
    assert walk.events[-1].text.startswith("nuts: ")
    walk.again()
    assert walk.asks == ("whole" if goes_on else "stop")


def test_parts_are_chosen_at_the_first_stop_only(tmp_path: Path) -> None:
    assert "belongs to the first stop" in at_bolt(Walk(group(ONE_TIME), tmp_path / "a")).say("old 2")
    assert "belongs to the first stop" in Walk(group(TWO_ROUNDS), tmp_path / "b").say("old 2")


# --- entries from paper, the end, names --------------------------------------------------------------


def test_entries_from_paper_are_named_so_and_ask_for_no_pause_or_wait(tmp_path: Path) -> None:
    text = 'count = 4\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nwait = "cold"\ndue = { hours = 4 }\n[[group.stage]]\nangle = "90°"\n'
    walk = Walk(group('one_time = "bolts"\n' + text), tmp_path)
    walk.press(2)
    assert not walk.say("afterwards")
    walk.clock.go(hours=2)
    walk.press(3)
    assert walk.asks == "stop"  # the wait was waited on paper
    walk.press(6)
    assert walk.asks == "finished"
    told = [event.afterwards for event in walk.events if event.kind == "check-off"]
    assert told == [False] + [True] * 7


def test_entries_at_the_vehicle_again_are_said_by_the_same_word(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.say("afterwards", "", "afterwards", "")
    assert [event.afterwards for event in walk.events if event.kind == "check-off"] == [True, False]


def test_a_walk_opened_again_is_at_the_vehicle(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.say("afterwards", "")
    walk.again()
    walk.press(2)
    assert walk.events[-1].afterwards is False


def test_the_rest_of_a_round_ticked_as_a_whole_is_named_so(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press(3)
    assert not walk.say("round")
    ticks = [event for event in walk.events if event.kind == "check-off"]
    assert [event.text for event in ticks] == [""] * 3 + ["ticked as a whole"] * 7
    assert walk.session.progress.round == 2
    assert not walk.say("undo")
    assert walk.bolt == (4,)


def test_a_walk_is_abandoned_with_a_reason(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    assert "1 = another repair comes first" in walk.say("abandon")
    assert not walk.say("abandon 3")
    assert walk.asks == "finished"
    assert walk.events[-1].text == "begun by mistake"
    assert walk.say("") == "The walk is finished."
    walk.session.close()
    assert walk.open().progress.started == walk.clock().isoformat(timespec="milliseconds")


def test_a_name_said_in_the_middle_is_who_works_from_here_on(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.press()
    walk.say("sign Ada", "")
    assert [event.by for event in walk.events if event.kind == "check-off"] == ["", "Ada"]


@pytest.mark.parametrize(
    "words", ["bogus", "UNDO 9 9 9", "9" * 5000, "trouble " + "9" * 5000, "note", "later 5 6"]
)
def test_what_is_not_understood_is_answered_and_changes_nothing(tmp_path: Path, words: str) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    before = walk.events
    assert walk.say(words)
    assert walk.events == before


def test_an_abandoned_walk_is_not_taken_up_by_undo(tmp_path: Path) -> None:
    walk = at_bolt(Walk(group(TWO_ROUNDS), tmp_path))
    walk.say("abandon 3")
    assert "begin a new one" in walk.say("undo")
    assert walk.kinds()[-1] == "abandoned"
