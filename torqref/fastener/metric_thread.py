"""Reads metric thread designations (ISO 68-1, ISO 261): M8, M8x1.25, M 8 × 1, MJ6x1, 10x1.5."""

from __future__ import annotations

import re
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.fastener.geometry import Thread
from torqref.fastener.hexagon import threads_on
from torqref.fastener.series import METRIC_COARSE, METRIC_FINE

_NUMBER = r"\d{1,3}(?:[.,]\d{1,3})?"
_SHAPE = re.compile(
    rf"(?P<letter>mj?)\s*(?P<diameter>{_NUMBER})(?:\s*mm)?"
    rf"(?:\s*[x-]\s*(?P<pitch>{_NUMBER})|\s+(?P<loose>\d[.,]\d{{1,2}}))?(?:\s*mm)?"
    rf"(?:\s*x\s*(?P<length>{_NUMBER})(?:\s*mm)?)?(?:\s+(?P<series>coarse|fine))?"
)
_WITHOUT_LETTER = re.compile(
    rf"(?P<diameter>{_NUMBER})(?:\s*mm)?\s*x\s*(?P<pitch>\d[.,]\d{{1,2}}|1|2)(?:\s*mm)?"
)
_SMALLEST, _LARGEST = Fraction(1), Fraction(300)
# The steepest standard thread is M1x0.25; a number above this share of the diameter is no pitch.
_STEEPEST = Fraction(3, 10)
_FINEST_MM = Fraction(1, 5)
_SHORTEST_BOLT_MM = Fraction(3)


def read(plain: str) -> Thread | Refusal | None:
    """A metric designation in plain small letters as a thread; None if it is not of this kind."""
    if shape := _SHAPE.fullmatch(plain):
        return _sized(plain, shape.groupdict())
    if shape := _WITHOUT_LETTER.fullmatch(plain):
        found = _sized(plain, {"length": None, "loose": None, "series": None, **shape.groupdict()})
        return _noted(found, "a metric thread, written without its M")
    return None


def designation(diameter: Fraction, pitch: Fraction) -> str:
    """The designation of a metric thread, always with its pitch.

    >>> designation(Fraction(8), Fraction(5, 4))
    'M8x1.25'
    """
    return f"M{_decimal(diameter)}x{_decimal(pitch)}"


def designations() -> tuple[str, ...]:
    """All designations of the series, short and long form."""
    short = tuple(f"M{_decimal(diameter)}" for diameter in METRIC_COARSE)
    coarse = tuple(designation(*pair) for pair in METRIC_COARSE.items())
    fine = tuple(designation(diameter, pitch) for diameter, row in METRIC_FINE.items() for pitch in row)
    return short + coarse + fine


def coarse_thread(diameter: Fraction, notes: tuple[str, ...] = ()) -> Thread:
    """The coarse thread of a standard diameter in mm."""
    return _thread(diameter, METRIC_COARSE[diameter], notes)


def _sized(plain: str, shape: dict[str, str | None]) -> Thread | Refusal:
    diameter = _value(shape["diameter"]) or Fraction(0)
    pitch = _value(shape["pitch"] or shape["loose"])
    if not _SMALLEST <= diameter <= _LARGEST:
        return _refuse(plain, f"a metric thread is {_SMALLEST} to {_LARGEST} mm in diameter")
    if pitch is None:
        return _bare(plain, diameter, shape["series"] or "")
    if _FINEST_MM <= pitch <= diameter * _STEEPEST:
        return _pitched(diameter, pitch, _value(shape["length"]))
    return _not_a_pitch(plain, diameter, pitch)


