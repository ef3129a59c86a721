"""Pictures of a group or a walk as SVG: what the pattern room draws, with the marks that the sheet wants."""

from __future__ import annotations

from torqref.document.escape import escape
from torqref.library.group import Group
from torqref.pattern.layout import Landmark, Layout
from torqref.pattern.picture import svg
from torqref.sheets.tally import bolt_states, marks
from torqref.walk.archive import Record
from torqref.walk.plan import Plan

LEGEND = {
    "trouble": "! trouble told",
    "skipped": "- left out",
    "later": "~ put off",
    "open": ". open",
    "moved": "m moved in a recheck",
    "done": "number alone: done",
}


def group_picture(group: Group, *, title: str = "") -> str:
    """The pattern of a group with its order."""
    return svg(clean(group.layout), order=group.order, title=escape(title))


def walk_pictures(record: Record) -> tuple[tuple[str, str], ...]:
    """For each place of a walk its picture with what every bolt has come to, and the words under it."""
    return tuple(_walk_picture(record, place) for place in places(record.header.plan))


def _walk_picture(record: Record, place: str) -> tuple[str, str]:
    plan, states = record.header.plan, bolt_states(record, place)
    picture = svg(clean(plan.layout), marks=marks(states), mirrored=place in plan.mirrored)
    legend = ", ".join(text for state, text in LEGEND.items() if state in states.values())
    return picture, "; ".join(part for part in (place, _seen(plan), legend) if part)


def _seen(plan: Plan) -> str:
    return f"seen from {plan.seen_from}" if plan.seen_from else ""


def places(plan: Plan) -> tuple[str, ...]:
    """The places of a walk, each once; one without a name where the group has one only."""
    return tuple(dict.fromkeys(round_.place for round_ in plan.rounds)) or ("",)


def clean(layout: Layout) -> Layout:
    """The layout with hidden characters of its landmarks shown."""
    landmarks = tuple(Landmark(text=escape(mark.text), x=mark.x, y=mark.y) for mark in layout.landmarks)
    return Layout(positions=layout.positions, landmarks=landmarks, basis=layout.basis)
