"""What a walk asks for now: the levels of asking, decided from the progress and the clock alone.

A stop is opened by the main key; a question needs a digit; everything else is a pull or a look. The rule
behind all of it: ask only when the hand must now do something different, or when a wrong guess cannot be
undone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from torqref.walk.choice import (
    AGAIN_OPTIONS,
    BEYOND_OPTIONS,
    CALIBRATION_OPTIONS,
    CHANGED_OPTIONS,
    DEADLINE_OPTIONS,
    DISTANCE_OPTIONS,
    DOUBT_OPTIONS,
    EARLY_OPTIONS,
    HALF_OPTIONS,
    MARK_OPTIONS,
    STILL_OPTIONS,
    Option,
    use_options,
)
from torqref.walk.plan import Dial, Round
from torqref.walk.state import MOST_TRIPS, WHOLE, Progress, needs_marks, setup_of, turns_in

LONG_PAUSE = timedelta(minutes=15)
CARD_BOLTS = 3
# Gates that answer something beside the work: they open nothing and settle nothing.
BESIDE = ("caution", "doubt", "calibration", "beyond", "changed", "again", "uses", "within", "still")


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """What is asked for now.

    Args:
        kind: `caution`, `stop`, `whole` (a hand or place round), `bolt`, `card`, `marks`, `measure`,
            `wait`, `question`, `second-check` or `finished`.
        gate: name under which a stop or question is recorded.
        why: reasons of a stop, most important first: `opening`, `setting`, `resume`, `hand-over`,
            `trouble`, `seat`, `waited`, `recheck`; of a question `mark`, `deadline`, `calibration`,
            `doubt`, `beyond`, `changed`, `again`, `uses` or `still`.
        step: place of the step, -1 for none.
        back_to: round that opening this leads back to, -1 for none.
        options: answers of a question, and of a wait that is not over.
    """

    kind: str
    gate: str = ""
    why: tuple[str, ...] = ()
    step: int = -1
    back_to: int = -1
    options: tuple[Option, ...] = ()


def moment(progress: Progress, now: datetime) -> Moment:
    """What the walk asks for at this time."""
    if progress.finished or progress.abandoned:
        return Moment(kind="finished")
    for ask in _ASKED:
        if (asked := ask(progress, now)) is not None:
            return asked
    return _work(progress)


def goal(progress: Progress, asked: Moment) -> tuple[Round | None, int]:
    """Round and place of the step that a moment is about: for a stop, of the step that it leads to."""
    rounds = progress.plan.rounds
    if asked.back_to >= 0:
        return rounds[asked.back_to], 0
    if asked.gate.startswith("wait:"):
        following = progress.round + 1
        return (rounds[following], 0) if following < len(rounds) else (None, -1)
    return progress.current, asked.step


# --- trouble, and questions before the work ---------------------------------------------------------


def _trouble(progress: Progress, now: datetime) -> Moment | None:
    """An open trouble: its mend first, then the group's own rule says from where the walk goes on."""
    if progress.trouble is None:
        return None
    last = min(progress.round, len(progress.plan.rounds) - 1)
    back = {"restart": _first_round(progress, last), "this place": -1, "round again": last}[
        progress.plan.after_trouble
    ]
    return Moment(
        kind="stop",
        gate=f"trouble:{progress.trouble.number}",
        why=("trouble", *_setting_at(progress, back)),
        back_to=back,
        step=progress.step if back < 0 else -1,
    )


def _first_round(progress: Progress, index: int) -> int:
    """The first round of the place of a round: what is done at other places stays done."""
    here = progress.plan.rounds[index].place
    return next(at for at, round_ in enumerate(progress.plan.rounds) if round_.place == here)


def _setting_at(progress: Progress, index: int) -> tuple[str, ...]:
    """A stop that leads back to a pull says its setting at once, so that no second stop follows it."""
    return ("setting",) if index >= 0 and turns_in(progress.plan.rounds[index]) else ()


def _caution(progress: Progress, now: datetime) -> Moment | None:
    """Each caution that stands alone has a press of its own, once a walk or job."""
    for place in range(len(progress.plan.alone)):
        if f"caution:{place}" not in progress.gates:
            return Moment(kind="caution", gate=f"caution:{place}")
    return None


def _again(progress: Progress, now: datetime) -> Moment | None:
    """A place that is done already, while another one is open, is asked about before it is begun."""
    if not progress.plan.again or "again" in progress.gates:
        return None
    return Moment(kind="question", gate="again", why=("again",), options=AGAIN_OPTIONS)


