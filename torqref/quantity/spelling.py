"""Which unit a written word means: a closed list, and what the same letters would mean to others."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from itertools import chain
from typing import NamedTuple

from torqref.quantity.token import Token
from torqref.quantity.units import BY_SYMBOL, UNITS, Unit

_JOINERS = frozenset("-·*×._")
_RATIOS = frozenset({"/", "per"})
_QUOTES = frozenset("'\"#°%")
_LONGEST = 6


def variants(spelling: str) -> tuple[str, ...]:
    """A spelling of a table as it may be written: apart where it has a hyphen, or in one word."""
    return (spelling.replace("-", " "), spelling.replace("-", "")) if "-" in spelling else (spelling,)


# Two units in one word: `кгсм` is a kgf·m to those who leave out the dot, and a kgf·cm to others.
TWO_MEANINGS = {"кгсм": ("kgf·m", "kgf·cm")}

_FOREIGN = {
    "an energy": "j kj mj joule joules wh kwh cal btu erg",
    "a pressure": "pa kpa mpa hpa bar mbar psi ksi atm torr mmhg",
    "a power": "w kw hp ps watt watts",
    "a temperature": "°-c °-f c f k deg-c deg-f",
    "a speed": "rpm hz mph",
    "a time": "s sec secs h hr hrs hour hours minute minutes second seconds day days",
    "a volume": "l ml cc litre litres liter liters gal qt",
    "an electrical value": "v a ohm ma mv volt volts",
    "an angle in a unit of surveyors": "rad rads radian radians grad gon",
    "a share": "%",
}
# Words that name something else than a torque, an angle, a length or a force.
FOREIGN: dict[str, str] = {
    written: kind for kind, words in _FOREIGN.items() for word in words.split() for written in variants(word)
}


class Spelled(NamedTuple):
    """A unit as it was found in a text.

    Args:
        symbol: the symbol of the unit.
        after: index of the first token after it.
        key: the spelling as the table has it.
        written: the unit as it stands in the text.
        is_ratio: whether it was written as one unit per another.
    """

    symbol: str
    after: int
    key: str
    written: str
    is_ratio: bool


def spelled(found: tuple[Token, ...], at: int, text: str, known: Mapping[str, str]) -> Spelled | None:
    """The unit that begins at a token, the longest that the table knows; None if there is none.

    >>> from torqref.quantity.token import tokens
    >>> text = "25 lbs/ft"
    >>> match = spelled(tokens(text), 1, text, symbols())
    >>> match and (match.symbol, match.is_ratio)
    ('ft-lb', True)
    """
    best: Spelled | None = None
    key, is_ratio, position = "", False, at
    for _ in range(_LONGEST):
        token = found[position]
        if not _is_word(token):
            break
        key = f"{key} {token.text}" if key else token.text
        position += 1
        if symbol := known.get(key):
            best = Spelled(symbol, position, key, text[found[at].start : token.end], is_ratio)
        if found[position].text in _RATIOS and _is_word(found[position + 1]):
            is_ratio, position = True, position + 1
        else:
            position = _after_joiner(found, position)
    return best


def _is_word(token: Token) -> bool:
    return (token.kind == "word" and token.text not in _RATIOS) or token.text in _QUOTES


def _after_joiner(found: tuple[Token, ...], position: int) -> int:
    """Past dots, dashes and times signs between two words of one unit."""
    after = position
    while found[after].text in _JOINERS:
        after += 1
    if found[after].text == "x" and _is_word(found[after + 1]):
        after += 1
    return after if after - position <= 2 and _is_word(found[after]) else position


@cache
def symbols() -> Mapping[str, str]:
    """Every spelling of the unit table with its symbol; a blank stands between words that stand apart.

    >>> symbols()["lbft"], symbols()["foot pound force"], symbols()["mn"], symbols()["m n"]
    ('ft-lb', 'ft-lb', 'mN', 'N·m')
    """
    known: dict[str, str] = {}
    for unit in UNITS:
        for spelling in own_spellings(unit):
            known.setdefault(spelling, unit.symbol)
    for unit in UNITS:
        for force, length in _parts(unit):
            # What is taken stays: `mN` in one word is a millinewton and never a metre newton.
            known.setdefault(f"{length} {force}", unit.symbol)
            known.setdefault(length + force, unit.symbol)
    for spelling in TWO_MEANINGS:
        known.pop(spelling, None)
    return known


def own_spellings(unit: Unit) -> tuple[str, ...]:
    """What people write for a unit, the force of a torque before the length."""
    plain = unit.symbol.casefold().replace("·", "").replace("-", "")
    own = (variants(spelling) for spelling in unit.spellings)
    parts = ((f"{force} {length}", force + length) for force, length in _parts(unit))
    return tuple(dict.fromkeys((plain, *chain.from_iterable(own), *chain.from_iterable(parts))))


def _parts(unit: Unit) -> tuple[tuple[str, str], ...]:
    """Each spelling of the force of a torque with each spelling of its length."""
    if unit.kind != "torque":
        return ()
    force, length = (BY_SYMBOL[symbol] for symbol in unit.definition.split(" * "))
    return tuple((one, other) for one in own_spellings(force) for other in own_spellings(length))
