"""The few words that stand largest: title, round, what to do, the number to set and which way it goes."""

from __future__ import annotations

from fractions import Fraction

from torqref.pattern.layout import labels_text
from torqref.walk.attempt import show_degrees
from torqref.walk.moment import Moment
from torqref.walk.plan import Dial, Plan, Round, Step
from torqref.walk.state import MOST_TRIPS, Progress

SET, TURN, BACK, MOST_BACK, UP_TO = "SET", "TURN", "TURN BACK", "TURN BACK AT MOST", "UP TO"


def title_of(plan: Plan, round_: Round | None) -> str:
    """The group, and the place where it has several."""
    place = round_.place if round_ else plan.place
    verb = "LOOSEN: " if plan.action == "loosen" else ""
    return f"{verb}{plan.name}" + (f", {place}" if place else "")


def round_text(progress: Progress) -> str:
    """Which stage of how many, and which time round."""
    round_ = progress.current
    if round_ is None:
        return "all stages done"
    stages = len({other.stage for other in progress.plan.rounds})
    text = f"stage {round_.stage} of {stages}: {round_.text}"
    if round_.recheck:
        text += ", RECHECK: never loosen first"
    if progress.trip > 1:
        text += f"; round {progress.trip} of at most {MOST_TRIPS}"
    return text


_HEADLINES = {
    "caution": "CAUTION",
    "stop": "STOP",
    "question": "QUESTION",
    "marks": "MARKS: look where every mark points",
    "wait": "WAIT",
    "second-check": "SECOND CHECK: another person looks at the page",
    "finished": "FINISHED",
}


def headline(progress: Progress, moment: Moment, step: Step | None) -> str:
    """What to do now, in a few words."""
    round_ = progress.current
    if round_ is None or moment.kind in _HEADLINES:
        return "ABANDONED" if progress.abandoned else _HEADLINES.get(moment.kind, "")
    if moment.kind == "bolt" and step:
        return _bolt_headline(progress, round_, step)
    if moment.kind == "whole":
        return f"{'PLACE' if round_.kind == 'place' else 'HAND'}: {round_.text}"
    if moment.kind == "measure":
        bolt = f", bolt {labels_text(step.labels)}" if step and step.labels else ""
        return f"MEASURE: {round_.text}{bolt}" + (f", wanted {round_.band.text}" if round_.band else "")
    bolts = [labels_text(round_.steps[place].labels) for place in progress.open_steps]
    return f"CARD: bolt{'s' if len(bolts) > 1 else ''} {', '.join(bolts)}"


def _bolt_headline(progress: Progress, round_: Round, step: Step) -> str:
    bolt = f"bolt {labels_text(step.labels)}{_part(round_, step)}"
    if (left := left_of(progress, step)) is not None and progress.half:
        return f"{bolt}: {progress.half[1]}° reached, {show_degrees(left)}° LEFT"
    words = {
        "align": f": align, {round_.text}",
        "back_off": ": back off",
        "loosen": f": loosen, {round_.text}",
        "look": ": look at its mark, still or moved?",
    }.get(step.kind, "")
    if not words and round_.recheck:
        words = ": click it again, still or moved?"
    if not words and round_.until_still:
        words = ": still or moved?"
    return f"{bolt}{words}"


def _part(round_: Round, step: Step) -> str:
    """Which of its pulls comes now, where one bolt goes through all of them: two turns of 90° look alike."""
    if not round_.each_bolt:
        return ""
    pulls = [other for other in round_.steps if other.labels == step.labels]
    place = next(place for place, other in enumerate(pulls, start=1) if other is step)
    return f", {place} of {len(pulls)}"


def verb_of(step: Step | None) -> str:
    """What is done with the number: set on a wrench, turned, turned back."""
    if step is None or (step.degrees is None and step.kind != "align"):
        return SET
    if step.kind == "align":
        return UP_TO if step.degrees is None else MOST_BACK
    return BACK if step.degrees is not None and step.degrees < 0 else TURN


def left_of(progress: Progress, step: Step | None) -> Fraction | None:
    """The degrees that are left of an angle that was begun; None where none was."""
    round_ = progress.current
    if progress.half is None or round_ is None or step is None or step.degrees is None:
        return None
    begun = round_.steps[progress.half[0]]
    return step.degrees - Fraction(progress.half[1]) if step is begun else None


def number_of(
    dial: Dial | None, step: Step | None, moment: Moment, left: Fraction | None = None
) -> tuple[str, str]:
    """The one number and its unit; both empty where nothing is set or turned.

    Args:
        dial: what is set, None for nothing.
        step: what is turned.
        moment: what is asked for.
        left: what is left of a turn that was begun; None where none was.
    """
    if dial is not None:
        return dial.shown, dial.unit
    asked = moment.kind in ("bolt", "stop", "question") and step is not None and step.kind != "loosen"
    if not asked or step is None or step.degrees is None:
        return "", ""
    return show_degrees(abs(step.degrees if left is None else left)), "°"


def direction_of(plan: Plan, step: Step | None) -> str:
    """Which way to turn at a step; empty where nothing turns."""
    if step is None or step.kind in ("place", "measure", "hand", "look"):
        return ""
    back = step.kind == "back_off" or (step.kind == "align" and step.degrees is not None)
    other = "clockwise" if plan.direction == "anticlockwise" else "anticlockwise"
    return other if back else plan.direction


def parts_of_a_turn(degrees: Fraction) -> str:
    """An angle as a part of a turn, flats of a hexagon and points of a twelve-point.

    >>> parts_of_a_turn(Fraction(90))
    '1/4 turn, 1 1/2 flats of a hex, 3 points of a 12-point'
    """
    size = abs(degrees)
    parts = [
        f"{_mixed(size / per)} {many if size > per else one}"
        for per, one, many, finest in (
            (360, "turn", "turns", 16),
            (60, "flat of a hex", "flats of a hex", 8),
            (30, "point of a 12-point", "points of a 12-point", 8),
        )
        if (size / per).denominator <= finest
    ]
    return ", ".join(parts)


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
