"""The records on a screen: what a technician and a shop lead look for, read, go on with and write out."""

from __future__ import annotations

import csv
from pathlib import Path
from threading import Event

import pytest

from tests.commands.repair import Garage
from tests.screens.bay import ASCII, ROOMS, SIZES, Bay, Script, Seen, name_of
from tests.screens.shop import Shop
from tests.sheets.folder import Page
from torqref.screens.look import Look
from torqref.screens.record_panel import COLUMNS, columns_for
from torqref.walk.archive import records
from torqref.walk.listing import read_summary

GOLDEN = Path(__file__).with_name("golden")


@pytest.fixture
def shop(bay: Bay) -> Shop:
    shop = Shop(bay)
    shop.week()
    bay.clock.go(hours=3)
    return shop


def show(shop: Shop, script: Script, size: tuple[int, int] = (100, 30), look: Look | None = None) -> None:
    async def settled(seen: Seen) -> None:
        await seen.settled()
        await script(seen)

    shop.bay.show("record", settled, size=size, look=look)


def titles(seen: Seen) -> list[str]:
    """The rows of the list as far as they are seen: state and what was walked."""
    states = ("open", "due", "finished", "damaged", "abandoned", "signed")
    rows = [line[1:] for line in seen.lines[2:] if line[:1] in (">", " ")]
    return [row[:34].strip() for row in rows if row[:10].strip().casefold() in states]


async def pull(bay: Bay, seen: Seen) -> None:
    """The main key, two seconds after the key before: what follows at once would count as a bounce."""
    bay.clock.go(seconds=2)
    await seen.press("enter")


# --- looking --------------------------------------------------------------------------------------


