"""Drag of a self-locking nut: measured on the way down and added in full to the printed torque."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from torqref.quantity.term import Torque


def with_drag(torque: Torque, drag: Fraction) -> Torque:
    """The torque to pull when a locking nut drags: every limit plus the measured drag.

    Args:
        torque: the torque as printed.
        drag: measured run-down torque in the same unit, not scaled by anything.

    Returns:
        The torque with low, target and high raised by the drag.

    Source: FAA AC 43.13-1B, para. 7-40 c and d; definition of final torque in TM 55-1560-307.

    >>> printed = Torque(low=Fraction(50), target=Fraction(60), high=Fraction(70), unit="in-lb",
    ...                  decimals=0, text="50–70 in-lb")
    >>> pulled = with_drag(printed, Fraction(7))
    >>> (int(pulled.low), int(pulled.high))
    (57, 77)
    """
    low, target, high = (
        None if value is None else value + drag for value in (torque.low, torque.target, torque.high)
    )
    return replace(torque, low=low, target=target, high=high)
