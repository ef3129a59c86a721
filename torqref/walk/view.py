"""What a front end shows of a walk: every sentence for the technician is made here, once.

Screens, lines and sheets take a `View` and decide nothing. Text is plain: marks and words, no colour.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from torqref.library.source import PRACTICE, REFERENCE, UNVERIFIED
from torqref.pattern.layout import labels_text
from torqref.walk.heading import (
    SET,
    direction_of,
    headline,
    left_of,
    number_of,
    parts_of_a_turn,
    round_text,
    title_of,
    verb_of,
)
from torqref.walk.moment import Moment, goal
from torqref.walk.plan import Dial, Plan, Round, Step
from torqref.walk.practice import PRACTICE_WALK
from torqref.walk.state import Progress
from torqref.walk.stop import bolt_lines, card_lines, stop_lines
from torqref.walk.tally import MARKS, STATES, Entry, choices_now, count_text, states, strip, words_now

__all__ = ["MARKS", "STATES", "Entry", "View", "parts_of_a_turn", "states", "view"]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Everything to show now.

    Args:
        kind: kind of the moment.
        title: the group, and the place where it has several.
        round: stage and round in words.
        headline: what to do, in a few words.
        bolt: the bolt or bolts, empty where none.
        verb: what is done with the number: `SET`, `TURN`, `TURN BACK`, `TURN BACK AT MOST` or `UP TO`.
        number, unit: the one number to set and its unit; empty where nothing is set.
        was: where this wrench stood before, empty where it does not change.
        wrench: which wrench to take, with its mark.
        spec: the value as printed.
        direction: which way to turn; empty where nothing turns.
        turn: what the angle is in parts of a turn, for a look.
        lines: further lines, most important first; at most three at a stop.
        condition: the condition line.
        card: everything to know before the first pull, where a stop has no room for all of it.
        strip: all stages with their values.
        count: how many of the round are done.
        marks: state of each position.
        pointer: the last bolt and the next, for the picture.
        options: answers of a question, digit and words.
        choices: words that take a digit, each with what its digits mean, from 1.
        words: what can be said now beside the main key, word and meaning.
        main: what the main key does.
        practice: the sentence that these are practice values or a practice walk, or empty.
        worth: the sentence that nobody typed the values twice, or that they are for reference; or empty.
    """

    kind: str
    title: str
    round: str = ""
    headline: str = ""
    bolt: str = ""
    verb: str = SET
    number: str = ""
    unit: str = ""
    was: str = ""
    wrench: str = ""
    spec: str = ""
    direction: str = ""
    turn: str = ""
    lines: tuple[str, ...] = ()
    condition: str = ""
    card: tuple[str, ...] = ()
    strip: tuple[Entry, ...] = ()
    count: str = ""
    marks: tuple[tuple[int, str], ...] = ()
    pointer: tuple[int, int] | None = None
    options: tuple[tuple[int, str], ...] = ()
    choices: tuple[tuple[str, tuple[str, ...]], ...] = ()
    words: tuple[tuple[str, str], ...] = ()
    main: str = ""
    practice: str = ""
    worth: str = ""


def view(progress: Progress, moment: Moment, now: datetime) -> View:
    """What to show at this moment."""
    plan, here = progress.plan, progress.current
    step = here.steps[moment.step] if here and 0 <= moment.step < len(here.steps) else None
    round_, ahead = _ahead(progress, moment)
    dial = progress.dial(ahead) if ahead and moment.kind not in ("whole", "measure") else None
    left = left_of(progress, ahead)
    number, unit = number_of(dial, ahead, moment, left)
    bolt = ahead if moment.kind == "stop" else step
    return View(
        kind=moment.kind,
        title=title_of(plan, here),
        round=round_text(progress),
        headline=headline(progress, moment, step),
        bolt=labels_text(bolt.labels) if bolt and moment.kind in ("bolt", "stop", "question") else "",
        verb=verb_of(ahead),
        number=number,
        unit=unit,
        was=was_text(progress, dial),
        wrench=dial.wrench_name if dial else "",
        spec=spec_text(progress, round_, dial, ahead) if number else "",
        direction=direction_of(plan, ahead),
        turn=_turn(ahead, left) if unit == "°" else "",
        lines=bolt_lines(progress, step, now) if moment.kind == "bolt" else stop_lines(progress, moment, now),
        condition=plan.condition,
        card=card_lines(progress),
        strip=strip(progress),
        count=count_text(progress),
        marks=tuple(states(progress, moment).items()),
        pointer=_pointer(progress, step),
        options=tuple((option.digit, option.text) for option in moment.options),
        choices=choices_now(progress, moment),
        words=words_now(progress, moment),
        main=_main(here, moment),
        practice=_practice(plan),
        worth=_worth(plan),
    )


