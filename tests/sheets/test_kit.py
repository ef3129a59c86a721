"""The kit: every tool, part and fluid of a job once, with what is missing."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from tests.commands.repair import JOB, RACK, Garage, group
from tests.sheets.folder import Page
from torqref.library.job import Job, read_job
from torqref.library.shelf import find_groups, shipped_folder
from torqref.sheets.kit import kit_text, kit_values
from torqref.sheets.kit_page import kit_page
from torqref.walk.kit import Kit, make_kit
from torqref.wrench.rack import Rack, read_rack

TODAY = date(2027, 3, 1)


def demo(rack: Rack | None = None, facts: dict[str, str] | None = None, today: date = TODAY) -> Kit:
    job, problems = read_job(JOB)
    assert isinstance(job, Job)
    assert not problems
    groups, _ = find_groups(job.groups, (shipped_folder(),))
    return make_kit(job, groups, rack or read_rack(RACK)[0], today, facts)


def test_every_wrench_has_all_its_settings_in_the_order_of_the_work() -> None:
    tools = {tool.name.partition(",")[0]: tool for tool in demo(facts={"engine": "Q"}).tools}
    # printed values of the demo: 10, 10, 10, 10, 12 N·m, 40 and 82 in-lb are within 2–25 N·m and 20–220 in-lb
    assert tools["W1"].note == (
        "10.0 N·m (camshaft-caps, coolant-pump, thermostat-cover, exhaust-studs); "
        "12.0 N·m and the measured drag (exhaust-manifold); 40 in-lb (valve-cover); 82 in-lb (valve-cover)"
    )
    assert tools["W3"].note == "60 N·m (cylinder-head); 85 N·m (cam-wheel-bolt)"


def test_the_left_hand_nut_gets_a_wrench_that_measures_anticlockwise() -> None:
    """W3 is marked clockwise only in the demo rack; the fan hub pulls the other way."""
    tools = {tool.name.partition(",")[0]: tool for tool in demo().tools}
    assert "fan-hub" not in tools["W3"].note
    assert "65 N·m (fan-hub)" in tools["W4"].note


def test_each_socket_stands_once_with_its_drives_and_uses() -> None:
    sockets = {tool.name: tool for tool in demo(facts={"engine": "Q"}).tools if tool.kind == "socket"}
    assert sockets["17 mm hex"].note == "1/2 in drive and 3/8 in drive"
    assert sockets["17 mm hex"].uses == ("Cam wheel to camshaft", "Down-pipe bracket")
    assert sockets["14 mm twelve-point"].uses == ("Cylinder head to block",)


def test_parts_are_counted_and_those_used_once_come_first() -> None:
    kit = demo(facts={"engine": "Q"})
    parts = {part.name: (part.count, part.one_time) for part in kit.parts}
    assert parts["head bolt M12 x 150"] == (10, True)
    assert parts["manifold nut M8"] == (10, True)
    assert parts["high-pressure pipe"] == (4, True)
    assert parts["pump gasket"] == (1, True)
    assert parts["banjo washer"] == (2, True)
    assert [part.one_time for part in kit.parts] == sorted(
        (part.one_time for part in kit.parts), reverse=True
    )


def test_a_fact_nobody_has_said_lays_out_for_both_and_says_so() -> None:
    kit = demo()
    assert {part.name: part.count for part in kit.parts}["pump gasket"] == 2
    assert kit.missing == ("engine is not said, so the kit covers Q and R; say it with --fact engine=Q",)


def test_without_a_rack_the_values_to_read_are_listed_and_the_rack_is_missing() -> None:
    kit = demo(rack=Rack(), facts={"engine": "Q"})
    assert kit.missing[0].startswith("no rack is named")
    names = [tool.name for tool in kit.tools if tool.kind == "wrench"]
    assert "torque wrench that reads 82 in-lb" in names
    assert "torque wrench that reads 35 ft-lb" in names


def test_a_wrench_past_its_calibration_is_missing_its_date() -> None:
    kit = demo(facts={"engine": "Q"}, today=date(2027, 12, 1))
    # W1 alone reads in-lb; W3 ran out too, and W4, which is in date, takes its work
    assert kit.missing == ("W1, blue tape: its calibration ran out 1 day ago",)
    tools = {tool.name.partition(",")[0]: tool for tool in kit.tools}
    assert "W3" not in tools
    assert tools["W4"].note.startswith("85 N·m (cam-wheel-bolt)")


def test_angle_gauge_paint_holding_and_measuring_come_from_the_stages(tmp_path: Path) -> None:
    kinds = {tool.kind: tool.name for tool in demo().tools}
    assert kinds["angle"] == "angle gauge"
    assert kinds["marking"] == "paint pen"
    holding = [tool.name for tool in demo().tools if tool.kind == "holding"]
    assert "to hold the injector hexagon with 15 mm" in holding


def test_what_no_wrench_reaches_is_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    garage.write('[[step]]\ndo = "axle"\n', group("axle", 'torque = "320 N·m"', more='one_time = "nut"'))
    call = ("kit", str(tmp_path / "small.job.toml"), "--specs", str(tmp_path / "specs"), "--rack", str(RACK))
    answer = json.loads(garage.run(*call, "--json")[0])
    assert set(answer) == {"tools", "parts", "fluids", "missing"}
    assert any(text.startswith("The axle, 320 N·m: no wrench of the rack fits") for text in answer["missing"])
    assert "The axle: new nut are needed, and the library does not say how many" in answer["missing"]


def test_text_page_and_values_tell_the_same() -> None:
    kit = demo()
    text, shown, values = "\n".join(kit_text(kit)), Page(kit_page(kit)).text, kit_values(kit)
    for tool in kit.tools:
        assert tool.name in text
        assert tool.name in shown
    for part in kit.parts:
        assert f"{part.count} x {part.name}" in text
        assert f"{part.count} x {part.name}" in shown
    assert values["missing"] == list(kit.missing)
    assert "PRACTICE VALUES" in text
    assert "PRACTICE VALUES" in shown


def test_a_page_never_writes_over_another_kind_of_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    garage = Garage(folder=tmp_path, monkeypatch=monkeypatch)
    library = tmp_path / "library.toml"
    library.write_text("format = 1\n", encoding="utf-8")
    code, _ = garage.call("kit", str(JOB), "--html", str(library))
    assert code == 1
    assert library.read_text(encoding="utf-8") == "format = 1\n"
    page = tmp_path / "kit.html"
    for _ in range(2):
        garage.run("kit", str(JOB), "--html", str(page))
    assert page.read_text(encoding="utf-8").startswith("<!doctype html>")
    code, _ = garage.call("kit", str(JOB), "--html", str(tmp_path / "none" / "kit.html"))
    assert code == 1
    assert "cannot be written" in garage.errors
