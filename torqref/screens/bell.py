"""The bell: one = ticked, two = stop and look, three = refused; it can be switched off."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from torqref.walk.moment import Moment

if TYPE_CHECKING:
    from torqref.screens.painted import PaintedScreen

# Strokes closer together than this run into one on most terminals.
_APART = 0.18
_LOOK = ("stop", "question", "caution", "marks", "wait", "second-check", "finished")


def strokes(after: Moment | None, before: Moment, kinds: Collection[str] = ()) -> int:
    """How often the bell rings.

    Args:
        after: what is asked for now, or None where the key was refused.
        before: what was asked for before the key.
        kinds: the kinds of event that the key made.
    """
    if after is None:
        return 3
    if (after != before and after.kind in _LOOK) or ("actual" in kinds and "check-off" not in kinds):
        return 2
    return 1 if "check-off" in kinds or "round" in kinds else 0


def ring(screen: PaintedScreen, after: Moment | None, before: Moment, kinds: Collection[str] = ()) -> None:
    """Ring as often as it takes, if the bell is on."""
    sound(screen, strokes(after, before, kinds))


def sound(screen: PaintedScreen, count: int) -> None:
    """So many strokes, if the bell is on."""
    for stroke in range(count if screen.look.bell else 0):
        if stroke:
            screen.set_timer(stroke * _APART, screen.app.bell)
        else:
            screen.app.bell()
