"""The answers that a digit gives: to a question that stands open, or behind a word such as trouble."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from torqref.walk.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """An answer to a question: its digit and its words."""

    digit: int
    text: str


def _options(*texts: str) -> tuple[Option, ...]:
    return tuple(Option(digit=digit, text=text) for digit, text in enumerate(texts, start=1))


MARK_OPTIONS = _options("the mark is still at the start", "the mark has already turned", "cannot tell")
HALF_OPTIONS = _options("the mark is where it was left", "the mark has turned all the way", "cannot tell")
DEADLINE_OPTIONS = _options(
    "cleaned off and fresh: start again from the first stage", "go on all the same; the record says so"
)
CALIBRATION_OPTIONS = _options("use it all the same; the record says so", "pause and take another wrench")
DOUBT_OPTIONS = _options("the page says so; the record keeps my answer", "pause and look it up")
BEYOND_OPTIONS = _options(
    "a wrench that is not in the rack; the record says so, a note can name it", "pause and fetch one"
)
CHANGED_OPTIONS = _options(
    "go on by the plan of this walk", "pause; begin a new walk with the new values (--new)"
)
AGAIN_OPTIONS = _options("walk it again; the record says so", "pause; another place is meant")
STILL_OPTIONS = _options("one more time round", "go on all the same; the record says that it still moves")
EARLY_OPTIONS = _options(
    "measured: cold enough already",
    "the page allows it",
    "the shop lead allows it",
    "it waited before; entered late",
    "the vehicle has to leave; checked again later",
    "another reason; see the note",
)
DISTANCE_OPTIONS = _options("it is so now", "not so yet; checked all the same, the record says so")


def use_options(uses: int) -> tuple[Option, ...]:
    """Which time a set is tightened, and last that it is used up, or that nobody knows.

    >>> [option.text for option in use_options(2)]
    ['new: the first time of 2', 'time 2 of 2', 'more often, or nobody knows: pause; a new set is needed']
    """
    again = (f"time {time} of {uses}" for time in range(2, uses + 1))
    used_up = "more often, or nobody knows: pause; a new set is needed"
    return _options(f"new: the first time of {uses}", *again, used_up)


# What can be said of parts that may be used once only, instead of the main key.
PART_CHOICES = (
    "no new ones here yet: pause",
    "used again: measured, and within what the page allows",
    "used again though the page says new; the record says so",
)
SKIP_REASONS = (
    "not reachable",
    "part missing",
    "thread or hole damaged; repaired later",
    "the page leaves it out",
    "another reason; see the note",
)
# Why a step of a whole repair is left out.
STEP_SKIP_REASONS = (
    "not fitted on this one",
    "done before this job; see the note",
    "the page leaves it out",
    "done later, by another job",
    "another reason; see the note",
)
ABANDON_REASONS = (
    "another repair comes first",
    "parts missing",
    "begun by mistake",
    "done in another way; see the note",
    "another reason; see the note",
)


def choices_of(word: str, plan: Plan) -> tuple[str, ...]:
    """What a word can be followed by, in the order of the digits; empty where it takes no digit."""
    return {
        "trouble": plan.reasons,
        "old": PART_CHOICES,
        "skip": SKIP_REASONS if plan.second_check else (),
        "abandon": ABANDON_REASONS,
    }.get(word, ())


def chosen(text: str, choices: Sequence[str]) -> int:
    """The digit that a text is, from 1, where there is such a choice; else 0."""
    word = text.strip()
    digit = int(word) if word.isascii() and word.isdigit() and len(word) < 3 else 0
    return digit if digit <= len(choices) else 0


def listed(choices: Sequence[str]) -> str:
    """The choices as one line."""
    return "; ".join(f"{digit} = {text}" for digit, text in enumerate(choices, start=1))
