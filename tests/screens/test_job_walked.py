"""The demo repair through the screens, from the kit to the signed page; killed in the middle, it goes on."""

from __future__ import annotations

import json
import re
import signal
import time
from datetime import datetime
from pathlib import Path

import pytest

from tests.commands.repair import JOB, RACK, Garage
from tests.screens.job_stage import Seen, Stage
from tests.screens.stage import shipped
from tests.screens.terminal import Terminal
from tests.walk.workshop import Clock
from torqref.library.job import read_job
from torqref.walk.job_archive import job_records, read_job_record
from torqref.wrench.rack import read_rack

MORNING = datetime.fromisoformat("2027-03-01T08:00:00+00:00")
# What stands on the screen, and what a careful technician types; the main key answers everything else.
READINGS = (
    ("deck flatness", "0.03 mm"),
    ("old head bolts", "151.4 mm"),
    ("drag of one new", "1.8 N·m"),
    ("coolant temperature", "92 °C"),
    ("road test", "17 km"),
    ("coolant level", "-0.1 L"),
)


async def work(seen: Seen, keys: int) -> int:
    """Answer what the screen says until the job is left, signed or waits; returns the keys that were pressed."""
    for pressed in range(keys):
        bar = " ".join(seen.lines[:4])
        if "SIGNED" in bar or "WAIT " in bar or "WAIT:" in bar:
            return pressed
        if "MUST BE SAFE" in bar or "which one?" in bar or "QUESTION" in bar:
            await seen.quick("1")
        elif "MEASURE" in bar:
            now = next(line for line in seen.lines if re.match(r" > +\d", line))
            await seen.quick(*next(value for words, value in READINGS if words in now), "enter")
        elif "SECOND CHECK" in bar:
            await seen.quick("v", "enter")
        elif "SIGN-OFF" in bar:
            await seen.quick("enter", *"4711", "enter", *"Ada", "enter")
        else:
            await seen.quick("enter")
    raise AssertionError(f"after {keys} keys: {seen.text}")


def demo(folder: Path) -> Stage:
    rack, _ = read_rack(RACK)
    return Stage(folder, clock=Clock(MORNING), groups=shipped(), rack=rack)


