"""The signed record of a job: steps, walks, left out, corrections, rechecks, cautions, sources, slip."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.commands.repair import Garage, group
from tests.sheets.folder import HOSTILE, Page, walked
from torqref.library.item import Notice
from torqref.sheets.job_page import job_page
from torqref.sheets.job_record import corrections, job_text, job_values
from torqref.sheets.slip import job_slip, slip_page, slip_text, walk_slip
from torqref.walk.job_archive import JobRecord, job_records


@pytest.fixture
def garage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Garage:
    return Garage(folder=tmp_path, monkeypatch=monkeypatch)


def record_of(garage: Garage) -> JobRecord:
    (record, *_), problems = job_records(garage.records)
    assert not problems
    return record


def test_every_step_stands_on_the_page_with_its_result_and_time(signed: JobRecord) -> None:
    shown = Page(job_page(signed))
    steps = {cells[0]: cells for cells in shown.cells if len(cells) == 5 and cells[0].isdigit()}
    assert [int(number) for number in steps] == list(range(1, 36))
    assert steps["6"][1:4] == [
        "deck flatness, straightedge and feeler gauge, six directions", "<= 0.05 mm", "done, measured 0.03 mm",
    ]  # fmt: skip
    assert steps["14"][3:] == ["not for this one", ""]
    assert steps["1"][1].startswith("MADE SAFE: ")
    times = [cells[4] for number, cells in steps.items() if number != "14"]
    assert times == sorted(times)
    assert all(time.startswith("2027-03-01 ") for time in times)


def test_the_page_names_order_people_facts_wrenches_and_sources(signed: JobRecord) -> None:
    shown = Page(job_page(signed))
    assert shown.row("Work order")[1] == "W-4711"
    assert shown.row("Engine")[1] == "Q"
    assert shown.row("By")[1] == "Ada"
    assert shown.row("W2")[2:] == ["PRACTICE-0102", "2028-02-15"]
    assert "Brindle 24 practice values, repair sheet V-1" in shown.text
    assert "engine Q, sheets 1 to 9" in shown.text
    assert "signed Ada, 2027-03-01" in shown.text


def test_what_was_set_on_the_crowfoot_and_with_drag_is_told_beside_what_was_printed(
    signed: JobRecord,
) -> None:
    shown = Page(job_page(signed))
    rows = [cells for cells in shown.cells if len(cells) == 7]
    pipe = next(cells for cells in rows if cells[0] == "2, cylinder 1")
    assert pipe[1] == "28 N·m (window 26–30 N·m)"
    assert pipe[2] == "28.0 N·m on W2 with crowfoot flare-17@90"
    manifold = next(cells for cells in rows if cells[1] == "12 N·m")
    assert manifold[2] == "13.8 N·m on W1"
    assert shown.row("Locking drag")[1] == "1.8 N·m measured, added to every value"


def test_every_caution_stands_on_the_page_and_the_work_defers_to_the_manufacturer(signed: JobRecord) -> None:
    shown = Page(job_page(signed))
    assert all(f"CAUTION: {caution.text}" in shown.text for caution in signed.plan.cautions)
    assert (
        "The manufacturer's service information, local codes and licensed practice come first." in shown.text
    )


def test_practice_values_are_said_with_every_walk_and_at_the_foot_of_every_page(signed: JobRecord) -> None:
    text = job_page(signed)
    assert text.count('<p class="practice">PRACTICE VALUES') == len(signed.walks) + 2
    assert '@bottom-left { content: "PRACTICE VALUES' in text


def test_rechecks_have_their_day_their_band_and_stay_open(signed: JobRecord) -> None:
    shown = Page(job_page(signed))
    assert shown.row("coolant level, cold") == ["coolant level, cold", "500 km", "", "-0.3–0.0 L", "open"]
    leaks = shown.row("look for leaks at coolant pump, fuel pipes and thermostat cover")
    assert leaks[1:3] == ["14 days or 10 heat cycles", "2027-03-15"]


def test_walks_by_values_since_corrected_are_named_on_the_cover_and_beside_the_walk(
    signed: JobRecord,
) -> None:
    pump = next(walk for walk in signed.walks.values() if walk.header.plan.group == "coolant-pump")
    change = "stage 3: 22 N·m is now 24 N·m"
    text = job_page(signed, lambda walk: (change,) if walk is pump else ())
    cover, _, rest = text.partition("</section>")
    assert (
        f"{pump.header.plan.name}: finished by values since corrected: {change}"
        in Page(f"{cover}</section>").text
    )
    assert rest.count(f"Finished by values since corrected: {change}") == 1
    assert "since corrected" not in job_page(signed)


FLAW = """
[[step]]
do = "bracket"
[[step]]
check = "end float"
band = "0.03–0.13 mm"
"""
LIBRARY = group("bracket", 'torque = "30 N·m"', more="count = 4")


def test_left_out_notes_troubles_and_corrections_stand_above_the_signature(garage: Garage) -> None:
    garage.write(FLAW, LIBRARY)
    garage.small(
        lines="\n\ntrouble 1\n\npage 33 N·m\n\n\n\n\n\nnote gauge is away\nskip no gauge\nsign Ada\n"
    )
    record = record_of(garage)
    assert record.state == "signed"
    assert list(corrections(record)) == ["bracket, stage 1: 30 N·m in the library, 33 N·m on the page"]
    text = Page(job_page(record)).text
    assert "end float: no gauge" in text
    assert "gauge is away" in text
    assert "Trouble stage 1 bolt 1: stripped" in text
    assert "bracket, stage 1: 30 N·m in the library, 33 N·m on the page" in text


def test_a_walk_that_was_begun_again_does_not_count_and_is_kept(garage: Garage) -> None:
    garage.write(FLAW, LIBRARY)
    garage.small(lines="\n" + "\n" * 5 + "again 1\n" + "\n" * 5)
    text = Page(job_page(record_of(garage))).text
    assert text.count("Begun again: this walk does not count.") == 1


def test_a_job_that_is_not_signed_has_a_line_to_sign_on(garage: Garage) -> None:
    garage.write("signatures = 2\n" + FLAW, LIBRARY)
    garage.small(lines="\n")
    text = job_page(record_of(garage))
    assert text.count("<div>name, date, signature</div>") == 2
    assert "OPEN" in Page(text).text


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_words_of_a_job_stay_words(signed: JobRecord, text: str) -> None:
    plan = replace(
        signed.plan,
        name=text, assembly=text, source=text, sources=(text,), cautions=(Notice(text=text, source=text),),
        steps=tuple(replace(step, lines=(text,), name=text) for step in signed.plan.steps),
        rechecks=tuple(replace(recheck, text=text) for recheck in signed.plan.rechecks),
    )  # fmt: skip
    progress = replace(
        signed.progress,
        plan=plan, notes=(text,), work_order=text, facts={text: text}, signed=((text, "2027-03-01T10:00:00"),),
        left_out={2: text},
    )  # fmt: skip
    odd = replace(signed, plan=plan, progress=progress)
    for page in (job_page(odd), slip_page([job_slip(odd)])):
        shown = Page(page)
        assert not {"script", "img", "link", "iframe"} & set(shown.tags)
        assert not any(char in page for char in "\x00\x07\x1b\u200b\u202e")
        assert page.count("</style>") == 1


# --- text, values, slip -----------------------------------------------------------------------------


def test_the_text_tells_the_steps_then_each_walk(signed: JobRecord) -> None:
    text = list(job_text(signed))
    assert text[0] == "Cylinder head, coolant pump and front end back on, Brindle 24 utility truck"
    assert "18  drag of one new locking nut on its stud, run down by hand wrench: done, measured 1.8 N·m" in [
        line.rpartition(", ")[0] for line in text
    ]
    assert sum(line.startswith("Walk ") for line in text) == len(signed.walks) == 11


def test_the_values_name_the_walks_and_what_is_due(signed: JobRecord) -> None:
    values = job_values(signed)
    assert values["work_order"] == "W-4711"
    assert len(values["walks"]) == 11
    assert [line.split(",")[0] for line in values["due"]] == ["recheck 1", "recheck 2"]


def test_the_slip_tells_the_owner_what_and_when(signed: JobRecord) -> None:
    text = list(slip_text(job_slip(signed)))
    assert "[ ] coolant level, cold: after 500 km" in text
    assert any(line.endswith("after 14 days or 10 heat cycles, by 2027-03-15") for line in text)
    assert "PRACTICE VALUES: invented, not for any real vehicle" in text
    shown = Page(slip_page([job_slip(signed)]))
    assert shown.row("coolant level, cold")[1] == "after 500 km"
    assert shown.row("Work order")[1] == "W-4711"


def test_a_wheel_walk_has_its_slip_from_the_wait_in_its_group(tmp_path: Path) -> None:
    """Again after the first 80 km: the recheck that most wheel losses miss (common practice, no source)."""
    text = (
        'count = 4\n[[group.stage]]\ntorque = "140 N·m"\n[[group.stage]]\nwait = "80 km driven"\n'
        'due = { km = 80 }\n[[group.stage]]\ntorque = "140 N·m"\nrecheck = true\n'
    )
    record = walked(tmp_path, *[""] * 5, text=text)
    (slip,) = [walk_slip(record)]
    assert slip.rechecks == (("sample: tighten again", "80 km"),)
    done = walked(tmp_path / "done", *[""] * 5, "1", *[""] * 4, text=text)
    assert done.state == "finished"
    assert walk_slip(done).rechecks == ()
