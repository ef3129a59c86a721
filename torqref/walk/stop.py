"""The lines of a stop, a question or a wait: what changes first, and never more than three."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime, timedelta
from fractions import Fraction

from torqref.pattern.layout import labels_text
from torqref.walk.attempt import show_degrees
from torqref.walk.condition import MOST_LINES, WIDTH, broken, fitted
from torqref.walk.moment import CARD_BOLTS, Moment, came_back, goal
from torqref.walk.plan import Dial, Plan, Round, Step
from torqref.walk.returning import handed_lines, resume_lines, seat_line, stage_line
from torqref.walk.span import due_text, span_text
from torqref.walk.state import Progress
from torqref.walk.tool import tool_lines
from torqref.walk.verification import MARKS, check_kind

__all__ = [
    "bolt_lines",
    "card_lines",
    "due_text",
    "marks_line",
    "opening_lines",
    "span_text",
    "stop_lines",
    "turned_so_far",
]

# How long ago the last press was when the place is said again without a stop.
_SHORT_PAUSE = timedelta(minutes=2)


def stop_lines(progress: Progress, moment: Moment, now: datetime) -> tuple[str, ...]:
    """The lines to show at this moment, most important first."""
    lines = _KINDS.get(moment.kind)
    if lines is not None:
        return tuple(lines(progress, moment, now))
    if "opening" in moment.why:
        return opening_lines(progress, moment)
    said = [line for why in moment.why for line in _REASONS[why](progress, moment, now)]
    if progress.handed and moment.kind == "stop" and "hand-over" not in moment.why:
        said[1:1] = handed_lines(progress, moment, now)[:1]
    return _cut(dict.fromkeys(said))


def _cut(lines: Iterable[str]) -> tuple[str, ...]:
    """At most three lines that fit; what matters most comes first."""
    parts = [part for line in lines if line for part in broken(line, WIDTH)]
    return tuple(parts[:MOST_LINES])


def opening_lines(progress: Progress, moment: Moment) -> tuple[str, ...]:
    """Conditions and cautions in as few lines as they take, then the tool; the card shows them all."""
    setting = _cut(_setting(progress, moment)) if "setting" in moment.why else ()
    setting = setting[: MOST_LINES - 1]
    return (*fitted(card_lines(progress), most=MOST_LINES - len(setting)), *setting)


def card_lines(progress: Progress) -> tuple[str, ...]:
    """Everything to know before the first pull, most important first.

    Direction, whether it is the right entry, cautions, remarks of the way apart, conditions.
    """
    plan = progress.plan
    first = plan.conditions[:1] if plan.left_hand else ()
    remarks = tuple(
        f"when taken apart: {f'bolt {labels_text(remark.bolts)}: ' if remark.bolts else ''}{remark.text}"
        for remark in plan.remarks
    )
    return (*first, *plan.provisos, *plan.cautions, *remarks, *plan.conditions[len(first) :])


# --- what the hand does next ------------------------------------------------------------------------


def _setting(progress: Progress, moment: Moment, now: datetime | None = None) -> list[str]:
    """The tool and what goes with the pull; the number itself is shown by the view."""
    round_, place = goal(progress, moment)
    step = round_.steps[place] if round_ and 0 <= place < len(round_.steps) else None
    if round_ is None or step is None:
        return []
    words = ", ".join(word for word in (*round_.words, step.note) if word)
    whole = f"each bolt through all of it, {round_.text}; mark it before it turns" if round_.each_bolt else ""
    if step.kind == "angle" and not whole:
        return [*_angle_lines(progress, round_, step), words]
    if step.kind == "look":
        return ["Cured threadlocker: check the mark only. Do not pull.", words]
    dial = progress.dial(step)
    first = dial.pull if dial and not progress.pulled else ""
    return [
        _pairs(step), whole, *tool_lines(dial, words),
        _align(step), first, stage_line(progress), _last(progress, round_),
    ]  # fmt: skip


def _pairs(step: Step) -> str:
    return "two people pull opposite bolts together" if len(step.labels) == 2 else ""


def _align(step: Step) -> str:
    if step.kind != "align":
        return ""
    if step.degrees is None:
        return "forward only, to the next slot; if it clicks before, change the washer or nut. Never back"
    return "back to the next slot or hole, never further than this"


def _last(progress: Progress, round_: Round) -> str:
    """Before the last pull of a clamp a gun has no place: common practice, no source."""
    pulled = [other for other in progress.plan.rounds if other.kind == "torque" and not other.recheck]
    last = bool(pulled) and round_ is pulled[-1] and len(pulled) > 1
    return "hand wrench only from here; no gun" if last and progress.plan.purpose == "clamp" else ""


def _angle_lines(progress: Progress, round_: Round, step: Step) -> list[str]:
    degrees = show_degrees(step.degrees or Fraction(0))
    if _angles_before(progress, round_):
        return [f"angle round: the marks stay as they are; turn each {degrees}° more"]
    return [f"angle round: paint every mark the same way{_towards(progress)}, then turn each {degrees}°"]


def _angles_before(progress: Progress, round_: Round) -> bool:
    before = progress.plan.rounds[: progress.plan.rounds.index(round_)]
    return any(other.kind == "angle" and other.place == round_.place for other in before)


def _towards(progress: Progress) -> str:
    """The landmark that the marks can point to."""
    marks = progress.plan.layout.landmarks
    return f", towards {marks[0].text}" if marks else ""


def turned_so_far(progress: Progress) -> dict[int, Fraction]:
    """Degrees each bolt should have turned since its mark was painted, through the current round."""
    here = progress.current
    turned: dict[int, Fraction] = {}
    for round_ in progress.plan.rounds[: progress.round + 1]:
        if round_.kind != "angle" or (here is not None and round_.place != here.place):
            continue
        for step in round_.steps:
            for label in step.labels:
                turned[label] = turned.get(label, Fraction(0)) + (step.degrees or Fraction(0))
    return turned


def marks_line(progress: Progress) -> str:
    """Where every mark should now point: the look that shows a missed and a doubled bolt."""
    turned = sorted(set(turned_so_far(progress).values()))
    shown = " or ".join(f"{show_degrees(value)}°" for value in turned)
    return f"every mark must stand {shown} {progress.plan.direction} of where it was painted"


def _marks(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    return [
        marks_line(progress),
        "one that does not was missed: undo N and turn it; one that is past it: trouble and its digit, N",
    ]


# --- questions and waits ----------------------------------------------------------------------------


def _caution(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    return [progress.plan.alone[int(moment.gate.partition(":")[2])]]


def _mark(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    round_, place = goal(progress, moment)
    bolt = labels_text(round_.steps[place].labels) if round_ and place >= 0 else ""
    if progress.half and progress.half[0] == place:
        return [
            f"look at the mark of bolt {bolt}: about {progress.half[1]}° were reached; still so, or more?"
        ]
    return [f"look at the mark of bolt {bolt}: still at the start, or already turned?"]


def _trouble(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    trouble = progress.trouble
    if trouble is None:
        return []
    where = f"bolt {labels_text(trouble.bolts)}: " if trouble.bolts else ""
    loosening = progress.plan.action != "tighten"
    after = _LOOSENED if loosening else _AFTER[progress.plan.after_trouble]
    return [f"{where}{trouble.text}", after, "undo if it was no trouble"]


_LOOSENED = "the record keeps it for the way back together; go on when it is out or can wait"
_AFTER = {
    "restart": "put it right with new parts, then the whole pattern again from the first stage",
    "this place": "put this one right and bring it up through the earlier stages, then go on",
    "round again": "put it right, then this round again from its first bolt",
}


def _wait(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    round_ = progress.current
    if round_ is None or not progress.due:
        due = f" ({round_.due})" if round_ and round_.due else ""
        return [f"wait: {round_.text if round_ else ''}{due}; come back then"]
    gone = now - datetime.fromisoformat(progress.waiting_since)
    total = datetime.fromisoformat(progress.due) - datetime.fromisoformat(progress.waiting_since)
    reasons = f"1–{len(moment.options)}"
    return [
        f"due {due_text(progress.due, now)}",
        f"{span_text(gone)} of {span_text(total)}. Wait, or give a reason {reasons}.",
    ]


def _waited(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    round_ = progress.current
    if round_ is None:
        return []
    open_for = (
        now - datetime.fromisoformat(progress.waiting_since) if progress.waiting_since else timedelta(0)
    )
    since = ""
    if open_for >= timedelta(days=1):
        since = f" Open since {datetime.fromisoformat(progress.waiting_since):%A %Y-%m-%d}."
    return [f"{round_.text}: is it so now? Then go on here.{since}"]


def _recheck(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    return ["recheck: never loosen first; main key = still, moved = it moved and is tight now"]


def _calibration(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    dial = _dial_at(progress, moment)
    if dial is None:
        return []
    facts = progress.wrenches[dial.wrench]
    days = (now.date() - datetime.fromisoformat(facts.calibration_due).date()).days
    other = f" {facts.instead} covers this." if facts.instead else ""
    return [f"{facts.id} ran out {days} day{'s' if days != 1 else ''} ago.{other}"]


def _deadline(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    round_ = progress.current
    limit = show_degrees(round_.within) if round_ and round_.within is not None else ""
    gone = span_text(now - datetime.fromisoformat(progress.begun))
    return [f"{gone} since it was begun, the limit is {limit} min: what skins over or sets has done so"]


def _still(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    moved = ", ".join(str(label) for label in progress.moved)
    return [f"bolt {moved} moved at the {progress.trip}th time round; look for the cause, and at the page"]


def _doubt(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    dial = _dial_at(progress, moment)
    return [dial.doubt if dial is not None else progress.plan.about]


def _beyond(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    dial = _dial_at(progress, moment)
    return [dial.beyond if dial is not None else ""]


def _dial_at(progress: Progress, moment: Moment) -> Dial | None:
    """The setting that a moment is about, or None."""
    round_, place = goal(progress, moment)
    return progress.dial(round_.steps[place]) if round_ and place >= 0 else None


def _again(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    return [progress.plan.again]


def _uses(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    uses = progress.plan.uses
    return [
        f"a set of these may be tightened {uses} time{'s' if uses > 1 else ''} in all: which time is this?",
        "count the marks on the set, or look at its last record; nobody knows counts as used up",
    ]


def _changed(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    return ["the library has changed since this walk began", progress.changed]


# --- whole rounds, bolts and the end ----------------------------------------------------------------


def _whole(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    """What goes where in a hand or place round: the lengths and notes, by position."""
    round_ = progress.current
    if round_ is None:
        return []
    notes: dict[str, list[str]] = {}
    for step in round_.steps:
        notes.setdefault(step.note, []).append(labels_text(step.labels))
    notes.pop("", None)
    if len(notes) == 1 and len(next(iter(notes.values()))) == len(round_.steps):
        shown = [f"all: {next(iter(notes))}"]
    else:
        shown = [f"{note}: {' '.join(labels)}" for note, labels in notes.items()]
    return [*round_.words, *shown, *_time_left(progress, round_, now)]


def bolt_lines(progress: Progress, step: Step | None, now: datetime) -> tuple[str, ...]:
    """What differs at this bolt, what was told of it, and what the round asks besides the pull."""
    round_ = progress.current
    if round_ is None or step is None:
        return ()
    outside = progress.outside if progress.outside and progress.outside.bolts == step.labels else None
    # how far an angle got stands in the headline already
    lines = [outside.text] if outside and not outside.degrees else []
    lines.extend(remark.text for remark in progress.plan.remarks if set(remark.bolts) & set(step.labels))
    lines.extend((step.note, *(word for word in round_.words if not word.startswith("FIRST"))))
    lines.append(_back_soon(progress, step, now))
    lines.append(_put_off(progress, step))
    lines.extend(_time_left(progress, round_, now))
    return tuple(line for line in lines if line)


def _back_soon(progress: Progress, step: Step, now: datetime) -> str:
    """After a short pause the place is said again, and nothing is asked."""
    away = now - datetime.fromisoformat(progress.settled_at) if progress.settled_at else timedelta(0)
    returned = progress.opened > progress.settled or away >= _SHORT_PAUSE
    if not returned or not progress.pulled or not progress.done or came_back(progress, now):
        return ""
    return f"last {labels_text(progress.pulled[-1])}, now {labels_text(step.labels)}"


def _put_off(progress: Progress, step: Step) -> str:
    round_ = progress.current
    if round_ is None or not progress.later:
        return ""
    put_off = list(dict.fromkeys(labels_text(round_.steps[place].labels) for place in progress.later))
    if labels_text(step.labels) in put_off and progress.step in progress.later:
        if len(put_off) > 1:
            return f"bolts {', '.join(put_off)} are open: the round cannot close without them"
        return f"bolt {put_off[0]} is open: the round cannot close without it"
    return f"put off: {', '.join(put_off)}; the round cannot close without"


def _time_left(progress: Progress, round_: Round, now: datetime) -> list[str]:
    if round_.within is None or not progress.begun or progress.afterwards:
        return []
    left = timedelta(minutes=float(round_.within)) - (now - datetime.fromisoformat(progress.begun))
    return [f"{span_text(left)} left of {show_degrees(round_.within)} min"] if left > timedelta(0) else []


def _second(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    if check_kind(progress.plan) == MARKS:
        turned = [marks_line(progress)] if turned_so_far(progress) else ["every mark must stand in one line"]
        return [*turned, "another person looks at each: verify marks by NAME"]
    return ["another person reads the page and types the value: verify VALUE by NAME"]


def _finished(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    """What comes after; a paint mark shows later movement: common practice, no source."""
    plan = progress.plan
    if progress.abandoned or plan.action != "tighten":
        return []
    kinds = {step.kind for round_ in plan.rounds for step in round_.steps}
    pulled = "torque" in kinds and plan.purpose == "clamp"
    marked = "angle" in kinds or plan.threadlocker
    closing = pulled and not marked and plan.bolts > CARD_BOLTS and not _rechecked(plan)
    extra = (
        (closing, "click all once more in a circle: good is a click without moving"),
        (pulled and not marked, "paint a mark across each one now: it shows later movement"),
    )
    return [f"then: {line}" for line in (*(words for holds, words in extra if holds), *plan.after)]


def _rechecked(plan: Plan) -> bool:
    return any(round_.recheck or round_.until_still for round_ in plan.rounds)


_KINDS: dict[str, Callable[[Progress, Moment, datetime], list[str]]] = {
    "caution": _caution,
    "marks": _marks,
    "wait": _wait,
    "whole": _whole,
    "second-check": _second,
    "finished": _finished,
}
_REASONS: dict[str, Callable[[Progress, Moment, datetime], list[str]]] = {
    "setting": _setting,
    "recheck": _recheck,
    "resume": resume_lines,
    "hand-over": handed_lines,
    "seat": seat_line,
    "mark": _mark,
    "trouble": _trouble,
    "waited": _waited,
    "calibration": _calibration,
    "deadline": _deadline,
    "still": _still,
    "doubt": _doubt,
    "beyond": _beyond,
    "again": _again,
    "uses": _uses,
    "changed": _changed,
}
