"""Files as desktop editors, old programs and bad minds write them: read, or told with file and mend."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.fuzz.test_files import told_well
from torqref.cli import main
from torqref.document.problem import Problem
from torqref.document.toml import LARGEST_FILE
from torqref.library.file import read_library_file
from torqref.library.job import read_job
from torqref.wrench.rack import read_rack

ROOT = Path(__file__).parents[2]
GOOD = {
    "library": (ROOT / "specs" / "brindle-24-engine-q.toml").read_bytes(),
    "rack": (ROOT / "demo" / "wrenches.toml").read_bytes(),
    "job": (ROOT / "demo" / "brindle-24-head.job.toml").read_bytes(),
}
READERS: dict[str, Callable[[Path], tuple[Problem, ...]]] = {
    "library": lambda path: read_library_file(path).problems,
    "rack": lambda path: read_rack(path)[1],
    "job": lambda path: read_job(path)[1],
}
# name: what is made of a good file. These still say the same.
HARMLESS: dict[str, Callable[[bytes], bytes]] = {
    "a byte-order mark": lambda data: b"\xef\xbb\xbf" + data,
    "line ends of Windows": lambda data: data.replace(b"\n", b"\r\n"),
    "no newline at the end": lambda data: data.rstrip(b"\n"),
    "blank lines": lambda data: data + b"\n" * 1000,
}
# These cannot be read, and a word of the message says why.
BROKEN: dict[str, tuple[Callable[[bytes], bytes], str]] = {
    "UTF-16": (lambda data: data.decode().encode("utf-16"), "not UTF-8"),
    "Latin-1": (lambda data: data + "# Öl\n".encode("latin-1"), "not UTF-8"),
    "a sign cut in its middle": (lambda data: data + "# ·".encode()[:-1], "not UTF-8"),
    "line ends of an old Mac": (lambda data: data.replace(b"\n", b"\r"), "not TOML"),
    "a zero byte": (lambda data: data + b"\x00", "not TOML"),
    "a key twice": (lambda data: b"format = 1\n" + data, "not TOML"),
    "nested deep": (
        lambda data: b"deep = " + b"[" * 50_000 + b"]" * 50_000 + b"\n" + data,
        "nested too deep",
    ),
    "braces deep": (lambda data: b"deep = " + b"{a=" * 20_000 + b"1" + b"}" * 20_000 + b"\n" + data, ""),
    "a number of 5000 digits": (lambda data: b"long = " + b"9" * 5000 + b"\n" + data, "overlong number"),
    "a byte too large": (lambda data: data + b"#" * (LARGEST_FILE + 1 - len(data)), "larger than 1024 KiB"),
    "an unclosed string": (lambda data: data + b'\nname = "', "not TOML"),
    "not TOML at all": (lambda data: b"%PDF-1.7\n", "not TOML"),
}


def written(folder: Path, kind: str, data: bytes) -> Path:
    path = folder / f"{kind}.toml"
    path.write_bytes(data)
    return path


@pytest.mark.parametrize("kind", GOOD)
@pytest.mark.parametrize("name", HARMLESS)
def test_what_editors_do_to_a_file_changes_nothing(kind: str, name: str, tmp_path: Path) -> None:
    told = READERS[kind](written(tmp_path, kind, GOOD[kind]))
    again = READERS[kind](written(tmp_path, kind, HARMLESS[name](GOOD[kind])))
    assert [problem.sentence() for problem in again] == [problem.sentence() for problem in told]
    assert not [problem for problem in again if problem.severity == "error"]


@pytest.mark.parametrize("kind", GOOD)
@pytest.mark.parametrize("name", BROKEN)
def test_what_cannot_be_read_is_told_with_its_file(
    kind: str, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    make, word = BROKEN[name]
    path = written(tmp_path, kind, make(GOOD[kind]))
    problems = READERS[kind](path)
    told_well(problems, str(path))
    assert [problem.severity for problem in problems] == ["error"]
    assert word in problems[0].message
    assert main(["check", str(path)]) == 1
    assert str(path) in capsys.readouterr().out


@pytest.mark.parametrize("kind", GOOD)
def test_a_file_of_exactly_the_largest_size_is_read(kind: str, tmp_path: Path) -> None:
    data = GOOD[kind] + b"\n#"
    path = written(tmp_path, kind, data + b"-" * (LARGEST_FILE - len(data)))
    assert path.stat().st_size == LARGEST_FILE
    assert not [problem for problem in READERS[kind](path) if problem.severity == "error"]


@pytest.mark.slow
@pytest.mark.parametrize(
    "data",
    [
        b"a" + b".a" * 300_000 + b" = 1\n",
        b"[" + b"a." * 300_000 + b"a]\n",
        b"x = '''" + b"7 " * 500_000 + b"'''\n",
        b"a = [\n[" + b" " * 500_000 + b"\n]\n]\n",
        b"[[group]]\n" * 80_000,
        b"\n".join(b"k%d = 1" % number for number in range(80_000)),
    ],
    ids=[
        "a key of 300,000 parts",
        "a header of as many",
        "a string of a mebibyte",
        "half a mebibyte of blanks",
        "80,000 tables",
        "80,000 keys",
    ],
)
def test_large_and_strange_files_are_told_in_good_time(data: bytes, tmp_path: Path) -> None:
    path = written(tmp_path, "library", data[:LARGEST_FILE])
    problems = read_library_file(path).problems
    assert problems
    told_well(problems, str(path))
