"""Names and places as people and systems have them: odd names, links, devices, full and read-only places."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from torqref.cli import main
from torqref.walk.archive import journals, read_record

ROOT = Path(__file__).parents[2]
Capture = pytest.CaptureFixture[str]
ODD_NAMES = (
    "two words", "an ace's \"q\"", "Ölwanne 漢字 🔧", "-dash", "--json", "#hash", "semi;colon", "$HOME", "per%cent",
    "new\nline", "esc\x1b[2Jape", "b" * 200,
)  # fmt: skip
# Ids that would lead out of the folder of records, or into another one, if they were file names.
LEADING_OUT = ("../../out", "/tmp/out", "..", ".", "a/b", "a\\b", "~", "nul", "漢" * 100, "x" * 300, "a\tb")


def sheet(identity: str) -> str:
    quoted = identity.replace("\\", "\\\\").replace('"', '\\"').replace("\t", "\\t")
    return (
        f'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n[[group]]\nid = "{quoted}"\ncount = 2\n'
        'condition = "dry"\n[[group.stage]]\ntorque = "24 N·m"\n'
    )


def library(folder: Path, identity: str = "lid") -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "sheet.toml").write_text(sheet(identity), encoding="utf-8")
    return folder


def torqref(
    *words: str | Path, lines: str = "", limit: int | None = None
) -> subprocess.CompletedProcess[str]:
    """The process itself, with a time limit: nothing may wait for ever."""
    return subprocess.run(
        [sys.executable, "-m", "torqref", *map(str, words)],
        input=lines,
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=60,
        preexec_fn=None if limit is None else lambda: limited(limit),
    )


def walked(specs: Path, records: Path, identity: str = "lid", presses: int = 3) -> None:
    done = torqref(
        "walk", "--plain", "--specs", specs, "--records", records, "--", identity, lines="\n" * presses
    )
    assert (done.returncode, "Traceback" in done.stderr) == (0, False), done.stderr
    assert done.stdout.splitlines()[-1] == "finished"


# --- names ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ODD_NAMES, ids=ascii)
def test_a_folder_of_any_name_holds_library_and_records(name: str, tmp_path: Path) -> None:
    specs, records = library(tmp_path / name / "specs"), tmp_path / name / "records"
    walked(specs, records)
    shown = torqref("record", "--records", records)
    assert shown.returncode == 0
    assert "finished" in shown.stdout
    told = torqref("check", specs / "sheet.toml")
    assert "\x1b" not in told.stdout + told.stderr + shown.stdout + shown.stderr


@pytest.mark.parametrize("identity", LEADING_OUT, ids=ascii)
def test_an_id_cannot_lead_out_of_the_folder_of_records(identity: str, tmp_path: Path) -> None:
    records = tmp_path / "deep" / "records"
    specs = library(tmp_path / "specs", identity)
    before = {path for path in tmp_path.rglob("*") if path.is_file()}
    walked(specs, records, identity)
    made = {path for path in tmp_path.rglob("*") if path.is_file()} - before
    (journal,) = journals(records)
    assert journal in made
    assert all(records in path.parents for path in made), made
    assert len(journal.name.encode()) <= 255
    record, problems = read_record(journal)
    assert problems == ()
    assert record is not None


def test_ids_that_share_a_file_name_stay_two_walks(tmp_path: Path) -> None:
    one, two = library(tmp_path / "one", "a/b"), library(tmp_path / "two", "a_b")
    records = tmp_path / "records"
    for specs, identity in ((one, "a/b"), (two, "a_b")):
        opened = torqref("walk", "--plain", "--specs", specs, "--records", records, identity, lines="\n")
        assert opened.stdout.splitlines()[-1] == "paused"
    assert len(list(journals(records))) == 2


# --- places -----------------------------------------------------------------------------------------


def too_long(folder: Path) -> Path:
    return folder.joinpath(*["d" * 250] * 20)


def a_loop(folder: Path) -> Path:
    (folder / "loop").symlink_to(folder / "pool")
    (folder / "pool").symlink_to(folder / "loop")
    return folder / "loop"


def a_file(folder: Path) -> Path:
    (folder / "file").write_text("", encoding="utf-8")
    return folder / "file"


def below_a_file(folder: Path) -> Path:
    return a_file(folder) / "below"


def a_dangling_link(folder: Path) -> Path:
    (folder / "dangling").symlink_to(folder / "nowhere" / "further")
    return folder / "dangling"


NO_PLACES = (too_long, a_loop, a_file, below_a_file, a_dangling_link)


@pytest.mark.parametrize("place", NO_PLACES)
def test_a_place_that_cannot_hold_records_is_refused_in_words(place: object, tmp_path: Path) -> None:
    assert callable(place)
    specs, records = library(tmp_path / "specs"), place(tmp_path)
    done = torqref("walk", "lid", "--plain", "--specs", specs, "--records", records)
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert "Name another one with --records DIR" in done.stderr


@pytest.mark.parametrize("place", NO_PLACES)
def test_a_place_that_cannot_hold_a_library_is_told(place: object, tmp_path: Path, capsys: Capture) -> None:
    assert callable(place)
    path = str(place(tmp_path))
    assert main(["find", "lid", "--specs", path]) == 1
    assert "this library folder is not there" in capsys.readouterr().err
    for words in (["record", "--records", path], ["check", path], ["walk", "lid", "--rack", path, "--plain"]):
        assert main(words) in (0, 1)
        assert "Traceback" not in capsys.readouterr().err


@pytest.mark.parametrize("place", [too_long, below_a_file, a_loop])
def test_a_sheet_that_cannot_be_written_is_refused_in_words(
    place: object, tmp_path: Path, capsys: Capture
) -> None:
    assert callable(place)
    path = str(place(tmp_path))
    assert main(["show", "exhaust-manifold", "--html", path]) == 1
    assert "exhaust-manifold" not in capsys.readouterr().out


def test_links_to_folders_and_files_are_followed_and_loops_are_not(tmp_path: Path) -> None:
    library(tmp_path / "real")
    (tmp_path / "real" / "self").symlink_to(tmp_path / "real")
    (tmp_path / "real" / "dangling.toml").symlink_to(tmp_path / "nowhere.toml")
    (tmp_path / "real" / "folder.toml").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    (tmp_path / "kept").mkdir()
    (tmp_path / "records").symlink_to(tmp_path / "kept")
    walked(tmp_path / "link", tmp_path / "records")
    assert len(list(journals(tmp_path / "kept"))) == 1


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with names")
def test_pipes_and_devices_are_never_waited_for(tmp_path: Path) -> None:
    specs = library(tmp_path / "specs")
    os.mkfifo(specs / "pipe.toml")
    (specs / "endless.toml").symlink_to("/dev/zero")
    records = tmp_path / "records"
    records.mkdir()
    os.mkfifo(records / "20270301-080000-lid.walk")
    walked(specs, records)
    assert torqref("find", "lid", "--specs", specs).returncode == 0
    assert torqref("record", "--records", records).returncode == 0
    for name in ("pipe.toml", "endless.toml"):
        told = torqref("check", specs / name)
        assert (told.returncode, "is a pipe or a device" in told.stdout) == (1, True), told


# --- full and gone ------------------------------------------------------------------------------------


def limited(size: int) -> None:
    """No file of this process may grow beyond so many bytes: what a full disk does, for root too."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


