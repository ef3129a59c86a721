"""What a front end shows of a job: every sentence is made here, once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime

from torqref.library.source import PRACTICE
from torqref.walk.job_moment import JobMoment
from torqref.walk.job_plan import JobStep
from torqref.walk.job_progress import JobProgress
from torqref.walk.job_standing import Standing
from torqref.walk.stop import due_text

DEFER = "The manufacturer's service information, local codes and licensed practice come first."


@dataclass(frozen=True, slots=True, kw_only=True)
class JobEntry:
    """One step in the strip: number, words, state (see `job_standing.STATES`), and what adds to it."""

    number: int
    text: str
    state: str
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobView:
    """Everything to show now.

    Args:
        kind: kind of the moment.
        title: the repair, and of what.
        count: which step of how many.
        headline: what to do, in a few words.
        lines: further lines, most important first.
        options: answers of a question, digit and words.
        words: what can be said now beside the main key, word and meaning.
        main: what the main key does, empty where it does nothing.
        due: open waits and rechecks, each as one line.
        strip: every step with its state.
        practice: the sentence that these are practice values, or empty.
    """

    kind: str
    title: str
    count: str = ""
    headline: str = ""
    lines: tuple[str, ...] = ()
    options: tuple[tuple[int, str], ...] = ()
    words: tuple[tuple[str, str], ...] = ()
    main: str = ""
    due: tuple[str, ...] = ()
    strip: tuple[JobEntry, ...] = ()
    practice: str = ""


def job_view(standing: Standing, moment: JobMoment, now: datetime) -> JobView:
    """What to show at this moment."""
    plan = standing.progress.plan
    return JobView(
        kind=moment.kind,
        title=f"{plan.name}, {plan.assembly}" if plan.assembly else plan.name,
        count=f"step {moment.step.number} of {len(plan.steps)}" if moment.step else "",
        headline=_headline(standing, moment),
        lines=tuple(_lines(standing, moment, now)),
        options=tuple((option.digit, option.text) for option in moment.options),
        words=tuple((word, text) for word, text, kinds in _WORDS if moment.kind in kinds),
        main=_MAIN_WORDS.get(moment.kind, ""),
        due=due_lines(standing, now),
        strip=entries(standing, now),
        practice=PRACTICE if plan.invented else "",
    )


_MAIN_WORDS = {
    "opening": "read",
    "alone": "read and done",
    "page": "all of it done",
    "check": "looked at and right",
    "waited": "it is so",
}
_STEPS = ("alone", "page", "group", "check", "reading", "wait", "waited")
_WORDS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("measure VALUE", "the reading", ("reading",)),
    ("later", "go on with other steps first", _STEPS),
    ("go N", "do step N now", (*_STEPS, "sign-off")),
    ("skip REASON", "leave this step out, with the reason", _STEPS),
    ("again N", "do step N once more", (*_STEPS, "safe", "sign-off")),
    ("adapter ID", "take another adapter, or none", ("group",)),
    ("sign NAME", "sign off", ("sign-off",)),
    ("order T", "the number of the work order", ("sign-off", "opening", *_STEPS)),
    ("recheck N VALUE", "what was seen or read at a recheck", ("recheck",)),
    ("undo", "take the last press back", (*_STEPS, "safe", "sign-off")),
    ("note TEXT", "keep a remark", (*_STEPS, "safe", "sign-off", "recheck")),
    ("due", "what is waiting", (*_STEPS, "safe", "sign-off", "recheck")),
    ("steps", "every step and its state", (*_STEPS, "opening", "safe", "sign-off", "recheck")),
    ("pause", "put it down", (*_STEPS, "opening", "safe", "fact", "sign-off")),
)


def _headline(standing: Standing, moment: JobMoment) -> str:
    step = moment.step
    if step is None:
        return {
            "opening": "CAUTIONS",
            "fact": f"{moment.fact.upper()}: which one?",
            "sign-off": "SIGN-OFF",
            "recheck": "SIGNED; rechecks stay due",
        }.get(moment.kind, "ABANDONED" if standing.progress.abandoned else "SIGNED")
    wanted = f", wanted {step.band.text}" if step.band else ""
    return {
        "safe": f"MUST BE SAFE: {step.title}",
        "group": f"TIGHTEN: {step.title}" if step.action == "tighten" else f"LOOSEN: {step.title}",
        "check": f"CHECK: {step.title}",
        "reading": f"MEASURE: {step.title}{wanted}",
        "wait": f"WAIT: {step.title}",
        "waited": f"WAITED: {step.title}: is it so?",
    }.get(moment.kind, step.lines[0])


def _lines(standing: Standing, moment: JobMoment, now: datetime) -> Iterator[str]:
    yield from _OWN_LINES[moment.kind](standing, moment) if moment.kind in _OWN_LINES else ()
    step = moment.step
    if step is None:
        return
    yield from step.lines[1:] if moment.kind == "page" else ()
    if step.note:
        yield step.note
    if moment.due:
        yield f"due {due_text(moment.due, now)}"
    elif step.kind == "wait" and step.due:
        yield f"wanted: {step.due}"
    value, outside = standing.progress.readings.get(step.number, ("", ""))
    if outside:
        yield f"last reading {value}: {outside}"
    yield from _deadline_line(standing, step, now)
    yield from (f"see: {source}" for source in step.sources)


def _deadline_line(standing: Standing, step: JobStep, now: datetime) -> Iterator[str]:
    deadline = standing.deadline(step)
    if deadline is None:
        return
    left = deadline - now
    minutes = int(abs(left.total_seconds()) // 60)
    when = deadline.strftime("%H:%M")
    yield f"until {when}: {minutes} min left" if left.total_seconds() >= 0 else f"LATE: was due {when}"


def _opening_lines(standing: Standing, moment: JobMoment) -> Iterator[str]:
    plan = standing.progress.plan
    for caution in plan.cautions:
        source = f" ({caution.source})" if caution.source else ""
        yield f"{caution.text}{source}"
    yield DEFER


def _sign_lines(standing: Standing, moment: JobMoment) -> Iterator[str]:
    progress = standing.progress
    if not progress.work_order:
        yield "no work order: write order and its number, or sign without"
    yield from left_out_lines(progress)
    yield from (f"due after sign-off: {each.text}, {each.due}" for each in progress.plan.rechecks)
    yield from (f"signed: {name}" for name, _ in progress.signed)
    missing = progress.plan.signatures - len(progress.signed)
    yield f"{missing} {'signature' if missing == 1 else 'signatures of different people'} to come"


def left_out_lines(progress: JobProgress) -> Iterator[str]:
    """Steps left out, with their reasons."""
    for number, reason in sorted(progress.left_out.items()):
        step = progress.plan.step(number)
        yield f"left out: step {number}, {step.title if step else ''}: {reason}"


def _fact_lines(standing: Standing, moment: JobMoment) -> Iterator[str]:
    yield "look at the plate; steps for another one are then not offered"


_OWN_LINES: dict[str, Callable[[Standing, JobMoment], Iterator[str]]] = {
    "opening": _opening_lines,
    "fact": _fact_lines,
    "sign-off": _sign_lines,
}


def due_lines(standing: Standing, now: datetime) -> tuple[str, ...]:
    """Open waits of the steps, and after sign-off the rechecks: each as one line."""
    waits = [
        f"step {step.number}, {step.title}: due {due_text(due, now)}"
        for step in standing.open_steps
        if (due := standing.due_at(step))
    ]
    progress = standing.progress
    rechecks = [
        f"recheck {place}, {recheck_text(progress, place)}"
        for place in (progress.open_rechecks if progress.is_signed else ())
    ]
    return (*waits, *rechecks)


def recheck_text(progress: JobProgress, place: int) -> str:
    """A recheck in words: what, when, and what a reading must lie in."""
    recheck = progress.plan.rechecks[place - 1]
    wanted = f", wanted {recheck.band.text}" if recheck.band else ""
    return f"{recheck.text}{wanted}: after {recheck.due}"


def entries(standing: Standing, now: datetime) -> tuple[JobEntry, ...]:
    """Every step with its state, for a strip and for JSON."""
    return tuple(
        JobEntry(
            number=step.number,
            text=step.title,
            state=standing.state(step, now),
            more=_more(standing, step),
        )
        for step in standing.progress.plan.steps
    )


def _more(standing: Standing, step: JobStep) -> str:
    """What adds to the state: a reading, a reason, or how far the walk is."""
    progress = standing.progress
    if step.number in progress.left_out:
        return progress.left_out[step.number]
    value, outside = progress.readings.get(step.number, ("", ""))
    if value:
        return f"{value}, {outside}" if outside else value
    walk = standing.walk(step) if step.kind == "group" else None
    if walk is None or standing.is_over(step):
        return ""
    return f"stage {walk.current.stage}" if walk.current else ""
