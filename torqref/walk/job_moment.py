"""What a job asks for now, decided from where it stands and the clock alone."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from torqref.walk.choice import Option
from torqref.walk.job_plan import JobStep
from torqref.walk.job_standing import Standing

OPENING = "opening"
SAFE_OPTIONS = (
    Option(digit=1, text="it is so now; I looked"),
    Option(digit=2, text="not yet: put the job down"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class JobMoment:
    """What is asked for now.

    Args:
        kind: `opening`, `fact`, `safe`, `alone`, `page`, `group`, `check`, `reading`, `wait`,
            `waited`, `sign-off`, `recheck` or `finished`.
        step: the step it is about, None where it is about none.
        fact: the fact that is asked for.
        due: when a wait is over, empty for none.
        options: answers by digit.
    """

    kind: str
    step: JobStep | None = None
    fact: str = ""
    due: str = ""
    options: tuple[Option, ...] = ()


def job_moment(standing: Standing, now: datetime) -> JobMoment:
    """What the job asks for at this time."""
    progress = standing.progress
    if progress.abandoned:
        return JobMoment(kind="finished")
    if progress.is_signed:
        return JobMoment(kind="recheck" if progress.open_rechecks else "finished")
    if OPENING not in progress.gates:
        return JobMoment(kind="opening")
    for name, words in progress.plan.facts:
        if name not in progress.facts:
            options = tuple(Option(digit=digit, text=word) for digit, word in enumerate(words, start=1))
            return JobMoment(kind="fact", fact=name, options=options)
    return _step_moment(standing, now)


def _step_moment(standing: Standing, now: datetime) -> JobMoment:
    step = standing.current
    if step is None:
        return JobMoment(kind="sign-off")
    if standing.is_waiting(step, now):
        return JobMoment(kind="wait", step=step, due=standing.due_at(step))
    if step.kind == "safe":
        return JobMoment(kind="safe", step=step, options=SAFE_OPTIONS)
    if step.kind == "wait":
        return JobMoment(kind="waited", step=step)
    if step.kind == "check" and step.band is not None:
        return JobMoment(kind="reading", step=step)
    return JobMoment(kind=step.kind, step=step)