def _bare(plain: str, diameter: Fraction, series: str) -> Thread | Refusal:
    fine = tuple(designation(diameter, pitch) for pitch in METRIC_FINE.get(diameter, ()))
    if series == "fine":
        return _refuse(plain, "a fine thread is written with its pitch", fine)
    if diameter in METRIC_COARSE:
        return coarse_thread(diameter)
    on_hexagon = threads_on(diameter)
    name = f"M{_decimal(diameter)}"
    if on_hexagon and diameter.denominator == 1:
        message = (
            f"{name} has no coarse pitch; a {_decimal(diameter)} mm hexagon usually sits on {on_hexagon[0]}"
        )
        return _refuse(plain, message, tuple(_long(thread) for thread in on_hexagon) + fine)
    return _refuse(
        plain, f"{name} has no coarse pitch, so the pitch has to be written", fine or _neighbour(diameter)
    )


def _pitched(diameter: Fraction, pitch: Fraction, length: Fraction | None) -> Thread:
    notes: tuple[str, ...] = ()
    usual = _usual_pitches(diameter)
    if not usual:
        seat = "".join(
            f" ({_decimal(diameter)} mm is also the hexagon of {name})" for name in threads_on(diameter)[:1]
        )
        notes = (f"{_decimal(diameter)} mm is a diameter of no metric series{seat}; is it meant so?",)
    elif pitch not in usual:
        known = ", ".join(_decimal(other) for other in usual)
        notes = (
            f"{_decimal(pitch)} mm is no usual pitch of M{_decimal(diameter)} ({known}); is it meant so?",
        )
    if length is not None:
        notes += (f"{_decimal(length)} is read as the length of the bolt.",)
    return _thread(diameter, pitch, notes)


def _not_a_pitch(plain: str, diameter: Fraction, number: Fraction) -> Thread | Refusal:
    """`M8x30` names a length of 30 mm; `M8x125` may be a length or a lost point; `M8x0` is neither."""
    lost_point = tuple(
        designation(diameter, pitch)
        for pitch in _usual_pitches(diameter)
        if pitch.denominator > 1 and number in (pitch * 10, pitch * 100)
    )
    coarse = diameter in METRIC_COARSE
    if coarse and not lost_point and number.denominator == 1 and number >= _SHORTEST_BOLT_MM:
        return coarse_thread(
            diameter, (f"{_decimal(number)} is read as the length of the bolt in mm, not as pitch.",)
        )
    readings = lost_point + ((f"M{_decimal(diameter)}",) if coarse else ())
    return _refuse(plain, f"{_decimal(number)} mm cannot be the pitch of M{_decimal(diameter)}", readings)


def _usual_pitches(diameter: Fraction) -> tuple[Fraction, ...]:
    coarse = METRIC_COARSE.get(diameter)
    return (() if coarse is None else (coarse,)) + METRIC_FINE.get(diameter, ())


def _thread(diameter: Fraction, pitch: Fraction, notes: tuple[str, ...]) -> Thread:
    return Thread(
        designation=designation(diameter, pitch),
        system="metric",
        diameter_mm=diameter,
        pitch_mm=pitch,
        coarse=METRIC_COARSE.get(diameter) == pitch,
        notes=notes,
    )


def _noted(found: Thread | Refusal, note: str) -> Thread | Refusal:
    from dataclasses import replace

    if isinstance(found, Refusal):
        return found
    return replace(found, notes=(f"Read as {found.designation}, {note}.", *found.notes))


def _long(short: str) -> str:
    """`M8` with its pitch; an inch thread as it is."""
    return (
        designation(Fraction(short[1:]), METRIC_COARSE[Fraction(short[1:])])
        if short.startswith("M")
        else short
    )


def _neighbour(diameter: Fraction) -> tuple[str, ...]:
    nearest = min(METRIC_COARSE, key=lambda other: (abs(other - diameter), other))
    return (designation(nearest, METRIC_COARSE[nearest]),)


def _refuse(plain: str, message: str, readings: tuple[str, ...] = ()) -> Refusal:
    return Refusal(text=plain, message=message, readings=tuple(dict.fromkeys(readings)))


def _value(text: str | None) -> Fraction | None:
    return None if text is None else Fraction(text.replace(",", "."))


def _decimal(value: Fraction) -> str:
    """An exact short decimal: 8, 1.25, 0.7."""
    return f"{float(value):g}"
