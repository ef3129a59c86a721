"""A job as lines: the same core as the screens, each group walked inside it.

An empty line is the main key. Inside the walk of a group, `job WORD` speaks to the job: `job later`. End
of input puts everything down. The last line says finished, paused or due.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TextIO

from torqref.commands.console import Console
from torqref.commands.keyboard import Keyboard
from torqref.commands.plain import HELP, Within, walk_plain
from torqref.commands.voice import Voice
from torqref.walk.job_moment import JobMoment
from torqref.walk.job_session import JobSession
from torqref.walk.job_spoken import spoken_in_job
from torqref.walk.job_view import JobView, came_of, job_view
from torqref.walk.session import Session
from torqref.walk.speech import in_speech
from torqref.walk.spoken import one_sentence

OUTER = "job "


@dataclass(slots=True)
class Desk:
    """What a job by lines goes by: session, lines, voice, what was said, and what is spoken first next."""

    session: JobSession
    lines: TextIO
    console: Console
    voice: Voice | None = None
    said: set[str] = field(default_factory=set)
    refused_at: int = 0
    lead: str = ""

    def speak(self, moment: JobMoment, shown: JobView) -> None:
        """Say what comes now, behind what became of the walk that was left."""
        if self.voice is not None:
            self.voice.say(self.sentence(moment, shown))
            self.lead = ""

    def sentence(self, moment: JobMoment, shown: JobView) -> str:
        """What is spoken of a step."""
        session = self.session
        return one_sentence(self.lead, spoken_in_job(session.standing, moment, shown, session.clock()))


def job_plain(session: JobSession, lines: TextIO, console: Console, voice: Voice | None = None) -> int:
    """Work by lines until the end of the job or of the input; returns the exit code."""
    desk, keyboard = Desk(session, lines, console, voice), Keyboard(lines, console)
    while True:
        moment = session.moment()
        shown = job_view(session.standing, moment, session.clock())
        _once(desk, shown.title, shown.practice)
        if moment.kind == "finished":
            console.say(shown.headline)
            desk.speak(moment, shown)
            console.say("finished")
            return 0
        if _walks(desk, moment):
            if _walk(desk, moment, shown):
                return 0
            continue
        _show(desk, shown)
        desk.speak(moment, shown)
        line = keyboard.read()
        if not line or (moment.kind in ("wait", "recheck") and not line.strip()):
            return _put_down(desk, moment)
        _answer(desk, shown, line)
        if session.progress.paused:
            console.say("paused")
            return 0


def _once(desk: Desk, *texts: str) -> None:
    for text in texts:
        if text and text not in desk.said:
            desk.said.add(text)
            desk.console.say(text)


def _walks(desk: Desk, moment: JobMoment) -> bool:
    """Whether the walk of a group is opened now; one that was refused waits for a word."""
    if moment.kind != "group" or moment.step is None:
        return False
    return moment.step.number != desk.refused_at


def _walk(desk: Desk, moment: JobMoment, shown: JobView) -> bool:
    """Walk the group that comes now; True where everything was put down inside it."""
    desk.console.say(f"{shown.count}: {shown.headline}")
    for line in shown.lines:
        desk.console.say(line)
    opening = desk.session.enter()
    for note in opening.notes:
        desk.console.tell(note)
    if opening.session is None:
        desk.console.say(opening.refusal.sentence() if opening.refusal else "It cannot be walked.")
        desk.refused_at = desk.session.entered.number if desk.session.entered else 0
        return False
    walk = opening.session
    lead = desk.sentence(moment, shown)
    within = Within(
        is_over=desk.session.is_over, takes=lambda line: _for_the_job(desk, walk, line), lead=lead
    )
    try:
        walk_plain(walk, desk.lines, desk.console, voice=desk.voice, within=within)
    finally:
        told = desk.session.leave(walk)
    desk.lead = _became(desk)
    if told:
        desk.console.say(told)
    if walk.progress.finished:
        for line in walk.progress.plan.after:
            desk.console.say(f"then: {line}")
    if walk.progress.paused:
        desk.session.do("pause")
    return walk.progress.paused or desk.session.progress.paused


def _became(desk: Desk) -> str:
    """What is spoken of the walk that was left, before the next step."""
    step, session = desk.session.entered, desk.session
    return in_speech(one_sentence(*came_of(session.standing, step, session.clock()))) if step else ""


def _for_the_job(desk: Desk, walk: Session, line: str) -> bool:
    if not line.startswith(OUTER):
        return False
    desk.session.follow(walk)
    shown = job_view(desk.session.standing, desk.session.moment(), desk.session.clock())
    _answer(desk, shown, line.removeprefix(OUTER))
    return True


def _show(desk: Desk, shown: JobView) -> None:
    """One fact a line: which step, what to do, what to answer."""
    count = f"{shown.count}: " if shown.count else ""
    desk.console.say(f"{count}{shown.headline}")
    for line in (*shown.texts[1:], *shown.lines):
        desk.console.say(line)
    for digit, text in shown.options:
        desk.console.say(f"  {digit} = {text}")
    if shown.main:
        desk.console.say(f"enter = {shown.main}")
    if shown.due:
        _once(desk, f"{len(shown.due)} due; `due` lists them")


def _answer(desk: Desk, shown: JobView, line: str) -> None:
    """A look-up, or a line for the core; what is refused says why."""
    word = line.strip()
    if word in _LOOKUPS:
        for text in _LOOKUPS[word](shown):
            desk.console.say(text)
        return
    desk.refused_at = 0 if word else desk.refused_at
    reply = desk.session.say(line)
    for told in (reply.refused, reply.told):
        if told:
            desk.console.say(told)


def _due(shown: JobView) -> tuple[str, ...]:
    return (*shown.deadlines, *shown.due) or ("nothing is due",)


def _steps(shown: JobView) -> tuple[str, ...]:
    return tuple(
        f"{entry.number}  {entry.state}: {entry.text}" + (f" ({entry.more})" if entry.more else "")
        for entry in shown.strip
    )


def _help(shown: JobView) -> tuple[str, ...]:
    words = (f"{word} = {meaning}" for word, meaning in shown.words)
    digits = (
        f"  {word} {digit} = {meaning}"
        for word, choices in shown.choices
        for digit, meaning in enumerate(choices, start=1)
    )
    return (f"enter = {shown.main or 'nothing here'}", *words, *digits)


_LOOKUPS = {"due": _due, "steps": _steps, **dict.fromkeys(HELP, _help)}


def _put_down(desk: Desk, moment: JobMoment) -> int:
    """End of input, or the main key at a wait: the job stays open."""
    if moment.kind != "recheck":
        desk.session.do("pause")
    desk.console.say({"wait": "due", "recheck": "finished"}.get(moment.kind, "paused"))
    return 0