def test_he_sees_every_walk_newest_on_top_with_who_when_and_which_order(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        assert "7 records" in seen.lines[0]
        assert titles(seen) == [
            "OPEN      Bracket of the other bay",
            "finished  Bracket to frame",
            "DAMAGED   Bracket to frame",
            "OPEN      Lid [red]not markup[/red",
            "finished  Bracket to frame",
            "DUE       Flange to pump",
            "finished  Bracket to frame",
        ]
        oldest = next(line for line in seen.lines if " 17 " in line)
        assert "2026-03-02 09:00 Ada" in oldest

    show(shop, script)


def test_what_waits_stands_on_top_as_one_line(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        assert seen.lines[2].startswith(" DUE  Flange to pump: cold again, due today 14:00, due ")

    show(shop, script)


def test_what_waits_is_due_when_its_time_has_come(shop: Shop) -> None:
    shop.bay.clock.go(hours=-6)

    async def script(seen: Seen) -> None:
        assert "due today 14:00, in " in seen.lines[2]
        shop.bay.clock.go(hours=12)
        seen.screen.look_at_clock()  # type: ignore[attr-defined]  # the list of records has a clock
        assert "due yesterday 14:00, due now" in seen.lines[2]

    show(shop, script)


def test_every_invented_walk_is_marked_in_its_row_and_in_words(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        for _ in range(7):
            row = next(line for line in seen.lines if line.startswith(">"))
            invented = "Bracket" in row or "Flange" in row
            assert row.rstrip().endswith(("P", "PC")) == invented
            assert ("PRACTICE VALUES: " in seen.text) == invented
            await seen.press("down")

    show(shop, script)


def test_damage_is_named_with_file_and_line_and_the_walk_stays_readable(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        assert "ERROR 1 of 2  line 4 of the record is damaged" in seen.text
        await seen.press("down", "down")
        assert "-bracket.walk:4)" in seen.text
        assert "Keep the file; start a new walk" in seen.flat
        await seen.press("enter")
        assert seen.name == "RecordTextScreen"
        assert "-bracket.walk:4:line4oftherecord" in seen.flat.replace(" ", "")
        assert "Bracket to frame" in seen.text

    show(shop, script)


def test_a_torn_end_is_told_with_its_line_and_is_no_damage(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("down")
        assert "the last 11 bytes were cut off in writing and were never shown as done" in seen.flat

    show(shop, script)


def test_the_files_key_shows_all_that_is_wrong(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("!")
        assert seen.name == "ProblemsScreen"
        assert " error" in seen.text
        assert " warning" in seen.text
        await seen.press("enter")
        assert seen.name == "RecordScreen"

    show(shop, script)


def test_without_trouble_there_is_no_files_key(bay: Bay) -> None:
    shop = Shop(bay)
    shop.walk(shop.group("bracket"))

    async def script(seen: Seen) -> None:
        assert "files" not in seen.lines[-1]
        await seen.type("!")
        assert "find !" in seen.lines[1]

    show(shop, script)


def test_a_walk_by_values_since_corrected_is_marked_and_says_what_changed(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        marked = [line for line in seen.lines if line.rstrip().endswith("PC")]
        assert len(marked) == 1
        assert " 19 " in marked[0]
        await seen.type("order 19")
        assert "finished by values since corrected: stage 1: 22 N·m is now 24 N·m" in seen.text
        await seen.press("enter")
        assert "Finished by values since corrected: stage 1: 22 N·m is now 24 N·m" in seen.text

    show(shop, script)


def test_an_empty_folder_says_what_to_do(bay: Bay) -> None:
    async def script(seen: Seen) -> None:
        assert "0 records" in seen.text
        assert "No records yet." in seen.text
        assert "each walk leaves its record here" in seen.flat
        await seen.press("enter")

    assert bay.show("record", script) == 0


def test_a_folder_that_is_none_says_so(bay: Bay) -> None:
    bay.records.write_text("not a folder", encoding="utf-8")

    async def script(seen: Seen) -> None:
        assert "the folder of records cannot be read" in seen.text

    bay.show("record", script)


def test_what_waits_reads_the_same_in_the_library_in_the_list_and_in_the_record(shop: Shop) -> None:
    told = "Flange to pump: cold again, due today 14:00, due now, open since Monday"

    async def script(seen: Seen) -> None:
        await seen.settled()
        assert seen.marked.startswith("> 1  DUE  Flange to pump")
        assert f"PRACTICE VALUES: {told}" in seen.text
        await seen.type(":")
        await seen.settled()
        assert f" DUE  {told}" in seen.text
        await seen.type("due")
        assert f"\n {told}" in seen.text
        await seen.type("=")
        assert f"Due: {told}" in seen.text

    shop.bay.show("library", script, size=(100, 30))


# --- narrowing ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "count"),
    [
        ("bracket", 5),
        ("ada", 2),
        ("by ada", 2),
        ("order 18", 1),
        ("group flange", 1),
        ("group FLANGE", 1),
        ("2026-03-02", 7),
        ("2026-03-03", 0),
        ("since 2026-03-02 until 2026-03-02", 7),
        ("since 2026-03-03", 0),
        ("until 2026-03", 7),
        ("open", 4),
        ("due", 1),
        ("finished ada", 2),
        ("blue truck", 1),
        ("åsa", 1),
        ("[red]", 1),
        ("nobody", 0),
    ],
)
def test_he_types_words_and_the_list_narrows(shop: Shop, typed: str, count: int) -> None:
    async def script(seen: Seen) -> None:
        await seen.type(typed)
        assert len(titles(seen)) == count
        assert (f"{count} of 7" if count < 7 else "7 records") in seen.lines[0]
        assert ("No record fits" in seen.text) == (count == 0)

    show(shop, script)


def test_he_erases_what_he_typed_and_all_are_back(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("du")
        await seen.press("backspace", "backspace")
        assert len(titles(seen)) == 7
        await seen.type("due")
        await seen.press("ctrl+u")
        assert len(titles(seen)) == 7

    show(shop, script)


def test_he_pastes_a_work_order(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.paste("A-2026/19\nsecond line")
        assert len(titles(seen)) == 1

    show(shop, script)


def test_arrows_and_page_keys_move_the_mark(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        for key, marked in (
            ("down", "finished"),
            ("end", "finished"),
            ("up", "DUE"),
            ("home", "OPEN"),
            ("pagedown", "finished"),
            ("pageup", "OPEN"),
        ):
            await seen.press(key)
            assert next(line for line in seen.lines if line.startswith(">"))[1:].startswith(marked), key

    show(shop, script)


# --- reading --------------------------------------------------------------------------------------


def test_enter_reads_a_finished_record_and_set_is_never_measured(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("order 17")
        await seen.press("enter")
        assert seen.name == "RecordTextScreen"
        assert "PRACTICE VALUES" in seen.lines[0]
        assert "ticked round 1 bolt 1 by Ada: printed 24 N·m, set 24 N·m" in seen.text
        assert "measured 24" not in seen.text
        await seen.press("enter")
        assert seen.name == "RecordScreen"

    show(shop, script)


def test_it_is_the_text_that_the_command_prints(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    folder, name = str(shop.bay.records), records(shop.bay.records)[0][0].header.id
    garage = Garage(folder=shop.bay.home, monkeypatch=monkeypatch)
    _, printed = garage.call(
        "record", name, "--records", folder, "--specs", str(shop.bay.libraries[0]), lines=""
    )
    seen_lines: list[str] = []

    async def script(seen: Seen) -> None:
        await seen.type("order 17")
        await seen.press("enter")
        seen_lines.extend(line.strip() for line in seen.lines[1:-1] if line.strip())

    show(shop, script, size=(160, 40))
    assert seen_lines == [" ".join(line.split()) for line in printed]


def test_enter_turns_the_pages_and_the_last_one_leads_back(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("order 17")
        await seen.press("enter")
        pages = [seen.lines[1:-1]]
        while "more" in seen.lines[-1]:
            await seen.press("space")
            pages.append(seen.lines[1:-1])
        assert 2 <= len(pages) <= 6
        assert "A setting that clicked is not a" in " ".join(pages[-1])
        await seen.press("b")
        assert seen.lines[1:-1] == pages[-2]
        await seen.press("home")
        assert seen.lines[1:-1] == pages[0]
        for key in ("down", "up", "pagedown", "pageup", "end"):
            await seen.press(key)
        assert "A setting that clicked is not a" in seen.flat
        await seen.press("enter")
        assert seen.name == "RecordScreen"

    show(shop, script, size=(40, 12))


def test_an_open_walk_can_be_read_without_going_on(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("lid=")
        assert seen.name == "RecordTextScreen"
        assert "[red]not markup[/red]" in seen.text
        assert "<U+202E>" in seen.text
        assert "\u202e" not in seen.text
        await seen.press("q")
        assert seen.name == "RecordScreen"

    show(shop, script)


def test_two_hundred_bolts_are_read_to_the_last_one(bay: Bay) -> None:
    shop = Shop(bay)
    text = '[[group]]\nid = "plate"\nname = "Plate"\nlayout = { rows = [100, 100] }\n[[group.stage]]\ntorque = "9 N·m"\n'
    shop.walk(shop.group("plate", text=text))

    async def script(seen: Seen) -> None:
        await seen.press("enter", "end", "up", "up", "up")
        assert "bolt 200" in seen.text
        assert seen.fills(80, 24)

    show(shop, script, size=(80, 24))


# --- going on -------------------------------------------------------------------------------------


def test_enter_goes_on_with_an_open_walk_and_the_list_says_where_it_stands_after(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("due")
        await seen.press("enter")
        assert seen.name == "WalkScreen"
        assert "Flange to pump" in seen.lines[0]
        while "FINISHED" not in seen.text:
            await pull(shop.bay, seen)
        await seen.type("Bo")
        await seen.press("enter", "q")
        await seen.settled()
        assert seen.name == "RecordScreen"
        assert "Walk finished." in seen.text
        assert "No record fits" in seen.text
        await seen.press("ctrl+u")
        assert "DUE" not in seen.text

    show(shop, script)


def test_the_walk_of_another_bay_is_taken_over_only_when_asked(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("enter")
        assert "Bay bay 2 has this walk; take it over?" in seen.text
        await seen.press("2")
        assert seen.name == "RecordScreen"
        await seen.press("enter", "x")
        assert seen.name == "RecordScreen"
        assert "find _" in seen.lines[1]
        await seen.press("enter", "1")
        assert seen.name == "WalkScreen"

    show(shop, script)


def test_an_open_record_is_gone_on_with_from_its_text(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("lid=")
        await seen.press("g")
        assert seen.name == "WalkScreen"
        await seen.press("q")
        assert seen.name == "RecordTextScreen"
        assert "Walk paused." in seen.text

    show(shop, script)


def test_a_finished_record_has_no_key_to_go_on(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("order 17")
        await seen.press("enter", "g")
        assert seen.name == "RecordTextScreen"

    show(shop, script)


def test_a_walk_that_another_window_has_open_is_refused_in_words(shop: Shop) -> None:
    path = next(shop.bay.records.glob("*-lid.walk"))
    from torqref.walk.journal import open_journal

    journal, _ = open_journal(path)

    async def script(seen: Seen) -> None:
        await seen.type("lid")
        await seen.press("enter")
        assert seen.name == "RecordScreen"
        assert "open" in seen.flat

    show(shop, script)
    journal.close()


def test_a_walk_whose_file_is_gone_since_the_list_was_read_is_told(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("lid")
        next(shop.bay.records.glob("*-lid.walk")).unlink()
        await seen.press("enter")
        assert seen.name == "RecordScreen"
        assert "the record cannot be read (No such file or directory)" in seen.flat

    show(shop, script)


# --- writing --------------------------------------------------------------------------------------


def test_the_page_key_writes_what_is_listed_and_says_where(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("bracket finished+")
        await seen.settled()
        assert "written: " in seen.flat

    show(shop, script)
    (page,) = (shop.bay.records / "sheets").glob("*.html")
    assert page.name.startswith("records-20260302-18")
    assert "Records of 3 walks" in Page(page.read_text(encoding="utf-8")).text


def test_the_rows_key_writes_what_is_listed_for_a_spreadsheet(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("order 17>")
        await seen.settled()
        assert "written: " in seen.flat
        await seen.type(">")
        await seen.settled()
        assert "written: " in seen.flat  # the same sheet again takes its own place

    show(shop, script)
    (sheet,) = (shop.bay.records / "sheets").glob("*.csv")
    rows = list(csv.DictReader(sheet.read_text(encoding="utf-8").splitlines()))
    ticks = [row for row in rows if row["kind"] == "check-off"]
    assert [(row["bolts"], row["printed"], row["set"], row["measured"]) for row in ticks] == [
        ("1", "24 N·m", "24 N·m", ""),
        ("2", "24 N·m", "24 N·m", ""),
        ("3", "24 N·m", "24 N·m", ""),
    ]


@pytest.mark.parametrize("keys", ["+", "\rp"])
def test_a_page_written_here_says_what_was_corrected_since(shop: Shop, keys: str) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("order 19")
        await (seen.press("enter", "p") if keys == "\rp" else seen.type(keys))
        await seen.settled()

    show(shop, script)
    (page,) = (shop.bay.records / "sheets").glob("*.html")
    said = "Finished by values since corrected: stage 1: 22 N·m is now 24 N·m"
    assert said in Page(page.read_text(encoding="utf-8")).text


def test_one_record_is_written_from_its_text(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("order 17")
        await seen.press("enter", "p")
        assert "-bracket.html" in seen.flat.replace(" ", "")
        await seen.press("r")
        assert "-bracket.csv" in seen.flat.replace(" ", "")

    show(shop, script)
    assert len(list((shop.bay.records / "sheets").iterdir())) == 2


def test_nothing_listed_is_nothing_written(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type("nobody+")
        await seen.settled()
        assert "No walk is listed, so there is no page to write." in seen.text
        await seen.type(">")
        await seen.settled()
        assert "Nothing is listed, so there are no rows to write." in seen.text

    show(shop, script)
    assert not (shop.bay.records / "sheets").exists()


def test_a_folder_that_cannot_be_written_says_so(shop: Shop) -> None:
    (shop.bay.records / "sheets").write_text("in the way", encoding="utf-8")

    async def script(seen: Seen) -> None:
        await seen.type("order 17")
        await seen.press("enter", "p")
        assert "NOT written: " in seen.flat

    show(shop, script)


# --- jobs -----------------------------------------------------------------------------------------


def test_a_job_is_listed_with_its_walks_and_what_its_owner_must_have_looked_at(
    tmp_path: Path, bay: Bay, monkeypatch: pytest.MonkeyPatch
) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    garage.write(
        '[[step]]\ndo = "bracket"\n[[recheck]]\ntext = "bracket"\ndue = { km = 500 }\nowner = true\n',
        '[[group]]\nid = "bracket"\nname = "The bracket"\ncount = 1\n[[group.stage]]\ntorque = "30 N·m"\n',
    )
    garage.small("--by", "Cy", "--work-order", "19", lines="\n\n\nsign Cy\n")
    assert bay.records == garage.records
    monkeypatch.undo()

    async def script(seen: Seen) -> None:
        assert "DUE  Small repair: recheck 1, bracket: after 500 km" in seen.text
        assert "2 records" in seen.lines[0]
        await seen.type("job")
        assert "DUE       JOB Small repair" in seen.text
        await seen.press("enter")
        assert "Job " in seen.text
        assert "DUE: recheck 1, bracket: after 500 km" in seen.text
        assert "set 30 N·m" in seen.text
        await seen.press("p", "r")
        assert "written: " in seen.flat

    show(Shop(bay), script)
    sheets = sorted(path.suffix for path in (bay.records / "sheets").iterdir())
    assert sheets == [".csv", ".html"]
    page = next((bay.records / "sheets").glob("*.html")).read_text(encoding="utf-8")
    assert "Signed" in Page(page).text


def test_an_open_job_is_read_and_goes_on_at_its_step(
    tmp_path: Path, bay: Bay, monkeypatch: pytest.MonkeyPatch
) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    library = (
        '[[group]]\nid = "bracket"\nname = "The bracket"\ncount = 1\n[[group.stage]]\ntorque = "30 N·m"\n'
    )
    garage.write('[[step]]\ndo = "bracket"\n', library)
    garage.small("--by", "Cy", lines="\n")
    monkeypatch.undo()

    async def script(seen: Seen) -> None:
        await seen.type("job")
        assert ">OPEN      JOB Small repair" in seen.text
        assert "enter  go on" in seen.lines[-1]
        await seen.type("=")
        assert seen.name == "RecordTextScreen"
        await seen.press("q", "enter")
        if "take it over" in seen.text:
            await seen.press("1")
        assert seen.name == "JobScreen"
        await seen.press("q")
        await seen.settled()
        assert seen.name == "RecordScreen"

    show(Shop(bay), script)


# --- a large folder -------------------------------------------------------------------------------


def test_the_keyboard_answers_while_a_slow_folder_is_still_being_read(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The folder gives one file and then nothing until it is let go on."""
    given = iter(range(100))
    let_go, first = Event(), Event()

    def slow(path: Path) -> object:
        if next(given):
            first.set()
            assert let_go.wait(20)
        return read_summary(path)

    monkeypatch.setattr("torqref.walk.listing.read_summary", slow)

    async def script(seen: Seen) -> None:
        while not first.is_set():
            await seen.pilot.pause()
        assert "reading, " in seen.lines[0]
        await seen.type("order 17")
        assert "find order 17_" in seen.lines[1]
        assert "Reading the records." in seen.text or "OPEN" in seen.text
        let_go.set()
        await seen.settled()
        assert titles(seen) == ["finished  Bracket to frame"]

    shop.bay.show("record", script, settle=False)


# --- room and look --------------------------------------------------------------------------------


@pytest.mark.parametrize(("size", "look"), ROOMS, ids=name_of)
def test_every_room_is_filled_and_keeps_state_name_and_practice(
    shop: Shop, size: tuple[int, int], look: Look
) -> None:
    async def script(seen: Seen) -> None:
        assert seen.fills(*size)
        assert "PRACTICE VALUES" in seen.text
        assert any(line.startswith(">OPEN      Bracket") for line in seen.lines)
        assert " help" in seen.lines[-1]
        assert not look.ascii_only or seen.text.isascii()
        await seen.type("order 17")
        await seen.press("enter")
        assert seen.fills(*size)
        assert "PRACTICE VALUES" in seen.lines[0]
        assert " help" in seen.lines[-1]

    show(shop, script, size=size, look=look)


@pytest.mark.parametrize("size", [(1, 1), (12, 4), (20, 6)])
def test_a_room_too_small_for_anything_is_filled_all_the_same(shop: Shop, size: tuple[int, int]) -> None:
    async def script(seen: Seen) -> None:
        assert seen.fills(*size)
        await seen.press("=", "down", "q")

    show(shop, script, size=size)


def test_he_turns_the_phone_and_the_list_follows(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        for width, height in (*SIZES, *reversed(SIZES)):
            await seen.pilot.resize_terminal(width, height)
            await seen.pilot.pause()
            assert seen.fills(width, height)

    show(shop, script)


@pytest.mark.parametrize("size", SIZES, ids=name_of)
@pytest.mark.parametrize("what", ["list", "text"])
def test_it_looks_as_it_did_when_it_was_looked_at(shop: Shop, size: tuple[int, int], what: str) -> None:
    shown: list[str] = []

    async def script(seen: Seen) -> None:
        await seen.press(*(("down",) if what == "list" else ("end", "enter")))
        shown.extend(line.replace(str(shop.bay.records), "RECORDS") for line in seen.lines)

    show(shop, script, size=size)
    golden = GOLDEN / f"record-{what}-{name_of(size)}.txt"
    assert "\n".join(shown) + "\n" == golden.read_text(encoding="utf-8")


def test_what_is_dropped_first_is_in_the_table() -> None:
    names = [[column.name for column, _ in columns_for(width)] for width in (100, 80, 60, 44, 40, 16)]
    assert names == [
        ["state", "title", "date", "time", "people", "order", "mark"],
        ["state", "title", "date", "people", "order", "mark"],
        ["state", "title", "date", "people", "mark"],
        ["state", "title", "day", "mark"],
        ["state", "title", "day", "mark"],
        ["state", "title"],
    ]
    for width in range(30, 200):
        assert 1 + sum(cells + 1 for _, cells in columns_for(width)) == width
    assert all(column.what for column in COLUMNS)


def test_the_colours_key_goes_round_the_themes(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        before = seen.app.look.theme
        await seen.type("*")
        assert seen.app.look.theme != before
        await seen.press("end", "enter", "c")
        assert seen.app.look.theme != before

    show(shop, script)


def test_the_back_key_leads_to_the_library(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.type(":")
        await seen.settled()
        assert seen.name == "RecordScreen"
        await seen.type("<")
        assert seen.name == "LibraryScreen"

    shop.bay.show("library", script)


def test_after_a_finished_walk_the_library_says_where_its_record_is(bay: Bay) -> None:
    shop = Shop(bay)

    async def script(seen: Seen) -> None:
        await seen.type("bracket")
        while "FINISHED" not in seen.text:
            await pull(bay, seen)
        await seen.type("Ada")
        await seen.press("enter", "q")
        assert "Walk finished. Its record: press :" in seen.text
        await seen.type(":")
        await seen.settled()
        assert titles(seen) == ["finished  Bracket to frame"]

    shop.bay.show("library", script)


def test_ascii_marks_only(shop: Shop) -> None:
    async def script(seen: Seen) -> None:
        await seen.press("end", "enter")
        assert "24 N.m" in seen.text
        assert seen.text.isascii()

    show(shop, script, look=ASCII)
