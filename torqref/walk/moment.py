"""What a walk asks for now: the levels of asking, decided from the progress and the clock alone.

A stop is opened by the main key; a question needs a digit; everything else is a pull or a look. The rule
behind all of it: ask only when the hand must now do something different, or when a wrong guess cannot be
undone.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from torqref.walk.plan import Round
from torqref.walk.progress import WHOLE, Progress, needs_marks, setup_of

LONG_PAUSE = timedelta(minutes=15)
CARD_BOLTS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """An answer to a question: its digit and its words."""

    digit: int
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """What is asked for now.

    Args:
        kind: `caution`, `stop`, `whole` (a hand or place round), `bolt`, `card`, `marks`, `measure`,
            `wait`, `question`, `second-check` or `finished`.
        gate: name under which a stop or question is recorded.
        why: reasons of a stop, most important first: `opening`, `setting`, `resume`, `trouble`,
            `seat`, `waited`, `recheck`.
        step: place of the step, -1 for none.
        back_to: round that opening this leads back to, -1 for none.
        options: answers of a question.
    """

    kind: str
    gate: str = ""
    why: tuple[str, ...] = ()
    step: int = -1
    back_to: int = -1
    options: tuple[Option, ...] = ()


MARK_OPTIONS = (
    Option(digit=1, text="the mark is still at the start"),
    Option(digit=2, text="the mark has already turned"),
    Option(digit=3, text="cannot tell"),
)
DEADLINE_OPTIONS = (
    Option(digit=1, text="cleaned off, start again from the first stage"),
    Option(digit=2, text="go on all the same; the record says so"),
)
CALIBRATION_OPTIONS = (
    Option(digit=1, text="use it all the same; the record says so"),
    Option(digit=2, text="pause and take another wrench"),
)
DOUBT_OPTIONS = (
    Option(digit=1, text="the page says so; the record keeps my answer"),
    Option(digit=2, text="pause and look it up"),
)
CHANGED_OPTIONS = (
    Option(digit=1, text="go on by the plan of this walk"),
    Option(digit=2, text="pause; start a new walk with the new values"),
)


def moment(progress: Progress, now: datetime) -> Moment:
    """What the walk asks for at this time."""
    if progress.finished or progress.abandoned:
        return Moment(kind="finished")
    for ask in (_trouble, _caution, _doubt, _calibration, _wait, _deadline, _resume, _stop):
        if (asked := ask(progress, now)) is not None:
            return asked
    return _work(progress)


def _trouble(progress: Progress, now: datetime) -> Moment | None:
    """An open trouble: its mend first, then the group's own rule says from where the walk goes on."""
    if progress.trouble is None:
        return None
    back = {"restart": 0, "this place": -1, "round again": progress.round}[progress.plan.after_trouble]
    return Moment(kind="stop", gate=f"trouble:{progress.trouble.number}", why=("trouble",), back_to=back)


def _caution(progress: Progress, now: datetime) -> Moment | None:
    """Each caution that stands alone has a press of its own, once a walk."""
    for place in range(len(progress.plan.alone)):
        if f"caution:{place}" not in progress.gates:
            return Moment(kind="caution", gate=f"caution:{place}")
    return None


def _doubt(progress: Progress, now: datetime) -> Moment | None:
    """A value that cannot be right is asked about once a walk, before anything is pulled."""
    if not progress.plan.about or "doubt" in progress.gates:
        return None
    return Moment(kind="question", gate="doubt", why=("doubt",), options=DOUBT_OPTIONS)


def _calibration(progress: Progress, now: datetime) -> Moment | None:
    """A wrench past its date is asked about once for each wrench and day, before it is first used."""
    round_, place = progress.current, progress.step
    dial = progress.dial(round_.steps[place]) if round_ and place >= 0 else None
    if dial is None or not dial.wrench:
        return None
    facts = progress.wrenches.get(dial.wrench)
    if facts is None or not facts.calibration_due or facts.calibration_due >= now.date().isoformat():
        return None
    gate = f"calibration:{dial.wrench}:{now.date().isoformat()}"
    if gate in progress.gates:
        return None
    return Moment(kind="question", gate=gate, why=("calibration",), step=place, options=CALIBRATION_OPTIONS)


def _wait(progress: Progress, now: datetime) -> Moment | None:
    """A wait stays closed until it is due; then its stop is the stop of the round after it, too."""
    round_ = progress.current
    if round_ is None or round_.kind != "wait":
        return None
    if progress.due and datetime.fromisoformat(progress.due) > now:
        return Moment(kind="wait", gate=_wait_gate(progress))
    why = ("waited", "setting") if _next_turns(progress) else ("waited",)
    return Moment(kind="stop", gate=_wait_gate(progress), why=why, step=0)


def _wait_gate(progress: Progress) -> str:
    return f"wait:{progress.round}:{progress.restarts}"


