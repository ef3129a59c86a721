"""Lines as speech reads them well: units and ranges in words, no signs, no capitals that are spelt out.

What a speech program makes of a sign was heard, not guessed: a dash between numbers is left out (9–11 becomes
"nine eleven"), short words in capitals are spelt (NEW), a unit becomes its letters, a fraction a slash.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from functools import cache

from torqref.quantity.units import UNITS

_SHARES = {
    "1/2": "a half",
    "1/4": "a quarter",
    "3/4": "three quarters",
    "1/3": "a third",
    "2/3": "two thirds",
}
_PARTS = {
    "8": "eighths",
    "16": "sixteenths",
    "32": "thirty-seconds",
    "3": "thirds",
    "6": "sixths",
    "12": "twelfths",
}
_SPELT = ("ISO", "SAE")
_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def in_speech(text: str) -> str:
    """The same sentence as it should be read out.

    >>> in_speech("SET 24.0 N·m, WAS 12 N·m")
    'set 24.0 newton metres, was 12 newton metres'
    >>> in_speech("as printed: 22–26 N·m (16–19 ft-lb)")
    'as printed: 22 to 26 newton metres, 16 to 19 foot-pounds'
    >>> in_speech("1/4 turn, 1 1/2 flats of a hex")
    'a quarter turn, 1 and a half flats of a hex'
    >>> in_speech("due 2026-03-02 12:00, in 4 h 0 min; enter = go on")
    'due 2 March 2026, 12:00, in 4 hours 0 minutes; enter: go on'
    """
    for pattern, put in _rules():
        text = pattern.sub(put, text)
    return text


Put = Callable[[re.Match[str]], str]


@cache
def _rules() -> tuple[tuple[re.Pattern[str], Put], ...]:
    """Patterns and what is put in their place, in the order in which they are tried."""
    return (
        (re.compile(r"(\d{4})-(\d\d)-(\d\d)(?:[ T](?=\d\d:))?"), _date),
        (re.compile(r"(\d+) (\d+/\d+)"), lambda found: f"{found[1]} and {_share(found[2])}"),
        (re.compile(r"(?<![\w/])\d+/\d+(?![\w/])"), lambda found: _share(found[0])),
        (re.compile(r"(?<=\d) ?– ?(?=\d)"), lambda found: " to "),
        (re.compile(r"(?:<=|≤) ?(?=\d)"), lambda found: "at most "),
        (re.compile(r"(?:>=|≥) ?(?=\d)"), lambda found: "at least "),
        (re.compile(r" ± ?"), lambda found: " plus or minus "),
        (re.compile(r"±"), lambda found: "plus or minus "),
        (re.compile(r"(?<=\d)(?: ?× ?|x)(?=\d)"), lambda found: " by "),
        (re.compile(r"(?<=\d)\+(?=\d)"), lambda found: " and "),
        (re.compile(r" = "), lambda found: ": "),
        (_units(), lambda found: f" {_words()[found[1]]}"),
        (re.compile(r"(?<![\d.,])1 (hour|minute|degree)s"), lambda found: f"1 {found[1]}"),
        (re.compile(r"°(?! ?C)"), lambda found: " degrees"),
        (re.compile(r" \(([^()]*)\)"), lambda found: f", {found[1]}"),
        (re.compile(r"\b[A-Z]{2,}(?:-[A-Z]+)*\b"), _small),
        (re.compile(r" {2,}"), lambda found: " "),
    )


def _date(found: re.Match[str]) -> str:
    year, month, day = (int(part) for part in found.groups())
    try:
        date(year, month, day)
    except ValueError:
        return found[0]
    clock = ", " if found[0][-1] in " T" else ""
    return f"{day} {_MONTHS[month - 1]} {year}{clock}"


def _share(text: str) -> str:
    """A fraction in words, where it is one that is used on a page."""
    top, _, bottom = text.partition("/")
    many = f"{top} {_PARTS[bottom]}" if bottom in _PARTS else f"{top} over {bottom}"
    return _SHARES.get(text, many)


@cache
def _words() -> dict[str, str]:
    """Each symbol with its words; those of time are said here, since no value is in them."""
    said = {unit.symbol: unit.words for unit in UNITS if unit.symbol != "°"}
    return said | {"h": "hours", "min": "minutes"}


def _units() -> re.Pattern[str]:
    symbols = sorted(_words(), key=len, reverse=True)
    return re.compile(rf"(?<=\d) ?({'|'.join(map(re.escape, symbols))})(?![\w·])")


def _small(found: re.Match[str]) -> str:
    """Words in capitals are for the eye; a speech program spells the short ones."""
    word = found[0]
    return word if word in _SPELT or not set("AEIOUY") & set(word) else word.lower()
