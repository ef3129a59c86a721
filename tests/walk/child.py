"""Walks as fast as it can and says each bolt once it is kept: a test kills it in the middle."""

import sys
import time
from collections.abc import Callable
from multiprocessing.connection import Connection
from pathlib import Path

from tests.walk.workshop import TWO_ROUNDS, Walk, group


def walk_and_say(folder: Path, say: Callable[[str], None]) -> None:
    """Walk to the end and wait there to be killed."""
    walk = Walk(group(TWO_ROUNDS), folder)
    while walk.asks != "finished":
        bolt = walk.bolt if walk.asks == "bolt" else ()
        assert not walk.press()
        if bolt:
            say("+".join(map(str, bolt)))
    time.sleep(600)


def walk_into(folder: Path, pipe: Connection) -> None:
    """The same for a process that was forked: each bolt goes into a pipe."""
    walk_and_say(folder, pipe.send)


if __name__ == "__main__":
    walk_and_say(Path(sys.argv[1]), lambda bolt: print(bolt, flush=True))
