"""Reads a TOML file into a document, or into the problem that kept it from being read."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.lines import key_lines
from torqref.document.problem import Problem

LARGEST_FILE = 1024 * 1024
_MARK = b"\xef\xbb\xbf"


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A TOML file as read: its name, its values, and its text for finding lines.

    Args:
        file: the file as the user knows it.
        values: the parsed tables.
        text: the text as written.
    """

    file: str
    values: Mapping[str, object]
    text: str

    def lines(self) -> Mapping[str, int]:
        """Line of each key path; scanned only when a message needs one."""
        return key_lines(self.text)


def read_file(path: Path, *, limit: int = LARGEST_FILE) -> bytes | Problem:
    """The bytes of a file, or the problem that kept it from being read."""
    try:
        data = _bytes_of(path, limit + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        return Problem(
            file=escape(str(path)),
            message=f"the file cannot be read ({escape(reason)})",
            mend="Look at the name and at who may read it.",
        )
    if len(data) > limit:
        return Problem(
            file=escape(str(path)),
            message=f"the file is larger than {limit // 1024} KiB",
            mend="Split it into one file an assembly.",
        )
    return data


def _bytes_of(path: Path, most: int) -> bytes:
    """At most so many bytes of a file; a pipe or a device might never end, or never begin."""
    if not path.is_dir() and not path.is_file() and path.exists():
        raise ValueError("it is a pipe or a device")
    with open(path, "rb") as file:
        return file.read(most)


def read_document(path: Path) -> Document | Problem:
    """A TOML file as a document; a file that is not UTF-8 or not TOML comes back as its problem."""
    data = read_file(path)
    return data if isinstance(data, Problem) else parse_document(data, escape(str(path)))


def parse_document(data: bytes, file: str) -> Document | Problem:
    """The same from bytes already read."""
    try:
        text = data.removeprefix(_MARK).decode("utf-8")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        return Problem(file=file, line=line, message="the file is not UTF-8 text", mend="Save it as UTF-8.")
    return _parse(text.replace("\r\n", "\n"), file)


def _parse(text: str, file: str) -> Document | Problem:
    # tomli is imported with the first document: commands that read none do not pay for it.
    import tomli

    try:
        return Document(file=file, values=tomli.loads(text), text=text)
    except tomli.TOMLDecodeError as error:
        return _syntax_problem(error.msg, error.lineno, error.colno, text, file)
    except (ValueError, RecursionError) as error:
        kind = "is nested too deep" if isinstance(error, RecursionError) else "holds an overlong number"
        return Problem(file=file, message=f"the file {kind}", mend="Write values as strings, as printed.")


def _syntax_problem(message: str, line: int, column: int, text: str, file: str) -> Problem:
    """The message of the parser with its place, and a hint for what people write most."""
    rows = text.split("\n")
    row = rows[line - 1] if 0 < line <= len(rows) else ""
    return Problem(
        file=file,
        line=line,
        message=f"not TOML at column {column} ({escape(message)}): {escape(row.strip())[:80]}",
        mend=_syntax_mend(row),
    )


def _syntax_mend(row: str) -> str:
    if "=" in row and not any(quote in row for quote in "\"'"):
        return 'Put the value in quotes, as printed: torque = "24 N·m".'
    return "Close every quote and bracket; one key a line; no key twice in a table."


def parser_name() -> str:
    """The name of the parser with its version; another one may read a file otherwise."""
    from importlib.util import find_spec

    spec = find_spec("tomli")
    places = (spec.submodule_search_locations if spec else None) or ()
    beside = (name for place in places for name in os.listdir(os.path.dirname(place)))
    return " ".join(sorted(name for name in beside if name.startswith("tomli-")))
