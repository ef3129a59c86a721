"""Plans that were read before: the walks of a folder repeat a few, and differ in what the day brought."""

from __future__ import annotations

import marshal
from dataclasses import replace
from functools import lru_cache
from typing import Any

from torqref.walk.codec import from_plain, parts_from_plain
from torqref.walk.plan import Plan
from torqref.walk.soundness import check_day, check_plan

# What a plan holds of its day: where wrenches stood, what was answered, what was noted before.
_OF_THE_DAY = frozenset(("stood", "answered", "again", "remarks"))
# Plans kept at a time, as many as a workshop has groups, and the longest of them in bytes: a few megabytes.
_KEPT, _LONGEST = 256, 1 << 14


def read_plan(data: Any) -> Plan:
    """A plan from a plain table, checked: faster where most of it was read before.

    Raises:
        ValueError, TypeError, KeyError: the table is no plan, or none that can be walked.
    """
    if not isinstance(data, dict):
        raise TypeError(f"found {type(data).__name__}, expected a table")
    lasting = _bytes_of({name: value for name, value in data.items() if name not in _OF_THE_DAY})
    if len(lasting) > _LONGEST:
        return _checked(data)
    plan = _lasting(lasting)
    day = {name: value for name, value in data.items() if name in _OF_THE_DAY}
    if not day:
        return plan
    plan = replace(plan, **parts_from_plain(Plan, day))
    check_day(plan)
    return plan


def _bytes_of(table: dict[str, Any]) -> bytes:
    """A table as bytes: as values 1, 1.0 and true are equal, and only one of them is sound."""
    return marshal.dumps(table, 2)  # later versions mark what is referred to twice, and so vary


@lru_cache(maxsize=_KEPT)
def _lasting(key: bytes) -> Plan:
    return _checked(marshal.loads(key))


def _checked(data: Any) -> Plan:
    plan = from_plain(Plan, data)
    check_plan(plan)
    return plan