def _next_turns(progress: Progress) -> bool:
    rounds = progress.plan.rounds
    return progress.round + 1 < len(rounds) and bool(rounds[progress.round + 1].steps)


def _deadline(progress: Progress, now: datetime) -> Moment | None:
    """A stage that must be finished within a time, opened or gone on with after it."""
    round_ = progress.current
    if round_ is None or round_.within is None or not progress.begun:
        return None
    gate = f"within:{progress.round}:{progress.restarts}"
    late = now - datetime.fromisoformat(progress.begun) > timedelta(minutes=float(round_.within))
    if not late or gate in progress.gates:
        return None
    return Moment(kind="question", gate=gate, why=("deadline",), options=DEADLINE_OPTIONS)


def _resume(progress: Progress, now: datetime) -> Moment | None:
    """Coming back after a restart or a long pause: what that asks depends on what the hand was doing."""
    round_, place = progress.current, progress.step
    if round_ is None or not progress.settled or place < 0 or not _came_back(progress, now):
        return None
    if (seat := seat_of(progress)) >= 0:
        return Moment(kind="stop", gate=_resume_gate(progress), why=("seat",), back_to=seat, step=place)
    if not _is_set_up(progress):
        return None  # the stop of the new setting comes anyway, and says it all
    if round_.kind == "angle" or round_.steps[place].kind == "angle":
        return Moment(
            kind="question", gate=_resume_gate(progress), why=("mark",), step=place, options=MARK_OPTIONS
        )
    if not progress.done:
        return None
    return Moment(kind="stop", gate=_resume_gate(progress), why=("resume",), step=place)


def _came_back(progress: Progress, now: datetime) -> bool:
    """Whether the program was started anew, or stood for a quarter of an hour, since the last press."""
    if progress.opened > progress.settled:
        return True
    return now - datetime.fromisoformat(progress.settled_at) > LONG_PAUSE


def _resume_gate(progress: Progress) -> str:
    return f"resume:{max(progress.opened, progress.last)}"


def seat_of(progress: Progress) -> int:
    """Index of the seating round when a pause inside seat and back-off spoils it, -1 elsewhere.

    Seat and back-off belong together: the torque round before the first back-off, the back-offs, and what
    follows up to the last align stage. A half-done back-off cannot be judged from its look.
    """
    here = progress.current
    if here is None:
        return -1
    rounds = [(place, other) for place, other in enumerate(progress.plan.rounds) if other.place == here.place]
    backs = [place for place, other in rounds if other.kind in ("back_off", "align")]
    first = min((place for place, other in rounds if other.kind == "back_off"), default=-1)
    if first < 0:
        return -1
    seat = max((place for place, other in rounds if other.kind == "torque" and place < first), default=first)
    begun = progress.round > seat or (progress.round == seat and bool(progress.done or progress.setup))
    return seat if begun and progress.round <= max(backs) else -1


def _is_set_up(progress: Progress) -> bool:
    round_, place = progress.current, progress.step
    if round_ is None or place < 0 or round_.kind in (*WHOLE, "measure"):
        return True
    return progress.setup == setup_of(progress, round_, round_.steps[place])


def _stop(progress: Progress, now: datetime) -> Moment | None:
    """The opening stop, and a stop at every change of setting, tool, direction or kind of pull."""
    round_, place = progress.current, progress.step
    if round_ is None:
        return None
    if not progress.gates - {gate for gate in progress.gates if gate.startswith(("caution", "doubt", "cal"))}:
        turning = round_.kind not in (*WHOLE, "measure")
        why = ("opening", "setting") if turning else ("opening",)
        return Moment(kind="stop", gate="opening", why=why, step=place)
    if place < 0 or _is_set_up(progress):
        return None
    gate = f"setting:{progress.round}:{progress.trip}:{place}:{progress.restarts}"
    why = ("setting", "recheck") if round_.recheck else ("setting",)
    return Moment(kind="stop", gate=gate, why=why, step=place)


def _work(progress: Progress) -> Moment:
    """Nothing is in the way: the pull, look or reading that comes next."""
    round_, place = progress.current, progress.step
    if round_ is None:
        second = progress.plan.second_check and not progress.verified
        return Moment(kind="second-check" if second else "finished")
    if round_.kind in WHOLE:
        return Moment(kind="whole", step=0)
    if place < 0 and needs_marks(round_):
        return Moment(kind="marks", gate=f"marks:{progress.round}:{progress.restarts}")
    if round_.kind == "measure":
        return Moment(kind="measure", step=place)
    return Moment(kind="card" if _is_card(progress, round_) else "bolt", step=place)


def _is_card(progress: Progress, round_: Round) -> bool:
    """One to three bolts with nothing but torque: one card and one key."""
    kinds = {other.kind for other in progress.plan.rounds}
    settings = {step.dial for step in round_.steps}
    plain = kinds <= {"torque", "hand", "place", "wait"} and not round_.recheck and not progress.later
    return plain and progress.plan.bolts <= CARD_BOLTS and len(settings) == 1
