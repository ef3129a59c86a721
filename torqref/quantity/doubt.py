"""What a text could have meant: the refusals of a value, each with its readings."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.quantity.bounds import Bounds
from torqref.quantity.number import Amount
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.showing import plain
from torqref.quantity.spelling import Spelled, symbols
from torqref.quantity.term import Torque
from torqref.quantity.units import BY_SYMBOL
from torqref.quantity.value import read_value

MARKS = frozenset(
    ("+", "then", ",", ";", "→", "and", "&", "plus", "followed", "by", "/", "=", "or", ".", "(")
)
_USUAL = ("N·m", "ft-lb", "in-lb")
_SMALLEST_LIKELY_TURN = 15
_LONGEST_UNIT = 24


class Before(NamedTuple):
    """What stands before a value: the torque of the stage before, where it begins, and the marks between."""

    torque: Torque | None
    start: int
    marks: frozenset[str]


def bare(scan: Scan, bounds: Bounds, before: Before | None) -> Unread:
    """A number without a unit; what stands around it tells which readings it could have."""
    start, end = bounds.numbers[0].start, scan.found[scan.at - 1].end
    text = scan.folded.text[start:end]
    if _is_power(scan):
        return Unread("powers and exponents are not read; write the number in full", at=scan.token.start)
    if scan.token.kind in ("number", "fraction"):
        return _columns(scan, bounds)
    if before and before.torque:
        return _after_torque(scan, bounds, before.torque, before)
    if before:
        return _after_turn(scan, bounds, before)
    together = (
        _with_follower(scan, bounds) or _past_hand(scan, text, start) or _unknown_unit(scan, text, start)
    )
    if together:
        return together
    options = tuple(f"{text} {symbol}" for symbol in _USUAL)
    return Unread(f'"{text}" has no unit', at=end, options=options, span=(start, end), topic="stage")


def _is_power(scan: Scan) -> bool:
    """`1e3`, `10^2`, `10²`, `9**9`."""
    token, after = scan.token, scan.ahead()
    if token.gap:
        return False
    if token.text == "e":
        return after.kind == "number" or after.text in ("+", "-")
    # A superscript counts as a letter to the cutting of words.
    return token.text in ("^", "*") or (token.kind == "word" and not token.text[0].isalpha())


def _columns(scan: Scan, bounds: Bounds) -> Unread:
    """`20 25 N·m`, `1 200 N·m`: two columns of a table, or a blank inside a number."""
    one, first = scan.written(bounds.numbers[0]), scan.token
    follower = _follower(scan)
    unit, end = (follower[0], follower[1]) if follower else (None, first.end)
    symbol = f" {unit}" if unit else ""
    other = first.text
    joined = (f"{one}{other}{symbol}",) if len(other) == 3 and len(one) <= 3 else ()
    options = (*joined, f"{one}–{other}{symbol}", f"{one}{symbol} then {other}{symbol}")
    message = "two numbers stand side by side; what joins them is missing"
    return Unread(message, at=first.start, options=options, span=(bounds.numbers[0].start, end))


def _follower(scan: Scan) -> tuple[str, int, Bounds] | None:
    """The value behind the one that has no unit: its torque unit, its end, its numbers."""
    here = scan.at
    scan.skip(MARKS)
    try:
        bounds = read_value(scan)
        end = scan.found[scan.at - 1].end
    except Unread:
        bounds = None
    scan.at = here
    if bounds is None or bounds.unit is None or BY_SYMBOL[bounds.unit.symbol].kind != "torque":
        return None
    return bounds.unit.symbol, end, bounds


def _with_follower(scan: Scan, bounds: Bounds) -> Unread | None:
    """`57 + 6 in-lb`, `30 then 60 N·m`: the unit may stand for both."""
    mark = scan.token
    follower = _follower(scan) if mark.text in MARKS else None
    if follower is None:
        return None
    unit, end, second = follower
    start = bounds.numbers[0].start
    one = scan.folded.text[start : scan.found[scan.at - 1].end]
    other = scan.folded.text[second.numbers[0].start : second.numbers[-1].end]
    stages = f"{one} {unit} then {other} {unit}"
    if mark.text == "+":
        options: tuple[str, ...] = (f"{one} ± {other} {unit}", stages)
        message = f'"{one} + {other}" is no value; a ± may have been lost'
    else:
        options = (f"{one}–{other} {unit}", stages)
        message = f'"{one}" has no unit'
    return Unread(message, at=mark.start, options=options, span=(start, end))


def _past_hand(scan: Scan, text: str, start: int) -> Unread | None:
    """`1/8 past finger tight`: an eighth of what?"""
    if scan.token.text not in ("past", "after", "from", "beyond"):
        return None
    options = tuple(f"{text} {unit}" for unit in ("turn", "flat"))
    return Unread(f'"{text}" has no unit; of a turn or of a flat', at=scan.token.start, options=options,
                  span=(start, scan.found[scan.at - 1].end))  # fmt: skip


def _unknown_unit(scan: Scan, text: str, start: int) -> Unread | None:
    token = scan.token
    if token.kind != "word" or token.text in MARKS or len(token.text) > _LONGEST_UNIT:
        return None
    found = scan.written(token)
    near = nearest(token.text, _whole_units()) if len(token.text) > 1 else None
    options = (f"{text} {symbols()[near]}",) if near else tuple(f"{text} {unit}" for unit in _USUAL)
    message = f'"{escape(found)}" is no unit that is known here'
    return Unread(message, at=token.start, options=options, span=(start, token.end))


def _whole_units() -> list[str]:
    """Spellings of torques and angles: a force or a length alone is no mend."""
    kinds = ("torque", "angle")
    return [spelling for spelling, symbol in symbols().items() if BY_SYMBOL[symbol].kind in kinds]


def _after_turn(scan: Scan, bounds: Bounds, before: Before) -> Unread:
    """`30 N·m + 90° + 90`: another turn, or a torque."""
    number, end = bounds.numbers[0], scan.found[scan.at - 1].end
    text = scan.folded.text[number.start : end]
    turn = f"{text} turn" if number.value < 1 else f"{text}°"
    options = (turn, *(f"{text} {unit}" for unit in _USUAL))
    message = f'"{text}" behind a turn has no unit'
    return Unread(message, at=end, options=options, span=(number.start, end), topic="stage")


def _after_torque(scan: Scan, bounds: Bounds, torque: Torque, before: Before) -> Unread:
    """`25 N·m then 90`, `57 N·m + 6`, `25 N·m (18)`: degrees, another torque, or a tolerance."""
    number, end = bounds.numbers[0], scan.found[scan.at - 1].end
    text = scan.folded.text[number.start : end]
    if "(" in before.marks:
        options = tuple(f"{text} {unit}" for unit in (*_USUAL, "kgf·m"))
        message = f'"{text}" in brackets has no unit'
        return Unread(message, at=end, options=options, span=(number.start, end))
    lead = scan.folded.text[before.start : number.start]
    turn = f"{lead}{text} turn" if number.value < 1 else f"{lead}{text}°"
    options = (turn, f"{lead}{text} {torque.unit}")
    if "+" in before.marks and torque.target and not torque.has_window and number.value < torque.target:
        off = f"{plain(torque.target)} ± {text} {torque.unit}"
        options = (turn, off) if number.value >= _SMALLEST_LIKELY_TURN else (off, turn)
    message = f'"{text}" behind a torque has no unit; an angle, a torque or a tolerance'
    return Unread(message, at=end, options=options, span=(before.start, end), topic="stage")


def other_kind(scan: Scan, bounds: Bounds, unit: Spelled) -> Unread:
    """A force or a length: the torque units it may be half of."""
    start, end = bounds.numbers[0].start, bounds.numbers[-1].end
    text = scan.folded.text[start:end]
    halves = [row.symbol for row in BY_SYMBOL.values() if unit.symbol in row.definition.split(" * ")]
    options = tuple(f"{text} {symbol}" for symbol in halves if BY_SYMBOL[symbol].kind == "torque")
    kind = BY_SYMBOL[unit.symbol].kind
    message = f'"{unit.written}" is a {kind}, not a torque; a torque is a force times a length'
    return Unread(
        message, at=scan.found[unit.after - 1].start, options=options, span=(start, _end(scan, unit))
    )


def _end(scan: Scan, unit: Spelled) -> int:
    return scan.found[max(unit.after, scan.at) - 1].end


def fraction_or_range(scan: Scan, bounds: Bounds, unit: Spelled, number: Amount) -> Unread:
    """`15/16 ft-lb`: fifteen sixteenths, or 15 to 16."""
    text = scan.written(number)
    one, _, other = text.partition("/")
    low, high = sorted((one, other), key=int)
    options = (f"{plain(number.value)} {unit.symbol}", f"{low}–{high} {unit.symbol}")
    span = scan.span(bounds.first)
    return Unread(f'"{text}" may be a fraction or a range', at=number.start, options=options, span=span)


def million(scan: Scan, bounds: Bounds) -> Unread:
    """A capital M is a million, a small m a thousandth: nothing else in the table clashes so."""
    start, end = bounds.numbers[0].start, bounds.numbers[-1].end
    text = scan.folded.text[start:end]
    options = tuple(f"{text} {symbol}" for symbol in ("mN·m", "N·m"))
    span = (start, scan.found[scan.at - 1].end)
    return Unread("a capital M means a million newton metres", at=start, options=options, span=span)


def not_above_zero(scan: Scan, bounds: Bounds) -> Unread:
    """Zero, or a lower limit that is not above it."""
    start, high = bounds.numbers[0].start, bounds.high
    if high is None or high <= 0:
        return Unread("zero is no torque; a value above zero is expected", at=start)
    unit = bounds.unit.symbol if bounds.unit else ""
    options: tuple[str, ...] = (f"max {plain(high)} {unit}",)
    if bounds.target and bounds.is_printed:
        options = (f"{plain(bounds.target)} {unit}", *options)
    message = "the lower limit is not above zero, and a torque is"
    return Unread(message, at=start, options=options, span=scan.span(bounds.first))


def no_number(scan: Scan) -> Unread | None:
    """`nan`, `inf`: words that other programs take for numbers."""
    if scan.token.text not in ("nan", "inf", "infinity"):
        return None
    message = f'"{scan.token.text}" is no number; a torque is finite and above zero'
    return Unread(message, at=scan.token.start)


def lost_plus_minus(scan: Scan, one: Torque, two: Torque, start: int, at: int) -> Unread:
    """`57 N·m + 6 N·m`: a lower torque after a plus."""
    first, second = scan.folded.written, scan.found[at].start
    lead = first(start, second).rstrip(" +")
    this = scan.folded.text[second : scan.found[scan.at - 1].end]
    off = () if one.unit != two.unit else (f"{plain(one.aim)} ± {plain(two.aim)} {one.unit}",)
    options = (*off, f"{lead} then {this}")
    span = (start, scan.found[scan.at - 1].end)
    return Unread(
        "a lower torque after a plus; a ± may have been lost", at=second, options=options, span=span
    )


def share_in_words(share: Fraction) -> str:
    """How far apart two values are: in percent, or as a multiple."""
    if share < 1:
        return f"{plain(Fraction(round(share * 100)))} % apart"
    return f"{plain(Fraction(round(share + 1)))} times as much"
