"""What ISO 6789 says about hand torque tools, as far as its figures were seen in print."""

from __future__ import annotations

import re
from fractions import Fraction

from torqref.document.refusal import Refusal

# Type II class A (setting tools, adjustable, graduated): 4 % where the largest value of the tool is above
# 10 N·m, 6 % at or below it. ISO 6789:2003, as a maker's user manual restates it; the standard itself was
# not seen, so no other class stands here.
_CLASSES: dict[str, tuple[Fraction, Fraction]] = {"II A": (Fraction(4, 100), Fraction(6, 100))}
_SMALL_TOOL_NM = Fraction(10)

# Test points as shares of the largest value: ISO 6789:2003, same restatement.
TEST_POINTS = (Fraction(1, 5), Fraction(3, 5), Fraction(1))
# The last fifth of the load goes on in this many seconds: same restatement.
LOAD_SECONDS = (Fraction(1, 2), Fraction(4))
# Temperature window of a calibration, in °C: same restatement.
TEMPERATURE = (18, 28)
# Months between calibrations, unless the user has a procedure of their own; or 5000 pulls, whichever comes
# first: ISO 6789, as a maker's articles of 2013 and 2017 restate it.
INTERVAL_MONTHS = 12
INTERVAL_PULLS = 5000
# The last digit of a display may be this share of the deviation allowed: same articles.
FINEST_DIGIT = Fraction(1, 4)
# After an overload by this share the tool is calibrated again: ISO 6789, as three calibration services
# restate it.
OVERLOAD = Fraction(1, 4)
# A calibrating device is so many times better than the tool: ISO 6789:2017, two notes of the trade press.
TIMES_BETTER = 4


def tolerance_of(text: str, largest_nm: Fraction) -> Fraction | Refusal:
    """Permissible deviation of a type and class, as a share of the reading.

    Args:
        text: type and class, such as `II A` or `Type II class A`.
        largest_nm: largest value of the tool, in N·m.

    >>> tolerance_of("Type II Class A", Fraction(60)), tolerance_of("IIA", Fraction(10))
    (Fraction(1, 25), Fraction(3, 50))
    """
    word = re.sub(r"(?i)iso\s*6789|type|class|[,.:\s]+", " ", text).split()
    name = "".join(word).upper().replace("2", "II").replace("1", "I")
    row = {key.replace(" ", ""): value for key, value in _CLASSES.items()}.get(name)
    if row is None:
        known = ", ".join(_CLASSES)
        return Refusal(
            text=text,
            message=f'"{text}" is not an ISO 6789 class whose figures are known here ({known})',
            readings=('tolerance = "4 %", from its certificate',),
        )
    return row[0] if largest_nm > _SMALL_TOOL_NM else row[1]
