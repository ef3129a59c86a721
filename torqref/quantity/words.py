"""Numbers in English words, so that a value read aloud cannot lose its decimal point."""

from __future__ import annotations

from fractions import Fraction

SMALL = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
TENS = ("zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_GROUPS = (("million", 1_000_000), ("thousand", 1_000), ("hundred", 100))


def number_in_words(value: Fraction, decimals: int) -> str:
    """A number rounded to so many decimals, in words.

    >>> number_in_words(Fraction(1255, 10), 1)
    'one hundred and twenty-five point five'
    """
    scaled = round(abs(value) * 10**decimals)
    whole, rest = divmod(scaled, 10**decimals)
    digits = str(rest).rjust(decimals, "0").rstrip("0") if decimals else ""
    spoken = " ".join(SMALL[int(digit)] for digit in digits)
    sign = "minus " if value < 0 else ""
    return f"{sign}{whole_in_words(whole)}{' point ' + spoken if spoken else ''}"


def whole_in_words(number: int) -> str:
    """A whole number in words.

    >>> whole_in_words(96)
    'ninety-six'
    """
    for name, size in _GROUPS:
        if number >= size:
            above, rest = divmod(number, size)
            joint = " and " if rest and rest < 100 else " "
            tail = f"{joint}{whole_in_words(rest)}" if rest else ""
            return f"{whole_in_words(above)} {name}{tail}"
    return _under_hundred(number)


def _under_hundred(number: int) -> str:
    if number < len(SMALL):
        return SMALL[number]
    tens, ones = divmod(number, 10)
    return f"{TENS[tens]}-{SMALL[ones]}" if ones else TENS[tens]
