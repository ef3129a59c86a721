"""What a front end shows of a walk: every sentence for the technician is made here, once.

Screens, lines and sheets take a `View` and decide nothing. Text is plain: marks and words, no colour.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from torqref.library.source import PRACTICE
from torqref.walk.attempt import show_degrees
from torqref.walk.keeping import may_keep
from torqref.walk.moment import Moment
from torqref.walk.plan import Dial, Plan, Round, Step
from torqref.walk.progress import MOST_TRIPS, Progress
from torqref.walk.stop import stop_lines

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


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Everything to show now.

    Args:
        kind: kind of the moment.
        title: the group, and the place where it has several.
        round: stage and round in words.
        headline: what to do, in a few words.
        bolt: the bolt or bolts, empty where none.
        number, unit: the one number to set and its unit; empty where nothing is set.
        was: where this wrench stood before, empty where it does not change.
        wrench: which wrench to take, with its mark.
        spec: the value as printed.
        direction: which way to turn; empty where nothing turns.
        turn: what the angle is in parts of a turn, for a look.
        lines: further lines, most important first; at most three at a stop.
        condition: the condition line.
        strip: all stages with their values.
        count: how many of the round are done.
        marks: state of each position.
        pointer: the last bolt and the next, for the picture.
        options: answers of a question, digit and words.
        words: what can be said now beside the main key, word and meaning.
        main: what the main key does.
        practice: the sentence that these are practice values, or empty.
    """

    kind: str
    title: str
    round: str = ""
    headline: str = ""
    bolt: str = ""
    number: str = ""
    unit: str = ""
    was: str = ""
    wrench: str = ""
    spec: str = ""
    direction: str = ""
    turn: str = ""
    lines: tuple[str, ...] = ()
    condition: str = ""
    strip: tuple[Entry, ...] = ()
    count: str = ""
    marks: tuple[tuple[int, str], ...] = ()
    pointer: tuple[int, int] | None = None
    options: tuple[tuple[int, str], ...] = ()
    words: tuple[tuple[str, str], ...] = ()
    main: str = ""
    practice: str = ""


def view(progress: Progress, moment: Moment, now: datetime) -> View:
    """What to show at this moment."""
    plan, round_ = progress.plan, progress.current
    step = round_.steps[moment.step] if round_ and 0 <= moment.step < len(round_.steps) else None
    ahead = step if step or moment.kind != "stop" else _ahead(progress)
    dial = progress.dial(ahead) if ahead and moment.kind not in ("whole", "measure") else None
    if moment.kind == "stop" and not {"setting", "resume"} & set(moment.why):
        dial = None
    return View(
        kind=moment.kind,
        title=_title(plan, round_),
        round=round_text(progress),
        headline=headline(progress, moment, step),
        bolt=bolt_text(step.labels) if step and moment.kind in ("bolt", "stop", "question") else "",
        number=_number(dial, ahead, moment),
        unit=_unit(dial, ahead, moment),
        was=was_text(progress, dial),
        wrench=dial.wrench_name if dial else "",
        spec=_spec(round_, dial, ahead),
        direction=_direction(plan, ahead),
        turn=parts_of_a_turn(ahead.degrees) if ahead and ahead.degrees is not None else "",
        lines=stop_lines(progress, moment, now) if moment.kind != "bolt" else bolt_lines(progress, step),
        condition=plan.condition,
        strip=strip(progress),
        count=_count(progress),
        marks=tuple(states(progress, moment).items()),
        pointer=_pointer(progress, step),
        options=tuple((option.digit, option.text) for option in moment.options),
        words=words_now(progress, moment),
        main=_MAIN_WORDS.get(moment.kind, ""),
        practice=PRACTICE if plan.invented else "",
    )


_MAIN_WORDS = {
    "caution": "read and done",
    "stop": "set and ready",
    "whole": "whole round done",
    "bolt": "done",
    "card": "all done",
    "marks": "every mark is right",
}


