"""What a front end shows of a job: every sentence is made here, once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime

from torqref.library.source import PRACTICE
from torqref.walk.choice import ABANDON_REASONS, STEP_SKIP_REASONS
from torqref.walk.job_moment import JobMoment
from torqref.walk.job_plan import LOOSEN, JobStep
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
        done: how many steps are over, in words.
        headline: what to do, in one line; of a page the first of its words.
        call: the kind of step in a few capitals, for a bar of its own.
        texts: the words of the step, each of them to be done; none where it is about no step.
        wanted: what a reading must lie in, empty for none.
        lines: further lines, most important first.
        urgent: those of the lines that must be seen from afar: a deadline, a reading outside its band.
        is_late: whether a deadline of the step has passed.
        options: answers of a question, digit and words.
        words: what can be said now beside the main key, word and meaning.
        choices: words that a digit can follow, each with what the digits mean.
        main: what the main key does, empty where it does nothing.
        due: open waits and rechecks, each as one line.
        deadlines: until when steps must be done whose time runs, each as one line.
        strip: every step with its state.
        practice: the sentence that these are practice values, or empty.
        others: how many steps that have a number are not for this vehicle, or empty.
    """

    kind: str
    title: str
    count: str = ""
    done: str = ""
    headline: str = ""
    call: str = ""
    texts: tuple[str, ...] = ()
    wanted: str = ""
    lines: tuple[str, ...] = ()
    urgent: tuple[str, ...] = ()
    is_late: bool = False
    options: tuple[tuple[int, str], ...] = ()
    words: tuple[tuple[str, str], ...] = ()
    choices: tuple[tuple[str, tuple[str, ...]], ...] = ()
    main: str = ""
    due: tuple[str, ...] = ()
    deadlines: tuple[str, ...] = ()
    strip: tuple[JobEntry, ...] = ()
    practice: str = ""
    others: str = ""


def job_view(standing: Standing, moment: JobMoment, now: datetime) -> JobView:
    """What to show at this moment."""
    plan, step = standing.progress.plan, moment.step
    urgent = _urgent(standing, step, now) if step else ()
    words = tuple((word, text) for word, text, kinds in _WORDS if moment.kind in kinds)
    return JobView(
        kind=moment.kind,
        title=f"{plan.name}, {plan.assembly}" if plan.assembly else plan.name,
        count=f"step {step.number} of {len(plan.steps)}" if step else "",
        done=done_text(standing),
        others=others_text(standing),
        headline=_headline(standing, moment),
        call=_call(standing, moment),
        texts=(step.lines if step.kind == "page" else (step.title,)) if step else (),
        wanted=step.band.text if step and step.band else "",
        lines=tuple(_lines(standing, moment, now, urgent)),
        urgent=urgent,
        is_late=step is not None and (standing.deadline(step) or now) < now,
        options=tuple((option.digit, option.text) for option in moment.options),
        words=words,
        choices=tuple((word, texts) for word, texts in _CHOICES if _said(word, words)),
        main=_MAIN_WORDS.get(moment.kind, ""),
        due=due_lines(standing, now),
        deadlines=tuple(_running(standing, now)),
        strip=entries(standing, now),
        practice=PRACTICE if plan.invented else "",
    )


def _said(word: str, words: tuple[tuple[str, str], ...]) -> bool:
    return any(said.split()[0] == word for said, _ in words)


def done_text(standing: Standing) -> str:
    """How far the repair is; steps that are not for this one are not counted, see `others_text`."""
    steps = [step for step in standing.progress.plan.steps if standing.is_for(step)]
    left_out = sum(step.number in standing.progress.left_out for step in steps)
    over = sum(standing.is_over(step) for step in steps) - left_out
    more = f", {left_out} left out" if left_out else ""
    return f"{over} of {len(steps)} done{more}"


def others_text(standing: Standing) -> str:
    """How many steps have a number, but are not for this vehicle; empty for none."""
    others = sum(not standing.is_for(step) for step in standing.progress.plan.steps)
    return f"{others} not for this one" if others else ""


