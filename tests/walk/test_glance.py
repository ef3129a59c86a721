"""A look at an ended journal: the same as the full read, or nothing at all."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.walk.workshop import TWO_ROUNDS, Clock, Walk, group
from torqref.walk.archive import read_record
from torqref.walk.glance import Glance, glance

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


def agrees(path: Path, seen: Glance) -> None:
    """Everything that a glance says is what the full read says."""
    record, problems = read_record(path)
    assert record is not None
    assert not problems
    plan, header = record.header.plan, record.header
    names = [header.by, *(event.by for event in record.told.events)]
    assert seen == Glance(
        id=header.id,
        group=plan.group,
        name=plan.name,
        place=plan.place,
        action=plan.action,
        assembly=plan.assembly,
        fingerprint=plan.fingerprint,
        invented=plan.invented,
        typed=bool(plan.typed),
        bay=header.bay,
        work_order=header.work_order,
        started=header.started,
        people=tuple(dict.fromkeys(name for name in names if name)),
        state=record.state,
        ended=record.finished_at,
    )


@pytest.mark.parametrize("path", sorted(JOURNALS.glob("*.walk")), ids=lambda path: path.stem)
def test_a_glance_at_a_recorded_journal_is_the_full_read_or_nothing(path: Path) -> None:
    seen = glance(path)
    record, problems = read_record(path)
    ended = record is not None and record.state in ("finished", "abandoned") and not problems
    assert (seen is not None) == ended
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
        assert glance(path) is None, size


def test_a_file_that_is_gone_or_empty_shows_nothing(tmp_path: Path) -> None:
    assert glance(tmp_path / "gone.walk") is None
    (tmp_path / "empty.walk").write_bytes(b"")
    assert glance(tmp_path / "empty.walk") is None
