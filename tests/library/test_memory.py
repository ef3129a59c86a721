"""The index of a large library is never out of date, never in the way, and never believed when it is damaged."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.library.plain_search import SOUGHT, plainly, problems_of, told
from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.toml import read_file
from torqref.library import memory
from torqref.library.folder import library_files
from torqref.library.listing import MOST, WORTH, Listing, find_in, read_listing, read_listings
from torqref.library.memory import listings_by

ROOT = Path(__file__).parents[2]
GROUP = '[[group]]\nid = "{id}"\nname = "{name}"\n{more}[[group.stage]]\ntorque = "{value}"\n'
ASSEMBLIES: tuple[tuple[str, list[tuple[str, str, str, str]]], ...] = (
    ("Brindle", [("lid", "Lid", "", "24 N·m"), ("pump", "Water pump", 'thread = "M8x1.25"\n', "22–26 N·m")]),
    ("Brindle", [("lid", "Lib", "", "24 N·m"), ("pump", "Water pump", 'thread = "M8x1.00"\n', "22–26 N·m")]),
    ("Engine", [("lid", "Cover of the lid", 'aliases = ["lid 8", "m 8"]\n', "18 ft-lb")]),
    (
        "Engine",
        [("a", "Intake manifold", 'applies = { engine = ["Q"] }\n', "90°"), ("a", "Lid", "", "9 N·m")],
    ),
    ("", []),
)
SHEETS = (
    *(
        f'format = 1\nassembly = "{assembly}"\n'
        + "".join(GROUP.format(id=i, name=name, more=more, value=value) for i, name, more, value in groups)
        for assembly, groups in ASSEMBLIES
    ),
    'format = 1\n[[table]]\nid = "t"\nname = "Nut"\nrows = """\nthread  torque\n1/4-28  24 N·m\n"""\n'
    '[[table.variant]]\nid = "oiled"\nless = "10 %"\n',
    "torque = 24 N·m\n",
    "\\",
    'lid = "lid"',
    "x = [" * 500,
    'format = 1\nassembly = "\\u202e\\u0000"\n[[group]]\nid = "esc\\u001b[2J"\nname = "lid"\n',
)


def through(index: Path, paths: list[Path]) -> tuple[tuple[Listing, ...], tuple[Problem, ...]]:
    """The listings of files as a large library gets them."""
    read = tuple(listings_by(index, [(escape(str(path)), read_file(path)) for path in paths]))
    return (
        tuple(each for each in read if isinstance(each, Listing)),
        tuple(each for each in read if isinstance(each, Problem)),
    )


def finds_the_same(index: Path, folder: Path) -> None:
    """The index tells what the files tell, now."""
    paths = list(library_files(folder))
    listings, problems = through(index, paths)
    assert problems == problems_of(paths)
    for typed in SOUGHT:
        assert told(find_in(listings, typed)) == told(plainly(paths, typed)), typed


def library(folder: Path, *sheets: str) -> Path:
    folder.mkdir(exist_ok=True)
    for number, sheet in enumerate(sheets or SHEETS):
        (folder / f"{number}.toml").write_text(sheet, encoding="utf-8")
    return folder


# --- never out of date --------------------------------------------------------------------------------

Edit = tuple[str, int, int, int]
EDITS = st.lists(
    st.tuples(
        st.sampled_from(("write", "write", "write", "swap", "remove", "cut", "break index", "cut index", "old index")),
        st.integers(0, 3),
        st.integers(0, len(SHEETS) - 1),
        st.integers(0, 4000),
    ),
    max_size=8,
)  # fmt: skip


def edited(folder: Path, index: Path, edit: Edit, olds: list[bytes]) -> None:
    """One change to a library or to its index; no file gets another time stamp than all the others."""
    kind, one, sheet, at = edit
    path, other = folder / f"{one}.toml", folder / f"{(one + 1) % 4}.toml"
    target = index if kind.endswith("index") else path
    data = target.read_bytes() if target.exists() else b""
    olds += [data] if target == index and data else []
    if kind == "write":
        data = SHEETS[sheet].encode()
    elif kind == "swap" and other.exists():
        data = other.read_bytes()
        other.write_bytes(path.read_bytes() if path.exists() else b"")
        os.utime(other, (1, 1))
    elif kind.startswith("cut"):
        data = data[:at]
    elif kind == "break index" and data:
        place = at % len(data)
        data = data[:place] + bytes([data[place] ^ 1]) + data[place + 1 :]
    elif kind == "old index" and olds:
        data = olds[at % len(olds)]
    target.write_bytes(data)
    if kind == "remove":
        path.unlink()
    elif target.exists():
        os.utime(target, (1, 1))


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(EDITS)
def test_after_any_edits_the_index_finds_what_the_files_say(edits: list[Edit]) -> None:
    with TemporaryDirectory() as place:
        folder, index = library(Path(place) / "specs", *SHEETS[:3]), Path(place) / "find.index"
        finds_the_same(index, folder)
        olds: list[bytes] = []
        for edit in edits:
            edited(folder, index, edit, olds)
            finds_the_same(index, folder)


def test_a_file_of_the_same_size_and_time_is_read_anew(tmp_path: Path) -> None:
    folder, index = library(tmp_path / "specs", SHEETS[0]), tmp_path / "find.index"
    before = os.stat(folder / "0.toml")
    assert find_in(through(index, list(library_files(folder)))[0], "m8x1.25")
    library(folder, SHEETS[1])
    os.utime(folder / "0.toml", ns=(before.st_atime_ns, before.st_mtime_ns))
    assert os.stat(folder / "0.toml").st_size == before.st_size
    assert find_in(through(index, list(library_files(folder)))[0], "m8x1.00")
    finds_the_same(index, folder)


def test_a_file_that_was_moved_is_told_by_its_new_name(tmp_path: Path) -> None:
    folder, index = library(tmp_path / "specs", SHEETS[0]), tmp_path / "find.index"
    through(index, list(library_files(folder)))
    folder.rename(tmp_path / "moved")
    (match, *_) = find_in(through(index, list(library_files(tmp_path / "moved")))[0], "lid")
    assert match.entry.file == str(tmp_path / "moved" / "0.toml")


def test_where_the_code_cannot_be_read_no_index_is_believed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, index = library(tmp_path / "specs", SHEETS[0]), tmp_path / "find.index"
    (tmp_path / "document" / "folder.py").mkdir(parents=True)
    monkeypatch.setattr(memory, "_PACKAGE", tmp_path)
    for _ in range(2):
        memory.made_by.cache_clear()
        assert memory._recalled(index) == {}
        finds_the_same(index, folder)
    memory.made_by.cache_clear()


@pytest.mark.parametrize("changed", ["__version__", "FORMAT", "code", "parser"])
def test_another_program_leaves_the_index_aside(
    changed: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, index = library(tmp_path / "specs", SHEETS[0]), tmp_path / "find.index"
    through(index, list(library_files(folder)))
    before = index.read_bytes()
    if changed == "code":
        (tmp_path / "document").mkdir()
        monkeypatch.setattr(memory, "_PACKAGE", tmp_path)
    elif changed == "parser":
        monkeypatch.setattr(memory, "parser_name", lambda: "another-9.9")
    else:
        monkeypatch.setattr(memory, changed, 99 if changed == "FORMAT" else "9.9")
    memory.made_by.cache_clear()
    try:
        assert memory._recalled(index) == {}
        finds_the_same(index, folder)
        assert index.read_bytes() != before
    finally:
        memory.made_by.cache_clear()


# --- used, and bounded ----------------------------------------------------------------------------------


def test_what_is_known_is_not_parsed_again_and_what_is_gone_is_dropped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, index = library(tmp_path / "specs", *SHEETS[:3]), tmp_path / "find.index"
    parsed: list[str] = []

    def counted(data: bytes, file: str) -> Listing | Problem:
        parsed.append(Path(file).name)
        return read_listing(data, file)

    monkeypatch.setattr(memory, "read_listing", counted)
    finds_the_same(index, folder)
    assert parsed == ["0.toml", "1.toml", "2.toml"]
    whole = index.stat()
    finds_the_same(index, folder)
    (folder / "1.toml").write_text(SHEETS[3], encoding="utf-8")
    finds_the_same(index, folder)
    assert parsed[3:] == ["1.toml"]
    (folder / "0.toml").unlink()
    (folder / "1.toml").unlink()
    finds_the_same(index, folder)
    assert len(memory._recalled(index)) == 1
    assert index.stat().st_size < whole.st_size
    assert [path.name for path in tmp_path.iterdir() if path.is_file()] == [index.name]


def test_an_index_that_is_up_to_date_is_not_written_again(tmp_path: Path) -> None:
    folder, index = library(tmp_path / "specs", *SHEETS[:3]), tmp_path / "find.index"
    finds_the_same(index, folder)
    os.utime(index, (1, 1))
    finds_the_same(index, folder)
    assert index.stat().st_mtime == 1


def test_only_a_large_library_has_an_index(tmp_path: Path) -> None:
    index = tmp_path / "cache" / "find.index"
    small = library(tmp_path / "small", SHEETS[0])
    read_listings(list(library_files(small)), index)
    assert not index.parent.exists()
    library(tmp_path / "large", SHEETS[0] + "#" * WORTH)
    read_listings(list(library_files(tmp_path / "large")))
    assert not index.parent.exists()
    listings, _ = read_listings(list(library_files(tmp_path / "large")), index)
    assert index.is_file()
    assert WORTH < MOST
    kept, _ = read_listings(list(library_files(tmp_path / "large")), index)
    assert told(find_in(kept, "lid")) == told(find_in(listings, "lid")) != []


# --- never believed when damaged ------------------------------------------------------------------------


def forged(index: Path, change: Callable[[list[bytes]], list[bytes]]) -> None:
    """An index whose sum is right and whose lines are not what the program wrote."""
    body = b"\n".join(change(index.read_bytes().split(b"\n")[1:]))
    index.write_bytes(memory._heading(body) + b"\n" + body)


LINES = (
    b"", b"7", b"null", b"[]", b"{}", b'["a","b","c"]', b"[[1],2,[3]]", b'[["lid"]," lid ",[["24 N\xc2\xb7m"]]]',
    b"\xff", b"[" * 100_000, b'[[" lid ",{"id":"lid"}]]', b'[[" lid ",{"id":7,"name":"x","assembly":""}]]',
    b'[[" lid ",{"id":"lid","name":"x","assembly":"","group":"x"}]]', b'[[7,{"id":"lid","name":"x","assembly":""}]]',
    b'[[" lid ",{"id":"lid","name":"x","assembly":"","values":[7]}]]', b'[[" lid ",[]]]',
)  # fmt: skip


@pytest.mark.parametrize("line", range(3))
@pytest.mark.parametrize("text", LINES, ids=lambda text: repr(text[:20]))
def test_lines_that_are_no_listing_are_made_anew(line: int, text: bytes, tmp_path: Path) -> None:
    folder, index = library(tmp_path / "specs", SHEETS[0]), tmp_path / "find.index"
    finds_the_same(index, folder)
    forged(index, lambda lines: [*lines[:line], text, *lines[line + 1 :]])
    paths = list(library_files(folder))
    listings, _ = through(index, paths)
    assert told(find_in(listings, "lid")) == told(plainly(paths, "lid"))
    library(folder, SHEETS[2])
    finds_the_same(index, folder)


@pytest.mark.parametrize("data", [b"", b"\n", b"{}\n", b"\0" * 100, b'{"format":1}\n\n\n', b"\xff\xfe"])
def test_a_file_that_is_no_index_is_made_anew(data: bytes, tmp_path: Path) -> None:
    folder, index = library(tmp_path / "specs", SHEETS[0]), tmp_path / "find.index"
    index.write_bytes(data)
    finds_the_same(index, folder)
    assert len(memory._recalled(index)) == 1


def test_the_first_line_says_what_it_is_and_holds_the_sum_of_the_rest(tmp_path: Path) -> None:
    folder, index = library(tmp_path / "specs", SHEETS[0]), tmp_path / "find.index"
    through(index, list(library_files(folder)))
    first, _, body = index.read_bytes().partition(b"\n")
    heading = json.loads(first)
    assert heading["sum"] == sha256(body).hexdigest()
    assert body.split(b"\n")[0].decode() == sha256((folder / "0.toml").read_bytes()).hexdigest()


# --- never in the way -----------------------------------------------------------------------------------


def below_a_file(place: Path) -> Path:
    (place / "file").write_text("", encoding="utf-8")
    return place / "file" / "find.index"


def a_folder(place: Path) -> Path:
    (place / "find.index").mkdir()
    return place / "find.index"


def a_loop(place: Path) -> Path:
    (place / "loop").symlink_to(place / "loop")
    return place / "loop" / "find.index"


def a_pipe(place: Path) -> Path:
    os.mkfifo(place / "find.index")
    return place / "find.index"


PLACES = (
    below_a_file, a_folder, a_loop, a_pipe,
    lambda place: Path("/proc/none/find.index"), lambda place: place.joinpath(*["d" * 250] * 20, "find.index"),
    lambda place: place / "nul\0byte" / "find.index",
)  # fmt: skip


@pytest.mark.parametrize("place", PLACES)
def test_where_no_index_can_be_all_is_found_without(place: Callable[[Path], Path], tmp_path: Path) -> None:
    folder = library(tmp_path / "specs")
    index = place(tmp_path)
    before = {path: path.lstat().st_mode for path in tmp_path.rglob("*")}
    finds_the_same(index, folder)
    finds_the_same(index, folder)
    assert {path: path.lstat().st_mode for path in tmp_path.rglob("*")} == before


def torqref_find(cache: Path, specs: Path, size: int | None = None) -> subprocess.Popen[str]:
    code = (
        "import resource, sys; from torqref.cli import main; "
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({size}, {size})); sys.exit(main(sys.argv[1:]))"
    )
    start = ("-m", "torqref") if size is None else ("-c", code)
    return subprocess.Popen(
        [sys.executable, *start, "find", "zebu", "--json", "--specs", str(specs)],
        env={**os.environ, "XDG_CACHE_HOME": str(cache)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )


def a_large_library(folder: Path) -> Path:
    groups = "".join(
        GROUP.format(id=f"zebu-{n}", name=f"Zebu lid {n}", more="", value="9 N·m") for n in range(100)
    )
    return library(folder, *(f"format = 1\n{groups}{'#' * 70_000}\n# {number}\n" for number in range(5)))


@pytest.mark.parametrize("size", [0, 1000])
def test_a_full_disk_keeps_nobody_from_finding(size: int, tmp_path: Path) -> None:
    specs = a_large_library(tmp_path / "specs")
    out, err = torqref_find(tmp_path / "cache", specs, size).communicate(timeout=60)
    assert err == ""
    assert len(json.loads(out)["groups"]) == 100
    assert [path for path in (tmp_path / "cache").rglob("*") if path.is_file()] == []


def test_many_at_once_find_the_same_and_leave_a_whole_index(tmp_path: Path) -> None:
    specs = a_large_library(tmp_path / "specs")
    searches = [torqref_find(tmp_path / "cache", specs) for _ in range(6)]
    told_each = [search.communicate(timeout=60) for search in searches]
    assert {err for _, err in told_each} == {""}
    assert len({out for out, _ in told_each}) == 1
    (index,) = [path for path in (tmp_path / "cache").rglob("*") if path.is_file()]
    assert len(memory._recalled(index)) >= 5
