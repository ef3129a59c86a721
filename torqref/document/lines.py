"""On which line a key stands: tomli gives no lines after parsing, so a scan of the text finds them."""

from __future__ import annotations

import re
from collections.abc import Mapping

# Of a stripped line; no part of it can match in two ways, or a long line of blanks would take for ever.
_HEADER = re.compile(r"(\[\[?)([^\[\]]+)\]\]?\s*(?:#.*)?")
_NAME = r"""(?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*')"""
_KEY = re.compile(rf"^\s*({_NAME}(?:\s*\.\s*{_NAME})*)\s*=")
_FENCES = ('"""', "'''")


def key_lines(text: str) -> Mapping[str, int]:
    r"""Line of every table header and key, by key path; tables of an array are counted from 1.

    Good enough for messages: keys inside inline tables are found at the line of the table they stand in,
    and the lines of a text of several lines are counted from 1, such as `rows[3]`.

    >>> key_lines('[[group]]\nid = "a"\n')["group[1].id"]
    2
    """
    lines: dict[str, int] = {}
    counts: dict[str, int] = {}
    prefix, fence, opened = "", "", ""
    for number, line in enumerate(text.split("\n"), start=1):
        if fence:
            lines[f"{opened}[{number - lines.get(opened, number)}]"] = number
            fence = "" if fence in line else fence
            continue
        if header := _HEADER.fullmatch(line.strip()):
            prefix = _open_table(header[2], header[1] == "[[", counts)
            lines.setdefault(prefix, number)
        elif key := _KEY.match(line):
            opened = _join(prefix, _plain(key[1]))
            lines.setdefault(opened, number)
        fence = _left_open(line)
    return lines


def line_at(lines: Mapping[str, int], key: str) -> int | None:
    """The line of a key path, or of the nearest table around it; None where there is none.

    >>> line_at({"group[1]": 3}, "group[1].order[2]")
    3
    """
    while key:
        if key in lines:
            return lines[key]
        # `group[2].order[3]` falls back to `group[2].order`, then to `group[2]`
        key = key.rpartition("[")[0] if key.endswith("]") else key.rpartition(".")[0]
    return None


def _open_table(name: str, is_array: bool, counts: dict[str, int]) -> str:
    """The key path of a header, each array of tables on the way with its running number."""
    path = ""
    parts = _plain(name).split(".")
    for position, part in enumerate(parts):
        path = _join(path, part)
        if is_array and position == len(parts) - 1:
            counts[path] = counts.get(path, 0) + 1
        if path in counts:
            path = f"{path}[{counts[path]}]"
    return path


def _left_open(line: str) -> str:
    """The fence of a multi-line string that begins on this line and does not end on it."""
    for fence in _FENCES:
        if line.count(fence) % 2:
            return fence
    return ""


def _plain(name: str) -> str:
    return ".".join(part.strip().strip("\"'") for part in name.split("."))


def _join(prefix: str, name: str) -> str:
    return f"{prefix}.{name}" if prefix else name
