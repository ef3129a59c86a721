"""What is done and what is open: the state of each position, the count, the stages, and the words to say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from torqref.walk.choice import choices_of
from torqref.walk.keeping import may_keep
from torqref.walk.moment import Moment
from torqref.walk.plan import Round
from torqref.walk.state import Progress

MARKS = {"open": ".", "now": ">", "done": "x", "later": "~", "skipped": "-", "trouble": "!", "moved": "m"}
STATES = {
    "open": "open",
    "now": "now",
    "done": "done",
    "later": "later",
    "skipped": "left out",
    "trouble": "trouble",
    "moved": "moved",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One stage in the strip: its value as printed, and `done`, `now` or `open`."""

    text: str
    state: str


def strip(progress: Progress) -> tuple[Entry, ...]:
    """All stages of the page with their values, and which is now."""
    entries: dict[int, Entry] = {}
    for place, round_ in enumerate(progress.plan.rounds):
        state = "done" if place < progress.round else "now" if place == progress.round else "open"
        known = entries.get(round_.stage)
        if known is not None and known.state != state:
            state = "now" if "now" in (known.state, state) else "open"
        entries[round_.stage] = Entry(text=round_.text, state=state)
    return tuple(entries.values())


def count_text(progress: Progress) -> str:
    """How many of the round are done."""
    round_ = progress.current
    if round_ is None or not round_.steps:
        return ""
    left_out = sum(1 for pair in progress.skipped if pair[0] == progress.round)
    shown = f"{len(progress.done)} of {len(round_.steps)} done"
    return f"{shown}, {left_out} left out" if left_out else shown


def states(progress: Progress, moment: Moment) -> Mapping[int, str]:
    """The state of each position: open, now, done, later, skipped, trouble or moved."""
    found = dict.fromkeys(progress.plan.layout.labels, "open")
    round_ = progress.current
    if round_ is None:
        return dict.fromkeys(found, "done")
    for place, step in enumerate(round_.steps):
        state = _state(progress, moment, place)
        # one bolt may come twice in a round: what is still to do outweighs what is done
        found.update({label: state for label in step.labels if found.get(label) != "now"})
    found.update({label: "moved" for label in progress.moved if found.get(label) == "done"})
    if progress.trouble is not None:
        found.update(dict.fromkeys(progress.trouble.bolts, "trouble"))
    return found


def _state(progress: Progress, moment: Moment, place: int) -> str:
    if place == moment.step and moment.kind in ("bolt", "stop", "question", "measure"):
        return "now"
    if place in progress.done:
        return "done"
    if place in progress.later:
        return "later"
    return "skipped" if (progress.round, place) in progress.skipped else "open"


# Every word as it is said, with its meaning and the moments at which help and keys offer it.
_ANYWHERE = ("bolt", "card", "stop", "whole", "marks", "measure")
WORDS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("moved", "it moved, and is tight now", ("recheck",)),
    ("later", "not reachable yet", ("bolt",)),
    ("later N", "bolt N is not reachable yet", ("card",)),
    ("skip N", "leave bolt N out of this round", ("bolt", "card")),
    ("trouble D", "something is wrong, by digit", (*_ANYWHERE, "question", "second-check")),
    ("old D", "the parts are not new, by digit", ("parts",)),
    ("drag VALUE", "the measured drag of the locking nut", ("locking",)),
    ("actual VALUE", "what was really reached", ("bolt", "card")),
    ("found VALUE", "what it had before", ("bolt", "card", "stop")),
    ("page VALUE", "the page says other", ("bolt", "card", "stop", "value")),
    ("round", "tick the rest as a whole", ("bolt",)),
    ("wrench ID", "another wrench, crowfoot OFFSET, or unit U", ("bolt", "card", "stop", "whole", "value")),
    ("unit", "the value to set in the next unit", ("bolt", "card", "stop")),
    ("measure VALUE", "the reading", ("measure",)),
    ("verify VALUE", "the second check", ("second-check",)),
    ("sign NAME", "who works from here on", _ANYWHERE),
    ("sign NAME", "your name for the record", ("finished",)),
    ("undo", "take the last press back", (*_ANYWHERE, "value", "second-check", "finished")),
    ("undo N", "take the tick of bolt N back", ("marks",)),
    ("note TEXT", "keep a remark", (*_ANYWHERE, "value", "wait", "second-check")),
    ("afterwards", "entries from paper, made afterwards", ("bolt", "stop", "whole", "wait")),
    ("keep", "keep it as a draft group of your library", ("to keep",)),
    ("pause", "put it down", (*_ANYWHERE, "wait", "question", "second-check")),
    ("abandon D", "end it unfinished, by digit", (*_ANYWHERE, "wait", "question")),
)
_BY_DIGIT = ("trouble", "skip", "old", "abandon")


def words_now(progress: Progress, moment: Moment) -> tuple[tuple[str, str], ...]:
    """What can be said at this moment beside the main key."""
    kinds = {moment.kind, *_further(progress, progress.current, moment)}
    return tuple((word, meaning) for word, meaning, places in WORDS if kinds & set(places))


def _further(progress: Progress, round_: Round | None, moment: Moment) -> set[str]:
    plan = progress.plan
    holds = {
        "recheck": moment.kind == "bolt" and round_ is not None and (round_.recheck or round_.until_still),
        "parts": "opening" in moment.why and bool(plan.one_time) and plan.action == "tighten",
        "to keep": may_keep(progress),
        # a question about the value itself: another value or another wrench answers it, too
        "value": moment.kind == "question"
        and moment.step >= 0
        and bool({"doubt", "beyond"} & set(moment.why)),
        "locking": plan.locking and moment.kind in (*_ANYWHERE,),
    }
    return {name for name, held in holds.items() if held}


def choices_now(progress: Progress, moment: Moment) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The words that take a digit at this moment, each with what its digits mean, from 1."""
    said = {word.split()[0] for word, _ in words_now(progress, moment)}
    found = ((word, choices_of(word, progress.plan)) for word in _BY_DIGIT if word in said)
    return tuple((word, choices) for word, choices in found if choices)
