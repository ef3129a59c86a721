"""Numbers in sentences: as many digits as help, never fewer than the page printed."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

_SIGNIFICANT = 3

Way = Literal["nearest", "down", "up"]


def figures(value: Fraction, decimals: int = 0, way: Way = "nearest") -> str:
    """A number with three significant figures, or with `decimals` places where that is more.

    Args:
        value: the exact number.
        decimals: digits after the point that the page or the scale has.
        way: `down` for an upper limit and `up` for a lower one, so that neither moves outward.

    >>> figures(Fraction(40 * 300, 338)), figures(Fraction(2404, 100), way="down")
    ('35.5', '24.0')
    """
    return fixed(value, max(decimals, _SIGNIFICANT - 1 - _magnitude(value)), way)


def printed(value: Fraction, decimals: int) -> str:
    """A number of the page with the page's digits; the middle of a range may need one more.

    >>> printed(Fraction(45, 2), 0), printed(Fraction(96), 0)
    ('22.5', '96')
    """
    exact = (value * 10**decimals).denominator == 1
    return fixed(value, decimals if exact else decimals + 1, "nearest")


def fixed(value: Fraction, places: int, way: Way = "nearest") -> str:
    """A number with exactly so many places, rounded from the exact fraction and not from a float."""
    tens = value * 10**places
    count = math.floor(tens) if way == "down" else math.ceil(tens) if way == "up" else round(tens)
    whole, rest = divmod(abs(count), 10**places)
    sign = "−" if count < 0 else ""
    return f"{sign}{whole}.{rest:0{places}d}" if places else f"{sign}{whole}"


def percent(share: Fraction, *, signed: bool = False) -> str:
    """A share in percent with one place, or none where it is whole.

    >>> percent(Fraction(4, 100)), percent(Fraction(127, 1000), signed=True)
    ('4 %', '+12.7 %')
    """
    tenths = round(share * 1000)
    text = fixed(Fraction(tenths, 10), 0 if tenths % 10 == 0 else 1)
    return f"+{text} %" if signed and tenths > 0 else f"{text} %"


def _magnitude(value: Fraction) -> int:
    """Power of ten of the first digit, between billionths and hundreds; of nothing it is 0."""
    powers = range(2, -10, -1) if value else (0,)
    return next((power for power in powers if abs(value) >= Fraction(10) ** power), 0)
