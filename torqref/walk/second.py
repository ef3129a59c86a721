"""The value in the other unit of the trade, small beside the printed one so that a slip shows."""

from __future__ import annotations

from torqref.walk.progress import Progress
from torqref.walk.view import View


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
    target = dial.target
    other = second_unit(target.unit, target.aim)
    return show_torque(target, dial.unit if target.unit != dial.unit else other)
