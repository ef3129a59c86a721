"""Two hundred walks killed at random times: no acknowledged check-off is ever lost."""

from __future__ import annotations

import multiprocessing
import random
import signal
import sys
import time
from pathlib import Path

import pytest

from tests.walk.child import walk_into
from tests.walk.workshop import TWO_ROUNDS, Walk, group
from torqref.walk.journal import read_journal

WALKS, ROUNDS, BOLTS = 200, 2, 10


def killed(folder: Path, dice: random.Random) -> list[str]:
    """The check-offs that a walking process acknowledged before it was killed."""
    # A server that has the walk loaded forks each process: two hundred of them start in a few seconds.
    context = multiprocessing.get_context("forkserver")
    ours, theirs = context.Pipe(duplex=False)
    child = context.Process(target=walk_into, args=(folder, theirs))
    child.start()
    theirs.close()
    said = [ours.recv()]
    time.sleep(dice.uniform(0, 0.02))
    child.kill()
    try:
        while True:
            said.append(ours.recv())
    except EOFError:
        pass
    ours.close()
    child.join()
    assert child.exitcode == -signal.SIGKILL
    return said


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL and forked processes are of POSIX")
@pytest.mark.slow
def test_two_hundred_killed_walks_lose_no_acknowledged_check_off(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    multiprocessing.get_context("forkserver").set_forkserver_preload(["tests.walk.workshop"])
    dice = random.Random("torqref")
    acknowledged = lost = unfinished = 0
    for number in range(WALKS):
        folder = tmp_path / str(number)
        said = killed(folder, dice)
        (path,) = folder.glob("*.walk")
        told = read_journal(path)
        kept = ["+".join(map(str, event.bolts)) for event in told.events if event.kind == "check-off"]
        assert not told.damaged
        assert kept[: len(said)] == said, f"walk {number}"
        assert len(kept) <= len(said) + 1, "at most one was kept and not yet acknowledged"
        acknowledged += len(said)
        lost += len(said) - min(len(kept), len(said))
        unfinished += len(kept) < ROUNDS * BOLTS
        if number % 20 == 0 and len(kept) < ROUNDS * BOLTS:
            walk = Walk(group(TWO_ROUNDS), folder)
            assert len(walk.ticks()) == len(kept)
            walk.session.close()
    with capsys.disabled():
        print(f"\n{WALKS} walks killed, {acknowledged} check-offs acknowledged, {lost} lost")
    assert unfinished > WALKS // 4, "most kills must hit a walk in its middle"
