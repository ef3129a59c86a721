"""Plans that were read before: the walks of a folder repeat a few, and differ in what the day brought."""

from __future__ import annotations

import marshal
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from torqref.walk.codec import from_plain, parts_from_plain
from torqref.walk.plan import Plan

# What a plan holds of its day: where wrenches stood, what was answered, what was noted before.
_OF_THE_DAY = frozenset(("stood", "answered", "again", "remarks"))
# Plans kept at a time, and the longest of them in bytes: a few megabytes.
_KEPT, _LONGEST = 32, 1 << 16


def read_plan(data: Any) -> Plan:
    """A plan from a plain table: `from_plain(Plan, data)`, faster where most of it was read before.

    Raises:
        ValueError, TypeError, KeyError: the table is no plan.
    """
    if not isinstance(data, Mapping):
        return from_plain(Plan, data)
    lasting = {name: value for name, value in data.items() if name not in _OF_THE_DAY}
    try:
        # As bytes, since 1, 1.0 and true are equal and not the same; version 2 has no reference counts.
        key = marshal.dumps(lasting, 2)
    except ValueError:
        return from_plain(Plan, data)
    if len(key) > _LONGEST:
        return from_plain(Plan, data)
    plan = _lasting(key)
    if len(lasting) == len(data):
        return plan
    day = {name: value for name, value in data.items() if name in _OF_THE_DAY}
    return replace(plan, **parts_from_plain(Plan, day))


@lru_cache(maxsize=_KEPT)
def _lasting(key: bytes) -> Plan:
    return from_plain(Plan, marshal.loads(key))
