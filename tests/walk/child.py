"""Walks as fast as it can and says each bolt once it is kept: a test kills it in the middle."""

import sys
import time
from pathlib import Path

from tests.walk.workshop import TWO_ROUNDS, Walk, group

walk = Walk(group(TWO_ROUNDS), Path(sys.argv[1]))
while walk.asks != "finished":
    bolt = walk.bolt if walk.asks == "bolt" else ()
    assert not walk.press()
    if bolt:
        print("+".join(map(str, bolt)), flush=True)
time.sleep(600)
