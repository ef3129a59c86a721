"""The journal: what was acknowledged is there, whatever happened to the process or to the file."""

from __future__ import annotations

import errno
import os
import shutil
import signal
import stat
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, TWO_ROUNDS, Clock, Walk, group
from torqref.walk.archive import read_record, records
from torqref.walk.codec import to_plain
from torqref.walk.journal import JournalError, open_journal, parse_journal, read_journal
from torqref.walk.opening import Request, open_group, resume
from torqref.walk.planner import Bench
from torqref.walk.progress import fold
from torqref.walk.seal import seal

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


# --- the disk and the folder -------------------------------------------------------------------------

FULL = """
import resource, sys
from pathlib import Path
from tests.walk.workshop import TWO_ROUNDS, Walk, group

walk = Walk(group(TWO_ROUNDS), Path(sys.argv[1]))
walk.press(5)
size = walk.session.journal.path.stat().st_size
resource.setrlimit(resource.RLIMIT_FSIZE, (size + 40, size + 40))
refused, bolt, ticks = walk.press(), walk.bolt, walk.ticks()
assert walk.session.journal.path.stat().st_size == size, "half a line stayed"
print(refused)
print(bolt, ticks)
"""


def test_on_a_full_disk_the_check_off_is_refused_and_not_shown(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", FULL, str(tmp_path)],
        capture_output=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        text=True,
        check=True,
    )
    refused, state = done.stdout.splitlines()
    assert refused.startswith("NOT recorded: File too large")
    assert "press again" in refused
    assert state == "(3,) [(1,), (2,)]"
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    assert walk.bolt == (3,)
    assert not walk.opening.notes


def test_when_the_disk_has_room_again_the_next_press_counts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(5)
    with monkeypatch.context() as full:
        full.setattr("torqref.walk.journal.os.fsync", _no_space)
        assert walk.press().startswith("NOT recorded: No space left on device")
        assert walk.ticks() == [(1,), (2,)]
    assert not walk.press()
    assert read_journal(walk.session.journal.path).events == walk.events
    assert walk.ticks() == [(1,), (2,), (3,)]


def _no_space(_: int) -> None:
    raise OSError(28, "No space left on device")


def test_a_press_and_what_follows_from_it_are_kept_together_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk = Walk(group('count = 4\n[[group.stage]]\ntorque = "12 N·m"\n'), tmp_path)
    walk.press(4)
    monkeypatch.setattr("torqref.walk.journal.os.fsync", _no_space)
    assert walk.press().startswith("NOT recorded")
    assert (walk.asks, walk.bolt, walk.kinds()[-1]) == ("bolt", (4,), "check-off")


def test_a_file_where_the_folder_should_be_is_refused_with_what_would_do(tmp_path: Path) -> None:
    (tmp_path / "records").write_text("not a folder", encoding="utf-8")
    opening = open_group(
        group(TWO_ROUNDS),
        Bench(today=MORNING.date()),
        Request(folder=tmp_path / "records", bay="bay 1"),
        Clock(),
    )
    assert opening.session is None
    assert opening.refusal is not None
    assert "cannot be written" in opening.refusal.message
    assert "--records DIR" in opening.refusal.message
    assert records(tmp_path / "records")[1][0].message.startswith("the folder of records cannot be read")


def test_a_folder_that_vanished_under_the_walk_refuses_every_tick(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path / "records")
    walk.press(5)
    shutil.rmtree(tmp_path / "records")
    assert walk.press().startswith("NOT recorded")
    assert walk.press().startswith("NOT recorded")
    assert walk.ticks() == [(1,), (2,)]
    walk.session.close()


