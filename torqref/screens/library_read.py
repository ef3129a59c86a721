"""What the thread that reads the library tells its screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.message import Message

from torqref.document.problem import Problem

if TYPE_CHECKING:
    from torqref.library.job import Job
    from torqref.library.search import Index


class LibraryRead(Message):
    """What the reading thread has so far; a message never waits for the screen, which may be gone."""

    def __init__(
        self,
        index: Index,
        problems: tuple[Problem, ...] = (),
        repairs: tuple[Job, ...] = (),
        *,
        ready: bool = False,
    ) -> None:
        """So far, or all of it.

        Args:
            index: the groups.
            problems: of the files.
            repairs: the jobs.
            ready: whether this is all.
        """
        super().__init__()
        self.index, self.problems, self.repairs, self.ready = index, problems, repairs, ready
