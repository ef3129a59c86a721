"""What is spoken of a job between its walks: the step, what to do, until when, and the answers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from torqref.walk.job_moment import JobMoment
from torqref.walk.job_standing import Standing
from torqref.walk.job_view import JobView, reading_line, until_text
from torqref.walk.span import when_text
from torqref.walk.speech import in_speech
from torqref.walk.spoken import one_sentence, said_options


def spoken_in_job(standing: Standing, moment: JobMoment, shown: JobView, now: datetime) -> str:
    """The sentence for the ear, such as "step two of nine; must be safe: key out; 1: it is so now".

    Times are said by the clock: what is left of them would make another sentence of it every minute.

    Args:
        standing: where the job stands.
        moment: what is asked for.
        shown: what the eye is shown.
        now: the present time.
    """
    return in_speech(one_sentence(*_said(standing, moment, shown, now)))


def _said(standing: Standing, moment: JobMoment, shown: JobView, now: datetime) -> Iterator[str]:
    step = moment.step
    yield from (shown.count, shown.headline, *shown.texts[1:])
    if step is None:
        yield from shown.lines
        yield from shown.due if moment.kind == "recheck" else ()
    else:
        yield step.note
        yield f"due {when_text(moment.due, now)}" if moment.due else ""
        yield from reading_line(standing, step)
        deadline = standing.deadline(step)
        yield until_text(deadline, now) if deadline is not None else ""
    yield from said_options(shown.options)
