"""Half a unit: a force or a length where a torque is expected, and the torques it may be half of."""

from __future__ import annotations

from torqref.quantity.bounds import Bounds
from torqref.quantity.doubt import MARKS
from torqref.quantity.misprint import misspelt_unit
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import Spelled
from torqref.quantity.token import Token
from torqref.quantity.units import BY_SYMBOL, TORQUE_SYMBOLS

# Units that wrenches are marked in; a half of another unit is asked for in one of these.
_TRADE = ("N·m", "ft-lb", "in-lb", "ozf·in", "kgf·m", "kgf·cm")
# How many signs may have slipped in between the halves of a unit.
_MOST_SIGNS = 2


def other_kind(scan: Scan, bounds: Bounds, unit: Spelled) -> Unread:
    """A force or a length: the torque units it may be half of.

    `ft'lb` has its other half behind a sign that joins no units; `ft-oz` has a half that no torque of the
    trade has beside it.
    """
    start, end = bounds.numbers[0].start, bounds.numbers[-1].end
    text = scan.folded.text[start:end]
    at, stop = scan.found[unit.after - 1].start, _end(scan, unit)
    kind = BY_SYMBOL[unit.symbol].kind
    message = f'"{unit.written}" is a {kind}, not a torque; a torque is a force times a length'
    meant = _with(unit.symbol)
    other = _other_half(scan, unit)
    near = misspelt_unit(scan, unit.after - 1) if other is None and _goes_on(scan, unit.after) else None
    if near and near.end > stop:
        # `ft-ib`: the second half of the unit is misspelt.
        meant, stop = (near.meant,), near.end
    elif other is not None:
        half, stop = scan.known[other.text], other.end
        written = scan.folded.text[scan.found[unit.after - 1].start : stop]
        meant = _both(unit.symbol, half)
        message = f'"{written}" is no unit that is known here'
        if not meant:
            meant = tuple(symbol for symbol in _TRADE if {unit.symbol, half} & _halves(symbol))
            meant = meant if "ozf" in (unit.symbol, half) else tuple(u for u in meant if "ozf" not in u)
            message = f'"{written}" is no torque of the trade; which one is meant'
    options = tuple(f"{text} {symbol}" for symbol in meant)
    return Unread(message, at=at, options=options, span=(start, stop))


def _halves(symbol: str) -> set[str]:
    """The force and the length of a torque."""
    return set(BY_SYMBOL[symbol].definition.split(" * "))


def _with(half: str) -> tuple[str, ...]:
    return tuple(symbol for symbol in TORQUE_SYMBOLS if half in _halves(symbol))


def _both(one: str, other: str) -> tuple[str, ...]:
    return tuple(symbol for symbol in TORQUE_SYMBOLS if _halves(symbol) == {one, other})


def _other_half(scan: Scan, unit: Spelled) -> Token | None:
    """The length behind a force or the force behind a length, perhaps with signs between them."""
    at = unit.after
    while scan.found[at].kind == "sign" and at - unit.after < _MOST_SIGNS:
        at += 1
    token = scan.found[at]
    symbol = scan.known.get(token.text, "") if token.kind == "word" else ""
    kinds = {BY_SYMBOL[half].kind for half in (unit.symbol, symbol) if half in BY_SYMBOL}
    return token if kinds == {"force", "length"} else None


def _goes_on(scan: Scan, at: int) -> bool:
    """Whether a word that is no mark stands behind half a unit, perhaps with a sign between them."""
    behind = scan.found[at + 1] if scan.found[at].kind == "sign" else scan.found[at]
    return behind.kind == "word" and behind.text not in MARKS


def _end(scan: Scan, unit: Spelled) -> int:
    return scan.found[max(unit.after, scan.at) - 1].end
