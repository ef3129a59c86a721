"""The command line as a new user meets it: typos, wrong usage, closed pipes, scripts."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from torqref.cli import COMMANDS, main
from torqref.commands.home import home_of

Capture = pytest.CaptureFixture[str]


def test_help_names_every_command(capsys: Capture) -> None:
    assert main(["--help"]) == 0
    shown = capsys.readouterr().out
    assert all(f"  {name} " in shown for name in COMMANDS)


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_command_has_a_help_of_its_own(name: str, capsys: Capture) -> None:
    with pytest.raises(SystemExit) as stop:
        main([name, "--help"])
    assert stop.value.code == 0
    assert f"usage: torqref {name}" in capsys.readouterr().out


def test_a_mistyped_command_is_answered_with_the_nearest(capsys: Capture) -> None:
    assert main(["wlak"]) == 2
    assert capsys.readouterr().err == '"wlak" is not a command. Did you mean `torqref walk`?\n'


def test_wrong_usage_is_one_line_and_exit_code_two(capsys: Capture) -> None:
    assert main(["crowfoot"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err == (
        "torqref crowfoot: the following arguments are required: TORQUE. `torqref crowfoot --help` says more.\n"
    )


def test_wrong_usage_is_json_for_a_script(capsys: Capture) -> None:
    assert main(["walk", "--json"]) == 2
    answer = json.loads(capsys.readouterr().out)
    assert set(answer) == {"refused", "readings"}


def test_an_option_may_not_be_abbreviated(capsys: Capture) -> None:
    assert main(["find", "--spe", "x"]) == 2
    assert "--spe" in capsys.readouterr().err


def test_every_command_takes_the_shared_options(capsys: Capture) -> None:
    shared = ["--specs", "a", "--specs", "b", "--rack", "r", "--records", "d", "--plain", "--json"]
    for name, words in (("find", []), ("convert", ["24 N·m"]), ("estimate", ["M8", "8.8"])):
        assert main([name, *words, *shared]) == 0
        json.loads(capsys.readouterr().out)


def test_a_value_that_starts_with_a_minus_reaches_the_reading(capsys: Capture) -> None:
    assert main(["convert", "-5Nm"]) == 1
    assert "unrecognized" not in capsys.readouterr().err


def test_a_group_that_is_not_there_is_answered_with_the_nearest(capsys: Capture) -> None:
    assert main(["show", "exaust-manifold"]) == 1
    assert "Did you mean exhaust-manifold?" in capsys.readouterr().err


def test_bare_torqref_in_a_pipe_lists_the_groups_and_exits_two() -> None:
    done = subprocess.run([sys.executable, "-m", "torqref"], input="", capture_output=True, text=True)
    assert done.returncode == 2
    assert "exhaust-manifold" in done.stdout
    assert "screens need a terminal" in done.stderr


def test_a_closed_pipe_is_no_traceback() -> None:
    code = "import sys; from torqref.cli import main; sys.exit(main(['find']))"
    with subprocess.Popen(
        [sys.executable, "-c", code], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as child:
        assert child.stdout is not None
        child.stdout.close()
        assert child.stderr is not None
        assert child.stderr.read() == b""


def test_a_terminal_that_knows_only_ascii_gets_signs_it_can_show() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "torqref", "convert", "22–26 N·m"],
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
    )
    assert done.stdout.decode("ascii").startswith("22-26 N-m\n")


def test_a_script_on_an_ascii_stream_gets_whole_json() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "torqref", "convert", "24 N·m", "--json"],
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
    )
    assert json.loads(done.stdout.decode("ascii"))["stages"][0]["unit"] == "N·m"


def test_bytes_that_are_no_text_do_not_end_a_walk(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "torqref", "walk", "thermostat-cover", "--plain", "--records", str(tmp_path)],
        input=b"\xff\xfe\n\n\n",
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONIOENCODING": "utf-8:strict"},
    )
    assert "is not known here" in done.stdout.decode()
    assert done.stdout.endswith(b"finished\n")


def test_find_takes_words_in_any_order(capsys: Capture) -> None:
    assert main(["find", "manifold", "exhaust", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert [found["id"] for found in answer["groups"]] == ["exhaust-manifold"]
    assert set(answer["groups"][0]) == {"id", "name", "assembly", "file", "matched"}


def test_finding_nothing_is_exit_code_one(capsys: Capture) -> None:
    assert main(["find", "zzz"]) == 1
    assert main(["find", "zzz", "--json"]) == 1
    assert json.loads(capsys.readouterr().out) == {"groups": []}


def test_check_of_a_faulty_file_is_exit_code_one_and_json_has_the_contract(capsys: Capture) -> None:
    faulty = Path(__file__).parents[1] / "library" / "faulty" / "nine_faults.toml"
    assert main(["check", str(faulty), "--json"]) == 1
    problems = json.loads(capsys.readouterr().out)["problems"]
    assert {frozenset(problem) for problem in problems} == {
        frozenset({"file", "line", "key", "message", "mend", "severity"})
    }
    errors = [problem for problem in problems if problem["severity"] == "error"]
    assert len(errors) == 9
    assert all(problem["file"] and problem["line"] and problem["mend"] for problem in errors)


def test_a_good_group_of_a_faulty_file_still_walks(tmp_path: Path) -> None:
    folder = Path(__file__).parents[1] / "library" / "faulty"
    words = ["walk", "good", "--plain", "--specs", str(folder), "--records", str(tmp_path)]
    done = subprocess.run(
        [sys.executable, "-m", "torqref", *words], input="\n\n", capture_output=True, text=True
    )
    assert done.returncode == 0
    assert done.stdout.endswith("finished\n")
    assert "errors, its other groups are here" in done.stderr


def test_check_of_an_empty_and_a_missing_file(tmp_path: Path, capsys: Capture) -> None:
    empty = tmp_path / "empty.toml"
    empty.write_bytes(b"")
    assert main(["check", str(empty), str(tmp_path / "missing.toml")]) == 1
    shown = capsys.readouterr().out
    assert "does not say which format it has" in shown
    assert "cannot be read" in shown


def test_the_shipped_library_passes_its_own_check(capsys: Capture) -> None:
    assert main(["check"]) == 0
    assert "error" not in capsys.readouterr().out


@pytest.mark.parametrize(
    ("environment", "records"),
    [
        ({}, "/home/ada/.local/share/torqref/records"),
        ({"XDG_DATA_HOME": "/data"}, "/data/torqref/records"),
        ({"XDG_DATA_HOME": "not/absolute"}, "/home/ada/.local/share/torqref/records"),
        ({"LOCALAPPDATA": "/local"}, "/local/torqref/records"),
    ],
)
def test_the_users_folders_follow_the_convention(environment: dict[str, str], records: str) -> None:
    assert home_of(environment, Path("/home/ada")).records.as_posix() == records


@pytest.mark.parametrize(
    ("environment", "index"),
    [
        ({}, "/home/ada/.cache/torqref/find.index"),
        ({"XDG_CACHE_HOME": "/cache"}, "/cache/torqref/find.index"),
        ({"XDG_CACHE_HOME": "not/absolute"}, "/home/ada/.cache/torqref/find.index"),
        ({"LOCALAPPDATA": "/local"}, "/local/torqref/find.index"),
    ],
)
def test_the_index_of_finding_is_in_the_cache_folder(environment: dict[str, str], index: str) -> None:
    assert home_of(environment, Path("/home/ada")).index.as_posix() == index


def test_without_a_home_the_shipped_library_is_found(
    monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def homeless() -> Path:
        raise RuntimeError("Could not determine home directory.")

    monkeypatch.setattr(Path, "home", homeless)
    assert main(["find", "manifold"]) == 0
    assert "exhaust-manifold" in capsys.readouterr().out
    assert main(["record"]) == 1
    assert "name another one with --records DIR" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "begins"),
    [
        (["convert", "25 Nm", "--thread", "M8", "--class", "8.8", "ft-lb"], "25 N·m\n  = 18.4 ft-lb\n"),
        (["convert", "--thread=M8", "25 Nm", "--class=8.8", "ft-lb"], "25 N·m\n  = 18.4 ft-lb\n"),
        (["crowfoot", "--offset", "38mm", "40 N·m", "--length", "300mm"], "SET 35.5 N·m"),
        (["estimate", "M8", "--k", "0.2", "8.8"], "ESTIMATE, not a specification: M8x1.25 8.8"),
        (["--specs", "specs", "find", "exhaust-manifold"], "exhaust-manifold  "),
        (["help", "crowfoot"], "usage: torqref crowfoot"),
        (["--help", "crowfoot"], "usage: torqref crowfoot"),
    ],
)
def test_options_may_stand_before_between_and_behind(words: list[str], begins: str, capsys: Capture) -> None:
    try:
        code = main(words)
    except SystemExit as stop:
        code = int(stop.code or 0)
    shown = capsys.readouterr()
    assert code == 0, shown.err
    assert shown.out.startswith(begins)


def test_json_may_stand_before_the_command(capsys: Capture) -> None:
    assert main(["--json", "convert", "25"]) == 1
    assert set(json.loads(capsys.readouterr().out)) == {"refused", "readings"}


@pytest.mark.parametrize(
    ("words", "mend"),
    [
        (["crowfoot", "40 N·m", "--offset", "38mm", "--lenght", "300mm"], "Did you mean --length?"),
        (["walk", "exhaust-manifold", "--plian"], "Did you mean --plain?"),
        (["crowfoot", "40 N·m", "--offset", "38", "mm", "--length", "300mm"], "stands in quotes"),
        (["25 Nm"], 'torqref convert "24 N·m"'),
    ],
)
def test_what_has_no_place_in_a_command_is_told_with_its_mend(
    words: list[str], mend: str, capsys: Capture
) -> None:
    assert main(words) == 2
    assert mend in capsys.readouterr().err


@pytest.mark.parametrize("name", ["convert", "walk", "crowfoot", "estimate"])
def test_the_help_of_a_command_fits_a_terminal_of_ascii(name: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "torqref", name, "--help"],
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        capture_output=True,
        text=True,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.isascii()


@pytest.mark.parametrize("words", ['convert "25 Nm"', 'convert "25 Nm" --json', "find"])
def test_a_disk_that_is_full_is_told_in_one_line(words: str) -> None:
    if not os.path.exists("/dev/full"):
        pytest.skip("this system has no device that is always full")
    command = f"{sys.executable} -m torqref {words} > /dev/full"
    done = subprocess.run(command, shell=True, capture_output=True, text=True)
    assert done.returncode == 1
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("closed", [">&-", "2>&-", "<&-"])
def test_a_stream_that_the_caller_closed_ends_nothing(closed: str) -> None:
    command = f"{sys.executable} -m torqref walk exhaust-manifold --plain --practice {closed}"
    done = subprocess.run(command, shell=True, input="", capture_output=True, text=True)
    assert (done.returncode, "Traceback" in done.stderr) == (0, False)


def test_a_folder_is_looked_through_file_by_file(tmp_path: Path, capsys: Capture) -> None:
    (tmp_path / "one.toml").write_text("format = 1\nassembly = 3\n", encoding="utf-8")
    (tmp_path / "two.toml").write_text("format = 2\n", encoding="utf-8")
    assert main(["check", str(tmp_path), "--json"]) == 1
    files = {problem["file"] for problem in json.loads(capsys.readouterr().out)["problems"]}
    assert files == {str(tmp_path / "one.toml"), str(tmp_path / "two.toml")}


@pytest.mark.parametrize("name", ["walk", "show", "find", "convert", "crowfoot", "order", "estimate", "check",
                                  "new", "import", "schema", "kit", "wrench-check"])  # fmt: skip
def test_the_help_of_a_command_has_an_example(name: str, capsys: Capture) -> None:
    with pytest.raises(SystemExit):
        main([name, "--help"])
    assert f"  torqref {name} " in capsys.readouterr().out.partition("options:")[2]
