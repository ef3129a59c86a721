"""Speaks by the speech command of the system where there is one; never in the way where there is none."""

from __future__ import annotations

import shutil
import subprocess
from argparse import Namespace
from dataclasses import dataclass, field
from threading import Thread

# Tried in this order; the sentence is the last argument.
_COMMANDS = (("spd-say", "--wait"), ("espeak-ng",), ("espeak",), ("say",))
# Seconds that the last sentence may take at the end.
_LONGEST = 8.0


@dataclass(slots=True)
class Voice:
    """Says one sentence at a time; a newer one cuts the older one off.

    Args:
        command: the program and its options; empty for silence.
    """

    command: tuple[str, ...] = ()
    _speaking: subprocess.Popen[bytes] | None = field(default=None)
    _last: str = ""
    # Told to stop, and not seen to have ended yet.
    _ending: list[subprocess.Popen[bytes]] = field(default_factory=list)

    def say(self, sentence: str) -> None:
        """Begin to speak and return at once; the same sentence twice in a row is said once."""
        if not self.command or not sentence or sentence == self._last:
            return
        self._last = sentence
        self.hush()
        try:
            self._speaking = subprocess.Popen(
                [*self.command, sentence],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            )
            # Whoever has spoken is seen off at once, though the next sentence may be minutes away.
            Thread(target=self._speaking.wait, daemon=True).start()
        except OSError:
            self.command = ()  # a speech command that does not start is no reason to stop work

    def hush(self) -> None:
        """Cut off what is being said, without waiting; what did not heed that the last time is killed."""
        self._ending = [process for process in self._ending if process.poll() is None]
        for process in self._ending:
            process.kill()
        if self._speaking is not None and self._speaking.poll() is None:
            self._speaking.terminate()
            self._ending.append(self._speaking)
        self._speaking = None

    def finish(self, limit: float = _LONGEST) -> None:
        """Let the last sentence be heard to its end, if that comes in so many seconds."""
        if self._speaking is not None:
            try:
                self._speaking.wait(limit)
            except subprocess.TimeoutExpired:
                self._speaking.kill()
                self._ending.append(self._speaking)
        self._speaking = None


def find_voice() -> Voice:
    """A voice of this system, silent where it has no speech command."""
    for program, *options in _COMMANDS:
        if shutil.which(program):
            return Voice(command=(program, *options))
    return Voice()


def voice_of(options: Namespace) -> Voice | None:
    """The voice that was asked for; None for silence."""
    return find_voice() if options.speak else None
