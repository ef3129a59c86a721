"""A walk as lines: one fact a line, no boxes, the same core as the screens.

An empty line is the main key. End of input pauses. At a terminal a press that comes sooner than one can read
is left out (`keyboard`). The last line says finished, paused or due.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from torqref.commands.console import Console
from torqref.commands.keyboard import Keyboard
from torqref.commands.voice import Voice
from torqref.walk.moment import Moment
from torqref.walk.progress import Progress
from torqref.walk.second import second_unit_text
from torqref.walk.session import Session
from torqref.walk.spoken import one_sentence, spoken
from torqref.walk.view import View, view

HELP = ("help", "?", "h")
CARD, WHY = "show", "why"
_ALWAYS = ((CARD, "all conditions and cautions again"), (WHY, "why this round, this number and this order"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """A walk inside a job: when the job goes on, which lines are meant for it, what is spoken before."""

    is_over: Callable[[Session], bool]
    takes: Callable[[str], bool]
    lead: str = ""


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
    keyboard, lead = Keyboard(lines, console), within.lead if within is not None else ""
    while True:
        moment = session.moment()
        if within is not None and within.is_over(session):
            return 0
        if moment.kind == "finished":
            return _end(session, keyboard, console, drafts)
        shown = view(session.progress, moment, session.clock())
        opened = _show(shown, session.progress, opened, console)
        if voice is not None:
            voice.say(one_sentence(lead, spoken(session.progress, moment, shown, session.clock())))
            lead = ""
        line = keyboard.read()
        if not line:
            return _put_down(session, moment, console)
        if _is_asked(line, shown, session, moment, console):
            continue
        if within is not None and within.takes(line):
            continue
        if moment.kind == "wait" and not line.strip():
            return _put_down(session, moment, console)
        if not line.strip() and session.moment() != moment:
            # A key must not open what was never shown: time has made something else of it meanwhile.
            console.say("Time has passed: look again.")
            continue
        reply = session.say(line)
        for told in (reply.refused, reply.told):
            if told:
                console.say(told)
        if session.progress.paused:
            console.say("paused")
            return 0


def _show(shown: View, progress: Progress, before: tuple[str, ...], console: Console) -> tuple[str, ...]:
    """Say what is asked for; the round is said again only when it changes."""
    top = tuple(line for line in (shown.title, shown.practice, shown.worth, shown.round) if line)
    for line in top:
        if line not in before:
            console.say(line)
    for line in sentences(shown, progress):
        console.say(line)
    return top


def sentences(shown: View, progress: Progress) -> Iterator[str]:
    """One fact a line: what to do, the number to set, the way to turn, and what else matters."""
    if shown.kind in ("bolt", "card"):
        yield _pull_line(shown)
        yield from shown.lines
    else:
        yield shown.headline
        yield from _number_lines(shown, progress)
        yield from shown.lines
    for digit, text in shown.options:
        yield f"  {digit} = {text}"
    if shown.main and shown.kind != "bolt":
        yield f"enter = {shown.main}"


def _number_lines(shown: View, progress: Progress) -> Iterator[str]:
    if shown.number:
        was = f", WAS {shown.was}" if shown.was else ""
        yield f"{number_text(shown)}{was}"
        yield f"as printed: {shown.spec}"
        for more in (second_unit_text(progress, shown), shown.turn):
            if more:
                yield f"that is {more}"
    if shown.wrench and not any(shown.wrench in line for line in shown.lines):
        yield f"with {shown.wrench}"
    if shown.direction and shown.kind in ("stop", "question"):
        yield f"turn {shown.direction}"


def number_text(shown: View) -> str:
    """The one number with what is done with it: `SET 24 N·m`, `TURN 90°`, `TURN BACK 180°`."""
    space = "" if shown.unit == "°" else " "
    return f"{shown.verb} {shown.number}{space}{shown.unit}"


def _pull_line(shown: View) -> str:
    number = number_text(shown) if shown.number else ""
    said = ", ".join(part for part in (shown.headline, number, shown.direction) if part)
    return f"{said} ({shown.count})"


def _is_asked(line: str, shown: View, session: Session, moment: Moment, console: Console) -> bool:
    """Answer a line that only asks to be told something; it is no command of the walk."""
    word = line.strip().casefold()
    if word in HELP:
        told = _helped(shown)
    elif word == CARD:
        told = iter(shown.card or ("nothing more is known of it",))
    elif word == WHY:
        from torqref.walk.reason import reasons

        told = iter(reasons(session.progress, moment))
    else:
        return False
    for sentence in told:
        console.say(sentence)
    return True


def _helped(shown: View) -> Iterator[str]:
    """The main key, the words that fit now with their digits, and what can always be asked."""
    yield f"enter = {shown.main or 'nothing here'}"
    for said, meaning in (*shown.words, *_ALWAYS):
        yield f"{said} = {meaning}"
    for said, choices in shown.choices:
        for digit, meaning in enumerate(choices, start=1):
            yield f"  {said} {digit} = {meaning}"


def _put_down(session: Session, moment: Moment, console: Console) -> int:
    """End of input, or the main key at a wait: the walk stays open."""
    refused = session.do("pause").refused
    if refused:
        console.say(refused)
    elif moment.kind == "wait":
        round_ = session.progress.current
        if not session.progress.due:  # a time was said with the wait
            console.say(f"due when it is so: {round_.text if round_ else ''}")
    console.say("due" if moment.kind == "wait" else "paused")
    return 1 if refused else 0


def _end(session: Session, keyboard: Keyboard, console: Console, drafts: Path | None) -> int:
    progress = session.progress
    if progress.abandoned:
        console.say("abandoned")
        return 0
    for line in view(progress, session.moment(), session.clock()).lines:
        console.say(line)
    if drafts is not None:
        _offer_to_keep(session, keyboard, console, drafts)
    console.say("finished")
    return 0


def _offer_to_keep(session: Session, keyboard: Keyboard, console: Console, drafts: Path) -> None:
    """A quick walk may become a draft group; any other line, or none, leaves it."""
    from torqref.walk.keeping import keep_walk, may_keep

    if not may_keep(session.progress):
        return
    console.say("all done and recorded; keep = keep it as a draft group of your library, enter = leave it")
    if keyboard.read().strip().casefold() == "keep":
        console.say(keep_walk(session, drafts).sentence)
