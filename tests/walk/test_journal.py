"""The journal: what was acknowledged is there, whatever happened to the process or to the file."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.walk.workshop import TWO_ROUNDS, Walk, group
from torqref.walk.journal import parse_journal, read_journal
from torqref.walk.progress import fold

ROOT = Path(__file__).parents[2]
CHILD = Path(__file__).with_name("child.py")


def walked(folder: Path, presses: int = 8) -> Path:
    """A journal of some presses: opening, hand round, stop, and bolts of the first torque round."""
    walk = Walk(group(TWO_ROUNDS), folder)
    walk.press(presses)
    walk.session.close()
    return walk.session.journal.path


def test_what_is_read_back_is_what_was_walked(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(9)
    walk.session.close()
    told = read_journal(walk.session.journal.path)
    assert told.problems == ()
    assert told.header == walk.session.header
    assert told.events == walk.events
    assert fold(walk.session.header.plan, told.events) == walk.session.progress


def test_reading_changes_no_byte(tmp_path: Path) -> None:
    path = walked(tmp_path)
    before = path.read_bytes()
    read_journal(path)
    assert path.read_bytes() == before


def test_a_journal_cut_at_every_byte_gives_a_prefix(tmp_path: Path) -> None:
    path = walked(tmp_path)
    data = path.read_bytes()
    whole = parse_journal(path, data)
    ends = [at + 1 for at, byte in enumerate(data) if byte == ord("\n")]
    for size in range(len(data)):
        told = parse_journal(path, data[:size])
        complete = sum(end <= size for end in ends)
        assert told.events == whole.events[: max(complete - 1, 0)]
        assert told.good == ([0, *ends])[complete]
        assert len(told.torn) == size - told.good
        assert not (told.damaged and complete)


def test_a_walk_cut_in_its_last_line_goes_on_at_the_bolt_that_was_not_kept(tmp_path: Path) -> None:
    path = walked(tmp_path)
    data = path.read_bytes()
    last = data[:-1].rindex(b"\n") + 1
    for size in range(last + 1, len(data), 7):
        path.write_bytes(data[:size])
        path.with_suffix(".walk.torn").unlink(missing_ok=True)
        walk = Walk(group(TWO_ROUNDS), tmp_path)
        assert walk.ticks() == [(1,), (2,), (3,), (4,)]
        assert walk.bolt == (5,)
        assert any("cut off in writing" in note for note in walk.opening.notes)
        assert path.with_suffix(".walk.torn").read_bytes() == data[last:size] + b"\n"
        walk.session.close()


@pytest.mark.slow
def test_every_flipped_byte_is_noticed(tmp_path: Path) -> None:
    path = walked(tmp_path, presses=5)
    data = path.read_bytes()
    whole = parse_journal(path, data)
    for place in range(len(data)):
        for flip in (0x01, 0x80):
            spoiled = bytearray(data)
            spoiled[place] ^= flip
            told = parse_journal(path, bytes(spoiled))
            assert told.problems, f"byte {place}"
            assert told.events == whole.events[: len(told.events)]


@pytest.mark.parametrize("wanted", [1, 4, 13])
def test_a_killed_process_leaves_every_acknowledged_check_off(tmp_path: Path, wanted: int) -> None:
    child = subprocess.Popen(
        [sys.executable, str(CHILD), str(tmp_path)],
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        text=True,
    )
    assert child.stdout is not None
    acknowledged = [child.stdout.readline().strip() for _ in range(wanted)]
    child.send_signal(signal.SIGKILL)
    rest = child.stdout.read().split()
    child.stdout.close()
    assert child.wait() == -signal.SIGKILL
    (path,) = tmp_path.glob("*.walk")
    told = read_journal(path)
    kept = ["+".join(map(str, event.bolts)) for event in told.events if event.kind == "check-off"]
    assert not told.problems
    assert kept[: wanted + len(rest)] == [*acknowledged, *rest]
