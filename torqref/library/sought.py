"""What a person typed to find a group: values with their unit, and words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

# An inch thread such as 1-1/8-12 is one word.
_WORD = re.compile(r"(?:\d+-)?\d+/\d+-\d+|[^\W_]+(?:[.,/][^\W_]+)*")
_METRIC = re.compile(r"\bm\s?(\d+(?:\.\d+)?)\s*x\s*(\d+(?:\.\d+)?)")
# A number or a range, and the letters of a unit behind it.
_VALUE = re.compile(
    r"(?<![\w.,/])(\d+(?:[.,]\d+)?)\s*(?:(?:–|-|to|…|\.\.\.?)\s*(\d+(?:[.,]\d+)?)\s*)?"
    r"([^\W\d_][^\d\s()]*(?:[\s-]+(?:lbs?|lbf|pounds?|foot|feet|ft|inch(?:es)?|in|met(?:re|er)s?|m)\b)?)"
)
_LONGEST = 200
# How far a value may lie from the one that was typed, as share: a page rounds.
_NEAR = Fraction(2, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A torque in N·m, as lowest and highest."""

    low: Fraction
    high: Fraction

    def meets(self, other: Value) -> bool:
        """Whether two values mean the same torque: their ranges touch, rounding aside."""
        return self.low <= other.high * (1 + _NEAR) and other.low <= self.high * (1 + _NEAR)

    def aims_at(self, other: Value) -> bool:
        """Whether the middles of two ranges are the same, rounding aside."""
        mine, theirs = self.low + self.high, other.low + other.high
        return abs(mine - theirs) <= theirs * _NEAR


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """What is looked for.

    Args:
        words: folded words, each of which has to be found.
        values: torques, each of which has to be found.
    """

    words: tuple[str, ...]
    values: tuple[Value, ...]


def read_sought(text: str) -> Sought:
    """What a person typed, taken apart.

    >>> read_sought("manifold M8 x 1.25").words
    ('manifold', 'm8x1.25')
    >>> [float(value.high) for value in read_sought("24 Nm cover").values]
    [24.0]
    """
    folded = folded_text(text[:_LONGEST])
    values = []
    for match, value in _values(folded):
        values.append(value)
        folded = folded.replace(match, " ", 1)
    return Sought(words=tuple(dict.fromkeys(words_of(folded))), values=tuple(values))


def folded_text(text: str) -> str:
    """Small letters, and the signs that people write differently made alike."""
    plain = text.casefold().replace("×", "x").replace("·", "").replace("⋅", "").replace("#", "")
    return _METRIC.sub(r"m\1x\2", plain)


def words_of(folded: str) -> list[str]:
    """The words of a folded text; dashes part them, except in an inch thread.

    >>> words_of(folded_text("Exhaust-manifold 3/8-16, M8×1.25"))
    ['exhaust', 'manifold', '3/8-16', 'm8x1.25']
    """
    return _WORD.findall(folded)


@cache
def value_in(text: str) -> Value | None:
    """The first torque that a text of a library prints, or None."""
    return next((value for _, value in _values(folded_text(text))), None)


def _values(folded: str) -> Iterator[tuple[str, Value]]:
    for match in _VALUE.finditer(folded):
        factor = _factor(match[3].strip())
        if factor is not None:
            low = Fraction(match[1].replace(",", ".")) * factor
            high = Fraction((match[2] or match[1]).replace(",", ".")) * factor
            yield match[0], Value(low=min(low, high), high=max(low, high))


@cache
def _factor(unit: str) -> Fraction | None:
    """How many N·m one of a unit is; None for a word that is no unit of torque."""
    # Searching for words alone does not pay for the tables of units.
    from torqref.quantity.conversion import factor
    from torqref.quantity.reading import read_unit

    symbol = read_unit(unit)
    return factor(symbol, "N·m") if isinstance(symbol, str) else None