def _ahead(progress: Progress) -> Step | None:
    """The step that an opened wait leads to."""
    following = progress.round + 1
    rounds = progress.plan.rounds
    return rounds[following].steps[0] if following < len(rounds) and rounds[following].steps else None


def _title(plan: Plan, round_: Round | None) -> str:
    place = round_.place if round_ else plan.place
    verb = "LOOSEN: " if plan.action == "loosen" else ""
    return f"{verb}{plan.name}" + (f", {place}" if place else "")


def bolt_text(labels: tuple[int, ...]) -> str:
    """One bolt, or a pair pulled together."""
    return "+".join(str(label) for label in labels)


def round_text(progress: Progress) -> str:
    """Which stage of how many, and which time round."""
    round_ = progress.current
    if round_ is None:
        return "all stages done"
    stages = len({other.stage for other in progress.plan.rounds})
    text = f"stage {round_.stage} of {stages}: {round_.text}"
    if round_.recheck:
        text += ", RECHECK: never loosen first"
    if progress.trip > 1:
        text += f", time {progress.trip} round (at most {MOST_TRIPS})"
    return text


def headline(progress: Progress, moment: Moment, step: Step | None) -> str:
    """What to do now, in a few words."""
    round_ = progress.current
    if moment.kind == "bolt" and round_ and step:
        return _bolt_headline(progress, round_, step)
    if moment.kind == "whole" and round_:
        return f"{'PLACE' if round_.kind == 'place' else 'HAND'}: {round_.text}"
    if moment.kind == "measure" and round_:
        return f"MEASURE: {round_.text}" + (f", wanted {round_.band.text}" if round_.band else "")
    if moment.kind == "card" and round_:
        bolts = ", ".join(bolt_text(round_.steps[place].labels) for place in progress.open_steps)
        return f"CARD: bolts {bolts}"
    return {
        "caution": "CAUTION",
        "stop": "STOP",
        "question": "QUESTION",
        "marks": "MARKS: look where every mark points",
        "wait": "WAIT",
        "second-check": "SECOND CHECK: another person looks at the page",
        "finished": "FINISHED",
    }.get(moment.kind, "")


def _bolt_headline(progress: Progress, round_: Round, step: Step) -> str:
    bolt = f"bolt {bolt_text(step.labels)}"
    if step.kind == "align":
        return f"{bolt}: align, {round_.text}"
    if step.kind == "back_off":
        return f"{bolt}: BACK OFF {show_degrees(abs(step.degrees or Fraction(0)))}°"
    if step.kind == "loosen":
        return f"{bolt}: loosen, {round_.text}"
    if progress.half and step is round_.steps[progress.half[0]] and step.degrees is not None:
        left = step.degrees - Fraction(progress.half[1])
        return f"{bolt}: {progress.half[1]}° reached, {show_degrees(left)}° LEFT"
    return f"{bolt}: click it again, still or moved?" if round_.recheck else bolt


def _number(dial: Dial | None, step: Step | None, moment: Moment) -> str:
    if dial is not None:
        return dial.shown
    turning = step is not None and step.degrees is not None and moment.kind in ("bolt", "stop", "question")
    return show_degrees(abs(step.degrees)) if turning and step and step.degrees is not None else ""


def _unit(dial: Dial | None, step: Step | None, moment: Moment) -> str:
    if dial is not None:
        return dial.unit
    return "°" if _number(dial, step, moment) else ""


def was_text(progress: Progress, dial: Dial | None) -> str:
    """Where the wrench of this setting stood before, where that was elsewhere."""
    if dial is None:
        return ""
    stood = dict(progress.stood).get(dial.wrench, "")
    return "" if stood == f"{dial.shown} {dial.unit}" else stood


