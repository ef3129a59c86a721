"""The lines of a stop, a question or a wait: what changes first, and never more than three."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from fractions import Fraction

from torqref.walk.attempt import show_degrees
from torqref.walk.moment import Moment
from torqref.walk.plan import Round, Step
from torqref.walk.progress import Progress

MOST_LINES = 3


def stop_lines(progress: Progress, moment: Moment, now: datetime) -> tuple[str, ...]:
    """The lines to show at this moment, most important first."""
    if moment.kind == "caution":
        return (progress.plan.alone[int(moment.gate.partition(":")[2])],)
    if moment.kind == "marks":
        return (marks_line(progress),)
    if moment.kind == "finished":
        return tuple(f"then: {line}" for line in progress.plan.after)
    if moment.kind == "wait":
        return (f"due {due_text(progress.due, now)}",)
    if moment.kind == "whole":
        return _whole_lines(progress)
    lines: list[str] = []
    for why in moment.why:
        lines.extend(_REASONS[why](progress, moment, now))
    return tuple(lines[:MOST_LINES])


def _step(progress: Progress, moment: Moment) -> Step | None:
    round_ = progress.current
    if moment.gate.startswith("wait"):
        following = progress.plan.rounds[progress.round + 1 :]
        return following[0].steps[0] if following and following[0].steps else None
    return round_.steps[moment.step] if round_ and 0 <= moment.step < len(round_.steps) else None


def _opening(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    """Conditions and cautions in as few lines as they take; the card shows them all."""
    plan = progress.plan
    lines = list(plan.conditions[:2])
    rest = [*plan.conditions[2:], *plan.cautions]
    return [*lines, "; ".join(rest)] if rest else lines


def _setting(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    step = _step(progress, moment)
    if step is None:
        return []
    if step.kind == "angle":
        return [_angle_line(progress, step)]
    dial = progress.dial(step)
    lines = []
    if dial is not None:
        where = f"take {dial.wrench_name}" if dial.wrench_name else ""
        lines.append("; ".join(part for part in (where, *dial.notes[:1]) if part))
    round_ = _round_of(progress, moment)
    words = [*(round_.words if round_ else ()), step.note]
    lines.append(", ".join(word for word in words if word))
    lines.append(_stage_line(progress))
    return [line for line in lines if line]


def _round_of(progress: Progress, moment: Moment) -> Round | None:
    place = progress.round + (1 if moment.gate.startswith("wait") else 0)
    return progress.plan.rounds[place] if place < len(progress.plan.rounds) else None


def _stage_line(progress: Progress) -> str:
    """At a hand-over the stage is said in words, so that "8 done" is not taken for the last one."""
    round_ = progress.current
    if round_ is None or not progress.done:
        return ""
    return f"stage {round_.stage}: {len(progress.done)} of {len(round_.steps)} done"


def _angle_line(progress: Progress, step: Step) -> str:
    marks = "look at the marks of the last round first" if _angles_before(progress) else "mark"
    if marks == "mark":
        marks = f"paint every mark the same way{_towards(progress)}"
    return f"angle round: {marks}, then turn each {show_degrees(step.degrees or Fraction(0))}°"


def _angles_before(progress: Progress) -> bool:
    here = progress.current
    before = progress.plan.rounds[: progress.round]
    return any(other.kind == "angle" and here is not None and other.place == here.place for other in before)


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
    way = progress.plan.direction
    return (
        f"every mark must stand {shown} {way} of where it was painted; one that differs was missed or doubled"
    )


def _resume(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    """Back after a pause in a torque round: the last two once more, then on."""
    step = _step(progress, moment)
    last = [_labels(labels) for labels in progress.pulled]
    away = _away(progress, now)
    lines = [f"back{away}: click {' and '.join(last)} again, then {_labels(step.labels)}" if step else ""]
    if progress.opened_by and progress.pulled_by and progress.opened_by != progress.pulled_by:
        lines.append(f"hand-over from {progress.pulled_by} to {progress.opened_by}")
    lines.append(_stage_line(progress))
    lines.extend(progress.notes[-1:])
    return [line for line in lines if line]


def _away(progress: Progress, now: datetime) -> str:
    gone = now - datetime.fromisoformat(progress.settled_at)
    return f" after {span_text(gone)}" if gone >= timedelta(minutes=1) else ""


def span_text(span: timedelta) -> str:
    """A span of time in the words one would say.

    >>> span_text(timedelta(hours=1, minutes=10))
    '1 h 10 min'
    """
    minutes = int(span.total_seconds() // 60)
    days, hours = divmod(minutes // 60, 24)
    if days:
        return f"{days} day{'s' if days > 1 else ''}"
    return f"{hours} h {minutes % 60} min" if hours else f"{minutes} min"


def _labels(labels: tuple[int, ...]) -> str:
    return "+".join(str(label) for label in labels)


def _seat(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    seat = progress.plan.rounds[moment.back_to]
    return [f"a pause spoils seat and back-off: start again from stage {seat.stage}, {seat.text}"]


def _mark(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    step = _step(progress, moment)
    bolt = _labels(step.labels) if step else ""
    half = f"; about {progress.half[1]}° were reached before" if progress.half else ""
    return [f"look at the mark of bolt {bolt}: still at the start, or already turned{half}?"]


def _trouble(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    trouble = progress.trouble
    if trouble is None:
        return []
    where = f"bolt {_labels(trouble.bolts)}: " if trouble.bolts else ""
    return [f"{where}{trouble.text}", _AFTER[progress.plan.after_trouble], "undo if it was no trouble"]


_AFTER = {
    "restart": "put it right with new parts, then the whole pattern again from the first stage",
    "this place": "put this one right and bring it up through the earlier stages, then go on",
    "round again": "put it right, then this round again from its first bolt",
}


def _waited(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    round_ = progress.current
    if round_ is None:
        return []
    since = f", open since {progress.due[:10]}" if progress.due else ""
    return [f"{round_.text}: is it so now?{since}"]


def _recheck(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    return ["recheck: never loosen first; tell the ones that moved"]


def _calibration(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    step = _step(progress, moment)
    dial = progress.dial(step) if step else None
    due = progress.wrenches[dial.wrench].calibration_due if dial else ""
    days = (now.date() - datetime.fromisoformat(due).date()).days if due else 0
    name = dial.wrench if dial else "the wrench"
    return [f"the calibration of {name} ran out {days} days ago, on {due}"]


def _deadline(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    round_ = progress.current
    limit = show_degrees(round_.within) if round_ and round_.within is not None else ""
    gone = span_text(now - datetime.fromisoformat(progress.begun))
    return [f"{gone} since the first stop, the limit is {limit} min"]


def _doubt(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    return [progress.plan.about]


def due_text(due: str, now: datetime) -> str:
    """When something is due, and how long that is from now."""
    when = datetime.fromisoformat(due)
    left = when - now
    shown = when.strftime("%Y-%m-%d %H:%M")
    return f"{shown}, in {span_text(left)}" if left > timedelta(0) else f"{shown}, due now"


def _whole_lines(progress: Progress) -> tuple[str, ...]:
    """What goes where in a hand or place round: the lengths and notes, by position."""
    round_ = progress.current
    if round_ is None:
        return ()
    notes: dict[str, list[str]] = {}
    for step in round_.steps:
        if step.note:
            notes.setdefault(step.note, []).append(_labels(step.labels))
    return (*round_.words, *(f"{note}: {' '.join(labels)}" for note, labels in notes.items()))


_REASONS: dict[str, Callable[[Progress, Moment, datetime], list[str]]] = {
    "opening": _opening,
    "setting": _setting,
    "recheck": _recheck,
    "resume": _resume,
    "seat": _seat,
    "mark": _mark,
    "trouble": _trouble,
    "waited": _waited,
    "calibration": _calibration,
    "deadline": _deadline,
    "doubt": _doubt,
}
