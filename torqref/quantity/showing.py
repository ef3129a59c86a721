"""How a value is shown: as precise as its source, never rounded out of its window, and in words.

Rounding follows NIST SP 811 (2008), B.7: the converted number keeps about the relative precision of the
printed one. Where B.7 leaves a choice, the end use decides: a target moves by at most 1 %, and digits are
added until a window loses at most 5 % of its width. A lower limit is rounded up, an upper one down.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor

from torqref.quantity.conversion import convert
from torqref.quantity.precision import decimals_of
from torqref.quantity.term import Angle, Hand, Stage, Term, Torque
from torqref.quantity.units import BY_SYMBOL
from torqref.quantity.words import number_in_words

_MOST_DECIMALS = 15
_COMPARABLE = 2
_TARGET_MAY_MOVE = Fraction(1, 100)
_WINDOW_MAY_SHRINK = Fraction(5, 100)
_FEW_FOOT_POUNDS = 10
# What stands in the text of a value that is printed with a tolerance.
_OFF = ("±", "+", "%", "plus", "minus", "percent", "give or take")


@dataclass(frozen=True, slots=True, kw_only=True)
class Converted:
    """A torque in another unit: exact, and as it is shown.

    Args:
        low: lower limit, exact, or None.
        target: the value to aim at, exact, or None.
        high: upper limit, exact, or None.
        shown: the rounded text with its unit; never outside the limits.
    """

    low: Fraction | None
    target: Fraction | None
    high: Fraction | None
    shown: str


def show_number(value: Fraction, decimals: int) -> str:
    """A number with so many decimals; an exact half goes to the even digit, as NIST SP 811 B.7.1 says.

    >>> show_number(Fraction(1695, 100), 1)
    '17.0'
    """
    return _digits(round(value * 10**decimals), decimals)


def show_torque(torque: Torque, unit: str | None = None) -> str:
    """A torque as printed, or converted once to another unit and rounded so that no limit is passed.

    >>> from torqref.quantity.reading import read_torque
    >>> torque = read_torque("22-26 Nm")
    >>> isinstance(torque, Torque) and (show_torque(torque), show_torque(torque, "ft-lb"))
    ('22–26 N·m', '16.23–19.17 ft-lb')
    """
    return converted(torque, unit or torque.unit).shown


@lru_cache(maxsize=256)
def converted(torque: Torque, unit: str) -> Converted:
    """A torque in a unit, exact and shown; a walk asks for the same one with every key."""
    low, target, high = (
        None if value is None else convert(value, torque.unit, unit)
        for value in (torque.low, torque.target, torque.high)
    )
    exact = low, target, high
    decimals = _own_decimals(torque) if unit == torque.unit else _decimals(torque, exact)
    return Converted(low=low, target=target, high=high, shown=_shown(torque, exact, decimals, unit))


Three = tuple[Fraction | None, Fraction | None, Fraction | None]


def _own_decimals(torque: Torque) -> int:
    """As printed; more where a tolerance makes a limit that needs them."""
    values = [torque.low, torque.high, torque.target if torque.is_nominal else None]
    limits = [value for value in values if value is not None]
    return next(
        (
            count
            for count in range(torque.decimals, torque.decimals + 4)
            if all((value * 10**count).denominator == 1 for value in limits)
        ),
        torque.decimals + 3,
    )


def _decimals(torque: Torque, exact: Three) -> int:
    """The fewest decimals that lose nothing which the source implies."""
    return next(
        (count for count in range(_MOST_DECIMALS) if _is_enough(torque, exact, count)), _MOST_DECIMALS
    )


def _is_enough(torque: Torque, exact: Three, decimals: int) -> bool:
    low, target, high = exact
    aim = next(value for value in (target, high, low) if value is not None)
    step = Fraction(1, 10**decimals)
    printed = Fraction(1, 10**torque.decimals) / torque.aim
    if step / aim > _COMPARABLE * printed:
        return False
    shown_low, shown_target, shown_high = _rounded(exact, decimals)
    if shown_low is not None and shown_high is not None and low is not None and high is not None:
        inside = (shown_high - shown_low) >= (high - low) * (1 - _WINDOW_MAY_SHRINK)
        return inside and shown_low <= (shown_target or shown_low) <= shown_high
    return all(
        value is None or shown is None or abs(shown - value) <= value * _TARGET_MAY_MOVE
        for value, shown in zip(exact, (shown_low, shown_target, shown_high), strict=True)
    )


def _rounded(exact: Three, decimals: int) -> Three:
    low, target, high = exact
    scale = 10**decimals
    return (
        None if low is None else Fraction(ceil(low * scale), scale),
        None if target is None else Fraction(round(target * scale), scale),
        None if high is None else Fraction(floor(high * scale), scale),
    )


def _shown(torque: Torque, exact: Three, decimals: int, unit: str) -> str:
    low, target, high = (
        None if value is None else _digits(int(value * 10**decimals), decimals)
        for value in _rounded(exact, decimals)
    )
    if low and high:
        if torque.is_nominal and unit == torque.unit and _gives_tolerance(torque.text):
            return _with_tolerance(torque, torque.decimals)
        window = f"{low}–{high}"
        return f"{target} ({window}) {unit}" if torque.is_nominal else f"{window} {unit}"
    if low or high:
        side = f"max {high}" if high else f"min {low}"
        return f"{target} {unit}, {side} {unit}" if target else f"{side} {unit}"
    return f"{target} {unit}"


def _gives_tolerance(text: str) -> bool:
    """Whether a value is printed with what it may be off, and not with limits beside it."""
    return any(sign in text.casefold() for sign in _OFF)


def _with_tolerance(torque: Torque, decimals: int) -> str:
    """`57 ± 6 in-lb` or `24 +2/−1 N·m`."""
    aim = torque.aim
    up, down = (abs((limit or aim) - aim) for limit in (torque.high, torque.low))
    parts = ((part, max(decimals, decimals_of(part))) for part in (aim, up, down))
    value, plus, minus = (show_number(part, digits) for part, digits in parts)
    return f"{value} ± {plus} {torque.unit}" if up == down else f"{value} +{plus}/−{minus} {torque.unit}"


def show_angle(angle: Angle) -> str:
    """A turn in degrees, with its limits; a back-off says so.

    >>> show_angle(Angle(degrees=Fraction(-120), low=None, high=None, text="2 flats back"))
    'back off 120°'
    """
    back = angle.aim < 0
    limits = [None if value is None else plain(abs(value)) for value in (angle.low, angle.high)]
    low, high = reversed(limits) if back else limits
    text = _turn(None if angle.degrees is None else plain(abs(angle.degrees)), low, high)
    return f"back off {text}" if back else text


def _turn(value: str | None, low: str | None, high: str | None) -> str:
    if low and high:
        return f"{value}° ({low}–{high}°)" if value else f"{low}–{high}°"
    side = f"max {high}°" if high else f"min {low}°" if low else ""
    return ", ".join(part for part in (f"{value}°" if value else "", side) if part)


def plain(value: Fraction) -> str:
    """A number in full, or with two decimals where it never ends."""
    return show_number(value, decimals_of(value))


def second_unit(unit: str, aim: Fraction) -> str:
    """The unit the trade wants beside another one.

    Args:
        unit: symbol of the unit a value is printed in.
        aim: the value in that unit; below about 10 ft-lb inch-pounds are the better second unit.

    Returns:
        The symbol of the other unit.

    >>> second_unit("N·m", Fraction(8)), second_unit("N·m", Fraction(24)), second_unit("in-lb", Fraction(82))
    ('in-lb', 'ft-lb', 'N·m')
    """
    if "N" not in unit:
        return "N·m"
    return "ft-lb" if convert(aim, unit, "ft-lb") >= _FEW_FOOT_POUNDS else "in-lb"


def in_words(value: Fraction, unit: str) -> str:
    """A value in words, to be read aloud.

    >>> in_words(Fraction(96), "in-lb")
    'ninety-six inch-pounds'
    """
    return f"{_said(value)} {_unit_word(value, unit)}"


def describe(term: Term) -> str:
    """A whole reading in words, one stage after the other.

    >>> from torqref.quantity.reading import read_term
    >>> term = read_term("30 N·m + 90°")
    >>> isinstance(term, Term) and describe(term)
    'thirty newton metres, then a further ninety degrees'
    """
    return ", then ".join(_stage(stage, number) for number, stage in enumerate(term.stages))


def _stage(stage: Stage, number: int) -> str:
    if isinstance(stage, Hand):
        return "loosen fully" if stage.loosen else "by hand until seated"
    if isinstance(stage, Angle):
        return _angle_in_words(stage, number)
    return _torque_in_words(stage)


def _torque_in_words(torque: Torque) -> str:
    low, target, high, unit = torque.low, torque.target, torque.high, torque.unit
    if low is not None and high is not None:
        window = f"{_said(low)} to {in_words(high, unit)}"
        return f"{in_words(torque.aim, unit)} ({window})" if torque.is_nominal else window
    limit = f"at most {in_words(high, unit)}" if high is not None else ""
    limit = f"at least {in_words(low, unit)}" if low is not None else limit
    return ", ".join(part for part in (in_words(target, unit) if target is not None else "", limit) if part)


def _angle_in_words(angle: Angle, number: int) -> str:
    is_back = angle.aim < 0
    lead = "back off" if is_back else "a further" if number else "turn"
    low, high = (None if value is None else abs(value) for value in (angle.low, angle.high))
    low, high = (high, low) if is_back else (low, high)
    value = None if angle.degrees is None else in_words(abs(angle.degrees), "°")
    if low is not None and high is not None:
        window = f"{_said(low)} to {in_words(high, '°')}"
        return f"{lead} {value} ({window})" if value else f"{lead} {window}"
    limit = f"at most {in_words(high, '°')}" if high is not None else ""
    limit = f"at least {in_words(low, '°')}" if low is not None else limit
    return f"{lead} {', '.join(part for part in (value, limit) if part)}"


def _said(value: Fraction) -> str:
    return number_in_words(value, decimals_of(value))


def _unit_word(value: Fraction, unit: str) -> str:
    row = BY_SYMBOL[unit]
    return row.word if value == 1 else row.words


def _digits(scaled: int, decimals: int) -> str:
    """A number counted in its last digit, written out with a point."""
    sign, text = "−" if scaled < 0 else "", str(abs(scaled)).rjust(decimals + 1, "0")
    whole, tail = (text[:-decimals], text[-decimals:]) if decimals else (text, "")
    return f"{sign}{whole}.{tail}" if tail else f"{sign}{whole}"