def _spec(round_: Round | None, dial: Dial | None, step: Step | None) -> str:
    """As printed: the text of the stage where it is this value's, else the text of the value."""
    if dial is None:
        return round_.text if round_ and step and step.degrees is not None else ""
    whole = round_.text if round_ and dial.target.text in round_.text else dial.target.text
    adapter = f", with {dial.with_adapter}" if dial.with_adapter else ""
    return f"{whole}{adapter}"


def _direction(plan: Plan, step: Step | None) -> str:
    if step is None or step.kind in ("place", "measure", "hand"):
        return ""
    if step.kind == "back_off":
        return "clockwise" if plan.direction == "anticlockwise" else "anticlockwise"
    return plan.direction


def parts_of_a_turn(degrees: Fraction) -> str:
    """An angle as a part of a turn, flats of a hexagon and points of a twelve-point.

    >>> parts_of_a_turn(Fraction(90))
    '1/4 turn, 1 1/2 flats of a hex, 3 points of a 12-point'
    """
    size = abs(degrees)
    parts = [
        f"{_mixed(size / per)} {word}"
        for per, word in ((360, "turn"), (60, "flats of a hex"), (30, "points of a 12-point"))
        if (size / per).denominator <= 8
    ]
    return ", ".join(parts)


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def bolt_lines(progress: Progress, step: Step | None) -> tuple[str, ...]:
    """What differs at this bolt, and what the round asks besides the pull."""
    round_ = progress.current
    if round_ is None or step is None:
        return ()
    lines = [step.note] if step.note else []
    lines.extend(round_.words)
    if progress.later:
        put_off = ", ".join(bolt_text(round_.steps[place].labels) for place in progress.later)
        lines.append(f"put off: {put_off}; the round cannot close without")
    return tuple(lines)


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


def _count(progress: Progress) -> str:
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
        found.update({label: state for label in step.labels if found[label] != "now"})
    found.update(dict.fromkeys(progress.moved, "moved"))
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


def _pointer(progress: Progress, step: Step | None) -> tuple[int, int] | None:
    if step is None or not progress.pulled or not step.labels or not progress.done:
        return None
    return (progress.pulled[-1][0], step.labels[0])


_WORDS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("moved", "it moved, and is tight now", ("recheck",)),
    ("later", "not reachable yet", ("bolt",)),
    ("skip N", "leave bolt N out of this round", ("bolt", "card")),
    ("trouble N", "something is wrong, by digit", ("bolt", "card", "stop", "question")),
    ("actual VALUE", "what was really reached", ("bolt", "card")),
    ("found VALUE", "what it had before", ("bolt", "card", "stop")),
    ("page VALUE", "the page says other", ("bolt", "card", "stop")),
    ("round", "tick the rest as a whole", ("bolt",)),
    ("wrench ID", "another wrench, crowfoot OFFSET, or unit U", ("bolt", "card", "stop", "whole")),
    ("unit", "the value to set in the next unit", ("bolt", "card", "stop")),
    ("measure VALUE", "the reading", ("measure",)),
    ("verify VALUE", "the second check", ("second-check",)),
    ("sign NAME", "your name for the record", ("finished",)),
    ("undo", "take the last press back", ("bolt", "card", "stop", "whole", "marks", "measure", "finished")),
    ("note TEXT", "keep a remark", ("bolt", "card", "stop", "whole", "marks", "measure", "wait")),
    ("keep", "keep it as a draft group of your library", ("to keep",)),
    ("pause", "put it down", ("bolt", "card", "stop", "whole", "marks", "measure", "wait", "question")),
)


def words_now(progress: Progress, moment: Moment) -> tuple[tuple[str, str], ...]:
    """What can be said at this moment beside the main key."""
    kinds = {moment.kind}
    round_ = progress.current
    if moment.kind == "bolt" and round_ and (round_.recheck or round_.until_still):
        kinds.add("recheck")
    if may_keep(progress):
        kinds.add("to keep")
    return tuple((word, meaning) for word, meaning, places in _WORDS if kinds & set(places))
