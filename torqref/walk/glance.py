"""A look at a journal that has ended: who, what and when, without reading every event.

The seals of all lines are checked, so that damage is never overlooked; only what the lines of a list show is
taken out of them. Anything out of the ordinary is left to `torqref.walk.archive.read_record`.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path

from torqref.walk.journal import FORMAT
from torqref.walk.seal import sealed_lines

# Each event begins with its kind; inside a text every quote has a backslash before it.
_ENDS = {b'{"kind":"finished"': "finished", b'{"kind":"abandoned"': "abandoned"}
_UNDO = b'{"kind":"undo"'
_BY = re.compile(rb',"by":("(?:[^"\\]|\\.)*")')
_TIME = re.compile(rb',"time":"([^"\\]*)"')


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """What a list shows of a walk that has ended.

    Args:
        id, bay, work_order, started: as the header has them.
        group, name, place, action, assembly, fingerprint: of the plan.
        invented: whether its values are practice values.
        typed: whether it was a quick walk, with no library group behind it.
        people: everybody whose name it has.
        state: `finished` or `abandoned`.
        ended: when.
    """

    id: str
    group: str
    name: str
    place: str
    action: str
    assembly: str
    fingerprint: str
    invented: bool
    typed: bool
    bay: str
    work_order: str
    started: str
    people: tuple[str, ...]
    state: str
    ended: str


def glance(path: Path) -> Glance | None:
    """What a whole and ended journal of a walk shows; None where it must be read in full."""
    try:
        lines = sealed_lines(path.read_bytes())
    except OSError:
        return None
    if lines is None:
        return None
    end = _end(lines)
    header = json.loads(lines[0])
    if end is None or header.get("format") != FORMAT or "plan" not in header or header.get("job"):
        return None
    try:
        return _told(header, lines, *end)
    except (TypeError, AttributeError, KeyError, ValueError):
        return None


def _end(lines: list[bytes]) -> tuple[str, str] | None:
    """State and time of the last end, if nothing was taken back at or after it."""
    found = None
    for line in lines[1:]:
        if line.startswith(_UNDO) and found is not None:
            return None
        state = next((state for begin, state in _ENDS.items() if line.startswith(begin)), None)
        if state is not None:
            time = _TIME.search(line)
            found = (state if found is None else max(found[0], state, key=_weight), _text(time))
    return found


def _weight(state: str) -> bool:
    """Abandoned outweighs finished, as in the fold."""
    return state == "abandoned"


def _text(match: re.Match[bytes] | None) -> str:
    return match.group(1).decode() if match else ""


def _told(header: dict[str, object], lines: list[bytes], state: str, ended: str) -> Glance:
    plan = header["plan"]
    if not isinstance(plan, dict):
        raise TypeError("a plan is a table")
    names = [_str(header, "by")]
    for line in lines[1:]:
        by = _BY.search(line)
        names.extend((json.loads(by.group(1)),) if by else ())
    return Glance(
        id=_str(header, "id"),
        group=_str(plan, "group"),
        name=_str(plan, "name"),
        place=_str(plan, "place"),
        action=_str(plan, "action") or "tighten",
        assembly=_str(plan, "assembly"),
        fingerprint=_str(plan, "fingerprint"),
        invented=plan.get("invented") is True,
        typed=bool(_str(plan, "typed")),
        bay=_str(header, "bay"),
        work_order=_str(header, "work_order"),
        started=_str(header, "started"),
        people=tuple(dict.fromkeys(name for name in names if name)),
        state=state,
        ended=ended,
    )


def _str(told: dict[str, object], name: str) -> str:
    value = told.get(name, "")
    if not isinstance(value, str):
        raise TypeError(f"{name} is a text")
    return value
