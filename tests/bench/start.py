"""How long a command takes that reads no file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.bench.process import in_turn, python, script
from tests.bench.row import Row, memory, ratio
from tests.bench.size import Size


def start_rows(folder: Path, size: Size) -> Iterator[Row]:
    """A conversion against the import of the unit library, the help against an empty parser."""
    torqref = script(folder)
    runs = in_turn(
        {
            "convert": [*torqref, "convert", "96 in-lb", "N·m"],
            "rare": [*torqref, "convert", "960 dyn·cm", "mN·m"],
            "help": [*torqref, "--help"],
            "pint": python("import pint"),
            "argparse": python("import argparse"),
        },
        folder,
        size.runs,
    )
    against = "import pint"
    yield ratio("torqref convert, usual units", against, (runs["convert"], runs["pint"]), 1.15)
    yield ratio("torqref convert, rare units", against, (runs["rare"], runs["pint"]), 1.15)
    yield ratio("torqref --help", "import argparse", (runs["help"], runs["argparse"]), 1.4)
    yield memory("torqref convert", against, (runs["convert"], runs["pint"]))