def _doubt(progress: Progress, now: datetime) -> Moment | None:
    """A value that cannot be right is asked about once a revision, before anything is pulled."""
    if not progress.plan.about or "doubt" in progress.gates:
        return None
    return Moment(kind="question", gate="doubt", why=("doubt",), options=DOUBT_OPTIONS)


def _typed_doubt(progress: Progress, now: datetime) -> Moment | None:
    """A value typed from a page that cannot be right is asked about once, before it is pulled."""
    dial = _dial_now(progress)
    return _of_value(progress, dial, "doubt", DOUBT_OPTIONS) if dial is not None and dial.doubt else None


def _beyond(progress: Progress, now: datetime) -> Moment | None:
    """A value that no wrench of the rack reaches is asked about once: with what is it pulled?"""
    dial = _dial_now(progress)
    return _of_value(progress, dial, "beyond", BEYOND_OPTIONS) if dial is not None and dial.beyond else None


def _dial_now(progress: Progress) -> Dial | None:
    """The setting of the step that comes now, or None."""
    round_, place = progress.current, progress.step
    return progress.dial(round_.steps[place]) if round_ and place >= 0 else None


def _of_value(progress: Progress, dial: Dial, why: str, options: tuple[Option, ...]) -> Moment | None:
    """A question about a printed value, once; whatever is set for it has the same one."""
    gate = f"{why}:{float(dial.target.aim):g} {dial.target.unit}"
    if gate in progress.gates:
        return None
    return Moment(kind="question", gate=gate, why=(why,), step=progress.step, options=options)


def _uses(progress: Progress, now: datetime) -> Moment | None:
    """Fasteners that may be tightened so many times: which time it is, once a walk; the record counts on."""
    uses = progress.plan.uses
    if not uses or "uses" in progress.gates:
        return None
    return Moment(kind="question", gate="uses", why=("uses",), options=use_options(uses))


def _changed(progress: Progress, now: datetime) -> Moment | None:
    """A library that was corrected since the walk began: the answer is kept, once a walk and revision."""
    gate = f"changed:{progress.changed_to}"
    if not progress.changed or gate in progress.gates:
        return None
    return Moment(kind="question", gate=gate, why=("changed",), options=CHANGED_OPTIONS)


def _calibration(progress: Progress, now: datetime) -> Moment | None:
    """A wrench past its date is asked about once for each wrench and day, before it is first used."""
    dial = _dial_now(progress)
    if dial is None or not dial.wrench:
        return None
    facts = progress.wrenches.get(dial.wrench)
    if facts is None or not facts.calibration_due or facts.calibration_due >= now.date().isoformat():
        return None
    gate = calibration_gate(dial.wrench, now)
    if gate in progress.gates:
        return None
    return Moment(
        kind="question", gate=gate, why=("calibration",), step=progress.step, options=CALIBRATION_OPTIONS
    )


def calibration_gate(wrench: str, now: datetime) -> str:
    """The name of the question about a wrench that is past its date, for one day."""
    return f"calibration:{wrench}:{now.date().isoformat()}"


# --- waits, deadlines, rounds that do not come to rest ----------------------------------------------


def _wait(progress: Progress, now: datetime) -> Moment | None:
    """A wait stays closed until it is due; then its stop is the stop of the round after it, too."""
    round_ = progress.current
    if round_ is None or round_.kind != "wait":
        return None
    gate = f"wait:{progress.round}:{progress.restarts}"
    if not progress.afterwards:
        if round_.due_minutes is None:
            return Moment(kind="wait", gate=gate, options=DISTANCE_OPTIONS)
        if not progress.due or datetime.fromisoformat(progress.due) > now:
            return Moment(kind="wait", gate=gate, options=EARLY_OPTIONS)
    following = progress.round + 1
    next_ = progress.plan.rounds[following] if following < len(progress.plan.rounds) else None
    recheck = ("recheck",) if next_ is not None and next_.recheck else ()
    return Moment(
        kind="stop", gate=gate, why=("waited", *_setting_at(progress, following if next_ else -1), *recheck)
    )


def _still(progress: Progress, now: datetime) -> Moment | None:
    """A round that goes on until nothing moves, and does not come to rest in as many trips as planned."""
    round_ = progress.current
    restless = round_ is not None and round_.until_still and progress.step < 0 and bool(progress.moved)
    if not restless or progress.trip < MOST_TRIPS:
        return None
    gate = f"still:{progress.round}:{progress.trip}:{progress.restarts}"
    return Moment(kind="question", gate=gate, why=("still",), options=STILL_OPTIONS)


