"""What a reading says against the printed window: inside, or by how much it is outside, in any unit."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from torqref.quantity.term import Measure, Torque
from torqref.walk.plan import Dial
from torqref.walk.state import Progress

# Fasteners that were taken to about twice their value are suspect: judgement, no source.
SUSPECT = 2
# From here on a reading far from a bare value is told: judgement, no source.
MUCH = Fraction(1, 10)
_MICROMETRE = Fraction(1, 1000)


def window_verdict(reading: Torque, target: Torque, drag: Torque | None = None) -> str:
    """Empty when a reading lies inside the printed window, drag added; otherwise on which side it is."""
    from torqref.quantity.conversion import convert
    from torqref.quantity.limits import show_limits
    from torqref.quantity.showing import show_torque

    value = convert(reading.aim, reading.unit, target.unit)
    more = convert(drag.aim, drag.unit, target.unit) if drag else Fraction(0)
    shown = f"{show_limits(target)}{f' plus drag {show_torque(drag)}' if drag else ''}"
    if target.low is not None and value < target.low + more:
        return f"BELOW the window {shown}"
    if target.high is not None and value > target.high + more:
        return f"ABOVE the window {shown}"
    return ""


def drag_refused(drag: Torque, targets: Iterable[Torque]) -> str | None:
    """Why a drag cannot be right: it is more than the whole of the value; None where it can be."""
    from torqref.quantity.conversion import convert
    from torqref.quantity.showing import show_torque

    most = max(targets, key=lambda target: convert(target.aim, target.unit, "N·m"), default=None)
    if most is None or convert(drag.aim, drag.unit, most.unit) < most.aim:
        return None
    mend = "It is read while the nut runs down, before it seats. Look at the unit."
    return f"A drag of {show_torque(drag)} is more than the printed {most.text} itself. {mend}"


def deviation(reading: Torque, target: Torque, drag: Torque | None = None) -> str:
    """How far a reading is from a value that was printed without limits; empty where that is little.

    A bare value has no invented tolerance, so that nothing is refused; from a tenth on it is told: judgement,
    no source.
    """
    if target.low is not None or target.high is not None:
        return ""
    from torqref.quantity.conversion import convert
    from torqref.quantity.showing import show_number

    wanted = target.aim + (convert(drag.aim, drag.unit, target.unit) if drag else 0)
    off = convert(reading.aim, reading.unit, target.unit) / wanted - 1
    if abs(off) < MUCH:
        return ""
    more = "more" if off > 0 else "less"
    return f"{show_number(abs(off) * 100, 0)} % {more} than the printed {target.text}, which has no limits"


def found_verdict(reading: Torque, target: Torque) -> str:
    """What is to be thought of a torque that was found, before anything was touched."""
    from torqref.quantity.conversion import convert

    verdict = window_verdict(reading, target)
    most = target.aim if target.high is None else target.high
    if convert(reading.aim, reading.unit, target.unit) >= SUSPECT * most:
        return (
            f"{verdict or f'ABOVE {target.text}'}, about twice or more: it may be stretched, look or replace"
        )
    return verdict


def spec_at(progress: Progress, bolts: tuple[int, ...]) -> Dial | None:
    """The setting that a fastener ends with, or must have had where it is only taken apart."""
    here = progress.current.place if progress.current else ""
    for round_ in reversed(progress.plan.rounds):
        for step in round_.steps if round_.place == here else ():
            place = step.dial if step.dial >= 0 else step.spec
            if place >= 0 and (not bolts or set(step.labels) & set(bolts)):
                return progress.dials[place]
    return None


def outside_band(reading: Measure, band: Measure) -> str | None:
    """Empty when a measured reading lies in its band, else the band; None where the units do not meet."""
    value = in_unit(reading, band.unit)
    if value is None:
        return None
    outside = (band.low is not None and value < band.low) or (band.high is not None and value > band.high)
    return f"outside {band.text}" if outside else ""


def in_unit(reading: Measure, unit: str) -> Fraction | None:
    """A single reading as the number of another unit of length, or of the same unit; else None."""
    if reading.target is None or reading.unit == unit:
        return reading.target
    from torqref.quantity.conversion import convert

    try:
        given = (
            (reading.target * _MICROMETRE, "mm") if reading.unit == "µm" else (reading.target, reading.unit)
        )
        return convert(given[0], given[1], "mm") / _MICROMETRE if unit == "µm" else convert(*given, unit)
    except (KeyError, ValueError):
        return None
