"""A walk as lines: one fact a line, no boxes, the same core as the screens.

An empty line is the main key. End of input pauses. The last line says finished, paused or due.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from torqref.commands.console import Console
from torqref.commands.voice import Voice
from torqref.walk.moment import Moment
from torqref.walk.progress import Progress
from torqref.walk.second import second_unit_text
from torqref.walk.session import Session
from torqref.walk.spoken import spoken
from torqref.walk.view import View, view

HELP = ("help", "?", "h")


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """A walk inside a job: when the job goes on, and which lines are meant for the job."""

    is_over: Callable[[Session], bool]
    takes: Callable[[str], bool]


def walk_plain(
    session: Session,
    lines: TextIO,
    console: Console,
    drafts: Path | None = None,
    voice: Voice | None = None,
    within: Within | None = None,
) -> int:
    """Walk by lines until the end of the walk or of the input; returns the exit code.

    Args:
        session: the open walk.
        lines: what is typed.
        console: where it is answered.
        drafts: the folder where a quick walk may be kept as a draft group; None where it may not.
        voice: speaks each new step and stop; None for silence.
        within: the job that this walk is a part of; None for a walk of its own.
    """
    opened: tuple[str, ...] = ()
    while True:
        moment = session.moment()
        if within is not None and within.is_over(session):
            return 0
        if moment.kind == "finished":
            return _end(session, lines, console, drafts)
        shown = view(session.progress, moment, session.clock())
        opened = _show(shown, session.progress, opened, console)
        if voice is not None:
            voice.say(spoken(session.progress, moment, shown))
        line = lines.readline()
        if not line:
            return _put_down(session, moment, console)
        if line.strip() in HELP:
            _help(shown, console)
            continue
        if within is not None and within.takes(line):
            continue
        if moment.kind == "wait" and not line.strip():
            return _put_down(session, moment, console)
        reply = session.say(line)
        if reply.refused:
            console.say(reply.refused)
        if session.progress.paused:
            return _paused(session, console)


def _show(shown: View, progress: Progress, before: tuple[str, ...], console: Console) -> tuple[str, ...]:
    """Say what is asked for; the round is said again only when it changes."""
    top = tuple(line for line in (shown.title, shown.practice, shown.round) if line)
    for line in top:
        if line not in before:
            console.say(line)
    for line in sentences(shown, progress):
        console.say(line)
    return top


def sentences(shown: View, progress: Progress) -> Iterator[str]:
    """One fact a line: what to do, the number to set, the way to turn, and what else matters."""
    if shown.kind == "bolt":
        yield _bolt_line(shown)
        yield from shown.lines
        return
    yield shown.headline
    if shown.number:
        was = f", WAS {shown.was}" if shown.was else ""
        yield f"SET {shown.number} {shown.unit}{was}"
        yield f"as printed: {shown.spec}"
        second = second_unit_text(progress, shown)
        if second:
            yield f"that is {second}"
        if shown.turn:
            yield f"that is {shown.turn}"
    if shown.direction and shown.kind in ("stop", "card", "question"):
        yield f"turn {shown.direction}"
    yield from shown.lines
    for digit, text in shown.options:
        yield f"  {digit} = {text}"
    if shown.main:
        yield f"enter = {shown.main}"


def _bolt_line(shown: View) -> str:
    setting = f", SET {shown.number} {shown.unit}" if shown.number else ""
    return f"{shown.headline}{setting}, {shown.direction} ({shown.count})"


def _help(shown: View, console: Console) -> None:
    console.say(f"enter = {shown.main or 'nothing here'}")
    for word, meaning in shown.words:
        console.say(f"{word} = {meaning}")


def _put_down(session: Session, moment: Moment, console: Console) -> int:
    """End of input, or the main key at a wait: the walk stays open."""
    session.do("pause")
    if moment.kind == "wait":
        console.say(f"due {session.progress.due}")
        console.say("due")
        return 0
    return _paused(session, console)


def _paused(session: Session, console: Console) -> int:
    console.say("paused")
    return 0


def _end(session: Session, lines: TextIO, console: Console, drafts: Path | None) -> int:
    progress = session.progress
    if progress.abandoned:
        console.say("abandoned")
        return 0
    for line in progress.plan.after:
        console.say(f"then: {line}")
    if drafts is not None:
        _offer_to_keep(session, lines, console, drafts)
    console.say("finished")
    return 0


def _offer_to_keep(session: Session, lines: TextIO, console: Console, drafts: Path) -> None:
    """A quick walk may become a draft group; any other line, or none, leaves it."""
    from torqref.walk.keeping import keep_walk, may_keep

    if not may_keep(session.progress):
        return
    console.say("all done and recorded; keep = keep it as a draft group of your library, enter = leave it")
    if lines.readline().strip().casefold() == "keep":
        console.say(keep_walk(session, drafts).sentence)
