"""Checks of the order that a diagram gives by its own numbers."""

from __future__ import annotations

from collections.abc import Iterator

from torqref.library.group import Group
from torqref.library.remark import Remark
from torqref.pattern.audit import audit
from torqref.pattern.order import AS_LISTED


def check_order(group: Group) -> Iterator[Remark]:
    """A diagram numbered round its circle or one side first; written orders are audited when read."""
    if group.layout.basis != "diagram" or group.order.basis != AS_LISTED:
        return
    for fault in audit(group.order, group.layout):
        yield Remark(key="diagram", message=fault.message, mend=fault.mend, severity=fault.severity)