def test_the_demo_repair_from_kit_to_signed_page_through_the_screens(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    kit = garage.run("kit", str(JOB), "--rack", str(RACK), "--fact", "engine=Q")
    assert "MISSING" not in kit
    stage, (made, _) = demo(garage.records), read_job(JOB)
    assert made is not None
    titles: list[str] = []

    async def script(seen: Seen) -> None:
        await work(seen, 600)
        titles.append(seen.flat)

    for hours in (0, 0.1, 5):  # morning, after the idle run, in the evening when the manifold is cold
        stage.clock.go(hours=hours)
        session = stage.show(made, script, size=(80, 24))
        if session.progress.signed:
            break
    assert "SIGNED" in titles[-1]

    ticks = signed_off(garage, tmp_path / "signed.html")
    # counted from the demo's pages, as for the same repair by lines
    head, caps, wheel, pump, fan, cover, studs = 4 * 10, 2 * 10, 1, 2 * 9, 1, 3, 10
    manifold, bracket, pipes, lid = 3 * 10, 2, 4 * 2, 2 * 12
    assert ticks == head + caps + wheel + pump + fan + cover + studs + manifold + bracket + pipes + lid


def signed_off(garage: Garage, page: Path) -> int:
    """Looks at the record and the page of the signed job; returns how many bolts were ticked."""
    answer = garage.record()
    (job,) = answer["jobs"]
    assert job["state"] == "recheck due"
    assert job["work_order"] == "4711"
    assert [signature["by"] for signature in job["signed"]] == ["Ada"]
    assert {walk["state"] for walk in answer["walks"]} == {"finished"}
    garage.run("record", job["id"], "--records", str(garage.records), "--html", str(page))
    text = page.read_text(encoding="utf-8")
    assert "signed Ada, 2027-03-01" in text
    assert text.count("<svg") == 6
    assert "PRACTICE VALUES" in text
    return sum(event["kind"] == "check-off" for walk in answer["walks"] for event in walk["events"])


# --- in a real terminal -------------------------------------------------------------------------------


def start(folder: Path, *words: str, **environment: str) -> Terminal:
    """The demo repair in a terminal of its own."""
    call = (
        "-m",
        "torqref",
        "job",
        str(JOB),
        "--rack",
        str(RACK),
        "--records",
        str(folder / "records"),
        *words,
    )
    home = {"XDG_CONFIG_HOME": str(folder / "config"), "XDG_DATA_HOME": str(folder / "data")}
    return Terminal(call, **home, **environment)


def press(terminal: Terminal, *pairs: tuple[str, str]) -> None:
    """Press keys, and after each wait for what the screen then says."""
    for keys, text in pairs:
        time.sleep(0.25)  # a finger is slower than a bounce
        terminal.press(keys)
        terminal.until(text)


TO_THE_HEAD = (
    ("\r", "ENGINE"),
    ("1", "step 1 of 35"),
    ("1", "step 2"),
    ("1", "step 3"),
    ("1", "step 4"),
    ("1", "DO ALL OF THIS"),
    ("\r", "MEASURE"),
)


@pytest.mark.slow
def test_killed_in_the_middle_of_a_walk_it_goes_on_at_the_same_step_and_bolt(tmp_path: Path) -> None:
    terminal = start(tmp_path)
    try:
        terminal.until("CAUTIONS")
        press(terminal, *TO_THE_HEAD)
        press(terminal, ("0.03 mm\r", "step 7"), ("151 mm\r", "READ AND DO"), ("\r", "TIGHTEN"))
        press(terminal, ("\r", "STOP"), ("\r", "HAND"), ("\r", "STOP"), ("\r", "bolt 1"), ("\r", "bolt 2"))
        terminal.signal(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
    finally:
        terminal.close()
    again = start(tmp_path)
    try:
        again.until("step 9 of 35")
        assert "stage 2" in again.plain
        press(again, ("\r", "click 1 again"), ("\r", "bolt 2"))
        press(again, ("q", "put down at stage 2"), ("q", "paused"))
        assert again.ended() == 0
        assert again.is_sane
    finally:
        again.close()
    (record,), problems = job_records(tmp_path / "records")
    assert not problems
    (walk,) = record.walks.values()
    assert [event.kind for event in walk.told.events].count("check-off") == 1


@pytest.mark.slow
def test_killed_between_the_walks_it_goes_on_at_the_same_step(tmp_path: Path) -> None:
    terminal = start(tmp_path)
    try:
        terminal.until("CAUTIONS")
        press(terminal, *TO_THE_HEAD[:4])
        terminal.signal(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
    finally:
        terminal.close()
    again = start(tmp_path)
    try:
        again.until("step 3 of 35")
        again.until("MUST BE SAFE")
        again.signal(signal.SIGTERM)
        assert again.ended() == 0
        assert again.is_sane
    finally:
        again.close()
    (path,) = (tmp_path / "records").glob("*.job")
    record, problems = read_job_record(path)
    assert record is not None
    assert not problems
    assert sorted(record.progress.done) == [1, 2]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "environment"),
    [(("--plain",), {}), ((), {"TERM": "dumb"}), ((), {"TERM": ""})],
    ids=["plain", "dumb", "none"],
)
def test_lines_where_they_are_asked_for_or_a_terminal_can_do_nothing_else(
    tmp_path: Path, words: tuple[str, ...], environment: dict[str, str]
) -> None:
    terminal = start(tmp_path, *words, **environment)
    try:
        terminal.until("enter = read")
        assert "\x1b[?1049h" not in terminal.written
    finally:
        terminal.close()


@pytest.mark.slow
def test_no_color_sends_no_colour(tmp_path: Path) -> None:
    terminal = start(tmp_path, NO_COLOR="1")
    try:
        terminal.until("CAUTIONS")
        press(terminal, *TO_THE_HEAD[:3])
        codes = {
            code for part in re.findall(r"\x1b\[([0-9;]*)m", terminal.written) for code in part.split(";")
        }
        assert not {code for code in codes if code and int(code) >= 30 and code not in ("39", "49")}
    finally:
        terminal.close()


def test_with_json_nothing_is_painted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    said = garage.run("job", str(JOB), "--records", str(garage.records), "--json")
    assert json.loads(said[0])["state"] == "new"
