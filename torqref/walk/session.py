"""A walk that is open: its journal, its events and its progress, kept in step.

A press is: a command makes events, the journal keeps them, the fold takes them in, and only then is
anything shown. Screens and lines both go through here, so that they cannot disagree.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from torqref.walk.attempt import NO_RACK, Act, No
from torqref.walk.command import act, consequences
from torqref.walk.event import Event
from torqref.walk.journal import Header, Journal, JournalError
from torqref.walk.moment import Moment, moment
from torqref.walk.progress import Progress, apply, fold
from torqref.wrench.rack import Rack

BOUNCE = timedelta(milliseconds=200)
# What a reading alone means where a bolt is not being pulled.
_READINGS = {"measure": "measure", "second-check": "verify"}


def is_reading(text: str) -> bool:
    """Whether a line is a number with something behind it, and so no word and no answer.

    >>> [is_reading(text) for text in ("24.1 N·m", "3", "later", "")]
    [True, False, False, False]
    """
    return text[:1].isdigit() and not text.isdigit()


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """What became of a command.

    Args:
        events: what was written; empty when it was refused.
        refused: why not, empty when it was done.
    """

    events: tuple[Event, ...] = ()
    refused: str = ""


@dataclass(slots=True)
class Session:
    """One open walk.

    Args:
        header: which walk it is.
        journal: where its events are kept.
        clock: gives the time with its offset to UTC.
        by: who works, empty if unknown.
        events: all events so far.
        progress: their fold.
        rack: the wrenches and adapters at hand.
    """

    header: Header
    journal: Journal
    clock: Callable[[], datetime]
    by: str
    events: tuple[Event, ...]
    progress: Progress
    rack: Rack = NO_RACK
    last_main: datetime | None = None

    @classmethod
    def start(
        cls,
        header: Header,
        journal: Journal,
        clock: Callable[[], datetime],
        by: str,
        events: tuple[Event, ...] = (),
        rack: Rack = NO_RACK,
    ) -> Session:
        """Open a walk, new or gone on with; the opening itself is an event.

        Raises:
            JournalError: the opening cannot be kept.
        """
        session = cls(header, journal, clock, by, events, fold(header.plan, events), rack)
        before = session.progress
        opening: tuple[Event, ...] = (Event(kind="opened"),)
        if before.pulled_by and by and by != before.pulled_by:
            opening = (*opening, Event(kind="hand-over", text=f"from {before.pulled_by} to {by}"))
        session._keep(opening)
        session._follow_up(session.clock())
        return session

    def moment(self) -> Moment:
        """What is asked for now."""
        return moment(self.progress, self.clock())

    def say(self, line: str) -> Reply:
        """One line: empty is the main key, else a word and its argument, or a reading with its unit.

        An electronic wrench that types like a keyboard sends only the reading; it is taken for what is
        asked for now. A digit alone is the answer to a question.
        """
        text = line.strip()
        if is_reading(text):
            return self.do(_READINGS.get(self.moment().kind, "actual"), text)
        word, _, argument = text.partition(" ")
        return self.do(word or "done", argument)

    def press(self, seen: Moment | None = None) -> Reply:
        """The main key as a foot switch sends it: a bounce at a stop is ignored, and told.

        Args:
            seen: what was shown when the key was pressed; where time has changed it, nothing is done.
        """
        now, before = self.clock(), self.last_main
        if seen is not None and seen != self.moment():
            return Reply(refused="Time has passed: look again, then press.")
        self.last_main = now
        bounced = before is not None and now - before < BOUNCE
        if bounced and self.moment().kind in ("stop", "caution", "question", "wait"):
            return Reply(refused="Double press ignored.")
        return self.do("done")

    def do(self, word: str, argument: str = "") -> Reply:
        """One command: its events are on disk when this returns, or it says why they are not."""
        now = self.clock()
        attempt = Act(
            progress=self.progress,
            moment=moment(self.progress, now),
            argument=argument.strip(),
            now=now,
            events=self.events,
            rack=self.rack,
        )
        answer = act(word, attempt)
        if isinstance(answer, No):
            return Reply(refused=answer.message)
        try:
            kept = self._keep(answer)
            self._follow_up(now)
        except JournalError as error:
            return Reply(refused=str(error))
        return Reply(events=kept)

    def _keep(self, events: tuple[Event, ...]) -> tuple[Event, ...]:
        stamped = tuple(
            replace(event, time=self.clock().isoformat(timespec="milliseconds"), by=event.by or self.by)
            for event in events
        )
        kept = self.journal.keep(stamped)
        self.events += kept
        if any(event.kind == "undo" for event in kept):
            self.progress = fold(self.header.plan, self.events)
        else:
            for event in kept:
                self.progress = apply(self.progress, event)
        return kept

    def _follow_up(self, now: datetime) -> None:
        """What follows from a press by itself belongs to that press, so that one undo takes both back."""
        following = consequences(self.progress, now)
        if following:
            press = next(
                (event.press or event.number for event in reversed(self.events) if event.kind != "opened"), 0
            )
            self._keep_with(following, press)

    def _keep_with(self, events: tuple[Event, ...], press: int) -> None:
        self._keep(tuple(replace(event, press=press) for event in events))

    def close(self) -> None:
        """Give the journal free; what is not finished goes on another time."""
        self.journal.close()
