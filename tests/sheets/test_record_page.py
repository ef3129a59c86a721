"""The record as a page: printed, set and measured apart; nothing loads, nothing runs, nothing is lost."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tests.sheets.folder import HOSTILE, Page, rack, walked
from tests.walk.workshop import MORNING, TWO_ROUNDS, group
from torqref.document.escape import escape
from torqref.sheets.paper import page
from torqref.sheets.record_page import record_page
from torqref.sheets.tally import bolt_states, spans
from torqref.walk.archive import Record
from torqref.walk.audit import Present
from torqref.walk.planner import Bench

PULLS = 10
WHOLE = ("", "", *[""] * (PULLS + 1), *[""] * (PULLS + 1))
# The pages of the page model of HTML that could load or run something.
ACTIVE = {"script", "link", "iframe", "object", "embed", "img", "form", "base", "video", "audio", "source"}


def test_printed_set_and_measured_stand_in_columns_of_their_own(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack())
    pulls = [""] * 5 + ["actual 24.5 N·m"] + [""] * 4
    record = walked(tmp_path, "", "", *[""] * 11, "", *pulls, bench=bench, by="Ada")
    shown = Page(record_page([record]))
    assert shown.row("Stage") == ["Stage", "As printed", "As set", "As measured", "Ticked", "By", "State"]
    assert shown.row("2") == ["2", "12 N·m", "12.0 N·m on W2", "", "10 of 10", "Ada", "done"]
    assert shown.row("3") == ["3", "22–26 N·m", "24.0 N·m on W2", "6: 24.5 N·m", "10 of 10", "Ada", "done"]


def test_a_click_is_never_called_measured(tmp_path: Path) -> None:
    shown = Page(record_page([walked(tmp_path, *WHOLE)]))
    measured = [cells[3] for cells in shown.cells if len(cells) == 7][1:]
    assert measured == ["", "", ""]
    assert "a click says that it signalled there, and measures nothing" in shown.text


def test_what_happened_besides_ticks_is_told(tmp_path: Path) -> None:
    lines = (
        "", "", "", "found 31 N·m", "", "trouble 1", "", "", "skip 5 no room for the socket",
        "page 14 N·m", "", "note rust on 4", "undo",
    )  # fmt: skip
    text = Page(record_page([walked(tmp_path, *lines)])).text
    assert "As found stage 2 bolt 1: 31 N·m" in text
    assert "Trouble stage 2 bolt 2: stripped" in text
    assert "Left out stage 2 bolt 5: no room for the socket" in text
    assert "The page says other stage 2: 14 N·m, 12 N·m in the library, 14 N·m on the page" in text
    assert "(taken back)" in text


def test_a_round_ticked_as_a_whole_is_named_so(tmp_path: Path) -> None:
    text = Page(record_page([walked(tmp_path, "", "", "", "", "round")])).text
    assert "Ticked as a whole stage 2: ticked as a whole" in text


def test_the_second_check_and_the_hand_over_are_told(tmp_path: Path) -> None:
    text = 'count = 1\nsecond_check = "typed"\n[[group.stage]]\ntorque = "24 N·m"\n'
    record = walked(tmp_path, "", "", "verify 24 N·m by Ben", text=text, by="Ada")
    assert "by Ben Checked: 24 N·m" in Page(record_page([record])).text


def test_a_wrench_whose_calibration_ran_out_before_is_called_so(tmp_path: Path) -> None:
    bench = Bench(today=MORNING.date(), rack=rack(due=date(2026, 1, 31)))
    record = walked(tmp_path, "", "", "1", *[""] * 4, bench=bench)
    shown = Page(record_page([record]))
    assert shown.row("W2") == ["W2", "middle", "S-17", "2026-01-31, RAN OUT BEFORE THIS WALK ENDED"]
    assert "use it all the same" in shown.text


def test_practice_values_stand_on_every_sheet_and_at_the_foot_of_every_printed_page(tmp_path: Path) -> None:
    records = [invented(walked(tmp_path, *WHOLE[:n])) for n in (3, 8)]
    text = record_page(records)
    assert text.count('<section class="sheet">') == 3
    assert text.count('<p class="practice">PRACTICE VALUES') == 3
    foot = re.search(r"@bottom-left \{ content: \"([^\"]*)\"", text)
    assert foot is not None
    assert foot[1].startswith("PRACTICE VALUES")


def test_real_values_are_not_called_practice(tmp_path: Path) -> None:
    assert "PRACTICE" not in record_page([walked(tmp_path, *WHOLE)])


CORRECTED = TWO_ROUNDS.replace("12 N·m", "14 N·m")
# What the library says today.
TODAY = Present({"sample": group(CORRECTED)}.get)
CHANGE = "12 N·m is now 14 N·m"


def test_a_walk_by_values_since_corrected_says_so_before_anything_else(tmp_path: Path) -> None:
    record = walked(tmp_path, *WHOLE)
    text = record_page([record], TODAY)
    said = re.findall(r'<p class="practice">Finished by values since corrected: [^<]*</p>', text)
    assert len(said) == 1
    assert CHANGE in said[0]
    assert text.index(said[0]) < text.index('<table class="facts">')
    assert "since corrected" not in record_page([record])


def test_the_list_of_several_names_the_walks_by_values_since_corrected(tmp_path: Path) -> None:
    old, new = walked(tmp_path / "old", *WHOLE), walked(tmp_path / "new", *WHOLE, text=CORRECTED)
    text = record_page([old, new], TODAY)
    states = [cells[3] for cells in Page(text).cells if len(cells) == 8]
    assert states == ["State", "finished; VALUES SINCE CORRECTED", "finished"]
    assert text.count("Finished by values since corrected") == 1


def invented(record: Record) -> Record:
    plan = replace(record.header.plan, invented=True)
    return replace(record, header=replace(record.header, plan=plan))


# --- hostile and large ------------------------------------------------------------------------------


def hostile(record: Record, text: str) -> Record:
    """The record with the text wherever a person can write one."""
    landmarks = tuple(replace(mark, text=text[:40]) for mark in record.header.plan.layout.landmarks)
    plan = replace(
        record.header.plan,
        name=text, assembly=text, thread=text, grade=text, source=text, order_basis=text, seen_from=text,
        conditions=(text,), cautions=(text,), alone=(text,),
        layout=replace(record.header.plan.layout, landmarks=landmarks),
    )  # fmt: skip
    header = replace(record.header, plan=plan, bay=text, work_order=text, by=text)
    events = tuple(replace(event, by=text) for event in record.told.events)
    return replace(record, header=header, told=replace(record.told, events=events))


PICTURE = "diagram = '''\n  FRONT  1 2\n         3 4\n'''\n[[group.stage]]\ntorque = \"12 N·m\"\n"


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_no_text_becomes_anything_but_text(tmp_path: Path, text: str) -> None:
    plain = Page(record_page([walked(tmp_path / "plain", "", "note rust", "", text=PICTURE)]))
    record = walked(tmp_path / "odd", "", f"note {text}", "", text=PICTURE)
    page_text = record_page([hostile(record, text)])
    shown = Page(page_text)
    assert [tag for tag in shown.tags if tag in ACTIVE] == []
    assert set(shown.tags) <= set(plain.tags) | {"p", "ul", "li", "td", "tr"}
    assert {name for name, _ in shown.attributes} <= {name for name, _ in plain.attributes}
    assert not any(char in page_text for char in "\x00\x07\x1b\u200b\u202e\u202c")
    assert page_text.count("<style>") == 1
    style = page_text.partition("<style>")[2].partition("</style>")[0]
    assert style.count("{") == style.count("}")
    assert escape(text)[:20] in shown.text


def test_a_page_loads_nothing(tmp_path: Path) -> None:
    text = record_page([walked(tmp_path, *WHOLE)])
    shown = Page(text)
    assert not ACTIVE & set(shown.tags)
    assert not [name for name, _ in shown.attributes if name in ("src", "href", "style") or name[:2] == "on"]
    outside = [value for _, value in shown.attributes if "//" in value]
    assert set(outside) <= {"http://www.w3.org/2000/svg"}
    assert "default-src 'none'" in text
    assert "url(" not in text
    assert "@import" not in text


@pytest.mark.slow
def test_two_hundred_bolts_are_all_on_the_page(tmp_path: Path) -> None:
    text = 'layout = { circle = 200 }\n[[group.stage]]\ntorque = "12 N·m"\n'
    record = walked(tmp_path, "", "", *[""] * 196, "skip 150", text=text)
    shown = Page(record_page([record]))
    ticks = next(text for text in shown.texts if text.startswith("stage 1: "))
    told = {int(pair.split(" ")[0]) for pair in ticks.removeprefix("stage 1: ").split(", ")}
    ticked = {label for event in record.told.events if event.kind == "check-off" for label in event.bolts}
    assert told == ticked
    assert len(told) == 197
    states = bolt_states(record)
    assert states[150] == "skipped"
    assert sum(state == "open" for state in states.values()) == 2


def test_the_title_cannot_leave_the_style_sheet() -> None:
    text = page('"; } body { display: none } </style><script>', ["<p>seen</p>"], practice=True)
    style = text.partition("<style>")[2].partition("</style>")[0]
    assert "{ display: none }" not in style
    foot = next(line for line in style.splitlines() if "@bottom-left" in line)
    assert foot.count('"') % 2 == 0
    assert foot.count("{") == foot.count("}") == 3
    assert text.count("</style>") == 1


def test_spans_name_every_label_once() -> None:
    assert spans([3, 1, 2, 2, 9]) == "1–3, 9"


# --- pictures ---------------------------------------------------------------------------------------


def test_the_picture_of_each_place_shows_what_every_bolt_has_come_to(tmp_path: Path) -> None:
    text = 'layout = { circle = 4 }\nplaces = ["left", "right"]\n[[group.stage]]\ntorque = "12 N·m"\n'
    record = walked(tmp_path, "", "", "skip 3", "", "", text=text)
    assert bolt_states(record, "left")[3] == "skipped"
    assert set(bolt_states(record, "right").values()) == {"open"}
    shown = record_page([record])
    assert shown.count("<svg") == 2
    assert "left; - left out, number alone: done" in Page(shown).text


def test_a_bolt_that_moved_in_a_recheck_is_marked(tmp_path: Path) -> None:
    text = (
        'count = 4\n[[group.stage]]\ntorque = "12 N·m"\n[[group.stage]]\ntorque = "12 N·m"\nrecheck = true\n'
    )
    record = walked(tmp_path, "", "", "", "", "", "", "", "moved", "", "", text=text)
    moved = [event.bolts for event in record.told.events if event.kind == "moved"]
    assert [label for label, state in bolt_states(record).items() if state == "moved"] == [moved[0][0]]
