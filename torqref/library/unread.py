"""Which parts of a group could not be read: what rests on them is not judged, all the rest is."""

from __future__ import annotations

import re
from collections.abc import Iterable

from torqref.document.nearest import nearest
from torqref.document.problem import Problem
from torqref.library.stage import KINDS, MODIFIERS

_STAGE = re.compile(r"stage\[\d+\](?:\.(\w+))?")
_PARTS = (
    "source", "thread", "class", "fastener", "purpose", "value_is", "condition", "one_time", "parts",
    "parent", "passes", "diagram", "layout", "count", "order",
)  # fmt: skip


def unread_parts(key: str, problems: Iterable[Problem]) -> frozenset[str]:
    """The parts of a group that have an error, such as `thread`, `stage` or `stage.window`.

    Args:
        key: where the group stands in its file, such as `group[2]`.
        problems: those of its file; what is wrong with the source of the file is wrong for each group.

    >>> fault = Problem(key="group[2].stage[1].within", message="no unit", mend="")
    >>> sorted(unread_parts("group[2]", [fault])), sorted(unread_parts("group[1]", [fault]))
    (['stage.within'], [])
    """
    errors = [problem.key for problem in problems if problem.severity == "error"]
    own = [error.removeprefix(f"{key}.") for error in errors if error.startswith(f"{key}.")]
    shared = [error for error in errors if error.partition(".")[0] == "source"]
    return frozenset(_part(error) for error in (*own, *shared))


def _part(key: str) -> str:
    """The part that a key belongs to; a key that nobody knows, to the part it is a slip of."""
    stage = _STAGE.match(key)
    if stage is None:
        name = re.split(r"[.\[]", key)[0]
        return name if name in _PARTS else nearest(name, _PARTS) or name
    name = stage[1] or ""
    if not name or name in KINDS:
        return "stage"
    known = name if name in MODIFIERS else nearest(name, (*MODIFIERS, *KINDS)) or name
    return "stage" if known in KINDS else f"stage.{known}"
