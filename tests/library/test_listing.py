"""Finding by listings of files finds what an index of every group finds, in the same order and for the same reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.library.plain_search import SOUGHT, plainly, problems_of, told
from torqref.library.listing import find_in, read_listings, standing
from torqref.library.search import stands_in
from torqref.library.shelf import library_files, shipped_folder

SHIPPED = list(library_files(shipped_folder()))
TYPED = (
    *SOUGHT,
    "grade 8",
    "M 8",
    "cyl hed",
    "24 ft-lb 12",
    "flare nut 3/8",
    "1/4-2",
    "AC 43.13",
    "TM 55-1520",
)


@pytest.mark.parametrize("typed", TYPED)
def test_the_shipped_library_is_found_in_the_same_way(typed: str) -> None:
    listings, problems = read_listings(SHIPPED)
    assert problems == ()
    assert told(find_in(listings, typed)) == told(plainly(SHIPPED, typed))


GROUP = '[[group]]\nid = "{0}"\nname = "{1}"\n[[group.stage]]\ntorque = "{2}"\n'


def write(path: Path, *groups: tuple[str, str, str]) -> Path:
    path.write_text("format = 1\n" + "".join(GROUP.format(*group) for group in groups), encoding="utf-8")
    return path


def test_a_group_that_a_later_file_shadows_is_not_found_though_only_it_holds_the_word(tmp_path: Path) -> None:
    paths = [
        write(tmp_path / "a.toml", ("lid", "Old zebra lid", "9 N·m"), ("cap", "Zebra cap", "8 N·m")),
        write(tmp_path / "b.toml", ("lid", "New lid", "10 N·m")),
    ]
    listings, _ = read_listings(paths)
    assert [match.entry.id for match in find_in(listings, "zebra")] == ["cap"]
    assert [entry.name for entry in standing(listings)] == ["New lid", "Zebra cap"]
    for typed in ("zebra", "zebra lid", "lid", "9 N·m", "zebar", "old", ""):
        assert told(find_in(listings, typed)) == told(plainly(paths, typed))


def test_of_one_id_twice_in_a_file_the_last_one_is_found(tmp_path: Path) -> None:
    path = write(tmp_path / "a.toml", ("lid", "First lid", "9 N·m"), ("lid", "Second lid", "10 N·m"))
    listings, _ = read_listings([path])
    assert find_in(listings, "second 10 Nm")
    assert not find_in(listings, "first")
    assert not find_in(listings, "9 Nm")


def test_a_variant_of_a_row_is_found_by_its_lowered_value_alone() -> None:
    listings, _ = read_listings(SHIPPED)
    # TM 10-6640-238-13, table G-1: 1/4-20 grade 8 dry 12 ft-lb, and 10 % less with engine oil: 10.8 ft-lb
    found = {match.entry.id for match in find_in(listings, "10.8 ft-lb")}
    assert "capscrew-8-1-4-20-oiled" in found
    assert "capscrew-8-1-4-20" not in found


def test_an_empty_library_holds_nothing() -> None:
    assert find_in((), "lid") == find_in((), "") == ()


def test_what_is_no_library_is_told_in_the_order_of_the_files(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_bytes(b"\xff\xfe")
    (tmp_path / "b.toml").write_text("x = \n", encoding="utf-8")
    paths = [tmp_path / "a.toml", tmp_path / "b.toml", tmp_path / "gone.toml"]
    _, problems = read_listings(paths)
    assert [problem.file for problem in problems] == [str(path) for path in paths]
    assert problems == problems_of(paths)


@pytest.mark.parametrize(
    ("typed", "words", "stands"),
    [
        ("cover", " front cover ", True),
        ("ver", " front cover ", True),
        ("ro", " front cover ", False),
        ("8", " 8.8 18 m8 ", False),
        ("8", " 8.8 8-32 ", True),
        ("m8", " m80x4 m8x1.25 ", True),
        ("cover", " ", False),
    ],
)
def test_a_word_stands_among_others_as_it_was_typed(typed: str, words: str, stands: bool) -> None:
    assert stands_in(typed, words) is stands
