"""Changes single keys in a TOML file that a person wrote, and leaves every other letter of it alone."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.lines import key_lines
from torqref.document.problem import Problem
from torqref.document.toml import read_file

# A value on one line: a string, or a word, number or date without quotes.
_VALUE = r'"(?:[^"\\]|\\.)*"|\'[^\']*\'|[^\s,#}\]\["\']+'
_MARK = b"\xef\xbb\xbf"
_INLINE = re.compile(r"^\s*[\w.-]+\s*=\s*\{(.*)\}\s*(?:#.*)?$")


def with_keys(text: str, table: str, values: Mapping[str, str]) -> str | None:
    r"""A text with some keys of one table set, or None where that table is not written in a way known here.

    Args:
        text: the whole file.
        table: key path of the table, such as `group[2].source`; the table around it must have a header.
        values: each key with its new value, written as TOML.

    >>> with_keys('[[group]]\nid = "a"\n', "group[1].source", {"verified_by": '"B"'})
    '[[group]]\nsource = { verified_by = "B" }\nid = "a"\n'
    """
    for name, value in values.items():
        changed = _with_key(text.split("\n"), key_lines(text), table, name, value)
        if changed is None:
            return None
        text = "\n".join(changed)
    return text


def _with_key(
    rows: list[str], lines: Mapping[str, int], table: str, name: str, value: str
) -> list[str] | None:
    if f"{table}.{name}" in lines:
        return _replaced(rows, lines[f"{table}.{name}"], name, value)
    if table in lines:
        row = rows[lines[table] - 1]
        if row.lstrip().startswith("["):
            return _inserted(rows, lines[table], f"{name} = {value}")
        return _in_braces(rows, lines[table], name, value)
    parent, _, last = table.rpartition(".")
    if parent not in lines or not rows[lines[parent] - 1].lstrip().startswith("["):
        return None
    return _inserted(rows, lines[parent], f"{last} = {{ {name} = {value} }}")


def _replaced(rows: list[str], line: int, name: str, value: str) -> list[str] | None:
    """The value of a key that stands alone on its line; a comment behind it stays."""
    found = re.match(rf"^(\s*{re.escape(name)}\s*=\s*)(?:{_VALUE})(\s*(?:#.*)?)$", rows[line - 1])
    if found is None:
        return None
    return [*rows[: line - 1], f"{found[1]}{value}{found[2]}", *rows[line:]]


def _inserted(rows: list[str], line: int, new: str) -> list[str]:
    return [*rows[:line], new, *rows[line:]]


def _in_braces(rows: list[str], line: int, name: str, value: str) -> list[str] | None:
    """A key of a table in braces, all on one line."""
    row = rows[line - 1]
    found = _INLINE.match(row)
    if found is None:
        return None
    inside = found[1]
    there = re.search(rf"(?<![\w.-])({re.escape(name)}\s*=\s*)(?:{_VALUE})", inside)
    if there:
        changed = f"{inside[: there.start()]}{there[1]}{value}{inside[there.end() :]}"
    else:
        comma = ", " if inside.strip() else ""
        changed = f" {inside.strip()}{comma}{name} = {value} "
    return [*rows[: line - 1], f"{row[: found.start(1)]}{changed}{row[found.end(1) :]}", *rows[line:]]


def replace_file(path: Path, text: str, expected: bytes) -> Problem | None:
    """Put a new text in the place of a file, whole or not at all.

    Args:
        path: the file.
        text: all of it, written as UTF-8.
        expected: what the file held when it was read; if it holds anything else, nothing is changed.

    Returns:
        None when the new text stands there and is synced; else why not.
    """
    if read_file(path) != expected:
        return _problem(path, "the file has changed meanwhile", "Run the command again.")
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with open(beside, "wb") as file:
            file.write(_as_before(text, expected))
            file.flush()
            os.fsync(file.fileno())
        with suppress(OSError):
            os.chmod(beside, path.stat().st_mode & 0o777)
        os.replace(beside, path)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        return _problem(path, f"the file cannot be written ({escape(reason)})", "Look at its folder.")
    finally:
        with suppress(OSError):
            beside.unlink()
    return None


def _as_before(text: str, expected: bytes) -> bytes:
    """The bytes of a text, with the byte-order mark and the line ends that the file had."""
    mark = _MARK if expected.startswith(_MARK) else b""
    return mark + text.replace("\n", "\r\n" if b"\r\n" in expected else "\n").encode()


def _problem(path: Path, message: str, mend: str) -> Problem:
    return Problem(file=escape(str(path)), message=message, mend=mend)
