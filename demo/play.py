"""Plays the main job without a keyboard: a walk by lines, broken off, gone on with, and its record.

Everything in it is invented: the Brindle 24 utility truck, its values and the wrenches. The records go to
a temporary folder. Run it with the Python that torqref is installed in: `python demo/play.py`.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
GROUP = "coolant-pump"


def torqref(*words: str, presses: int = 0) -> None:
    """Run one command and show it; each press is an empty line, the main key."""
    print(f"\n$ torqref {' '.join(words[:-2] if '--records' in words else words)}", flush=True)
    subprocess.run([sys.executable, "-m", "torqref", *words], input="\n" * presses, text=True, check=True)


def main() -> None:
    """The pump of the invented truck: placed, run down by hand, 10 N·m, then 22 N·m, nine bolts."""
    with tempfile.TemporaryDirectory() as records:
        walk = ("walk", GROUP, "--plain", "--rack", str(HERE.name + "/wrenches.toml"), "--records", records)
        torqref(*walk, presses=6)  # stop, place, hand, stop, two bolts; then the phone rings
        torqref(*walk, presses=18)  # one stop after the break, seven bolts, a stop, nine bolts
        torqref("record", GROUP, "--records", records)


if __name__ == "__main__":
    import os

    os.chdir(HERE.parent)
    main()
