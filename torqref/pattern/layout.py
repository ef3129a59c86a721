"""Where the bolts are: positions with their labels, and the landmarks printed beside them."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace


def labels_text(labels: Iterable[int]) -> str:
    """One bolt, or the bolts pulled together.

    >>> labels_text((7,)), labels_text((1, 9))
    ('7', '1+9')
    """
    return "+".join(str(label) for label in labels)


def runs_text(labels: Iterable[int]) -> str:
    """Labels as the runs they make, so that a gap between them is seen.

    >>> runs_text((1, 2, 3, 5, 6)), runs_text((7,)), runs_text((1, 3, 4))
    ('1 to 3 and 5 to 6', '7', '1 and 3 to 4')
    """
    runs: list[list[int]] = []
    for label in sorted(labels):
        if runs and label == runs[-1][-1] + 1:
            runs[-1][1:] = [label]
        else:
            runs.append([label])
    *most, last = (" to ".join(map(str, run)) for run in runs)
    return f"{', '.join(most)} and {last}" if most else last


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """One bolt hole.

    Args:
        label: the number the page gives it, from 1.
        x: to the right; one unit is the width of one character of a diagram.
        y: downward; one unit is the height of one line of a diagram.
    """

    label: int
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Landmark:
    """A word of the picture that is no bolt, such as FRONT, at the place of its centre."""

    text: str
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A bolt pattern as the page draws it.

    Args:
        positions: the bolts; each label once.
        landmarks: words of the picture.
        basis: where it comes from: `diagram`, `circle`, `rows`, `points` or `count`.
    """

    positions: tuple[Position, ...]
    landmarks: tuple[Landmark, ...] = ()
    basis: str = "diagram"

    def __hash__(self) -> int:
        """A hash of few parts: every drawing asks for it several times, and 200 bolts take long."""
        return hash((self.basis, len(self.positions), self.positions[:1]))

    @property
    def labels(self) -> tuple[int, ...]:
        """All labels, smallest first."""
        return tuple(sorted(position.label for position in self.positions))

    def only(self, labels: Collection[int]) -> Layout:
        """The part of the pattern that has these labels, landmarks and all."""
        kept = tuple(position for position in self.positions if position.label in labels)
        return replace(self, positions=kept)


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """The order of visiting: one visit after the other, each of one bolt or of bolts pulled together.

    Args:
        visits: labels of each visit.
        basis: where it comes from, in words.
        generic: True for a made-up order that is not the manufacturer's.
    """

    visits: tuple[tuple[int, ...], ...]
    basis: str
    generic: bool = False

    @property
    def labels(self) -> tuple[int, ...]:
        """The labels in the order of visiting, pairs one after the other."""
        return tuple(label for visit in self.visits for label in visit)

    @property
    def text(self) -> str:
        """The visits as one writes them: `1+9 5+13`."""
        return " ".join(map(labels_text, self.visits))


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A drawn pattern: lines of text, and where each bolt's mark stands in them.

    Args:
        lines: the rows of the picture, without trailing blanks.
        spots: for each label the row, the column of the first cell and the number of cells of its mark.
    """

    lines: tuple[str, ...]
    spots: dict[int, tuple[int, int, int]]
