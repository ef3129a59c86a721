"""What each kind of event changes: one pure function a kind, from the state before to the state after."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from torqref.walk.event import Event
from torqref.walk.state import (
    MOST_TRIPS,
    WHOLE,
    Progress,
    corrected,
    needs_marks,
    setup_of,
    step_at,
    together,
    turns_in,
)

# Stops that settle where the hand is; other gates only answer a question beside the work.
SETTLING = ("opening", "setting", "resume", "trouble", "wait", "hand-over")
GO_ON = 2


def change_by(kind: str) -> Callable[[Progress, Event], Progress] | None:
    """What an event of this kind changes, None where it changes nothing but the record."""
    return _CHANGES.get(kind)


def settled(progress: Progress, event: Event) -> Progress:
    """After this press it is known where the hand is."""
    return replace(progress, **_settling(event))


def _settling(event: Event) -> dict[str, Any]:
    """What a press settles; a tick changes more in the same breath, as a walk has thousands of them."""
    return {"settled": event.number, "settled_at": event.time, "handed": 0}


# --- opening and closing ----------------------------------------------------------------------------


def _opened(progress: Progress, event: Event) -> Progress:
    """Opened again: wrenches may have been used elsewhere, and then have to be set anew."""
    stood = {**dict(progress.stood), **{wrench: setting for wrench, setting, _ in event.stood}}
    set_at = {**dict(progress.set_at), **{wrench: time for wrench, _, time in event.stood}}
    round_, place = progress.current, progress.step
    dial = progress.dial(round_.steps[place]) if round_ and place >= 0 else None
    elsewhere = dial is not None and stood.get(dial.wrench) != dict(progress.stood).get(dial.wrench)
    return replace(
        progress,
        opened=event.number,
        opened_by=event.by,
        started=progress.started or event.time,
        put_down=progress.paused,
        paused=False,
        afterwards=False,
        stood=tuple(stood.items()),
        set_at=tuple(set_at.items()),
        setup="" if elsewhere else progress.setup,
        changed=event.text if event.gate == "changed" else "",
        changed_to=event.value if event.gate == "changed" else "",
    )


def _hand_over(progress: Progress, event: Event) -> Progress:
    return replace(progress, handed=event.number, opened_by=event.by)


def _pause(progress: Progress, event: Event) -> Progress:
    return replace(progress, paused=True)


def _finished(progress: Progress, event: Event) -> Progress:
    return replace(progress, finished=True)


def _abandoned(progress: Progress, event: Event) -> Progress:
    return replace(progress, abandoned=True)


# --- stops and questions ----------------------------------------------------------------------------


def _gate(progress: Progress, event: Event) -> Progress:
    name = event.gate.partition(":")[0]
    opened = replace(progress, gates=progress.gates | {event.gate})
    if name in SETTLING:
        opened = settled(opened, event)
    if name == "trouble":
        opened = replace(_reopened(opened), trouble=None, outside=None)
    if name == "wait":
        opened = advance(opened)
    if name == "still":
        return advance(opened) if event.reason == GO_ON else _next_trip(opened)
    if event.back_to >= 0:
        opened = go_back(opened, event.back_to, event)
    if name == "wait" and event.reason and not _stands(opened):
        return replace(opened, setup="")  # the digit told of no setting: its stop is still to come
    return set_up(opened) if name in SETTLING else opened


def _reopened(progress: Progress) -> Progress:
    """A bolt that was ticked and then gave trouble is pulled again; the others stay as they are."""
    plan, round_, trouble = progress.plan, progress.current, progress.trouble
    if round_ is None or trouble is None or plan.action != "tighten" or plan.after_trouble != "this place":
        return progress
    open_ = (place for place in progress.done if not set(round_.steps[place].labels) & set(trouble.bolts))
    return replace(progress, done=frozenset(open_))


def _stands(progress: Progress) -> bool:
    """Whether the wrench of the step that comes now was left at its setting."""
    round_, place = progress.current, progress.step
    dial = progress.dial(round_.steps[place]) if round_ is not None and place >= 0 else None
    return dial is None or dict(progress.stood).get(dial.wrench) == f"{dial.shown} {dial.unit}"


def set_up(progress: Progress) -> Progress:
    """An opened stop means that the hand is now set up for the next step that turns a bolt."""
    round_ = progress.current
    if round_ is None or progress.step < 0 or not turns_in(round_):
        return progress
    step = round_.steps[progress.step]
    dial = progress.dial(step)
    stood, set_at = dict(progress.stood), dict(progress.set_at)
    if dial is not None:
        stood[dial.wrench], set_at[dial.wrench] = f"{dial.shown} {dial.unit}", progress.settled_at
    return replace(
        progress,
        setup=setup_of(progress, round_, step),
        stood=tuple(stood.items()),
        set_at=tuple(set_at.items()),
    )


def go_back(progress: Progress, index: int, event: Event) -> Progress:
    """Back to an earlier round: its ticks and those after it no longer count, the record keeps them.

    Only the rounds of that place are walked again; those of other places that lie between stay done.
    """
    rounds = progress.plan.rounds
    place, until = rounds[index].place, max(progress.round, progress.redo[1] if progress.redo else 0)
    between = any(round_.place not in (place, "") for round_ in rounds[index:until])
    first = next(at for at, round_ in enumerate(rounds) if round_.place == place)
    begun = {**dict(progress.begun_at), **({place: event.time} if index == first else {})}
    return replace(
        progress,
        round=index,
        trip=1,
        redo=(place, until) if between else None,
        done=frozenset(),
        later=(),
        moved=(),
        half=None,
        outside=None,
        skipped=tuple(pair for pair in progress.skipped if not _redone(progress, pair[0], index, place)),
        setup="",
        marks_seen=min(progress.marks_seen, index - 1),
        restarts=progress.restarts + 1,
        waiting=False,
        due="",
        begun_at=tuple(begun.items()),
        verified=False,
    )


def _redone(progress: Progress, round_: int, index: int, place: str) -> bool:
    return round_ >= index and progress.plan.rounds[round_].place == place


def advance(progress: Progress) -> Progress:
    """On to the next round; after going back at one place, on to the next round of that place."""
    following, redo = progress.round + 1, progress.redo
    if redo is not None:
        place, until = redo
        rounds = progress.plan.rounds
        while following < until and rounds[following].place not in (place, ""):
            following += 1
        redo = redo if following < until else None
    return replace(
        progress,
        round=following,
        trip=1,
        redo=redo,
        done=frozenset(),
        later=(),
        moved=(),
        half=None,
        outside=None,
        waiting=False,
        due="",
    )


def _next_trip(progress: Progress) -> Progress:
    return replace(progress, trip=progress.trip + 1, done=frozenset(), later=(), moved=())


# --- pulls ------------------------------------------------------------------------------------------


def _check_off(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    if place < 0:
        return progress
    ticked = replace(
        progress,
        **_settling(event),
        done=progress.done | {place},
        later=tuple(other for other in progress.later if other != place),
        half=None if progress.half and progress.half[0] == place else progress.half,
        outside=None,
        pulled=(*progress.pulled[-1:], event.bolts),
        pulled_at=event.number,
        pulled_by=event.by,
    )
    return close_round(set_up(ticked) if ticked.current and ticked.current.each_bolt else ticked)


def close_round(progress: Progress) -> Progress:
    """Go on to the next round when nothing of this one is open; angle rounds close by their marks."""
    round_ = progress.current
    if round_ is None or not round_.steps or progress.is_round_open:
        return progress
    if needs_marks(round_) and progress.marks_seen < progress.round:
        return progress
    if round_.until_still and progress.moved:
        # After the last trip that was planned a question is asked; nothing goes on by itself.
        return progress if progress.trip >= MOST_TRIPS else _next_trip(progress)
    return advance(progress)


def _round(progress: Progress, event: Event) -> Progress:
    """A hand round is done by one press; other rounds ticked as a whole have a check-off for each bolt."""
    round_ = progress.current
    if round_ is None or round_.kind not in WHOLE:
        return settled(progress, event)
    done = replace(settled(progress, event), pulled_at=event.number, pulled_by=event.by)
    return advance(done)


def _moved(progress: Progress, event: Event) -> Progress:
    return replace(progress, moved=progress.moved + event.bolts)


def _later(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    if place < 0:
        return progress
    new = tuple(other for other in together(progress, place) if other not in progress.later)
    return replace(progress, later=(*progress.later, *new))


def _skip(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    if place < 0:
        return progress
    left_out = tuple((progress.round, other) for other in together(progress, place))
    return close_round(replace(settled(progress, event), skipped=(*progress.skipped, *left_out)))


def _verify(progress: Progress, event: Event) -> Progress:
    if event.gate.startswith("marks"):
        return close_round(replace(settled(progress, event), marks_seen=progress.round))
    return replace(progress, verified=True)


# --- readings and words -----------------------------------------------------------------------------


def _trouble(progress: Progress, event: Event) -> Progress:
    return replace(progress, trouble=event)


def _actual(progress: Progress, event: Event) -> Progress:
    place = step_at(progress, event.bolts)
    if place < 0:
        return progress
    half = (place, event.degrees) if event.degrees else progress.half
    return replace(progress, half=half, outside=event if event.text else None)


def _dials(progress: Progress, event: Event) -> Progress:
    return replace(
        progress,
        dials=event.dials or progress.dials,
        drag=event.drag or progress.drag,
        taken=(*progress.taken, *event.wrenches),
    )


def _page(progress: Progress, event: Event) -> Progress:
    plan = corrected(progress, event) if event.degrees else progress.plan
    told = replace(_dials(progress, event), plan=plan)
    return replace(told, corrections=(*progress.corrections, event.value))


def _measure(progress: Progress, event: Event) -> Progress:
    """A measured drag changes the settings; any other reading belongs to its stage."""
    if event.drag is not None:
        return _dials(progress, event)
    place = step_at(progress, event.bolts)
    measured = settled(progress, event)
    if event.back_to >= 0:
        return go_back(measured, event.back_to, event)
    if place < 0 or event.text:
        return measured
    return close_round(replace(measured, done=progress.done | {place}))


def _note(progress: Progress, event: Event) -> Progress:
    """Entering from paper is switched by a note; a name at the end is one too."""
    if event.gate in ("afterwards", "at the vehicle"):
        return replace(progress, afterwards=event.gate == "afterwards")
    return progress if event.gate else replace(progress, noted=(*progress.noted, event))


def _due(progress: Progress, event: Event) -> Progress:
    return replace(progress, waiting=True, waiting_since=event.time, due=event.due)


# Kinds that are not here change nothing but the record: found and undo.
_CHANGES: MappingProxyType[str, Callable[[Progress, Event], Progress]] = MappingProxyType(
    {
        "opened": _opened,
        "hand-over": _hand_over,
        "gate": _gate,
        "check-off": _check_off,
        "round": _round,
        "moved": _moved,
        "verify": _verify,
        "later": _later,
        "skip": _skip,
        "trouble": _trouble,
        "actual": _actual,
        "page": _page,
        "wrench": _dials,
        "measure": _measure,
        "note": _note,
        "due": _due,
        "pause": _pause,
        "finished": _finished,
        "abandoned": _abandoned,
    }
)
