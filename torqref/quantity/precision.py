"""How many decimals a number has."""

from __future__ import annotations

from fractions import Fraction

_MOST = 4
_ENDLESS = 2


def decimals_of(value: Fraction) -> int:
    """Decimals that write a number in full, at most four; two for one that never ends.

    >>> decimals_of(Fraction(15, 2)), decimals_of(Fraction(1, 3))
    (1, 2)
    """
    return next((count for count in range(_MOST + 1) if (value * 10**count).denominator == 1), _ENDLESS)