def _deadline(progress: Progress, now: datetime) -> Moment | None:
    """A stage that must be finished within a time, opened or gone on with after it."""
    round_ = progress.current
    if round_ is None or round_.within is None or not progress.begun or progress.afterwards:
        return None
    gate = f"within:{progress.round}:{progress.restarts}"
    late = now - datetime.fromisoformat(progress.begun) > timedelta(minutes=float(round_.within))
    if not late or gate in progress.gates:
        return None
    return Moment(kind="question", gate=gate, why=("deadline",), options=DEADLINE_OPTIONS)


# --- coming back ------------------------------------------------------------------------------------


def _resume(progress: Progress, now: datetime) -> Moment | None:
    """Coming back after a restart or a long pause: what that asks depends on what the hand was doing."""
    round_, place = progress.current, progress.step
    if round_ is None or not progress.settled or place < 0 or progress.afterwards:
        return None
    stopped = progress.opened > progress.settled
    away = _is_long(progress, now)
    handed = ("hand-over",) if progress.handed else ()
    gate = f"resume:{max(progress.opened, progress.last)}"
    seat = seat_of(progress) if stopped or away else -1
    if seat >= 0:
        why = ("seat", *_setting_at(progress, seat), *handed)
        return Moment(kind="stop", gate=gate, why=why, back_to=seat, step=place)
    if not _is_set_up(progress):
        return None  # the stop of the new setting comes anyway, and says it all
    if round_.steps[place].kind == "angle" and (stopped or away):
        half = progress.half is not None and progress.half[0] == place
        options = HALF_OPTIONS if half else MARK_OPTIONS
        return Moment(kind="question", gate=gate, why=("mark", *handed), step=place, options=options)
    if not came_back(progress, now) and not handed:
        return None
    if not turns_in(round_) or not progress.done:
        return None
    return Moment(kind="stop", gate=gate, why=("resume", *handed), step=place)


def _handed(progress: Progress, now: datetime) -> Moment | None:
    """The next person takes notice, whatever comes next, unless the stop of a new setting says it all."""
    if not progress.handed or not _is_set_up(progress) or progress.afterwards:
        return None
    gate = f"hand-over:{progress.handed}"
    return Moment(kind="stop", gate=gate, why=("hand-over",), step=progress.step)


def came_back(progress: Progress, now: datetime) -> bool:
    """Whether the place may be lost: the program broke off, or it stood for more than a quarter of an hour.

    A walk that was put down properly and taken up again soon has not lost its place.
    """
    return _is_long(progress, now) or (progress.opened > progress.settled and not progress.put_down)


def _is_long(progress: Progress, now: datetime) -> bool:
    """More than a quarter of an hour since the last press; a clock that was set back tells nothing."""
    gone = now - datetime.fromisoformat(progress.settled_at)
    return gone > LONG_PAUSE or gone < -timedelta(minutes=1)


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


# --- stops and work ---------------------------------------------------------------------------------


def _is_set_up(progress: Progress) -> bool:
    round_, place = progress.current, progress.step
    if round_ is None or place < 0 or not turns_in(round_):
        return True
    return progress.setup == setup_of(progress, round_, round_.steps[place])


def _stop(progress: Progress, now: datetime) -> Moment | None:
    """The opening stop, and a stop at every change of setting, tool, direction or kind of pull."""
    round_, place = progress.current, progress.step
    if round_ is None:
        return None
    if all(gate.startswith(BESIDE) for gate in progress.gates):
        why = ("opening", "setting") if turns_in(round_) else ("opening",)
        return Moment(kind="stop", gate="opening", why=why, step=place)
    if place < 0 or _is_set_up(progress):
        return None
    gate = f"setting:{progress.round}:{progress.trip}:{place}:{progress.restarts}"
    resumed = progress.done and came_back(progress, now) and not progress.afterwards
    why = (
        *(("hand-over",) if progress.handed else ()),
        "setting",
        *(("resume",) if resumed else ()),
        *(("recheck",) if round_.recheck else ()),
    )
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
    plain = kinds <= {"torque", "hand", "place", "wait"} and not (round_.recheck or round_.until_still)
    untouched = not (progress.later or progress.outside)
    return plain and untouched and progress.plan.bolts <= CARD_BOLTS and len(settings) == 1


_ASKED: tuple[Callable[[Progress, datetime], Moment | None], ...] = (
    _trouble,
    _caution,
    _again,
    _uses,
    _changed,
    _doubt,
    _typed_doubt,
    _beyond,
    _calibration,
    _wait,
    _still,
    _deadline,
    _resume,
    _handed,
    _stop,
)
