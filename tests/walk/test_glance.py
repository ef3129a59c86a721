"""A look at an ended journal: the same as the full read, or nothing at all."""

from __future__ import annotations

import random
import zlib
from pathlib import Path

import pytest

from tests.fuzz.resealed import lines_of, sealed, spoiled
from tests.walk.workshop import TWO_ROUNDS, Clock, Walk, group
from torqref.document.problem import Problem
from torqref.walk.archive import read_record
from torqref.walk.glance import glance
from torqref.walk.journal import read_journal
from torqref.walk.listing import read_summary
from torqref.walk.seal import FIRST, hash_of
from torqref.walk.summary import Summary, walk_summary

JOURNALS = Path(__file__).with_name("journals")
NAMES = ("Ada", 'Bo "the hand"', "back\\slash", "Åsa 漢字", ',"by":"nobody"')


def walk(folder: Path, *lines: str, by: str = "", again_by: str = "") -> Path:
    """A walk by which these lines were said."""
    walk = Walk(group(TWO_ROUNDS), folder, Clock(), by=by)
    walk.say(*lines)
    if again_by:
        walk.again(by=again_by)
        walk.say("note taken over")
    walk.session.close()
    return walk.session.journal.path


def agrees(path: Path, seen: Summary) -> None:
    """Everything that a glance says is what the full read says."""
    record, problems = read_record(path)
    assert record is not None
    assert not problems
    assert seen == walk_summary(record)


@pytest.mark.parametrize("path", sorted(JOURNALS.glob("*.walk")), ids=lambda path: path.stem)
def test_a_glance_at_a_recorded_journal_is_the_full_read_or_nothing(path: Path) -> None:
    seen = glance(path)
    record, problems = read_record(path)
    plain = record is not None and record.state != "due" and not problems
    assert (seen is not None) == plain
    if seen is not None:
        agrees(path, seen)


@pytest.mark.parametrize("name", NAMES)
def test_names_come_back_as_they_were_typed(tmp_path: Path, name: str) -> None:
    path = walk(tmp_path, *[""] * 40, f"note {name}", by=name)
    seen = glance(path)
    assert seen is not None
    assert seen.people == (name,)
    agrees(path, seen)


def test_everybody_who_worked_is_named(tmp_path: Path) -> None:
    path = walk(tmp_path, *[""] * 5, by="Ada", again_by="Bo")
    walk_ = Walk(group(TWO_ROUNDS), tmp_path, Clock(), by="Cy")
    walk_.say("abandon 3")
    walk_.session.close()
    seen = glance(path)
    assert seen is not None
    assert seen.people == ("Ada", "Bo", "Cy")
    agrees(path, seen)


@pytest.mark.parametrize("lines", [("",) * 5, (*[""] * 24, "undo"), ("abandon 3", "undo")])
def test_what_is_open_or_was_taken_back_is_left_to_the_full_read(
    tmp_path: Path, lines: tuple[str, ...]
) -> None:
    path = walk(tmp_path, *lines)
    record, _ = read_record(path)
    seen = glance(path)
    assert record is not None
    assert seen is None or seen.state == record.state


def test_any_changed_byte_is_noticed(tmp_path: Path) -> None:
    path = walk(tmp_path, *[""] * 40, by="Ada")
    data, dice = path.read_bytes(), random.Random(7)
    assert glance(path) is not None
    for place in dice.sample(range(len(data)), 400):
        flipped = bytearray(data)
        flipped[place] ^= 1 << dice.randrange(8)
        path.write_bytes(flipped)
        assert glance(path) is None, place


def test_a_cut_at_any_place_is_noticed_or_leaves_an_open_walk(tmp_path: Path) -> None:
    path = walk(tmp_path, *[""] * 40)
    data = path.read_bytes()
    for size in range(0, len(data) - 1, 7):
        path.write_bytes(data[:size])
        seen = glance(path)
        assert (seen is not None) == data[:size].endswith(b"\n"), size
        if seen is not None:
            agrees(path, seen)


def in_full(path: Path) -> tuple[Summary | None, tuple[Problem, ...]]:
    record, problems = read_record(path)
    return (None if record is None else walk_summary(record)), problems


def test_garbage_under_seals_that_fit_is_told_as_the_full_read_tells_it(tmp_path: Path) -> None:
    seeds = [lines_of(path) for path in sorted(JOURNALS.glob("*.walk")) if not read_journal(path).problems]
    path, dice, looks, damage = tmp_path / "a.walk", random.Random("glance"), 0, 0
    for _ in range(1_500):
        path.write_bytes(sealed(spoiled(dice.choice(seeds), dice)))
        expected = in_full(path)
        assert read_summary(path) == expected
        looks += glance(path) is not None
        damage += bool(expected[1])
    assert looks > 150
    assert damage > 150


def by_hand(header: bytes, *events: bytes) -> bytes:
    """A journal of lines as they are given, sealed."""
    data, before = b"", FIRST
    for line in (header, *events):
        body = line[:-1] + f',"before":"{before}"'.encode()
        line = body + f',"sum":"{zlib.crc32(body):08x}"}}'.encode()
        data, before = data + line + b"\n", hash_of(line)
    return data


TICK = b'{"kind":"check-off","number":1,"time":"2026-03-02T08:00:00+00:00","by":"Bo","round":1,"bolts":[1]}'


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b"", b""),
        (b'"number":1', b'"number":01'),
        (b'"number":1', b'"number":2'),
        (b'"number":1', b'"number":1.0'),
        (b'"number":1', b'"number":' + b"9" * 5000),
        (b"[1]", b'[1],"number":2'),
        (b"[1]", b'[1],"kind":"finished"'),
        (b"[1]", b'[1],"by":"Cy"'),
        (b"[1]", b'[1],"time":"yesterday"'),
        (b"[1]", b'[1],"press":1'),
        (b"[1]", b'[1],"press":2'),
        (b"[1]", b'[1],"undoes":1'),
        (b"[1]", b'[1],"colour":"red"'),
        (b"[1]", b"[1],"),
        (b"[1]", b"[999]"),
        (b"[1]", b"[true]"),
        (b',"bolts":[1]', b""),
        (b',"round":1,"bolts":[1]', b""),
        (b',"round":1,"bolts":[1]', b","),
        (b',"round":1', b' "round":1'),
        (b"+00:00", b""),
        (b"2026-03-02", b"2026-13-02"),
        (b'"2026-03-02T08:00:00+00:00"', b'""'),
        (b'"Bo"', b'"B\\o"'),
        (b'"Bo"', b'"B\no"'),
        (b'"Bo"', b'"B\xff"'),
        (b'"Bo"', b'"B\\u00e4\\""'),
        (b'"Bo"', b"7"),
    ],
)
def test_a_line_no_walk_would_write_is_taken_as_the_full_read_takes_it(
    tmp_path: Path, old: bytes, new: bytes
) -> None:
    lines = next(JOURNALS.glob("manifold-finished.walk")).read_bytes().splitlines()
    header = lines[0][: lines[0].index(b',"before":')] + b"}"
    path = tmp_path / "a.walk"
    for event in (TICK, TICK.replace(old, new, 1), TICK):  # known and not known when it comes
        path.write_bytes(by_hand(header, event))
        assert read_summary(path) == in_full(path)


def test_a_file_that_is_gone_or_empty_shows_nothing(tmp_path: Path) -> None:
    assert glance(tmp_path / "gone.walk") is None
    (tmp_path / "empty.walk").write_bytes(b"")
    assert glance(tmp_path / "empty.walk") is None
