"""Recorded journals of format 1: every later version must read them as they were walked.

The files in `journals/` are never written again; a later format adds files of its own beside them. They
are walks of the jobs in `jobs.toml`, by Ada and Ben, and what is expected of them was counted from what
was said and pressed while they were recorded.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from tests.walk.workshop import MORNING, Clock
from torqref.walk.archive import read_record
from torqref.walk.journal import JournalError, open_journal
from torqref.walk.moment import moment
from torqref.walk.opening import Request, resume
from torqref.walk.view import view

FOLDER = Path(__file__).parent / "journals"


@dataclass(frozen=True)
class Expected:
    """What a recorded walk must still say: state, ticks, kinds of note, and where it stands."""

    state: str
    ticks: int
    stands: tuple[int, int]
    last: str = ""
    kinds: dict[str, int] = field(default_factory=dict)
    problems: tuple[int, ...] = ()


# 24 N·m and a drag of 1.5 are set as 25.5. stands: rounds that are through, and steps done of the next one
EXPECTED = {
    "manifold-finished": Expected(
        "finished", 24, (5, 0), "set 24 N·m", {"later": 1, "due": 1, "moved": 1, "hand-over": 0, "opened": 2}
    ),
    "head-trouble-open": Expected(
        "open", 33, (4, 2), "turned 90°", {"actual": 2, "undo": 1, "verify": 1, "trouble": 1}
    ),
    "bearing-measured": Expected("finished", 9, (5, 0), "", {"measure": 2, "hand-over": 1, "pause": 1}),
    "flange-due": Expected("due", 40, (5, 0), "set 150 N·m", {"moved": 1, "measure": 4, "due": 1}),
    "pump-loosened-open": Expected("open", 1, (0, 0), "", {"found": 1, "note": 1, "trouble": 1, "skip": 1}),
    "cover-corrected-finished": Expected(
        "finished", 20, (3, 0), "set 25.5 N·m", {"page": 1, "wrench": 1, "actual": 1, "verify": 1, "measure": 1, "note": 3}
    ),
    "cover-abandoned": Expected("abandoned", 3, (1, 3), "set 40 in-lb", {"abandoned": 1, "finished": 0}),
    "manifold-torn": Expected("open", 3, (1, 3), "set 12 N·m", problems=(9,)),
    "manifold-damaged": Expected("open", 1, (1, 1), "set 12 N·m", problems=(7,)),
}  # fmt: skip


def test_every_recorded_journal_is_expected() -> None:
    assert {path.stem for path in FOLDER.glob("*.walk")} == set(EXPECTED)


@pytest.mark.parametrize("name", EXPECTED)
def test_a_recorded_journal_reads_as_it_was_walked(name: str) -> None:
    wanted = EXPECTED[name]
    record, problems = read_record(FOLDER / f"{name}.walk")
    assert record is not None
    ticks = [event for event in record.told.events if event.kind == "check-off"]
    kinds = [event.kind for event in record.told.events]
    assert record.header.format == 1
    assert (record.header.by, record.header.bay) == ("Ada", "bay 1")
    assert record.state == wanted.state
    assert len(ticks) == wanted.ticks
    assert (record.progress.round, len(record.progress.done)) == wanted.stands
    assert ticks[-1].value == wanted.last
    assert {kind: kinds.count(kind) for kind in wanted.kinds} == wanted.kinds
    assert tuple(problem.line for problem in problems) == wanted.problems
    assert [event.number for event in record.told.events] == list(range(1, len(kinds) + 1))


@pytest.mark.parametrize("name", EXPECTED)
def test_a_recorded_journal_can_be_shown_and_an_open_one_gone_on_with(tmp_path: Path, name: str) -> None:
    path = tmp_path / f"{name}.walk"
    shutil.copyfile(FOLDER / path.name, path)
    record, _ = read_record(path)
    assert record is not None
    assert view(record.progress, moment(record.progress, MORNING), MORNING).title
    if EXPECTED[name].problems and not record.told.torn:
        with pytest.raises(JournalError):
            open_journal(path)
        return
    opened = resume(record, Request(folder=tmp_path, bay="bay 1"), Clock())
    assert opened.session is not None
    opened.session.do("note", "gone on with")
    opened.session.close()
    again, problems = read_record(path)
    assert again is not None
    assert not problems
    assert again.told.events[: len(record.told.events)] == record.told.events


def test_what_was_said_in_a_recorded_walk_is_still_there() -> None:
    def events(name: str) -> dict[str, str]:
        record, _ = read_record(FOLDER / f"{name}.walk")
        assert record is not None
        return {event.kind: " ".join((event.value, event.text, event.by)) for event in record.told.events}

    corrected = events("cover-corrected-finished")
    assert "on the page (sheet 2)" in corrected["page"]
    assert corrected["verify"].endswith("Ben")
    assert "drag of the locking nut" in corrected["measure"]
    assert "30 N·m" in events("pump-loosened-open")["found"]
    assert "overshot" in events("head-trouble-open")["trouble"]
    assert "another repair comes first" in events("cover-abandoned")["abandoned"]
