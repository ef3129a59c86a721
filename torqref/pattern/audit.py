"""Audit of an order against its layout."""

from __future__ import annotations

from torqref.pattern.fault import Faults
from torqref.pattern.layout import Layout, Order


def audit(order: Order, layout: Layout) -> Faults:
    """Everything that is wrong with an order."""
    return ()
