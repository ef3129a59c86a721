"""Job files beside the library: which there are, what is wrong with them, and one with its groups."""

from __future__ import annotations

from pathlib import Path

from torqref.library.folder import library_files, shipped_folder
from torqref.library.job_shelf import job_with_groups, read_jobs

HEAD = 'format = 1\njob = "{id}"\nname = "{name}"\n'
STEP = '[[step]]\ntext = "sweep up"\n'


def written(folder: Path, file: str, name: str, steps: str = STEP, identity: str = "") -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{file}.job.toml"
    path.write_text(HEAD.format(id=identity or file, name=name) + steps, encoding="utf-8")
    return path


def test_jobs_lie_beside_library_files_and_are_no_libraries(tmp_path: Path) -> None:
    written(tmp_path / "trucks", "head", "Head")
    written(tmp_path, "brakes", "Brakes")
    jobs, problems = read_jobs((tmp_path,))
    assert [job.name for job in jobs] == ["Brakes", "Head"]
    assert not problems
    assert not list(library_files(tmp_path))


def test_a_job_of_a_later_folder_stands_in_front_of_an_earlier_one(tmp_path: Path) -> None:
    written(tmp_path / "shop", "head", "As the shop has it")
    written(tmp_path / "own", "mine", "As I have it", identity="head")
    jobs, _ = read_jobs((tmp_path / "shop", tmp_path / "nowhere", tmp_path / "own"))
    assert [job.name for job in jobs] == ["As I have it"]


def test_a_file_with_a_fault_is_told_and_the_others_are_there(tmp_path: Path) -> None:
    written(tmp_path, "bad", "Bad", '[[step]]\ntxet = "sweep up"\n')
    written(tmp_path, "good", "Good")
    jobs, problems = read_jobs((tmp_path,))
    assert [job.name for job in jobs if job.id == "good"] == ["Good"]
    assert any(problem.file.endswith("bad.job.toml") and problem.severity == "error" for problem in problems)


def test_a_job_comes_with_the_groups_it_names(tmp_path: Path) -> None:
    path = written(tmp_path, "pump", "Pump", '[[step]]\ndo = "coolant-pump"\n')
    job, groups, problems = job_with_groups(path, (shipped_folder(),))
    assert job is not None
    assert list(groups) == ["coolant-pump"]
    assert not [problem for problem in problems if problem.severity == "error"]


def test_a_group_that_is_nowhere_is_a_fault_of_the_job(tmp_path: Path) -> None:
    path = written(tmp_path, "pump", "Pump", '[[step]]\ndo = "coolant-pum"\n')
    _, groups, problems = job_with_groups(path, (shipped_folder(),))
    assert not groups
    assert any("coolant-pum" in problem.sentence() for problem in problems if problem.severity == "error")


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    job, _, problems = job_with_groups(tmp_path / "gone.job.toml", ())
    assert job is None
    assert len(problems) == 1
