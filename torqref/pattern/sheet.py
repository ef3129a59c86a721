"""A sheet of text cells to write on: nothing is overwritten, nothing runs over the edge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from torqref.pattern.cells import cells

_BLANK = " "
# The second cell of a wide sign holds nothing of its own.
_TAIL = ""


@dataclass(slots=True)
class Sheet:
    """Rows of cells, blank at first."""

    width: int
    height: int
    grid: list[list[str]] = field(init=False)

    def __post_init__(self) -> None:
        self.grid = [[_BLANK] * self.width for _ in range(self.height)]

    def write(self, row: int, column: int, text: str) -> bool:
        """Write a text if every cell of it is on the sheet and blank; says whether it was."""
        wide = cells(text)
        if not self.is_free(row, column, wide):
            return False
        line = self.grid[row]
        if text.isascii():
            line[column : column + wide] = text
        else:
            line[column : column + wide] = list(_split(text))
        return True

    def is_free(self, row: int, column: int, wide: int, margin: int = 0) -> bool:
        """Whether a stretch of cells is on the sheet and blank, and so are the cells beside it."""
        if not (0 <= row < self.height and column >= 0 and column + wide <= self.width):
            return False
        stretch = self.grid[row][max(0, column - margin) : column + wide + margin]
        return stretch.count(_BLANK) == len(stretch)

    def lines(self) -> tuple[str, ...]:
        """The rows as text, without trailing blanks and without empty rows below."""
        rows = ["".join(row).rstrip() for row in self.grid]
        while rows and not rows[-1]:
            rows.pop()
        return tuple(rows)


def _split(text: str) -> Iterator[str]:
    """One entry a cell: combining signs join the sign before them, wide signs take two."""
    entries: list[str] = []
    for char in text:
        wide = cells(char)
        if wide == 0 and entries:
            # After a wide sign the last entry is its empty second cell.
            place = -2 if entries[-1] == _TAIL and len(entries) > 1 else -1
            entries[place] += char
        elif wide:
            entries.extend([char, *[_TAIL] * (wide - 1)])
    return iter(entries)
