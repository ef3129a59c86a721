"""What a person typed to find a group: values with their unit, and words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

# Numbers joined by dashes are one word: an inch thread such as 1-1/8-12, a size such as 1-1/4, a screw such
# as 8-32, the number of a document, and what the id of a row makes of its thread. So 8 is not in 3/8-16.
_WORD = re.compile(
    r"(?=\d)(?:(?:\d+-)?\d+/\d+-\d+|\d+(?:[-/]\d+)+(?!\w|[.,]\w))"
    r"|[^\W_]+(?:[.,/][^\W_]+)*"
)
# How a number goes on behind a digit: more digits, a decimal, a fraction, the rest of a document's number.
_GOES_ON = re.compile(r"\d|[.,/]\d|-\d+[-/]\d")
# Said of every group, so that they seldom tell one from another.
_SAID_OF_ALL = frozenset(
    {"torque", "torques", "spec", "specs", "for", "the", "of", "deg", "degree", "degrees"}
)
_METRIC = re.compile(r"\bm\s?(\d+(?:\.\d+)?)(?:\s*(x)\s*(\d+(?:\.\d+)?))?")
# A number or a range, and the letters of a unit behind it.
_VALUE = re.compile(
    r"(?<![\w.,/])(\d+(?:[.,]\d+)?)\s*(?:(?:–|-|to|…|\.\.\.?)\s*(\d+(?:[.,]\d+)?)\s*)?"
    r"([^\W\d_][^\d\s()]*(?:[\s-]+(?:lbs?|lbf|pounds?|foot|feet|ft|inch(?:es)?|in|met(?:re|er)s?|m)\b)?)"
)
_SHARE = re.compile(r"\s*(\d{1,2})\s*%")
_LONGEST = 200
# How far a value may lie from the one that was typed, as share: a page rounds.
_NEAR = Fraction(2, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A torque in N·m, as lowest and highest.

    Args:
        low, high: its limits.
        half: half a step of its last digit, in N·m.
        unit: the unit it was written in, in N·m.
    """

    low: Fraction
    high: Fraction
    half: Fraction = Fraction(0)
    unit: Fraction = Fraction(1)

    def meets(self, other: Value) -> bool:
        """Whether two values mean the same torque: their ranges touch, rounding aside.

        A value that was converted is as near as the last digit of either can say.
        """
        off = self.half + other.half if self.unit != other.unit else Fraction(0)
        return (
            self.low <= other.high + max(other.high * _NEAR, off)
            and other.low <= self.high + max(self.high * _NEAR, off)
        )  # fmt: skip

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
        spare: words said of every group, which need not be found; a group named so comes first.
    """

    words: tuple[str, ...]
    values: tuple[Value, ...]
    spare: tuple[str, ...] = ()


def read_sought(text: str) -> Sought:
    """What a person typed, taken apart.

    >>> read_sought("manifold M8 x 1.25").words
    ('manifold', 'm8x1.25')
    >>> [float(value.high) for value in read_sought("24 Nm cover").values]
    [24.0]
    >>> read_sought("cover torque"), read_sought("torque").words
    (Sought(words=('cover',), values=(), spare=('torque',)), ('torque',))
    """
    folded = folded_text(text[:_LONGEST])
    values = []
    for match, value in _values(folded):
        values.append(value)
        folded = folded.replace(match, " ", 1)
    words = tuple(dict.fromkeys(words_of(folded)))
    telling = tuple(word for word in words if word not in _SAID_OF_ALL)
    if not telling and not values:
        return Sought(words=words, values=())
    spare = tuple(word for word in words if word in _SAID_OF_ALL)
    return Sought(words=telling, values=tuple(values), spare=spare)


def folded_text(text: str) -> str:
    """Small letters, and the signs that people write differently made alike.

    >>> folded_text("M 8, M8 × 1.25, 24 N·m")
    'm8, m8x1.25, 24 nm'
    """
    plain = text.casefold().replace("×", "x").replace("·", "").replace("⋅", "").replace("#", "")
    return _METRIC.sub(r"m\1\2\3", plain) if "x" in plain or "m " in plain else plain


def words_of(folded: str) -> list[str]:
    """The words of a folded text; dashes part them, except numbers.

    >>> words_of(folded_text("Exhaust-manifold 3/8-16, M8×1.25"))
    ['exhaust', 'manifold', '3/8-16', 'm8x1.25']
    """
    return _WORD.findall(folded)


def is_size(word: str, known: str) -> bool:
    """Whether a word that begins a known one is the size of that thread.

    >>> is_size("m8", "m8x1.25"), is_size("1/4", "1/4-28"), is_size("m8", "m80x4"), is_size("1", "1-1/8-12")
    (True, True, False, False)
    """
    behind = known[len(word) : len(word) + 1]
    return word[-1].isdigit() and behind in ("x", "-") and not is_cut_number(word, known)


def is_cut_number(word: str, known: str) -> bool:
    """Whether a word that begins a known one breaks off inside a number, which is then another number.

    >>> is_cut_number("m4", "m42x1.5"), is_cut_number("8", "8.8"), is_cut_number("1", "1-1/4")
    (True, True, True)
    >>> is_cut_number("m8", "m8x1.25"), is_cut_number("1/4", "1/4-28"), is_cut_number("head", "header")
    (False, False, False)
    """
    return word[-1].isdigit() and _GOES_ON.match(known, len(word)) is not None


@cache
def value_in(text: str, lowered: str = "") -> Value | None:
    """The first torque that a text of a library prints, or None.

    Args:
        text: as printed.
        lowered: a share by which a rule of the page lowers it, such as `10 %`; empty for none.
    """
    value = next((value for _, value in _values(folded_text(text))), None)
    share = _SHARE.match(lowered)
    if value is None or share is None:
        return value
    left = 1 - Fraction(int(share[1]), 100)
    return replace(value, low=value.low * left, high=value.high * left)


def _values(folded: str) -> Iterator[tuple[str, Value]]:
    for match in _VALUE.finditer(folded):
        factor = _factor(match[3].strip())
        if factor is not None:
            first, last = (text.replace(",", ".") for text in (match[1], match[2] or match[1]))
            low, high = sorted((Fraction(first) * factor, Fraction(last) * factor))
            digits = max(len(text.partition(".")[2]) for text in (first, last))
            half = factor / (2 * 10**digits)
            yield match[0], Value(low=low, high=high, half=half, unit=factor)


@cache
def _factor(unit: str) -> Fraction | None:
    """How many N·m one of a unit is; None for a word that is no unit of torque."""
    # Searching for words alone does not pay for the tables of units.
    from torqref.quantity.conversion import factor
    from torqref.quantity.reading import read_unit

    symbol = read_unit(unit)
    return factor(symbol, "N·m") if isinstance(symbol, str) else None