@pytest.mark.parametrize("size", [0, 100, 4000])
def test_a_full_disk_ends_in_words_and_ticks_nothing_that_is_not_kept(size: int, tmp_path: Path) -> None:
    specs, records = library(tmp_path / "specs"), tmp_path / "records"
    done = torqref(
        *("walk", "lid", "--plain", "--specs", specs, "--records", records),
        lines="\n" + "note a remark that fills the disk\n" * 60 + "\n",
        limit=size,
    )
    assert "Traceback" not in done.stderr
    assert "NOT recorded" in done.stdout + done.stderr or "cannot be written" in done.stderr
    for journal in journals(records):
        record, problems = read_record(journal)
        assert problems == ()
        assert record is not None
        assert journal.stat().st_size <= size


def test_a_folder_that_goes_away_in_the_middle_is_told_and_nothing_is_ticked(tmp_path: Path) -> None:
    specs, records = library(tmp_path / "specs"), tmp_path / "records"
    child = subprocess.Popen(
        [sys.executable, "-m", "torqref", "walk", "lid", "--plain", "--specs", specs, "--records", records],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )
    assert child.stdin is not None
    assert child.stdout is not None
    said = ""
    while "enter =" not in said:
        said = child.stdout.readline()
    records.rename(tmp_path / "elsewhere")
    out, err = child.communicate("\n\n", timeout=60)
    assert "NOT recorded" in out
    assert "finished" not in out
    assert "Traceback" not in err
