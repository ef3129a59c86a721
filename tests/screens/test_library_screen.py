"""The library on the screen, key by key, named by what the technician does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.screens.bay import ROOMS, Bay, Seen, name_of
from tests.screens.stage import shipped
from torqref.library.group import Group
from torqref.library.quick import quick_group
from torqref.library.search import Index
from torqref.screens import library_panel
from torqref.screens.library_read import LibraryRead
from torqref.screens.library_screen import LibraryScreen
from torqref.screens.look import Look
from torqref.walk.archive import open_records, records

LID = 'thread = "M6"\ncondition = "dry"\ncount = 4\n[[group.stage]]\ntorque = "10 N·m"\n'


def group(identity: str) -> Group:
    return shipped()[identity]


def quick(text: str = "M8 10.9 24 N·m", arrangement: str = "2x5") -> Group:
    found = quick_group(text, arrangement)
    assert isinstance(found, Group)
    return found


# --- finding --------------------------------------------------------------------------------------


def test_it_opens_with_every_group_its_values_and_that_they_are_practice(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        assert f"{len(shipped())} groups" in seen.lines[0]
        await seen.type("exhaust manifold")
        row = next(line for line in seen.lines if "Exhaust manifold to cylinder head" in line)
        assert "12 N·m, 22–26 N·m (16–19 ft-lb)" in row
        assert "practice" in row
        assert "PRACTICE VALUES" in seen.text

    bay.show("library", script)


def test_typing_narrows_the_list_and_backspace_widens_it_again(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("hub brindle")
        assert "2 of" in seen.lines[0]
        assert seen.marked.startswith("> Front hub bearing")
        await seen.type(" fan")
        assert "1 of" in seen.lines[0]
        assert seen.marked.startswith("> Fan hub")
        await seen.press("backspace", "backspace", "backspace", "backspace")
        assert "2 of" in seen.lines[0]
        await seen.press("ctrl+u")
        assert f"{len(shipped())} groups" in seen.lines[0]

    bay.show("library", script)


def test_letters_that_are_keys_elsewhere_are_text_here(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("quc nt")
        assert seen.name == "LibraryScreen"
        assert "quc nt_" in seen.lines[1]
        assert "Nothing fits" in seen.text

    bay.show("library", script)


def test_arrows_and_page_keys_move_the_mark(bay: Bay) -> None:
    bay.library("".join(f'[[group]]\nid = "lid-{n}"\n{LID}' for n in range(20)))

    async def script(seen: Seen) -> None:
        first = seen.marked
        await seen.press("down")
        assert seen.marked != first
        await seen.press("up")
        assert seen.marked == first
        await seen.press("end")
        last = seen.marked
        await seen.press("pageup", "pageup", "pageup")
        assert seen.marked == first
        await seen.press("pagedown", "pagedown", "pagedown")
        assert seen.marked == last
        await seen.press("home")
        assert seen.marked == first

    bay.show("library", script, size=(44, 12))


def test_the_details_say_what_a_group_is_for_and_who_vouches_for_it(bay: Bay) -> None:
    bay.library(
        '[[group]]\nid = "lid"\nname = "Lid"\nthread = "M6"\ncondition = "dry"\ncount = 4\n'
        'applies = { engine = ["Q", "R"] }\n[[group.stage]]\ntorque = "10 N·m"\n'
    )

    async def script(seen: Seen) -> None:
        assert "unverified" in seen.marked
        assert "for engine Q or R only" in seen.flat
        assert "own sheet; unverified: nobody typed the values a second time" in seen.flat
        assert "PRACTICE" not in seen.text

    bay.show("library", script, size=(100, 30))


def test_a_group_without_a_source_says_so(bay: Bay) -> None:
    bay.library('[[group]]\nid = "lid"\ncount = 4\n[[group.stage]]\ntorque = "10 N·m"\n', head="format = 1\n")

    async def script(seen: Seen) -> None:
        assert "no source" in seen.marked

    bay.show("library", script)


# --- opening --------------------------------------------------------------------------------------


def test_enter_walks_the_marked_group_and_leaving_comes_back_to_the_list(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("thermo")
        await seen.press("enter")
        assert seen.name == "WalkScreen"
        assert "Thermostat cover" in seen.lines[0]
        await seen.press("q")
        assert seen.name == "LibraryScreen"
        assert "Walk paused." in seen.text
        assert seen.marked.startswith("> 1  OPEN Thermostat cover")

    bay.show("library", script)
    assert len(records(bay.records)[0]) == 1


def test_a_group_with_several_places_asks_which_and_takes_a_digit(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("rear wheel")
        await seen.press("enter")
        assert "Which place?" in seen.text
        assert "1 left 2 right" in seen.flat
        await seen.press("2")
        assert seen.name == "WalkScreen"
        assert "right" in seen.lines[0]

    bay.show("library", script)
    assert records(bay.records)[0][0].header.plan.place == "right"


def test_enter_at_the_places_walks_all_of_them(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("rear wheel")
        await seen.press("enter", "enter")
        assert seen.name == "WalkScreen"

    bay.show("library", script)
    plan = records(bay.records)[0][0].header.plan
    assert {round_.place for round_ in plan.rounds if round_.steps} == {"left", "right"}


def test_any_other_key_at_the_places_goes_back_to_the_list(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("rear wheel")
        await seen.press("enter", "9", "x")
        assert seen.name == "LibraryScreen"
        assert "Which place?" not in seen.text

    bay.show("library", script)
    assert records(bay.records)[0] == ()


def test_the_loosen_key_opens_the_group_in_reverse(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("thermo")
        await seen.type("!")
        assert seen.name == "WalkScreen"
        assert "LOOSEN" in seen.lines[0]

    bay.show("library", script)


def test_the_loosen_key_on_anything_else_says_what_it_wants(bay: Bay) -> None:
    bay.begin(quick(), presses=3)

    async def script(seen: Seen) -> None:
        await seen.type("!")
        assert "Only a group is loosened" in seen.text

    bay.show("library", script)


# --- open walks -----------------------------------------------------------------------------------


def test_an_open_walk_stands_on_top_and_enter_goes_on_at_the_same_bolt(bay: Bay) -> None:
    bay.begin(quick(), presses=4)

    async def script(seen: Seen) -> None:
        assert "1  OPEN" in seen.marked
        assert "3 of 10 done" in seen.marked
        await seen.press("enter")
        assert seen.name == "WalkScreen"
        assert "3 of 10 done" in seen.text

    bay.show("library", script, size=(100, 30))


def test_the_number_of_an_open_walk_chooses_it(bay: Bay) -> None:
    bay.begin(quick("24 N·m"), presses=2)
    bay.clock.go(minutes=1)
    bay.begin(quick("30 N·m"), presses=3)

    async def script(seen: Seen) -> None:
        assert "30 N·m" in seen.lines[2]
        assert "24 N·m" in seen.lines[3]
        await seen.type("2")
        assert "24 N·m" in seen.marked
        await seen.press("enter")
        assert "1 of 10 done" in seen.text

    bay.show("library", script)


def test_a_value_that_the_library_changed_meanwhile_is_asked_about(bay: Bay) -> None:
    from torqref.library.shelf import read_shelf

    bay.library(f'[[group]]\nid = "lid"\nname = "Lid"\n{LID}')
    bay.begin(read_shelf(bay.libraries).groups["lid"], presses=2)
    bay.library(f'[[group]]\nid = "lid"\nname = "Lid"\n{LID}'.replace("10 N·m", "12 N·m"))

    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert "QUESTION" in seen.text
        assert "12 N·m" in seen.flat

    bay.show("library", script)


def test_words_find_an_open_walk_too(bay: Bay) -> None:
    bay.begin(quick("24 N·m"), presses=2)
    bay.begin(group("thermostat-cover"), presses=1)

    async def script(seen: Seen) -> None:
        await seen.type("thermo")
        assert "OPEN Thermostat cover" in seen.marked
        assert not any("24 N·m" in line for line in seen.lines[2:4])

    bay.show("library", script)


def test_a_wait_that_is_over_is_marked_due_and_stands_first(bay: Bay) -> None:
    bay.library(
        '[[group]]\nid = "lid"\nname = "Lid"\ncount = 2\n[[group.stage]]\ntorque = "10 N·m"\n'
        '[[group.stage]]\nwait = "cold again"\ndue = { hours = 4 }\n[[group.stage]]\ntorque = "10 N·m"\nrecheck = true\n'
    )
    from torqref.library.shelf import read_shelf

    bay.begin(read_shelf(bay.libraries).groups["lid"], presses=2)
    bay.begin(quick(), presses=2)

    async def waiting(seen: Seen) -> None:
        assert "OPEN Lid" in seen.text
        assert "in 3 h" in seen.flat

    async def over(seen: Seen) -> None:
        assert "DUE  Lid" in seen.marked

    bay.show("library", waiting, size=(120, 30))
    bay.clock.go(hours=5)
    bay.show("library", over, size=(120, 30))


def test_a_walk_of_another_bay_is_taken_over_only_deliberately(bay: Bay) -> None:
    bay.begin(quick(), presses=3, bay="bay 2")

    async def script(seen: Seen) -> None:
        assert "bay 2" in seen.marked
        await seen.press("enter")
        assert "Bay bay 2 has this walk" in seen.text
        await seen.press("2")
        assert seen.name == "LibraryScreen"
        await seen.press("enter", "enter")
        assert seen.name == "LibraryScreen"
        await seen.press("enter", "1")
        assert seen.name == "WalkScreen"

    bay.show("library", script)


def test_a_walk_that_is_open_in_another_window_is_refused_with_the_reason(bay: Bay) -> None:
    from torqref.walk.journal import open_journal

    bay.begin(quick(), presses=3)
    journal, _ = open_journal(next(bay.records.iterdir()))

    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert seen.name == "LibraryScreen"
        assert "open in another window" in seen.flat

    try:
        bay.show("library", script)
    finally:
        journal.close()


def test_finished_walks_are_not_listed(bay: Bay) -> None:
    bay.begin(quick(), presses=11)
    assert open_records(bay.records) == ((), ())

    async def script(seen: Seen) -> None:
        assert "OPEN" not in seen.text

    bay.show("library", script)


# --- the other screens ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "name"),
    [
        ("+", "QuickScreen"),
        ("=", "ConvertScreen"),
        ("@", "CrowfootScreen"),
        ("?", "HelpScreen"),
    ],
)
def test_one_key_leads_to_each_screen_and_ctrl_c_back(bay: Bay, key: str, name: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.type(key)
        assert seen.name == name
        await seen.press("ctrl+c")
        assert seen.name == "LibraryScreen"

    assert bay.show("library", script) is None


def test_the_leave_key_ends_the_program(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("<")

    assert bay.show("library", script) == 0


def test_the_colours_key_changes_the_theme(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("*")
        assert seen.app.look.theme == "light"

    bay.show("library", script)


def test_a_value_typed_into_the_list_becomes_a_quick_walk(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("M8 10.9 31 Nm")
        assert "QUICK" in seen.marked
        await seen.press("enter")
        assert seen.name == "QuickScreen"
        await seen.type("2x5")
        await seen.press("enter")
        assert seen.name == "WalkScreen"
        await seen.press("q")
        assert seen.name == "LibraryScreen"
        assert "1  OPEN 31 Nm on M8x1.25 10.9" in seen.marked

    bay.show("library", script)


def test_a_draft_that_was_kept_is_in_the_list_at_once(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("+M6 10 Nm")
        await seen.press("enter")
        await seen.type("4")
        await seen.press("enter")
        for _ in range(5):
            bay.clock.go(seconds=1)
            await seen.press("enter")
        assert "FINISHED" in seen.text
        await seen.press("escape", "k")
        assert "Kept as draft" in seen.flat
        await seen.press("q")
        await seen.ready()
        await seen.type("draft")
        assert "10 Nm on M6" in seen.marked

    bay.show("library", script)
    assert [path.name for path in bay.own.iterdir()] == ["draft-m6x1-10-nm-4.toml"]


# --- problems -------------------------------------------------------------------------------------


def test_a_faulty_file_is_told_with_file_and_line_and_its_good_groups_are_there(bay: Bay) -> None:
    bay.library(
        '[[group]]\nid = "good"\nname = "Good"\ncount = 4\n[[group.stage]]\ntorque = "10 N·m"\n'
        '[[group]]\nid = "bad"\ncount = 4\n[[group.stage]]\ntorque = 24\n'
    )

    async def script(seen: Seen) -> None:
        row = next(line for line in seen.lines if "ERROR" in line)
        assert "sheet.toml:16" in row
        assert "Good" in seen.text
        await seen.press("home", "enter")
        assert seen.name == "ProblemsScreen"
        assert "in quotes" in seen.flat
        await seen.press("enter")
        assert seen.name == "LibraryScreen"

    bay.show("library", script, size=(200, 24))


def test_damage_in_a_record_is_told_too(bay: Bay) -> None:
    bay.begin(quick(), presses=3)
    path = next(bay.records.iterdir())
    path.write_bytes(path.read_bytes().replace(b'"check-off"', b'"check-0ff"', 1))

    async def script(seen: Seen) -> None:
        assert "ERROR" in seen.text
        await seen.press("enter")
        assert seen.name == "LibraryScreen"
        assert "damaged" in seen.flat

    bay.show("library", script)


# --- untrusted text -------------------------------------------------------------------------------

HOSTILE = "[/] [b red]lid[/b] \\u001b[2J\\u202e21\\u200b {x} %s"


def test_brackets_escapes_and_turned_writing_in_names_are_only_text(bay: Bay) -> None:
    bay.library(
        f'[[group]]\nid = "lid"\nname = "{HOSTILE}"\ncondition = "{HOSTILE}"\ncount = 1\n'
        '[[group.stage]]\ntorque = "10 N·m"\n'
    )

    async def script(seen: Seen) -> None:
        assert "[/] [b red]lid[/b] <U+001B>[2J<U+202E>" in seen.text
        assert "\x1b" not in seen.text
        await seen.press("enter")
        assert seen.name == "WalkScreen"
        assert "[b red]lid[/b]" in seen.text

    bay.show("library", script, size=(140, 24))


@pytest.mark.parametrize("text", ["[/b]", "[red", "((((", "\\", "{0}", "%d", "]]]", "é中", '"""'])
def test_any_text_may_be_typed(bay: Bay, text: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.type(text)
        assert text in seen.lines[1]
        assert seen.fills(80, 24)

    bay.show("library", script)


def test_a_paste_is_its_first_line_without_what_a_terminal_obeys(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        await seen.paste("thermo\x1b[2J\u202e\nrm -rf\n")
        assert "thermo[2J_" in seen.lines[1]
        await seen.press("ctrl+u")
        await seen.paste("")
        assert f"{len(shipped())} groups" in seen.lines[0]

    bay.show("library", script)


# --- rooms ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("size", "look"), ROOMS, ids=name_of)
def test_the_mark_the_words_and_the_main_key_are_seen_in_every_room(
    bay: Bay, size: tuple[int, int], look: Look
) -> None:
    bay.begin(quick(), presses=4)

    async def script(seen: Seen) -> None:
        assert seen.fills(*size)
        assert "OPEN" in seen.marked
        assert "3 of 10" in seen.marked
        assert "enter  go on" in seen.lines[-1]
        await seen.press("end")
        assert seen.fills(*size)
        assert seen.marked
        await seen.type("exhaust manifold")
        assert seen.marked.startswith("> Exhaust manifold")
        assert "PRACTICE VALUES" in seen.text
        if look.ascii_only:
            assert seen.text.isascii()

    bay.show("library", script, size=size, look=look)


@pytest.mark.parametrize("size", [(1, 1), (3, 2), (10, 4), (300, 80)])
def test_no_room_is_too_small_or_too_large(bay: Bay, size: tuple[int, int]) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("hub")
        await seen.press("down", "end", "pageup")
        assert len(seen.screen.painter.lines) >= 1

    bay.show("library", script, size=size)


def test_of_ten_thousand_groups_only_the_rows_in_sight_are_painted(
    bay: Bay, monkeypatch: pytest.MonkeyPatch
) -> None:
    one = group("thermostat-cover")
    many = Index().grown(replace(one, id=f"g{place}", name=f"Cover {place}") for place in range(10_000))
    painted: list[Group] = []

    def counted(each: Group) -> str:
        painted.append(each)
        return "10 N·m"

    monkeypatch.setattr(library_panel, "values_text", counted)

    async def script(seen: Seen) -> None:
        assert isinstance(seen.screen, LibraryScreen)
        seen.screen.post_message(LibraryRead(many, ready=True))
        await seen.pilot.pause()
        assert "10000 groups" in seen.lines[0]
        painted.clear()
        await seen.press("end")
        assert "Cover 9999" in seen.marked
        assert 0 < len(painted) <= 3 * 24
        painted.clear()
        await seen.type("9998")
        assert "Cover 9998" in seen.marked
        assert len(painted) <= 4 * 3 * 24

    bay.show("library", script)
