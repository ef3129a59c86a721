"""What a picture shows at a hole in place of its number: a length, or where its mark should point."""

from __future__ import annotations

import re
from collections.abc import Mapping

from torqref.pattern.orientation import landmark_direction, mark_arrow, mark_direction
from torqref.walk.moment import Moment
from torqref.walk.plan import Plan
from torqref.walk.progress import Progress
from torqref.walk.stop import turned_so_far
from torqref.walk.verification import MARKS, check_kind

_LENGTH = re.compile(r"\d[\d./ ]*\s*(?:mm|cm|in)\b")


def mirrored(progress: Progress) -> bool:
    """Whether this place is drawn the other way round."""
    round_ = progress.current or (progress.plan.rounds[-1] if progress.plan.rounds else None)
    return round_ is not None and bool(round_.place) and round_.place in progress.plan.mirrored


def lengths(progress: Progress) -> dict[int, str]:
    """In a hand or place round the length for each hole that has one of its own."""
    round_ = progress.current
    if round_ is None or round_.kind not in ("hand", "place"):
        return {}
    found = {step.labels: _LENGTH.search(step.length) for step in round_.steps}
    return {label: match[0] for labels, match in found.items() if match for label in labels}


def arrows(
    progress: Progress, moment: Moment, *, turn: int = 0, mirrored: bool = False, ascii_only: bool = False
) -> dict[int, str]:
    """Where every mark should point when the angle round is through, drawn beside its number."""
    if not _looks_at_marks(progress, moment):
        return {}
    start, way = mark_start(progress.plan), _way(progress.plan)
    return {
        label: f"{label}"
        + mark_arrow(float(degrees) * way, start=start, turn=turn, mirrored=mirrored, ascii_only=ascii_only)
        for label, degrees in turned_so_far(progress).items()
    }


def _looks_at_marks(progress: Progress, moment: Moment) -> bool:
    """At the end of an angle round, and at a second check by marks where one picture shows them all."""
    if moment.kind != "second-check":
        return moment.kind == "marks"
    by_marks = check_kind(progress.plan) == MARKS
    return by_marks and len({round_.place for round_ in progress.plan.rounds}) == 1


def mark_line(progress: Progress, moment: Moment, *, turn: int = 0, mirrored: bool = False) -> str:
    """Where the mark of the bolt in an angle round must end, in words; empty elsewhere."""
    round_ = progress.current
    if round_ is None or moment.kind != "bolt" or round_.steps[moment.step].kind != "angle":
        return ""
    label = round_.steps[moment.step].labels[0]
    degrees = turned_so_far(progress).get(label)
    if degrees is None:
        return ""
    start = mark_start(progress.plan)
    pointing = mark_direction(float(degrees) * _way(progress.plan), start=start, turn=turn, mirrored=mirrored)
    return f"its mark must end pointing {pointing} in the picture{_painted(progress.plan)}"


def mark_start(plan: Plan) -> float:
    """Where the marks were painted to point, in degrees clockwise from up in the picture as printed."""
    marks = plan.layout.landmarks
    return (landmark_direction(plan.layout, marks[0].text) or 0.0) if marks else 0.0


def _painted(plan: Plan) -> str:
    marks = plan.layout.landmarks
    return f" (painted towards {marks[0].text})" if marks else " (painted up)"


def _way(plan: Plan) -> int:
    return 1 if plan.direction == "clockwise" else -1


def texts(
    progress: Progress, moment: Moment, *, turn: int = 0, mirrored: bool = False, ascii_only: bool = False
) -> Mapping[int, str]:
    """What stands at each hole in place of its number, for the moment."""
    if moment.kind == "whole":
        return lengths(progress)
    return arrows(progress, moment, turn=turn, mirrored=mirrored, ascii_only=ascii_only)
