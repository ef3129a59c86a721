"""The tally of a walk: one row a round, the state of each bolt, and what deserves to be read first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from torqref.pattern.layout import labels_text
from torqref.sheets.line import Line, lines
from torqref.walk.archive import Record
from torqref.walk.plan import Round
from torqref.walk.view import MARKS

# Worst first: what a bolt shows when several things happened to it.
STATES = ("trouble", "skipped", "later", "open", "moved", "done")
NOTEWORTHY = {
    "trouble": "Trouble",
    "skip": "Left out",
    "page": "The page says other",
    "wrench": "Another tool",
    "moved": "Moved in a recheck",
    "found": "As found",
    "actual": "Measured",
    "measure": "Measured",
    "verify": "Checked",
    "hand-over": "Hand-over",
    "note": "Note",
    "due": "Wait",
    "undo": "Taken back",
    "abandoned": "Abandoned",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One round of a walk.

    Args:
        stage: number of the stage on the page.
        place: the place, empty where there is one only.
        instruction: the stage as printed.
        printed: values as printed, each once.
        set: what was set, with the wrench, each once.
        measured: what was measured, bolt by bolt.
        ticks: bolts that were ticked, with the time of day.
        wanted: how many visits the round has.
        state: `done`, `done but for …` or `open`.
        by: who ticked.
    """

    stage: int
    place: str
    instruction: str
    printed: tuple[str, ...] = ()
    set: tuple[str, ...] = ()
    measured: tuple[str, ...] = ()
    ticks: tuple[tuple[str, str], ...] = ()
    wanted: int = 0
    state: str = ""
    by: tuple[str, ...] = ()


def rows(record: Record) -> tuple[Row, ...]:
    """The rounds of a walk in the order of its plan."""
    told = [line for line in lines(record) if not line.undone]
    return tuple(
        _row(record, number, round_, [line for line in told if line.event.round == number])
        for number, round_ in enumerate(record.header.plan.rounds, start=1)
    )


def _row(record: Record, number: int, round_: Round, told: list[Line]) -> Row:
    ticks = [line for line in told if line.event.kind == "check-off"]
    return Row(
        stage=round_.stage,
        place=round_.place,
        instruction=f"{round_.text}, recheck" if round_.recheck else round_.text,
        printed=_told_once((line.printed, line.event.bolts) for line in ticks),
        set=_told_once((_set_text(line), line.event.bolts) for line in ticks),
        measured=tuple(_measured_text(line) for line in told if line.measured),
        ticks=tuple((labels_text(line.event.bolts), line.event.time[11:19]) for line in ticks),
        wanted=len(round_.steps),
        state=_state(record, number, round_, told),
        by=tuple(dict.fromkeys(line.event.by for line in ticks if line.event.by)),
    )


def _told_once(pairs: Iterable[tuple[str, tuple[int, ...]]]) -> tuple[str, ...]:
    """Each text once; where there are several, each with the bolts it is of."""
    bolts: dict[str, list[int]] = {}
    for text, labels in pairs:
        bolts.setdefault(text, []).extend(labels)
    if len(bolts) < 2:
        return tuple(text for text in bolts if text)
    return tuple(f"{text} (at {spans(labels)})" for text, labels in bolts.items())


def _set_text(line: Line) -> str:
    wrench = f" on {line.wrench}" if line.wrench else ""
    wrench += f" with {line.adapter}" if line.adapter else ""
    if line.set:
        return f"{line.set}{wrench}"
    return f"turned {line.turned}" if line.turned else "by hand"


def _measured_text(line: Line) -> str:
    bolts = labels_text(line.event.bolts)
    where = f"{bolts}: " if bolts else ""
    what = "as found " if line.event.kind == "found" else ""
    verdict = f" {line.event.text}" if line.event.text else ""
    return f"{where}{what}{line.measured}{verdict}"


def _state(record: Record, number: int, round_: Round, told: list[Line]) -> str:
    """In a word whether the round is through, and what it left out."""
    progress = record.progress
    if number - 1 >= progress.round and not progress.finished:
        return "open"
    left = [labels_text(line.event.bolts) for line in told if line.event.kind == "skip"]
    return f"done, left out {', '.join(left)}" if left else "done"


def bolt_states(record: Record, place: str = "") -> dict[int, str]:
    """What each bolt of a place has come to: one of `STATES`."""
    found = dict.fromkeys(record.header.plan.layout.labels, "done")
    for label, state in _happened(record, place):
        if label in found and STATES.index(state) < STATES.index(found[label]):
            found[label] = state
    return found


def _happened(record: Record, place: str) -> Iterator[tuple[int, str]]:
    progress, rounds = record.progress, record.header.plan.rounds
    mine = {number for number, round_ in enumerate(rounds) if round_.place == place}
    for number in mine:
        if number > progress.round:
            yield from ((label, "open") for step in rounds[number].steps for label in step.labels)
    if progress.round in mine:
        steps = rounds[progress.round].steps
        for at in progress.open_steps:
            state = "later" if at in progress.later else "open"
            yield from ((label, state) for label in steps[at].labels)
    for number, at in progress.skipped:
        if number in mine:
            yield from ((label, "skipped") for label in rounds[number].steps[at].labels)
    for line in lines(record):
        if not line.undone and line.place == place and line.event.kind in ("trouble", "moved"):
            state = "trouble" if line.event.kind == "trouble" else "moved"
            yield from ((label, state) for label in line.event.bolts)


def marks(states: dict[int, str]) -> dict[int, str]:
    """What stands at each bolt: its number, and the mark of the screen where it is not plainly done."""
    return {
        label: str(label) if state == "done" else f"{label}{MARKS[state]}" for label, state in states.items()
    }


def noteworthy(record: Record) -> tuple[str, ...]:
    """What happened besides ticks, a sentence each, in order; taken-back presses are named as such."""
    return tuple(_note(line) for line in lines(record) if _is_noteworthy(line))


def _is_noteworthy(line: Line) -> bool:
    event = line.event
    answered = event.kind == "gate" and bool(event.reason)
    whole = event.kind == "round" and event.afterwards
    return event.kind in NOTEWORTHY or answered or whole


def _note(line: Line) -> str:
    event = line.event
    bolts = f" bolt {labels_text(event.bolts)}" if event.bolts and len(event.bolts) < 4 else ""
    stage = f" stage {line.stage}" if line.stage else ""
    named = {"gate": "Answered", "round": "Ticked as a whole"}.get(event.kind, "")
    kind = NOTEWORTHY.get(event.kind, named)
    rest = ", ".join(
        part
        for part in (event.value, event.text, f"due {event.due[:16]}".replace("T", " ") if event.due else "")
        if part
    )
    by = f" by {event.by}" if event.by else ""
    gone = " (taken back)" if line.undone else ""
    return f"{event.time[:19].replace('T', ' ')}{by} {kind}{stage}{bolts}: {rest}{gone}".rstrip(": ")


def spans(labels: Iterable[int]) -> str:
    """Labels in few characters.

    >>> spans([1, 2, 3, 7, 9, 10])
    '1–3, 7, 9–10'
    """
    numbered = enumerate(sorted(set(labels)))
    runs = [[label for _, label in run] for _, run in groupby(numbered, lambda pair: pair[1] - pair[0])]
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)
