"""What a person can say between the walks of a job, and the events it makes; a rule comes back as words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.document.refusal import Refusal
from torqref.quantity.term import Measure
from torqref.walk.attempt import Answer, No
from torqref.walk.choice import ABANDON_REASONS, STEP_SKIP_REASONS, chosen, listed
from torqref.walk.event import Event
from torqref.walk.job_moment import OPENING, JobMoment
from torqref.walk.job_plan import JobStep
from torqref.walk.job_progress import UNDOABLE, undone_in_job
from torqref.walk.job_standing import Standing
from torqref.walk.progress import press_of


@dataclass(frozen=True, slots=True, kw_only=True)
class JobAct:
    """A command on its way.

    Args:
        standing: where the job stands.
        moment: what was asked for.
        argument: the rest of the line.
        by: who works, empty if unknown.
        now: the time.
        events: all events of the job so far, for undo.
    """

    standing: Standing
    moment: JobMoment
    argument: str
    by: str
    now: datetime
    events: tuple[Event, ...] = ()


def act_in_job(name: str, act: JobAct) -> Answer:
    """The events of one command, or why not; a digit answers the question that is open."""
    if name.isascii() and name.isdigit():
        return _digit(int(name), act)
    command = COMMANDS.get(name)
    if command is None:
        near = nearest(name, COMMANDS)
        mend = f'Did you mean "{near}"?' if near else f"Known: {', '.join(COMMANDS)}."
        return No(message=f'"{escape(name)}" is not known between the walks of a job. {mend}')
    signed = act.standing.progress.signed
    if signed and name not in _AFTER_SIGNING:
        return No(
            message=f"{signed[0][0]} has signed: what stands above the signature stays. --new begins anew."
        )
    return command(act)


# A signature stands under what was done: nothing above it changes any more.
_AFTER_SIGNING = frozenset({"done", "sign", "recheck", "note", "undo", "pause"})


def job_consequences(standing: Standing, now: datetime) -> tuple[Event, ...]:
    """What follows by itself: a wait that has become the current step gets its time."""
    step = standing.current
    if step is None or step.kind != "wait" or step.due_minutes is None or standing.due_at(step):
        return ()
    due = now + timedelta(minutes=float(step.due_minutes))
    return (Event(kind="due", round=step.number, due=due.isoformat(timespec="seconds"), text=step.due),)


# --- the main key and the digits --------------------------------------------------------------------


def _done(act: JobAct) -> Answer:
    """The main key turns a page and ticks a look; it never says that something is safe, and never signs."""
    return _MAIN[act.moment.kind](act)


def _opening(act: JobAct) -> Answer:
    return (Event(kind="gate", gate=OPENING),)


def _tick(act: JobAct) -> Answer:
    step = act.moment.step
    if step is None:
        return No(message="No step is open here.")
    return (Event(kind="step", round=step.number, text=lateness(act.standing, step, act.now)),)


def lateness(standing: Standing, step: JobStep, now: datetime) -> str:
    """What the record says of a step that is done after its deadline, empty for one in time."""
    deadline = standing.deadline(step)
    if deadline is None or now <= deadline:
        return ""
    minutes = int((now - deadline).total_seconds() // 60)
    return f"{minutes} min after its deadline"


def _needs_digit(act: JobAct) -> Answer:
    choices = "; ".join(f"{option.digit} = {option.text}" for option in act.moment.options)
    return No(message=f"The main key does not answer this. A digit does: {choices}.")


def _needs_reading(act: JobAct) -> Answer:
    step = act.moment.step
    unit = step.band.unit if step and step.band else ""
    return No(message=f"This needs a reading: measure VALUE {unit}, or skip and the reason.")


def _needs_walk(act: JobAct) -> Answer:
    return No(message="This step is walked bolt by bolt.")


def _needs_time(act: JobAct) -> Answer:
    return No(message=f"Not before {act.moment.due}. Write later to go on with other steps, or pause.")


def _needs_sign(act: JobAct) -> Answer:
    return No(message=f"The main key does not sign. Write: sign {act.by or 'NAME'}.")


def _needs_recheck(act: JobAct) -> Answer:
    return No(message="Signed. When a recheck is due, write: recheck N and what was seen or read.")


def _over(act: JobAct) -> Answer:
    return No(message="The job is finished.")


_MAIN: dict[str, Callable[[JobAct], Answer]] = {
    "opening": _opening,
    "fact": _needs_digit,
    "safe": _needs_digit,
    "alone": _tick,
    "page": _tick,
    "group": _needs_walk,
    "check": _tick,
    "reading": _needs_reading,
    "wait": _needs_time,
    "waited": _tick,
    "sign-off": _needs_sign,
    "recheck": _needs_recheck,
    "finished": _over,
}


def _digit(digit: int, act: JobAct) -> Answer:
    texts = {option.digit: option.text for option in act.moment.options}
    if digit not in texts:
        return _needs_digit(act) if texts else No(message="No question is open; a digit does nothing.")
    if act.moment.kind == "fact":
        return (Event(kind="fact", gate=act.moment.fact, value=texts[digit]),)
    step = act.moment.step
    if step is None or digit == 2:
        return (Event(kind="pause", round=step.number if step else 0, text=texts[digit]),)
    return (Event(kind="step", round=step.number, reason=digit, text=texts[digit]),)


# --- words ------------------------------------------------------------------------------------------


def _measure(act: JobAct) -> Answer:
    """A reading of a check; outside its band the step stays open, and the record keeps the reading."""
    step = act.moment.step
    if act.moment.kind != "reading" or step is None or step.band is None:
        return No(message="No reading is asked for now.")
    verdict = band_verdict(act.argument, step.band)
    if isinstance(verdict, No):
        return verdict
    late = lateness(act.standing, step, act.now)
    told = Event(kind="measure", round=step.number, value=act.argument, text=verdict)
    return (told, Event(kind="note", round=step.number, text=late)) if late else (told,)


def band_verdict(text: str, band: Measure) -> str | No:
    """Empty for a reading inside its band, `outside …` for one that is not; a `No` for no reading."""
    from torqref.quantity.measure import read_measure

    found = read_measure(text)
    if isinstance(found, Refusal):
        return No(message=found.sentence())
    if found.target is None or found.unit != band.unit:
        return No(message=f"One reading in {band.unit} is expected, wanted is {band.text}.")
    low = band.low if band.low is not None else band.target if band.high is None else None
    high = band.high if band.high is not None else band.target if band.low is None else None
    if (low is not None and found.target < low) or (high is not None and found.target > high):
        return f"outside {band.text}"
    return ""


def _later(act: JobAct) -> Answer:
    """Put the step off; what needs it waits with it."""
    step = act.moment.step
    if step is None:
        return No(message="No step is open that could be put off.")
    if step.kind == "safe":
        return No(message="What must be safe is not put off. Pause, make it safe, and come back.")
    others = [each for each in act.standing.open_steps if act.standing.is_free(each) and each is not step]
    if all(each.number in act.standing.progress.later for each in others):
        return No(message="Nothing else can be done before it.")
    return (Event(kind="later", round=step.number),)


def _go(act: JobAct) -> Answer:
    """Do another open step now; what stood before it is put off."""
    step = _named(act)
    if isinstance(step, No):
        return step
    if act.standing.is_over(step):
        return No(message=f"Step {step.number} is over. Write again {step.number} to do it once more.")
    unsafe = any(each.kind == "safe" and each.number < step.number for each in act.standing.open_steps)
    if unsafe or not act.standing.is_free(step):
        first = "what must be safe" if unsafe else "what it needs"
        return No(message=f"Step {step.number} comes after {first}.")
    return (Event(kind="go", round=step.number),)


def _skip(act: JobAct) -> Answer:
    """Leave a step out, with the reason."""
    step = act.moment.step
    if step is None:
        return No(message="No step is open that could be left out.")
    if step.kind == "safe":
        return No(message="What must be safe is never left out.")
    reason = _reason(act.argument, STEP_SKIP_REASONS)
    if not reason:
        return No(message=f"Write skip and the reason, in one line. A digit: {listed(STEP_SKIP_REASONS)}.")
    return (Event(kind="skip", round=step.number, text=reason),)


def _reason(argument: str, known: tuple[str, ...]) -> str:
    """A reason in words, or the one that a digit stands for."""
    digit = chosen(argument, known)
    return known[digit - 1] if digit else argument


def _again(act: JobAct) -> Answer:
    """Do a step once more: a group gets another walk, and the record keeps the one before."""
    step = _named(act)
    if isinstance(step, No):
        return step
    begun = act.standing.is_over(step) or step.walk in act.standing.progress.walks
    if not begun or not act.standing.is_for(step):
        return No(message=f"Step {step.number} was not done yet.")
    return (Event(kind="again", round=step.number, gate=step.walk if step.kind == "group" else ""),)


def _named(act: JobAct) -> JobStep | No:
    word = act.argument.split(" ")[0]
    step = act.standing.progress.plan.step(int(word)) if word.isascii() and word.isdigit() else None
    last = len(act.standing.progress.plan.steps)
    return No(message=f"Name a step by its number, 1 to {last}.") if step is None else step


def _adapter(act: JobAct) -> Answer:
    """Take another adapter for the group that comes now: an id of the rack, OFFSET@ANGLE, or none."""
    step = act.moment.step
    if step is None or step.kind != "group":
        return No(message="An adapter is chosen for a group; none comes now.")
    if not act.argument:
        return No(message='Write adapter and its id, a measure such as "32 mm@90", or none.')
    return (Event(kind="adapter", round=step.number, text=act.argument),)


def _note(act: JobAct) -> Answer:
    if not act.argument:
        return No(message="Write note and the text.")
    step = act.moment.step
    return (Event(kind="note", round=step.number if step else 0, text=act.argument),)


def _order(act: JobAct) -> Answer:
    if not act.argument:
        return No(message="Write order and the number of the work order.")
    return (Event(kind="order", text=act.argument),)


def _undo(act: JobAct) -> Answer:
    """Take back the last press between the walks; the record keeps both."""
    gone = undone_in_job(act.events)
    acts = [event for event in act.events if event.kind in UNDOABLE and event.number not in gone]
    signed = [event.number for event in act.events if event.kind == "signed"]
    acts = [event for event in acts if not signed or event.number > signed[0]]
    if not acts:
        return No(message="Nothing to undo.")
    last = acts[-1]
    return (Event(kind="undo", round=last.round, undoes=press_of(last), text=last.kind),)


def _pause(act: JobAct) -> Answer:
    return (Event(kind="pause", text=act.argument),)


def _abandon(act: JobAct) -> Answer:
    reason = _reason(act.argument, ABANDON_REASONS)
    if not reason:
        return No(message="Write abandon and the reason: the job then ends unfinished.")
    return (Event(kind="abandoned", text=reason),)


def _sign(act: JobAct) -> Answer:
    """Sign off, once everything is over; more than one signature needs more than one person."""
    if act.moment.kind != "sign-off":
        open_ = act.standing.open_steps
        where = f" Step {open_[0].number} is open: {open_[0].title}." if open_ else ""
        return No(message=f"Sign-off comes when every step is done or left out.{where}")
    name = act.argument or act.by
    if not name:
        return No(message="Write sign and your name.")
    progress = act.standing.progress
    if name.casefold() in {known.casefold() for known, _ in progress.signed}:
        return No(message=f"{escape(name)} has signed; another person signs now.")
    finished = () if progress.signed else (Event(kind="finished", text=_ending(act)),)
    return (*finished, Event(kind="signed", by=name))


def _ending(act: JobAct) -> str:
    left = ", ".join(str(number) for number in sorted(act.standing.progress.left_out))
    return f"steps left out: {left}" if left else ""


def _recheck(act: JobAct) -> Answer:
    """What was seen at a recheck after sign-off."""
    progress = act.standing.progress
    word, _, seen = act.argument.partition(" ")
    open_ = progress.open_rechecks
    if not progress.is_signed or not (word.isascii() and word.isdigit() and int(word) in open_):
        known = ", ".join(str(number) for number in open_)
        return No(message=f"Write recheck, its number ({known or 'none is open'}), and what was seen.")
    recheck = progress.plan.rechecks[int(word) - 1]
    if not seen.strip():
        return No(message=f"Write recheck {word} and what was seen or read.")
    verdict = band_verdict(seen, recheck.band) if recheck.band else ""
    if isinstance(verdict, No):
        return verdict
    return (Event(kind="recheck", round=int(word), value=seen.strip(), text=verdict),)


def told_in_job(events: tuple[Event, ...]) -> str:
    """What is to be known at once of what was kept; empty for nothing."""
    outside = (event for event in events if event.kind in ("measure", "recheck") and event.text)
    return "; ".join(f"{event.value}: {event.text}; it stays open" for event in outside)


COMMANDS: dict[str, Callable[[JobAct], Answer]] = {
    "done": _done,
    "measure": _measure,
    "later": _later,
    "go": _go,
    "skip": _skip,
    "again": _again,
    "adapter": _adapter,
    "note": _note,
    "order": _order,
    "undo": _undo,
    "pause": _pause,
    "sign": _sign,
    "recheck": _recheck,
    "abandon": _abandon,
}