_CHOICES = (("skip", STEP_SKIP_REASONS), ("abandon", ABANDON_REASONS))
_MAIN_WORDS = {
    "opening": "read",
    "group": "walk it, bolt by bolt",
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
    ("skip REASON", "leave this step out, with the reason or its digit", _STEPS),
    ("again N", "do step N once more", (*_STEPS, "safe", "sign-off")),
    ("adapter ID", "take another adapter, or none", ("group",)),
    ("sign NAME", "sign off", ("sign-off",)),
    ("order T", "the number of the work order", ("sign-off", "opening", *_STEPS)),
    ("recheck N VALUE", "what was seen or read at a recheck", ("recheck",)),
    ("undo", "take the last press back", (*_STEPS, "safe", "sign-off")),
    ("note TEXT", "keep a remark", (*_STEPS, "safe", "sign-off", "recheck")),
    ("due", "what is waiting, and which deadlines run", (*_STEPS, "safe", "sign-off", "recheck")),
    ("steps", "every step and its state", (*_STEPS, "opening", "safe", "sign-off", "recheck")),
    ("abandon REASON", "end the job unfinished, with the reason or its digit", (*_STEPS, "safe", "sign-off")),
    ("pause", "put it down", (*_STEPS, "opening", "safe", "fact", "sign-off")),
)


_CALLS = {
    "opening": "CAUTIONS",
    "sign-off": "SIGN-OFF",
    "recheck": "SIGNED; rechecks stay due",
    "safe": "MUST BE SAFE",
    "alone": "READ AND DO",
    "page": "DO ALL OF THIS",
    "check": "CHECK",
    "reading": "MEASURE",
    "wait": "WAIT",
    "waited": "WAITED",
}


def _call(standing: Standing, moment: JobMoment) -> str:
    """The kind of step in a few capitals."""
    if moment.kind == "fact":
        return f"{moment.fact.upper()}: which one?"
    if moment.kind == "group" and moment.step is not None:
        return "LOOSEN" if moment.step.action == LOOSEN else "TIGHTEN"
    return _CALLS.get(moment.kind, "ABANDONED" if standing.progress.abandoned else "SIGNED")


def _headline(standing: Standing, moment: JobMoment) -> str:
    step, call = moment.step, _call(standing, moment)
    if step is None:
        return call
    if moment.kind in ("alone", "page"):
        return step.lines[0]
    more = f", wanted {step.band.text}" if step.band else ""
    return f"{call}: {step.title}{': is it so?' if moment.kind == 'waited' else more}"


def _lines(standing: Standing, moment: JobMoment, now: datetime, urgent: tuple[str, ...]) -> Iterator[str]:
    yield from _OWN_LINES[moment.kind](standing, moment) if moment.kind in _OWN_LINES else ()
    step = moment.step
    if step is None:
        return
    if step.note:
        yield step.note
    if moment.due:
        yield f"due {due_text(moment.due, now)}"
    elif step.kind == "wait" and step.due:
        yield f"wanted: {step.due}"
    yield from urgent
    yield from (f"see: {source}" for source in step.sources)


def _urgent(standing: Standing, step: JobStep, now: datetime) -> tuple[str, ...]:
    """A reading outside its band, and how long there is until a deadline."""
    return (*reading_line(standing, step), *deadline_line(standing, step, now))


def reading_line(standing: Standing, step: JobStep) -> Iterator[str]:
    """The last reading of a step, where it was outside its band."""
    value, outside = standing.progress.readings.get(step.number, ("", ""))
    if outside:
        yield f"last reading {value}: {outside}"


def deadline_line(standing: Standing, step: JobStep, now: datetime) -> Iterator[str]:
    """Until when a step must be done, and how long that is; nothing where it has no deadline."""
    deadline = standing.deadline(step)
    if deadline is None:
        return
    minutes = int((deadline - now).total_seconds() // 60)
    span = f": {minutes} min left" if minutes else ": less than 1 min left"
    yield f"{until_text(deadline, now)}{span if deadline >= now else ''}"


def _running(standing: Standing, now: datetime) -> Iterator[str]:
    """Every deadline that runs, with its step."""
    for step in standing.open_steps:
        for told in deadline_line(standing, step, now):
            yield f"step {step.number}, {step.title}: {told}"


def until_text(deadline: datetime, now: datetime) -> str:
    """Until when a step must be done, by the clock."""
    when = deadline.strftime("%H:%M")
    return f"until {when}" if deadline >= now else f"LATE: was due {when}"


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


def came_of(standing: Standing, step: JobStep, now: datetime) -> tuple[str, ...]:
    """What has become of a group step once its walk was left: done, due or put down; and what comes then."""
    walk = standing.walk(step)
    if walk is None:
        return ()
    if standing.is_over(step):
        after = walk.plan.after if walk.finished else ()
        return (f"done: {step.title}", *(f"then: {line}" for line in after))
    due = standing.due_at(step)
    more = (
        f"due {due_text(due, now)}"
        if due
        else f"put down at stage {walk.current.stage if walk.current else 0}"
    )
    return (f"{step.title}: {more}",)


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
