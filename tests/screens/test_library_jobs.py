"""Open jobs in the library: on top, one line each, and the walks of a job go on in it alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.bay import Bay, Seen
from tests.screens.job_stage import job
from torqref.library.group import Group
from torqref.library.shelf import read_shelf, shipped_folder
from torqref.walk.archive import open_records
from torqref.walk.job_archive import job_records
from torqref.walk.job_opening import open_job
from torqref.walk.job_session import Bay as Workplace
from torqref.walk.job_session import JobSession
from torqref.walk.open_job import open_jobs
from torqref.walk.opening import Request, resume
from torqref.wrench.rack import Rack

STEPS = (
    '[[step]]\ntext = "hood open"\nalone = true\n[[step]]\ndo = "exhaust-manifold"\nto_stage = 2\n'
    '[[step]]\ntext = "sweep up"\n'
)


@pytest.fixture(scope="module")
def groups() -> dict[str, Group]:
    return read_shelf((shipped_folder(),)).groups


def begun(bay: Bay, groups: dict[str, Group], *, name: str = "", walked: bool = True) -> JobSession:
    """A job that was begun and put down, in the walk of its second step."""
    here = Workplace(folder=bay.records, name=name or bay.name, groups=groups, rack=Rack())
    opening = open_job(job(STEPS), here, Request(folder=bay.records, bay=name or bay.name), bay.clock)
    session = opening.session
    assert session is not None
    for _ in range(2):
        bay.clock.go(seconds=1)
        session.press()
    if walked:
        walk = session.enter().session
        assert walk is not None
        bay.clock.go(seconds=1)
        walk.press()
        session.leave(walk)
    session.close()
    bay.clock.go(minutes=1)
    return session


def test_an_open_job_stands_on_top_and_enter_goes_on_with_it(bay: Bay, groups: dict[str, Group]) -> None:
    session = begun(bay, groups)

    async def script(seen: Seen) -> None:
        assert "JOB" in seen.marked
        assert "Small repair" in seen.marked
        assert "1 of 3 done, step 2: Exhaust manifold" in seen.flat
        await seen.press("enter")
        assert seen.name == "JobScreen"
        assert "step 2 of 3" in seen.text
        bay.clock.go(seconds=1)
        await seen.press("q")
        assert seen.name == "LibraryScreen"
        assert "Job paused." in seen.text

    bay.show("library", script, size=(100, 30))
    (record,), _ = job_records(bay.records)
    assert record.header.id == session.header.id
    assert [event.kind for event in record.told.events].count("opened") == 2


def test_the_walks_of_an_open_job_are_not_offered_beside_it(bay: Bay, groups: dict[str, Group]) -> None:
    begun(bay, groups)

    async def script(seen: Seen) -> None:
        assert not any(" OPEN " in line for line in seen.lines)

    bay.show("library", script)


def test_numbers_count_jobs_first_and_then_walks(bay: Bay, groups: dict[str, Group]) -> None:
    bay.begin(groups["coolant-pump"], presses=2)
    begun(bay, groups)

    async def script(seen: Seen) -> None:
        await seen.type("2")
        assert "Coolant pump" in seen.marked
        await seen.press("backspace")
        await seen.type("1")
        assert "JOB" in seen.marked

    bay.show("library", script, size=(100, 30))


@pytest.mark.parametrize("size", [(100, 30), (80, 24), (60, 20), (44, 18), (40, 12)])
def test_the_line_of_a_job_fits_every_size(bay: Bay, groups: dict[str, Group], size: tuple[int, int]) -> None:
    begun(bay, groups)

    async def script(seen: Seen) -> None:
        assert seen.fills(*size)
        assert "JOB" in seen.marked
        assert "Small repair" in seen.marked

    bay.show("library", script, size=size)


def test_the_job_of_another_bay_is_only_taken_over_when_asked(bay: Bay, groups: dict[str, Group]) -> None:
    begun(bay, groups, name="bay 2")

    async def script(seen: Seen) -> None:
        assert "bay 2" in seen.marked
        await seen.press("enter")
        assert "Bay bay 2 has this job; take it over?" in seen.flat
        await seen.press("2")
        assert seen.name == "LibraryScreen"
        await seen.press("enter", "1")
        assert seen.name == "JobScreen"

    bay.show("library", script)


def test_a_signed_job_is_not_listed_as_open(bay: Bay, groups: dict[str, Group]) -> None:
    here = Workplace(folder=bay.records, name=bay.name, groups=groups, rack=Rack())
    opening = open_job(
        job('[[step]]\ntext = "sweep up"\n'), here, Request(folder=bay.records, bay=bay.name), bay.clock
    )
    session = opening.session
    assert session is not None
    for line in ("", "", "sign Ada"):
        bay.clock.go(seconds=1)
        session.say(line)
    session.close()
    assert open_jobs(bay.records, bay.clock(), bay.name) == ()


def test_a_walk_of_an_open_job_is_refused_outside_of_it_and_free_when_the_job_is_over(
    bay: Bay, groups: dict[str, Group], tmp_path: Path
) -> None:
    session = begun(bay, groups)
    (record,), _ = open_records(bay.records)
    request = Request(folder=bay.records, bay=bay.name)
    refused = resume(record, request, bay.clock)
    assert refused.session is None
    assert refused.refusal is not None
    assert session.header.id in refused.refusal.message
    again = open_job(job(STEPS), session.bay, request, bay.clock).session
    assert again is not None
    again.say("abandon 1")
    again.close()
    free = resume(record, request, bay.clock)
    assert free.session is not None
    free.session.close()


def test_in_the_records_an_open_job_goes_on_where_it_stands(bay: Bay, groups: dict[str, Group]) -> None:
    begun(bay, groups)

    async def script(seen: Seen) -> None:
        await seen.type("job ")
        await seen.press("enter")
        assert seen.name == "JobScreen"
        assert "step 2 of 3" in seen.text

    bay.show("record", script)


def test_in_the_records_a_walk_of_an_open_job_says_that_it_goes_on_in_it(
    bay: Bay, groups: dict[str, Group]
) -> None:
    session = begun(bay, groups)

    async def script(seen: Seen) -> None:
        await seen.type("manifold")
        while "JOB" in seen.marked:
            await seen.press("down")
        await seen.press("enter")
        assert seen.name == "RecordScreen"
        assert session.header.id in seen.flat

    bay.show("record", script, size=(100, 30))


# --- beginning one by its file ------------------------------------------------------------------------

REPAIR = 'format = 1\njob = "small"\nname = "Small repair"\nassembly = "Test bench"\n'


WHOLE = STEPS.replace("to_stage = 2\n", "")


def filed(bay: Bay, steps: str = WHOLE, name: str = "small") -> Path:
    """A job file in a folder that stands beside the shipped library."""
    folder = bay.home / "shop"
    folder.mkdir(exist_ok=True)
    path = folder / f"{name}.job.toml"
    path.write_text(REPAIR + steps, encoding="utf-8")
    bay.libraries = (shipped_folder(), folder)
    return path


def test_a_job_file_of_a_library_folder_is_listed_and_enter_begins_it(bay: Bay) -> None:
    path = filed(bay)

    async def script(seen: Seen) -> None:
        assert any(" REPAIR " in line and "1 group, Test bench" in line for line in seen.lines)
        await seen.type("small rep")
        assert "REPAIR" in seen.marked
        assert " enter  begin " in seen.lines[-1]
        assert str(path.name) in seen.flat
        await seen.press("enter")
        assert seen.name == "JobScreen"
        assert "Small repair, Test bench" in seen.text
        bay.clock.go(seconds=1)
        await seen.press("q")
        assert seen.name == "LibraryScreen"
        assert "Job paused." in seen.text
        assert "JOB" in seen.marked

    bay.show("library", script, size=(100, 30))
    (record,), _ = job_records(bay.records)
    assert record.plan.job == "small"


@pytest.mark.parametrize(("digit", "jobs"), [("1", 1), ("2", 2), ("9", 1)])
def test_a_repair_that_is_open_already_asks_whether_another_one_is_meant(
    bay: Bay, groups: dict[str, Group], digit: str, jobs: int
) -> None:
    begun(bay, groups)
    filed(bay)

    async def script(seen: Seen) -> None:
        while "REPAIR" not in seen.marked:
            await seen.press("down")
        await seen.press("enter")
        assert "This repair is open already." in seen.flat
        await seen.press(digit)
        if digit == "9":
            assert seen.name == "LibraryScreen"
            return
        assert seen.name == "JobScreen"
        assert ("step 2 of 3" in seen.text) is (digit == "1")

    bay.show("library", script, size=(100, 30))
    assert len(job_records(bay.records)[0]) == jobs


def test_the_open_repair_of_another_bay_keeps_nobody_from_beginning_it_here(
    bay: Bay, groups: dict[str, Group]
) -> None:
    begun(bay, groups, name="bay 2")
    filed(bay)

    async def script(seen: Seen) -> None:
        while "REPAIR" not in seen.marked:
            await seen.press("down")
        await seen.press("enter")
        assert seen.name == "JobScreen"
        assert "step 2 of 3" not in seen.text

    bay.show("library", script, size=(100, 30))


def test_a_repair_whose_group_is_nowhere_tells_it_and_nothing_is_begun(bay: Bay) -> None:
    filed(bay, '[[step]]\ndo = "exhaust-manifolt"\n')

    async def script(seen: Seen) -> None:
        await seen.type("repair")
        await seen.press("enter")
        assert seen.name == "ProblemsScreen"
        assert "exhaust-manifolt" in seen.flat
        await seen.press("q")
        assert seen.name == "LibraryScreen"

    bay.show("library", script, size=(100, 30))
    assert not job_records(bay.records)[0]


def test_a_job_file_with_a_fault_is_a_problem_of_the_library(bay: Bay) -> None:
    filed(bay, '[[step]]\ntxet = "sweep up"\n')

    async def script(seen: Seen) -> None:
        assert any(" ERROR" in line for line in seen.lines)
        assert "small.job.toml" in seen.flat

    bay.show("library", script, size=(100, 30))


@pytest.mark.parametrize("size", [(100, 30), (80, 24), (60, 20), (44, 18), (40, 12)])
def test_the_line_of_a_repair_fits_every_size(bay: Bay, size: tuple[int, int]) -> None:
    filed(bay)

    async def script(seen: Seen) -> None:
        await seen.type("small")
        assert seen.fills(*size)
        assert "REPAIR" in seen.marked
        assert "Small repair" in seen.marked

    bay.show("library", script, size=size)


def test_a_mark_moved_to_a_repair_stays_on_it_while_the_list_is_read_again(bay: Bay) -> None:
    filed(bay)

    async def script(seen: Seen) -> None:
        await seen.press("up")
        assert "REPAIR" in seen.marked
        await seen.type("=")
        await seen.press("escape")
        await seen.settled()
        assert "REPAIR" in seen.marked

    bay.show("library", script)
