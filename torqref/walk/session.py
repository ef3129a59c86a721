"""A walk that is open: its journal, its events and its progress, kept in step.

A press is: a command makes events, the journal keeps them, the fold takes them in, and only then is
anything shown. Screens and lines both go through here, so that they cannot disagree.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import reduce

from torqref.pattern.layout import labels_text
from torqref.walk.attempt import NO_RACK, Act, No
from torqref.walk.bounce import BOUNCE
from torqref.walk.consequence import consequences
from torqref.walk.event import Event
from torqref.walk.journal import Header, Journal, JournalError, numbered
from torqref.walk.moment import Moment, moment
from torqref.walk.practice import Practice
from torqref.walk.progress import Progress, apply, fold, press_of
from torqref.walk.telling import told_of
from torqref.wrench.rack import Rack

# What a reading alone means where a bolt is not being pulled.
_READINGS = {"measure": "measure", "second-check": "verify"}


# What may stand before the first digit of a reading.
SIGNS = "+-−.,"


def is_reading(text: str) -> bool:
    """Whether a line is a number with something behind it, and so no word and no answer.

    >>> [is_reading(text) for text in ("24.1 N·m", "+24,1 Nm", "3", "later", "")]
    [True, True, False, False, False]
    """
    return text.lstrip(SIGNS)[:1].isdigit() and not text.isdigit()


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """What became of a command.

    Args:
        events: what was written; empty when it was refused.
        refused: why not, empty when it was done.
        told: what is to be known at once, such as a reading outside its window; empty for nothing.
    """

    events: tuple[Event, ...] = ()
    refused: str = ""
    told: str = ""


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
    journal: Journal | Practice
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
        journal: Journal | Practice,
        clock: Callable[[], datetime],
        by: str,
        events: tuple[Event, ...] = (),
        rack: Rack = NO_RACK,
        news: Event | None = None,
        progress: Progress | None = None,
    ) -> Session:
        """Open a walk, new or gone on with; the opening itself is an event.

        Args:
            header: which walk it is.
            journal: where its events are kept.
            clock: gives the time.
            by: who works.
            events: what happened so far.
            rack: the wrenches and adapters at hand.
            news: what has happened outside since, as an `opened` event that has it; None for nothing.
            progress: the fold of the events, where it is known already.

        Raises:
            JournalError: the opening cannot be kept.
        """
        folded = progress or fold(header.plan, events)
        session = cls(header, journal, clock, by, events, folded, rack)
        before = session.progress.pulled_by
        opening: tuple[Event, ...] = (news or Event(kind="opened"),)
        if before and by and by != before:
            opening = (*opening, Event(kind="hand-over", text=f"from {before} to {by}"))
        session._keep(opening)
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
        """The main key as a foot switch sends it: a bounce is ignored, and told.

        Args:
            seen: what was shown when the key was pressed; where time has changed it, nothing is done.
        """
        now, before = self.clock(), self.last_main
        if seen is not None and seen != self.moment():
            return Reply(refused="Time has passed: look again, then press.")
        self.last_main = now
        if before is not None and timedelta(0) <= now - before < BOUNCE:
            return Reply(refused=f"Double press ignored.{self._next()}")
        return self.do("done")

    def _next(self) -> str:
        """The bolt that is still to come, so that nobody counts a bounce."""
        round_, asked = self.progress.current, self.moment()
        if round_ is None or asked.kind != "bolt":
            return ""
        return f" Bolt {labels_text(round_.steps[asked.step].labels)} is next."

    def do(self, word: str, argument: str = "") -> Reply:
        """One command: its events are on disk when this returns, or it says why they are not."""
        # Not before the first word: a walk is on the screen sooner.
        from torqref.walk.command import act

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
        refused, events = (answer.message, answer.events) if isinstance(answer, No) else ("", answer)
        try:
            kept = self._keep(events) if events else ()
        except JournalError as error:
            return Reply(refused=str(error))
        return Reply(events=kept, refused=refused, told="" if refused or not kept else told_of(kept))

    def _keep(self, events: tuple[Event, ...]) -> tuple[Event, ...]:
        """Events and what follows from them by itself, in one writing: all of it is kept, or nothing.

        What follows belongs to the same press, so that one undo takes both back.
        """
        now = self.clock()
        time, first = now.isoformat(timespec="milliseconds"), self.journal.next
        stamped = tuple(replace(event, time=time, by=event.by or self.by) for event in events)
        after = self._after(numbered(stamped, first))
        following = tuple(
            replace(event, time=time, by=self.by, press=_press(events, self.events, first))
            for event in consequences(after, now)
        )
        kept = self.journal.keep((*stamped, *following))
        self.progress = reduce(apply, kept[len(stamped) :], after)
        self.events += kept
        if kept[0].kind == "hand-over" or kept[0].gate.startswith("sign"):
            self.by = kept[0].by
        return kept

    def _after(self, events: tuple[Event, ...]) -> Progress:
        """The state once these events are kept."""
        if any(event.kind == "undo" for event in events):
            return fold(self.header.plan, (*self.events, *events))
        return reduce(apply, events, self.progress)

    def close(self) -> None:
        """Give the journal free; what is not finished goes on another time."""
        self.journal.close()


def _press(events: tuple[Event, ...], before: tuple[Event, ...], first: int) -> int:
    """The press that a consequence belongs to; what follows from an opening belongs to the press before."""
    if events[0].kind != "opened":
        return first
    return next((press_of(old) for old in reversed(before) if old.kind != "opened"), 0)
