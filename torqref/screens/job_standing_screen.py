"""The whole repair seen from inside a walk, which stays open: deadlines, what is due, every step."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from torqref.screens.foot import key_line
from torqref.screens.help_screen import HelpScreen
from torqref.screens.job_keys import keys_from_a_walk
from torqref.screens.job_list import fitting_steps, step_line, track
from torqref.screens.job_panel import title_line
from torqref.screens.job_screen import ASKED
from torqref.screens.key import Key
from torqref.screens.line import Line, fitted, line, shown, wrapped
from torqref.walk.job_session import JobSession
from torqref.walk.job_view import JobEntry, JobView, job_view

_OVER = ("done", "left out")


class JobStandingScreen(HelpScreen):
    """How far the repair is, page by page; two keys leave the walk for other steps, any other goes back."""

    name_shown = "job standing"

    def __init__(self, *, job: JobSession, say: Callable[[str, str], None]) -> None:
        """Show where a job stands.

        Args:
            job: the open job.
            say: says a word with its argument to the job, once this screen is left.
        """
        super().__init__()
        self.job, self.say = job, say

    def keys(self) -> Sequence[Key]:
        """To other steps, and back."""
        return (*keys_from_a_walk(self._view().words), *super().keys())

    def do_later(self) -> None:
        """Other steps first."""
        self._say("later")

    def do_go(self) -> None:
        """Another step now: its number is typed under the list."""
        self.ask("go", ASKED["go"])

    def answered(self, word: str, text: str) -> None:
        """The number of a step; an empty line takes the question back."""
        if text:
            self._say(word, text)

    def _say(self, word: str, argument: str = "") -> None:
        self.leave()
        self.say(word, argument)

    def _view(self) -> JobView:
        job = self.job
        return job_view(job.standing, job.moment(), job.clock())

    def _head(self, width: int) -> Line:
        """The repair, and that the values are for practice."""
        return title_line(self._view(), width, ascii_only=self.look.ascii_only)

    def _foot(self, width: int, *, more: bool) -> Line:
        """The line being typed, or the keys."""
        if self.prompt is not None:
            return fitted(self.prompt.painted(width, ascii_only=self.look.ascii_only), width)
        return key_line("more" if more else "back", self.keys(), width)

    def _all(self, width: int) -> Iterator[Line]:
        """What presses first, then the steps: those to come before those that are over."""
        view, ascii_only = self._view(), self.look.ascii_only
        yield track(view.strip, view.done, width)
        for text, tone in (
            *((each, "stop") for each in view.deadlines),
            *((each, "strong") for each in view.due),
        ):
            for part in wrapped(f" {shown(text, ascii_only=ascii_only)}", width - 1, tone, 3):
                yield fitted(part, width, tone) if tone == "stop" else part
        for heading, steps in _parted(fitting_steps(view.strip)):
            yield line((f" {heading}", "way"))
            yield from (step_line(entry, width, ascii_only=ascii_only) for entry in steps)


def _parted(steps: Sequence[JobEntry]) -> Iterator[tuple[str, Sequence[JobEntry]]]:
    """The steps that are open and those that are over, each with a heading; neither where there is none."""
    for heading, is_over in (("TO DO", False), ("OVER", True)):
        if found := [entry for entry in steps if (entry.state in _OVER) is is_over]:
            yield heading, found
