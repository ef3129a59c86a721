"""The lines of coming back: where it was left, what to click again, and what a hand-over must say."""

from __future__ import annotations

from datetime import datetime, timedelta

from torqref.pattern.layout import labels_text
from torqref.quantity.words import whole_in_words
from torqref.walk.moment import Moment, goal
from torqref.walk.plan import Round
from torqref.walk.span import span_text
from torqref.walk.state import Progress

_MOST_NAMED = 2


def resume_lines(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    """Back after a pause in a round of pulls: the last two once more, then on."""
    round_, place = goal(progress, moment)
    if round_ is None or place < 0:
        return []
    here, last = labels_text(round_.steps[place].labels), _last_two(progress)
    away = _away(progress, now)
    dial = progress.dial(round_.steps[place])
    if "hand-over" in moment.why and dial is not None and dial.wrench_name:
        away = f"{away}, {dial.wrench_name}"
    if _clicks(progress, round_, place) and last:
        return [f"back{away}: click {' and '.join(last)} again, then {here}", *_open_notes(progress)]
    return [f"back{away}: last {last[-1] if last else 'none'}, now {here}", *_open_notes(progress)]


def _last_two(progress: Progress) -> list[str]:
    """The last bolts of this round, newest last; those of the round before stood at another value."""
    count = min(len(progress.done), _MOST_NAMED)
    return (
        [labels_text(labels) for labels in progress.pulled[len(progress.pulled) - count :]] if count else []
    )


def _clicks(progress: Progress, round_: Round, place: int) -> bool:
    """Whether a click on the last bolts proves something: only at the value that they were pulled to."""
    dial = progress.dial(round_.steps[place])
    last = {step.dial for at, step in enumerate(round_.steps) if at in progress.done}
    pulled = round_.kind == "torque" and not round_.recheck and not round_.each_bolt
    return pulled and dial is not None and last == {round_.steps[place].dial}


def _away(progress: Progress, now: datetime) -> str:
    gone = now - datetime.fromisoformat(progress.settled_at)
    return f" after {span_text(gone)}" if gone >= timedelta(minutes=1) else ""


def _open_notes(progress: Progress) -> list[str]:
    return [f"note: {note}" for note in progress.notes[-1:]] if not progress.handed else []


def seat_line(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    """A pause inside seat and back-off."""
    seat = progress.plan.rounds[moment.back_to]
    return [f"a pause spoils seat and back-off: start again from stage {seat.stage}, {seat.text}"]


def handed_lines(progress: Progress, moment: Moment, now: datetime) -> list[str]:
    """Everything that the next person must know: stage, last bolt, wrench, setting and open notes."""
    names = f"hand-over from {progress.pulled_by} to {progress.opened_by}"
    return [f"{names}: {stage_line(progress) or _not_begun(progress)}", *_open(progress), *_tool(progress)]


def stage_line(progress: Progress) -> str:
    """The stage in words, so that "8 done" is not taken for the last one."""
    round_ = progress.current
    if round_ is None or not progress.done:
        return ""
    where = f"stage {whole_in_words(round_.stage).upper()} ({round_.text}): {len(progress.done)} of"
    last = f", last bolt {labels_text(progress.pulled[-1])}" if progress.pulled else ""
    return f"{where} {len(round_.steps)}{last}{_next_stage(progress, round_)}"


def _next_stage(progress: Progress, round_: Round) -> str:
    later = [
        other.stage for other in progress.plan.rounds[progress.round + 1 :] if other.stage > round_.stage
    ]
    return f"; stage {whole_in_words(min(later))} not begun" if later else ""


def _not_begun(progress: Progress) -> str:
    round_ = progress.current
    return f"stage {whole_in_words(round_.stage).upper()} ({round_.text}) not begun" if round_ else "all done"


def _tool(progress: Progress) -> list[str]:
    """Where the wrench stands; the next person looks at it anew."""
    round_, place = progress.current, progress.step
    dial = progress.dial(round_.steps[place]) if round_ and place >= 0 else None
    if dial is None:
        return []
    stands = dict(progress.stood).get(dial.wrench, "")
    name = dial.wrench_name or "the wrench"
    where = f" stands at {stands}" if stands else ""
    return [f"{name}{where}; look at it yourself: {dial.shown} {dial.unit}"]


def _open(progress: Progress) -> list[str]:
    """What is not in order: put off, left out, and the notes."""
    round_ = progress.current
    put_off = [labels_text(round_.steps[place].labels) for place in progress.later] if round_ else []
    left_out = [
        labels_text(progress.plan.rounds[index].steps[place].labels) for index, place in progress.skipped
    ]
    parts = (
        f"put off: {', '.join(put_off)}" if put_off else "",
        f"left out: {', '.join(left_out)}" if left_out else "",
        f"notes: {'; '.join(progress.notes)}" if progress.notes else "",
    )
    together = "; ".join(part for part in parts if part)
    return [together] if together else []
