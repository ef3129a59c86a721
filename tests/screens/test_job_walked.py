"""The demo repair through the screens, from the kit to the signed page."""

from __future__ import annotations

import json
import re
from datetime import datetime
from pathlib import Path

import pytest

from tests.commands.repair import JOB, RACK, Garage
from tests.screens.job_stage import Seen, Stage
from tests.screens.stage import shipped
from tests.walk.workshop import Clock
from torqref.library.job import read_job
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


def test_with_json_nothing_is_painted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    said = garage.run("job", str(JOB), "--records", str(garage.records), "--json")
    assert json.loads(said[0])["state"] == "new"
