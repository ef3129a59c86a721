"""Reads a sequence diagram: the picture of the page, typed as text."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from torqref.document.escape import escape
from torqref.pattern.cells import cells
from torqref.pattern.fault import Fault, Faults
from torqref.pattern.layout import Landmark, Layout, Position

MOST_POSITIONS = 200
MOST_DIGITS = 4
MOST_LINES = 400
MOST_COLUMNS = 400

# Words one blank apart are one landmark (`exhaust side`): stretching must not tear them apart.
_TOKEN = re.compile(r"[0-9]+(?!\S)|\S+(?: (?![0-9]+(?!\S))\S+)*")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Token:
    """A run of non-blanks, with its centre in cells and its line."""

    text: str
    x: float
    y: int

    @property
    def is_position(self) -> bool:
        return self.text.isdigit()


def read_diagram(text: str) -> Layout | Faults:
    r"""The layout a diagram shows, or everything that is wrong with it.

    A token is a run of non-blanks and its place is its centre. All digits: a position; anything else: a
    landmark. The indent common to all lines does not count, nor do blank lines above and below.

    Args:
        text: the picture, lines separated by newlines.

    Returns:
        The layout with basis `diagram`, or its faults.

    >>> layout = read_diagram("  FRONT\n  3 1 2\n")
    >>> layout.labels, layout.landmarks[0].text
    ((1, 2, 3), 'FRONT')
    """
    lines = _lines(text)
    tokens = [token for y, line in enumerate(lines) for token in _tokens(line, y)]
    positions = [token for token in tokens if token.is_position]
    words = [word for token in tokens if not token.is_position for word in token.text.split()]
    faults = (*_sheet_faults(lines), *_token_faults(positions, words))
    if faults:
        return faults
    return Layout(
        positions=tuple(Position(label=int(token.text), x=token.x, y=token.y) for token in positions),
        landmarks=tuple(
            Landmark(text=token.text, x=token.x, y=token.y) for token in tokens if not token.is_position
        ),
    )


def look_alike(word: str) -> str:
    """The digits of a word that is likely meant as a bolt; empty where it is a word indeed.

    >>> look_alike("(7)"), look_alike("①"), look_alike("-1"), look_alike("1.2"), look_alike("TDC1")
    ('7', '1', '1', '', '')
    """
    bare = word.strip("()[]{}<>.,;:#*'\"-+|=_/")
    digits = "".join(str(unicodedata.digit(char, "x")) for char in bare)
    return digits if digits.isdigit() and digits != word else ""


def _lines(text: str) -> list[str]:
    """The lines of the picture itself: without the common indent and the blank lines around it."""
    lines = [line.rstrip() for line in text.split("\n")]
    inked = [number for number, line in enumerate(lines) if line]
    if not inked:
        return []
    picture = lines[inked[0] : inked[-1] + 1]
    indent = min(len(line) - len(line.lstrip(" ")) for line in picture if line)
    return [line[indent:] for line in picture]


def _tokens(line: str, y: int) -> Iterator[_Token]:
    for match in _TOKEN.finditer(line):
        text = escape(match[0])
        first = cells(line[: match.start()])
        yield _Token(text=text, x=first + (cells(match[0]) - 1) / 2, y=y)


def _sheet_faults(lines: list[str]) -> Iterator[Fault]:
    tabbed = [number for number, line in enumerate(lines, start=1) if "\t" in line]
    if tabbed:
        yield Fault(
            message=f"row {tabbed[0]} of the diagram holds a tab, whose width nobody knows",
            mend="Write blanks instead.",
        )
    if len(lines) > MOST_LINES or any(len(line) > MOST_COLUMNS for line in lines):
        yield Fault(
            message=f"the diagram is larger than {MOST_LINES} rows of {MOST_COLUMNS} characters",
            mend="Draw it smaller: only the relative places count.",
        )


def _token_faults(tokens: list[_Token], words: list[str]) -> Iterator[Fault]:
    if not tokens:
        meant = [digits for word in words for digits in [look_alike(word)] if digits]
        yield Fault(
            message="the diagram has no positions",
            mend=f"Write {meant[0]} and not {words[0]}: plain digits with blanks around them."
            if meant
            else "Write the number of each bolt in its place, with blanks around it.",
        )
    if len(tokens) > MOST_POSITIONS:
        yield Fault(
            message=f"the diagram has {len(tokens)} positions, at most {MOST_POSITIONS} are read",
            mend="Split the pattern into several groups.",
        )
    for token in tokens:
        yield from _number_faults(token)
    plain = [token.text for token in tokens if token.text.isascii() and len(token.text) <= MOST_DIGITS]
    yield from _doubled([int(text) for text in plain])


def _number_faults(token: _Token) -> Iterator[Fault]:
    where = f'"{token.text}" in row {token.y + 1} of the diagram'
    if not token.text.isascii():
        yield Fault(message=f"{where} is not written in the digits 0 to 9", mend="Write plain digits.")
    elif len(token.text) > MOST_DIGITS:
        yield Fault(
            message=f"{where} has more than {MOST_DIGITS} digits", mend="Number the positions from 1 on."
        )
    elif int(token.text) == 0:
        yield Fault(message=f"{where}: positions count from 1", mend="Number the positions from 1 on.")
    elif token.text.startswith("0"):
        yield Fault(
            message=f"{where} starts with a zero",
            mend=f"Write {int(token.text)}.",
            labels=(int(token.text),),
        )


def _doubled(labels: list[int]) -> Iterator[Fault]:
    for label, times in Counter(labels).items():
        if times > 1:
            yield Fault(
                message=f"{label} stands {times} times in the diagram",
                mend="Give each position a number of its own.",
                labels=(label,),
            )
