"""The walk of a group inside a job: the walk screen, which comes back to the job where it stood."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from torqref.screens.job_keys import JOB, LEAVE_WALK
from torqref.screens.key import Key
from torqref.screens.walk_panel import Showing
from torqref.screens.walk_screen import WalkScreen
from torqref.walk.job_view import came_of, deadline_line
from torqref.walk.session import Reply, Session

if TYPE_CHECKING:
    from torqref.screens.job_screen import JobScreen


class JobWalkScreen(WalkScreen):
    """A walk that a job has opened; it ends where the step of the job ends."""

    def __init__(self, *, job: JobScreen, session: Session, notes: Sequence[str] = ()) -> None:
        """Show a walk.

        Args:
            job: the screen of the job, which shows what comes after.
            session: the open walk; the job takes it back when the screen is left.
            notes: what deserves to be known at the start.
        """
        self.job = job
        self.has_left = False
        super().__init__(session=session, notes=notes)

    def on_unmount(self) -> None:
        """The journal is free again, however the program ends."""
        self.session.close()

    def keys(self) -> Sequence[Key]:
        """Those of every walk, and one that shows the whole repair."""
        walk = super().keys()
        at = next(place for place, key in enumerate(walk) if key.act == LEAVE_WALK.act)
        return (*walk[:at], LEAVE_WALK, JOB, *walk[at + 1 :])

    def do_job(self) -> None:
        """Where the whole repair stands; the walk stays open."""
        self.job.session.follow(self.session)
        self.torqref.show("job standing", job=self.job.session, say=self._say_to_job)

    def _say_to_job(self, word: str, argument: str) -> None:
        """A word for the job; where another step comes now, the walk is left for it."""
        reply = self.job.session.do(word, argument)
        if reply.refused:
            self._refuse(reply.refused)
        elif self.job.session.is_over(self.session):
            self.leave()
            self.job.arrived()

    def showing(self) -> Showing:
        """The walk, under which step of the job it is, and the deadline of that step."""
        made, job = super().showing(), self.job.session
        step = job.entered
        if step is None:
            return made
        view = replace(made.view, title=f"{step.number} of {len(job.plan.steps)}: {made.view.title}")
        deadline = tuple(deadline_line(job.standing, step, job.clock()))
        return replace(made, view=view, lines=(*deadline, *made.lines))

    def leave(self) -> None:
        """Back to the job: what was not finished goes on when its step is opened again."""
        if self.has_left:
            return
        self.has_left = True
        progress, job = self.session.progress, self.job.session
        refused = ""
        if not (progress.finished or progress.abandoned or progress.paused or job.is_over(self.session)):
            refused = self.session.do("pause").refused
        refused = job.leave(self.session) or refused
        step = job.entered
        self.job.come_back(came_of(job.standing, step, job.clock()) if step else (), refused)
        self.torqref.back()

    def _told(self, reply: Reply, told: str = "") -> None:
        """After a press that ends the step the job goes on; it asks for the name at its own end."""
        if not reply.refused and self.job.session.is_over(self.session):
            self.leave()
            self.job.arrived()
        else:
            super()._told(reply, told)
