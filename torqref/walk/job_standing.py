"""Where every step of a job stands: its own events and the walks of its groups, seen together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from torqref.walk.job_plan import JobStep, fits
from torqref.walk.job_progress import JobProgress
from torqref.walk.progress import Progress

# Every state that a step can have, as scripts read it.
STATES = ("done", "now", "open", "later", "due", "left out", "not for this one")


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A job with the walks of its groups.

    Args:
        progress: the fold of the job's own events.
        walks: progress of each walk, by its id.
    """

    progress: JobProgress
    walks: Mapping[str, Progress]

    def walk(self, step: JobStep) -> Progress | None:
        """The walk of a group step, None while it is not begun."""
        return self.walks.get(self.progress.walks.get(step.walk, ""))

    def is_for(self, step: JobStep) -> bool:
        """Whether a step is for this vehicle."""
        return fits(step, self.progress.facts)

    def is_over(self, step: JobStep) -> bool:
        """Whether nothing is left to do at a step."""
        if not self.is_for(step) or step.number in self.progress.left_out:
            return True
        if step.kind != "group":
            return step.number in self.progress.done
        walk = self.walk(step)
        return walk is not None and has_passed(walk, step.to_stage)

    @property
    def open_steps(self) -> tuple[JobStep, ...]:
        """The steps that are not over, in the order of the job."""
        return tuple(step for step in self.progress.plan.steps if not self.is_over(step))

    def is_free(self, step: JobStep) -> bool:
        """Whether everything a step needs is over; what must be safe stands before all that follows it."""
        open_ = {each.number: each for each in self.open_steps}
        unsafe = any(each.kind == "safe" and each.number < step.number for each in open_.values())
        return not unsafe and not any(number in open_ for number in step.needs)

    @property
    def current(self) -> JobStep | None:
        """The step to do now: the first open one that is free, put-off ones last."""
        open_ = [step for step in self.open_steps if self.is_free(step)]
        straight = [step for step in open_ if step.number not in self.progress.later]
        put_off = sorted(open_, key=self._put_off_at)
        return next(iter(straight or put_off), None)

    def _put_off_at(self, step: JobStep) -> int:
        later = self.progress.later
        return later.index(step.number) if step.number in later else len(later)

    def due_at(self, step: JobStep) -> str:
        """When the wait that a step stands at is over; empty where it stands at none."""
        if step.number in self.progress.due:
            return self.progress.due[step.number]
        walk = self.walk(step) if step.kind == "group" else None
        return walk.due if walk is not None and not self.is_over(step) else ""

    def is_waiting(self, step: JobStep, now: datetime) -> bool:
        """Whether a step stands at a wait that is not over yet."""
        due = self.due_at(step)
        return bool(due) and datetime.fromisoformat(due) > now

    def ended(self, number: int) -> str:
        """When a step was done, empty while it is not."""
        step = self.progress.plan.step(number)
        return self.progress.done.get(number, "") if step is not None and self.is_over(step) else ""

    def deadline(self, step: JobStep) -> datetime | None:
        """Until when a step must be done, or None."""
        since = self.ended(step.since) if step.since else ""
        if step.within is None or not since:
            return None
        return datetime.fromisoformat(since) + timedelta(minutes=float(step.within))

    def state(self, step: JobStep, now: datetime) -> str:
        """The state of a step, one of `STATES`."""
        if not self.is_for(step):
            return "not for this one"
        if step.number in self.progress.left_out:
            return "left out"
        if self.is_over(step):
            return "done"
        if self.due_at(step):
            return "due"
        if step is self.current:
            return "now"
        return "later" if step.number in self.progress.later else "open"


def has_passed(walk: Progress, stage: int) -> bool:
    """Whether a walk has nothing left up to a stage; 0 stands for the whole group."""
    if walk.finished or not stage:
        return walk.finished
    return all(round_.stage > stage for round_ in walk.plan.rounds[walk.round :])
