"""What a text could have meant: the refusals of a value, each with its readings."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from torqref.document.escape import escape
from torqref.quantity.bounds import Bounds
from torqref.quantity.folding import Folded
from torqref.quantity.misprint import letter_for_digit, middle_point, misspelt_unit
from torqref.quantity.number import DENOMINATORS, Amount
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.showing import plain
from torqref.quantity.spelling import TWO_MEANINGS, Spelled, spelled
from torqref.quantity.spoken import is_share, spoken
from torqref.quantity.term import Torque
from torqref.quantity.tolerance import RANGE
from torqref.quantity.units import BY_SYMBOL
from torqref.quantity.value import read_value

MARKS = frozenset(
    ("+", "then", ",", ";", "→", "and", "&", "plus", "followed", "by", "/", "=", "or", ".", "(")
)
_USUAL = ("N·m", "ft-lb", "in-lb")
_SMALLEST_LIKELY_TURN = 15
_MOST_TIMES = 8
_LONGEST_UNIT = 24
# A blank inside a number of four digits or more.
_THOUSANDS = re.compile(r"(?<=\d) (?=\d{3}(?!\d))")
_GROUP = re.compile(r"\d{3}(?:[.,]\d+)?")
# What may join values that share the unit behind the last of them.
_ROW_MARKS = MARKS | frozenset((":", "<", "≤", ">", "|", "\\"))
# Words and signs that say more about a value: without them it would be another one.
_TELLING = re.compile(
    r"\d|±|\b(?:max|min|maximum|minimum|exceed|limit|anticlockwise|counter|ccw|left|half|quarter|third|twice|times|back|less|steps|passes)\b"
)


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
    misprinted = letter_for_digit(scan) or middle_point(scan, bounds) or _several(scan, bounds)
    if misprinted:
        return misprinted
    if scan.token.kind in ("number", "fraction"):
        return _columns(scan, bounds)
    if scan.token.text in (".", ",") and _is_loose(scan):
        return _loose_point(scan, bounds)
    if before and before.torque:
        return _after_torque(scan, bounds, before.torque, before)
    if before:
        return _after_turn(scan, bounds, before)
    together = _with_row(scan, bounds) or _past_hand(scan, text, start) or _unknown_unit(scan, text, start)
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
    return token.text in ("^", "*") or (token.kind == "sign" and token.text.isnumeric())


def _is_loose(scan: Scan) -> bool:
    """`1. 20 N·m`, `5. N·m`, `5,N·m`, `5.- N·m`; but a comma before the next number separates values."""
    after = scan.ahead()
    if after.text == "-" and not after.gap:
        return True
    return after.kind == "word" if scan.token.text == "," else after.kind in ("number", "word")


def _loose_point(scan: Scan, bounds: Bounds) -> Unread:
    """`1. 20 N·m`: a decimal point with a blank behind it, or the number of a stage."""
    start, end = bounds.numbers[0].start, scan.ahead().start
    one = scan.written(bounds.numbers[0])
    if scan.ahead().kind != "number":
        message = "a decimal point stands without digits behind it"
        is_dash = scan.ahead().text == "-" and scan.ahead(2).kind == "word"
        end = scan.ahead(2).start if is_dash else end
        blank = "" if scan.ahead().text == "-" and not is_dash else " "
        return Unread(message, at=scan.token.start, options=(f"{one}{blank}",), span=(start, end))
    message = f'"{one}." may be the number of a stage, or the blank behind its point is too much'
    return Unread(
        message, at=scan.token.start, options=(f"{one}) ", f"{one}."), span=(start, end), topic="point"
    )


def _several(scan: Scan, bounds: Bounds) -> Unread | None:
    """`20-40-60 N·m`: values one after the other, or a value between its limits."""
    if len(bounds.numbers) != 2 or scan.token.text not in RANGE or scan.ahead().kind != "number":
        return None
    at, texts, values = scan.token.start, [scan.written(number) for number in bounds.numbers], bounds.values
    third = scan.ahead()
    unit, end = _unit_behind(scan, 2)
    if not unit:
        return None
    options: tuple[str, ...] = (" then ".join(f"{text} {unit}" for text in (*texts, third.text)),)
    if len(values) == 3:
        options = (*options, f"{texts[1]} {unit} ({texts[0]}–{third.text} {unit})")
    message = f'"{texts[0]}-{texts[1]}-{third.text}" is neither a value nor a range'
    return Unread(message, at=at, options=options, span=(bounds.numbers[0].start, end))


def _columns(scan: Scan, bounds: Bounds) -> Unread:
    """`20 25 N·m`, `1 200 N·m`: two columns of a table, or a blank inside a number."""
    one, first = scan.written(bounds.numbers[0]), scan.token
    groups = _groups(scan)
    unit, end = _unit_behind(scan, max(len(groups), 1))
    symbol = f" {unit}" if unit else ""
    start, text = bounds.numbers[0].start, scan.folded.text
    joined = (_THOUSANDS.sub("", text[start:]),) if groups and one.isdigit() and len(one) <= 3 else ()
    if first.text.startswith(".") or (one.isdigit() and not first.text.strip("0")):
        # A nought alone is no torque: `12 0` is a number that came apart.
        joined = (f"{one}{first.text}{text[first.end :]}",)
    columns = (f"{one}–{first.text}{symbol}", f"{one}{symbol} then {first.text}{symbol}")
    options = joined if len(groups) > 1 else (*joined, *(f"{column}{text[end:]}" for column in columns))
    message = "two numbers stand side by side; what joins them is missing"
    return Unread(message, at=first.start, options=options, span=(start, len(text)))


def _groups(scan: Scan) -> list[str]:
    """The groups of three digits from the cursor on, which stays: thousands with a blank between them."""
    count = 0
    while scan.ahead(count).kind == "number" and _GROUP.fullmatch(scan.ahead(count).text):
        count += 1
    return [scan.ahead(number).text for number in range(count)]


def _unit_behind(scan: Scan, count: int) -> tuple[str, int]:
    """The torque unit behind so many numbers from the cursor on, which stays, and where it ends."""
    end = scan.ahead(count - 1).end
    unit = spelled(scan.found, scan.at + count, scan.folded.text, scan.known)
    if unit is None or BY_SYMBOL[unit.symbol].kind != "torque":
        return "", end
    return unit.symbol, scan.found[unit.after - 1].end


class Row(NamedTuple):
    """Values behind one that has no unit, up to the first unit.

    Args:
        unit: that unit; empty where none follows.
        texts: the values as written, without the unit.
        values: their numbers.
        end: index after the last of them.
    """

    unit: str
    texts: tuple[str, ...]
    values: tuple[Fraction, ...]
    end: int


def _row(scan: Scan) -> Row | None:
    """`20, 40, 60 N·m`: the values that may share the unit of the last; the cursor stays."""
    if scan.token.text == ":" and scan.ahead().gap:
        return None
    here, texts, values = scan.at, [], []
    unit = None
    try:
        while scan.token.text in _ROW_MARKS and unit is None:
            scan.at += 1
            scan.skip(_ROW_MARKS)
            bounds = read_value(scan)
            if bounds is None or not bounds.values:
                break
            start, end = bounds.numbers[0].start, bounds.numbers[-1].end
            texts.append(scan.folded.text[start:end])
            values.append(bounds.values[-1])
            unit = bounds.unit
    except Unread:
        unit = None
    last, scan.at = scan.found[scan.at - 1].end, here
    if not texts or (unit and BY_SYMBOL[unit.symbol].kind != "torque"):
        return None
    return Row(unit.symbol if unit else "", tuple(texts), tuple(values), last)


def _with_row(scan: Scan, bounds: Bounds) -> Unread | None:
    """`57 + 6 in-lb`, `30 then 60 N·m`: the unit may stand for all of them."""
    mark = scan.token
    row = _row(scan)
    if row is None:
        return None
    start, value = bounds.numbers[0].start, bounds.values[-1]
    one = scan.folded.text[start : scan.found[scan.at - 1].end]
    is_pair, span = len(row.texts) == 1, (start, row.end)
    if mark.text in ("+", "plus") and is_pair and row.values[0] < value:
        message = f'"{one} + {row.texts[0]}" is no value; a ± may have been lost'
        return Unread(message, at=mark.start, options=_off_or_stages(one, row), span=span)
    if not row.unit:
        return None
    stages = " then ".join(f"{text} {row.unit}" for text in (one, *row.texts))
    options = (f"{one}–{row.texts[0]} {row.unit}", stages) if is_pair else (stages,)
    if mark.text in ("→", ">"):
        options = options[::-1]
    if is_pair and mark.text == "," and f"{one}{row.texts[0]}".isdigit():
        # `25, 5 N·m`, `25 ,5 N·m`: a blank beside the decimal comma.
        options = (f"{one}.{row.texts[0]} {row.unit}", *options)
    return Unread(f'"{one}" has no unit', at=mark.start, options=options, span=span)


def _off_or_stages(one: str, row: Row) -> tuple[str, ...]:
    other = row.texts[0]
    if not row.unit:
        return tuple(f"{one} ± {other} {unit}" for unit in _USUAL)
    return f"{one} ± {other} {row.unit}", f"{one} {row.unit} then {other} {row.unit}"


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
    if is_share(scan):
        return _shares(scan, text, start)
    found = scan.written(token)
    near = misspelt_unit(scan, scan.at)
    units = TWO_MEANINGS.get(token.text) or ((near.meant,) if near else _USUAL)
    options = tuple(f"{text} {unit}" for unit in units)
    message = f'"{escape(found)}" is no unit that is known here'
    return Unread(message, at=token.start, options=options, span=(start, near.end if near else token.end))


def _shares(scan: Scan, text: str, start: int) -> Unread:
    """`two quarter turns`: a half turn in one go, or a quarter twice."""
    at = scan.token.start
    share = spoken(scan)
    count = spoken(Scan(Folded(text=text, source=text), {})) or (Fraction(text) if text.isdigit() else None)
    options: tuple[str, ...] = ()
    if share and count and count.denominator == 1 and count <= _MOST_TIMES:
        options = (f"{share * count}", " turn + ".join([f"{share}"] * int(count)))
    message = f'"{text}" stands before a share of a turn: so many times, or so much of a turn'
    return Unread(message, at=at, options=options, span=(start, scan.found[scan.at - 1].end))


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
        repeats = tuple(f"{text} {unit}" for unit in (*_USUAL, "kgf·m"))
        message = f'"{text}" in brackets has no unit'
        return Unread(message, at=end, options=repeats, span=(number.start, end))
    lead = scan.folded.text[before.start : number.start]
    turn = f"{lead}{text} turn" if number.value < 1 else f"{lead}{text}°"
    options: tuple[str, ...] = (turn, f"{lead}{text} {torque.unit}")
    if bounds.low is not None and bounds.high is not None and bounds.low <= torque.aim <= bounds.high:
        options = (f"{lead.rstrip(' ,;')} ({text})", *options)
    if (
        before.marks & {"+", "plus"}
        and torque.target
        and not torque.has_window
        and number.value < torque.target
    ):
        off = f"{plain(torque.target)} ± {text} {torque.unit}"
        options = (turn, off) if number.value >= _SMALLEST_LIKELY_TURN else (off, turn)
    message = f'"{text}" behind a torque has no unit; an angle, a torque or a tolerance'
    return Unread(message, at=end, options=options, span=(before.start, end), topic="stage")


def fraction_or_range(scan: Scan, bounds: Bounds, unit: Spelled, number: Amount) -> Unread:
    """`15/16 ft-lb`: fifteen sixteenths, or 15 to 16."""
    text = scan.written(number)
    one, _, other = text.partition("/")
    low, high = sorted((one, other), key=int)
    options: tuple[str, ...] = (f"{low}–{high} {unit.symbol}",)
    if one == low:
        options = (*options, f"{one} {unit.symbol} then {other} {unit.symbol}")
    if other in DENOMINATORS:
        # Nobody measures with twenty-fifths.
        options = (f"{plain(number.value)} {unit.symbol}", *options[:1])
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
    """`57 N·m + 6 N·m`: a torque behind a plus that is not the higher one."""
    middle, end = scan.found[at].start, scan.found[scan.at - 1].end
    lead = scan.folded.text[start:middle].rstrip(" +").removesuffix("plus").rstrip()
    this = scan.folded.text[middle:end]
    off = (f"{plain(one.aim)} ± {plain(two.aim)} {one.unit}",) if one.unit == two.unit else ()
    message = "a torque after a plus that is not the higher one; a ± may have been lost"
    return Unread(message, at=middle, options=(*off, f"{lead} then {this}"), span=(start, end))


def says_more(rest: str) -> bool:
    """Whether a text that is left over changes the value before it: a number, a limit or a direction."""
    return bool(_TELLING.search(rest.casefold()))
