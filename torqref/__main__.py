"""The process: lets `python -m torqref` and the command `torqref` do the same."""

from __future__ import annotations

import gc
import sys

from torqref.cli import main


def start() -> int:
    """Run the command of this process; returns its exit code.

    A command lives for a fraction of a second and leaves nothing for the collector of cycles: it stays
    off, also at the end, where it would look through everything once more. What stays longer, a walk or
    a screen, switches it on again.
    """
    gc.disable()
    try:
        return main()
    finally:
        gc.freeze()


if __name__ == "__main__":
    sys.exit(start())
