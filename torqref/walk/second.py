"""The value in the other unit of the trade, small beside the printed one so that a slip shows."""

from __future__ import annotations

from dataclasses import replace

from torqref.quantity.term import Torque
from torqref.walk.state import Progress
from torqref.walk.view import View


def with_drag(target: Torque, drag: Torque | None) -> Torque:
    """A printed value with the measured drag of a locking nut added to all its numbers."""
    if drag is None:
        return target
    from torqref.quantity.conversion import convert

    more = convert(drag.aim, drag.unit, target.unit)
    low, aim, high = (
        None if value is None else value + more for value in (target.low, target.target, target.high)
    )
    return replace(target, low=low, target=aim, high=high, decimals=max(target.decimals, drag.decimals))


def second_unit_text(progress: Progress, shown: View) -> str:
    """The printed value in a second unit, empty where nothing is set.

    Kept out of the view: it needs an exact conversion, which a first paint does not wait for.
    """
    from torqref.quantity.showing import second_unit, show_torque

    dial = next(
        (dial for dial in progress.dials if (dial.shown, dial.unit) == (shown.number, shown.unit)), None
    )
    if dial is None:
        return ""
    target = with_drag(dial.target, progress.drag)
    if target.unit != dial.unit:
        return show_torque(target, dial.unit)
    other = second_unit(target.unit, target.aim)
    # Where the page prints that unit itself, its number stands there already and is the one that counts.
    return "" if other in shown.spec else show_torque(target, other)
