"""Long walks and many walks: going on with one, listing all."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.bench.material import read, write_pattern, write_walk, write_walks
from tests.bench.process import Runs, in_turn, peak_of, python, script
from tests.bench.row import Row, memory, ratio
from tests.bench.size import Size

EVENTS, WALKS = 5_000, 10_000
_PARSE = """
import json, sys
from pathlib import Path
for path in sorted(Path(sys.argv[1]).glob("*.walk")):
    for line in path.read_bytes().splitlines():
        json.loads(line)
"""
_AGAINST = "json parsing the same lines"


def record_rows(folder: Path, size: Size) -> Iterator[Row]:
    """A walk of thousands of events is gone on with; thousands of walks are listed."""
    events, walks = size.of(EVENTS), size.of(WALKS)
    specs = write_pattern(folder / "long", 200, 30)
    write_walk(folder / "one", specs, events)
    short = write_walk(folder / "few", write_pattern(folder / "short", 10, 2), 20)
    write_walks(folder / "many", read(short), walks)
    write_walks(folder / "unlike", read(short), walks, alike=False)
    torqref = script(folder)
    resume = [*torqref, "walk", "plate", "--plain", "--specs", str(specs)]
    runs = in_turn(
        {
            "resume": [*resume, "--records", str(folder / "one")],
            "lines": python(_PARSE, str(folder / "one")),
            "listing": [*torqref, "record", "--records", str(folder / "many")],
            "unlike": [*torqref, "record", "--records", str(folder / "unlike")],
            "one": [*torqref, "record", "121000-", "--records", str(folder / "many")],
            "all lines": python(_PARSE, str(folder / "many")),
            "unlike lines": python(_PARSE, str(folder / "unlike")),
        },
        folder,
        min(size.runs, 5),
    )
    yield ratio(f"going on with a walk of {events} events", _AGAINST, (runs["resume"], runs["lines"]))
    yield ratio(f"listing {walks} walks", _AGAINST, (runs["listing"], runs["all lines"]))
    yield ratio(f"listing {walks} walks, no two alike", _AGAINST, (runs["unlike"], runs["unlike lines"]))
    yield ratio(f"showing one of {walks} walks", _AGAINST, (runs["one"], runs["all lines"]))
    yield memory(f"a walk of {events} events", _AGAINST, (runs["resume"], runs["lines"]))
    yield memory(f"listing {walks} walks", _AGAINST, (runs["listing"], runs["all lines"]))
    export = [*torqref, "record", "--csv", "--records", str(folder / "many")]
    exported = Runs(seconds=(), peak=peak_of(export, folder))
    yield memory(f"every row of {walks} walks", _AGAINST, (exported, runs["all lines"]))
