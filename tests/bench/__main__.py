"""Measures how fast torqref is, each figure against a baseline of the same run, and prints one table.

    python -m tests.bench [--runs N] [--small] [PART…]

No test: the figures depend on the machine, the ratios less so. Parts: start, screen, library, records.
`--small` works on a tenth of everything, to see whether the benchmarks themselves still run.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.bench.library import library_rows
from tests.bench.records import record_rows
from tests.bench.row import Row, table
from tests.bench.screen import screen_rows
from tests.bench.size import Size
from tests.bench.start import start_rows

PARTS: dict[str, Callable[[Path, Size], Iterator[Row]]] = {
    "start": start_rows,
    "screen": screen_rows,
    "library": library_rows,
    "records": record_rows,
}


def main() -> int:
    """Measure the parts asked for, and print their table."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench")
    parser.add_argument("parts", nargs="*", metavar="PART", help=", ".join(PARTS))
    parser.add_argument("--runs", type=int, default=11, help="how often each command is run (median)")
    parser.add_argument("--small", action="store_true", help="a tenth of everything")
    options = parser.parse_args()
    size = Size(runs=options.runs, part=10 if options.small else 1)
    rows: list[Row] = []
    with tempfile.TemporaryDirectory(prefix="torqref-bench-") as folder:
        for name in options.parts or PARTS:
            place = Path(folder) / name
            place.mkdir()
            for row in PARTS[name](place, size):
                print(" | ".join(row.cells()), file=sys.stderr, flush=True)
                rows.append(row)
    print(table(rows))
    print(f"\nPython {sys.version.split()[0]}, {os.cpu_count()} processors, {size.runs} runs, median.")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