def _ahead(progress: Progress, moment: Moment) -> tuple[Round | None, Step | None]:
    """Round and step whose number is shown: those that a stop leads to; none where nothing is pulled yet."""
    if moment.kind == "stop" and not {"setting", "resume", "hand-over"} & set(moment.why):
        return progress.current, None
    if moment.kind == "wait":
        return progress.current, None  # what comes after a wait is nothing to set now
    round_, place = goal(progress, moment)
    return round_, round_.steps[place] if round_ and 0 <= place < len(round_.steps) else None


def _turn(step: Step | None, left: Fraction | None) -> str:
    """The turn, or what is left of it, for a look."""
    degrees = left if left is not None else step.degrees if step else None
    return parts_of_a_turn(degrees) if degrees is not None else ""


_MAIN_WORDS = {
    "caution": "read and done",
    "stop": "set and ready",
    "whole": "whole round done",
    "bolt": "done",
    "card": "all done",
    "marks": "every mark is right",
}


def _main(round_: Round | None, moment: Moment) -> str:
    """What the main key does; in a recheck it says that the bolt did not move."""
    if moment.kind == "bolt" and round_ is not None and (round_.recheck or round_.until_still):
        return "still"
    return _MAIN_WORDS.get(moment.kind, "")


def was_text(progress: Progress, dial: Dial | None) -> str:
    """Where the wrench of this setting stood before, where that was elsewhere."""
    if dial is None:
        return ""
    stood = dict(progress.stood).get(dial.wrench, "")
    return "" if stood == f"{dial.shown} {dial.unit}" else stood


def spec_text(progress: Progress, round_: Round | None, dial: Dial | None, step: Step | None) -> str:
    """As printed: the text of the stage or of the value, and the window that stands apart from it."""
    from torqref.quantity.limits import limits_apart, turn_limits_apart

    if dial is None:
        if round_ is None or step is None or step.degrees is None:
            return ""
        return _with_window(round_.text, turn_limits_apart(round_.text, step.low, step.high))
    whole = round_.text if round_ and dial.target.text in round_.text else dial.target.text
    drag = f", plus drag {progress.drag.text}" if progress.drag else ""
    adapter = f", with {dial.with_adapter}" if dial.with_adapter else ""
    return f"{_with_window(whole, limits_apart(dial.target))}{drag}{adapter}"


def _with_window(text: str, window: str) -> str:
    """A value as printed, and the window that the page gives apart from it."""
    return f"{text}, window {window}" if window else text


def _pointer(progress: Progress, step: Step | None) -> tuple[int, int] | None:
    if step is None or not progress.pulled or not step.labels or not progress.done:
        return None
    return (progress.pulled[-1][0], step.labels[0])


def _practice(plan: Plan) -> str:
    said = (PRACTICE_WALK if plan.practice else "", PRACTICE if plan.invented else "")
    return ". ".join(part for part in said if part)


def _worth(plan: Plan) -> str:
    """What must be known of values that are neither for practice nor verified nor typed just now."""
    if plan.invented or plan.typed or plan.action != "tighten":
        return ""
    if REFERENCE in plan.source:
        return REFERENCE
    return UNVERIFIED if plan.unverified else ""