def test_a_record_that_was_replaced_under_the_walk_refuses_every_tick(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(5)
    path = walk.session.journal.path
    path.rename(path.with_suffix(".old"))
    path.write_bytes(b"")
    assert "moved or replaced" in walk.press()
    assert walk.ticks() == [(1,), (2,)]


def test_two_walkers_on_one_walk_the_second_is_refused(tmp_path: Path) -> None:
    first = Walk(group(TWO_ROUNDS), tmp_path)
    first.press(5)
    opening = open_group(first.group, first.bench, Request(folder=tmp_path, bay="bay 1"), first.clock)
    assert opening.session is None
    assert opening.refusal is not None
    assert "open in another window or bay" in opening.refusal.message
    assert not first.press()
    first.session.close()
    assert Walk(group(TWO_ROUNDS), tmp_path).ticks() == [(1,), (2,), (3,)]


def test_without_a_lock_the_second_writer_is_refused_and_cuts_nothing_off(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Windows has no flock, and some shared folders refuse it
    monkeypatch.setitem(sys.modules, "fcntl", None)
    first = Walk(group(TWO_ROUNDS), tmp_path)
    first.press(5)
    second = Walk(group(TWO_ROUNDS), tmp_path)
    assert first.press() == "NOT recorded: another window has written to this walk. Open it again."
    assert first.press().startswith("NOT recorded")
    assert first.ticks() == [(1,), (2,)]
    second.press(2)
    told = read_journal(second.session.journal.path)
    assert (told.problems, told.events) == ((), second.events)


@pytest.mark.parametrize("code", [errno.ENOLCK, errno.EOPNOTSUPP])
def test_a_shared_folder_that_keeps_no_locks_is_no_walk_in_another_window(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int
) -> None:
    def refused(_: int, __: int) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr("fcntl.flock", refused)
    assert not Walk(group(TWO_ROUNDS), tmp_path).press()


@pytest.mark.parametrize(("code", "opens"), [(errno.EINVAL, True), (errno.EIO, False)])
def test_a_folder_that_cannot_be_synced_will_do_and_a_broken_disk_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, opens: bool
) -> None:
    real = os.fsync

    def fsync(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(code, os.strerror(code))
        real(handle)

    monkeypatch.setattr("torqref.walk.disk.os.fsync", fsync)
    request = Request(folder=tmp_path, bay="bay 1")
    opening = open_group(group(TWO_ROUNDS), Bench(today=MORNING.date()), request, Clock())
    assert (opening.session is not None) == opens
    if opening.session is not None:
        opening.session.close()
        return
    assert opening.refusal is not None
    assert "NOT recorded: Input/output error" in opening.refusal.message
    assert not list(tmp_path.glob("*.walk"))


def test_a_torn_end_that_cannot_be_set_aside_is_refused_with_what_would_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(5)
    walk.session.close()
    path = walk.session.journal.path
    path.write_bytes(path.read_bytes()[:-3])
    with monkeypatch.context() as full:
        full.setattr("torqref.walk.journal.os.fsync", _no_space)
        with pytest.raises(JournalError, match=r"No space left on device\). Free some space"):
            open_journal(path)
    assert Walk(group(TWO_ROUNDS), tmp_path).bolt == (2,)


def test_damage_in_the_middle_is_told_with_its_line_and_nothing_is_added(tmp_path: Path) -> None:
    path = walked(tmp_path)
    lines = path.read_bytes().split(b"\n")
    lines[4] = lines[4].replace(b"round", b"ruond")
    path.write_bytes(b"\n".join(lines))
    told = read_journal(path)
    assert told.damaged
    assert [problem.line for problem in told.problems] == [5]
    assert len(told.events) == 3
    with pytest.raises(JournalError, match="line 5"):
        open_journal(path)
    found, problems = records(tmp_path)
    assert [record.progress.round for record in found] == [1]
    assert problems[0].severity == "error"
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    assert walk.moment.gate == "opening", "a damaged record is never gone on with"


def test_what_was_read_before_the_lock_counts_only_while_the_file_has_the_same_bytes(tmp_path: Path) -> None:
    path = walked(tmp_path)
    known = read_journal(path)
    journal, told = open_journal(path, known)
    journal.close()
    assert told is known
    Walk(group(TWO_ROUNDS), tmp_path).session.close()
    journal, told = open_journal(path, known)
    journal.close()
    assert told.events[:-1] == known.events
    flipped = bytearray(path.read_bytes())
    flipped[200] ^= 1
    path.write_bytes(flipped)
    with pytest.raises(JournalError, match="line 1"):
        open_journal(path, told)


def test_a_walk_goes_on_behind_what_another_window_wrote_since_the_list_was_read(tmp_path: Path) -> None:
    record, _ = read_record(walked(tmp_path))
    assert record is not None
    other = Walk(group(TWO_ROUNDS), tmp_path)
    other.press(3)
    other.session.close()
    opening = resume(record, Request(folder=tmp_path, bay="bay 1"), Clock())
    assert opening.session is not None
    opening.session.close()
    assert opening.session.events[:-1] == other.events
    assert opening.session.progress == fold(record.header.plan, opening.session.events)


def test_an_open_walk_of_another_bay_stays_theirs(tmp_path: Path) -> None:
    theirs = Walk(group(TWO_ROUNDS), tmp_path, bay="bay 2")
    theirs.press(6)
    theirs.session.close()
    ours = Walk(group(TWO_ROUNDS), tmp_path, bay="bay 1")
    assert ours.moment.gate == "opening"
    assert ours.opening.notes == (
        f"Bay bay 2 has this walk open ({theirs.session.header.id}); it stays theirs.",
    )


def test_with_the_clock_set_back_events_stay_in_the_order_of_their_numbers(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS), tmp_path)
    walk.press(6)
    walk.clock.go(hours=-30)
    walk.press(3)
    walk.session.close()
    told = read_journal(walk.session.journal.path)
    assert [event.number for event in told.events] == list(range(1, len(told.events) + 1))
    assert told.events[-1].time < told.events[0].time
    again = Walk(group(TWO_ROUNDS), tmp_path)
    assert again.ticks() == [(1,), (2,), (3,), (4,), (5,)]


def test_an_id_cannot_lead_out_of_the_folder(tmp_path: Path) -> None:
    walk = Walk(group(TWO_ROUNDS, "../../escape/\N{SNOWMAN} x"), tmp_path / "records")
    walk.press(2)
    walk.session.close()
    assert walk.session.journal.path.parent == tmp_path / "records"
    assert Walk(group(TWO_ROUNDS, "../../escape/\N{SNOWMAN} x"), tmp_path / "records").asks == "stop"


def test_a_journal_of_a_later_format_is_told_and_left_alone(tmp_path: Path) -> None:
    path = walked(tmp_path)
    header = read_journal(path).header
    assert header is not None
    path.write_bytes(seal(to_plain(replace(header, format=2)), "0" * 16) + b"\n")
    told = read_journal(path)
    assert told.damaged
    assert "format 2" in told.problems[0].message
    with pytest.raises(JournalError, match="newer"):
        open_journal(path)
