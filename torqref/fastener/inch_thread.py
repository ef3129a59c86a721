"""Reads unified inch thread designations (ASME B1.1): 3/8-16 UNC, 1/4-28, #10-24, No. 10, .375-16, 1-8."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.fastener.geometry import Thread
from torqref.fastener.series import INCH, UNIFIED, UNIFIED_BY_DIAMETER, UNIFIED_CONSTANT

_TPI = r"\d{1,2}(?:\.\d)?"
_SERIES = r"unj?r?(?:c|ef|f|s)?|\d{1,2}\s?un|nc|nef|nf|ns|coarse|fine|extra fine"
_REST = (
    rf"(?:\s*(?P<gap>[-x]|\s)\s*(?P<tpi>{_TPI})(?P<mark>\")?(?:\s*tpi)?)?"
    rf"(?:\s*-?\s*(?P<series>{_SERIES}))?(?:\s*x\s*(?P<length>[\d/. -]+)\"?)?"
)
_NUMBERED = re.compile(rf"(?:#|no\.?|nr\.?|number)\s*(?P<number>\d{{1,2}}){_REST}")
_INCHES = re.compile(
    r"(?:(?:(?P<whole>\d)[\s-]+)?(?P<over>\d{1,2})/(?P<under>\d{1,2})|(?P<decimal>\d?\.\d{1,4})|(?P<unit>\d))"
    rf"(?P<inch>\s*\")?{_REST}"
)
_BARE_PAIR = re.compile(rf"(?P<number>\d{{1,2}})-(?P<tpi>\d{{2}})(?:\s*-?\s*(?P<series>{_SERIES}))?")
# `UNC 3/8-16` and `3/8 UNC 16`: the series before the rest, or before the threads per inch
_SERIES_FIRST = re.compile(rf"^(?P<series>{_SERIES})\s*-?\s*(?P<rest>[#\d.].*)$")
_SERIES_EARLY = re.compile(rf"^(?P<size>[#\d./ -]+?)\"?\s*-?\s*(?P<series>{_SERIES})\s*-?\s*(?P<tpi>{_TPI})$")
_KINDS = {"c": 1, "f": 2, "ef": 3}
_NAMES = ("", "UNC", "UNF", "UNEF")
_STEEPEST = Fraction(3, 10)
_FINEST_TPI = 80


def read(plain: str) -> Thread | Refusal | None:
    """An inch designation in plain small letters as a thread; None if it is not of this kind."""
    plain = _SERIES_EARLY.sub(
        r"\g<size>-\g<tpi> \g<series>", _SERIES_FIRST.sub(r"\g<rest> \g<series>", plain)
    )
    if (shape := _BARE_PAIR.fullmatch(plain)) and (found := _bare_pair(shape)):
        return found
    if shape := _NUMBERED.fullmatch(plain):
        return _sized(plain, f"#{int(shape['number'])}", shape.groupdict())
    if shape := _INCHES.fullmatch(plain):
        diameter = _inches(shape)
        if _is_screw_number(shape):
            return _screw_or_fraction(plain, shape, diameter)
        if shape["unit"] and not shape["tpi"] and not shape["inch"]:
            return None
        return _sized(plain, UNIFIED_BY_DIAMETER.get(diameter, ""), shape.groupdict())
    return None


def designations() -> tuple[str, ...]:
    """All designations of the coarse and fine series."""
    return tuple(
        f"{size}-{row[kind]} {_NAMES[kind]}" for size, row in UNIFIED.items() for kind in (1, 2) if row[kind]
    )


def series_thread(size: str, kind: int, notes: tuple[str, ...] = ()) -> Thread:
    """The thread of a size (`3/8`, `#10`) in the coarse (1), fine (2) or extra-fine (3) series."""
    return _thread(size, UNIFIED[size][kind], notes)


def _bare_pair(shape: re.Match[str]) -> Thread | None:
    """`10-24` and `8-32` are screw numbers where the series has that pair; `1-14` is one inch."""
    row = UNIFIED.get(f"#{int(shape['number'])}")
    if row is None or Fraction(shape["tpi"]) not in row[1:]:
        return None
    return _thread(f"#{int(shape['number'])}", Fraction(shape["tpi"]), ())


def _inches(shape: re.Match[str]) -> Fraction:
    if shape["decimal"]:
        return Fraction(shape["decimal"])
    if shape["unit"]:
        return Fraction(shape["unit"])
    under = int(shape["under"])
    part = Fraction(int(shape["over"]), under) if under else Fraction(0)
    return int(shape["whole"] or 0) + part


def _is_screw_number(shape: re.Match[str]) -> bool:
    """`10/32` is written for #10-32 and is no fraction anybody puts on a bolt."""
    return bool(shape["over"]) and math.gcd(int(shape["over"]), int(shape["under"])) > 1


def _screw_or_fraction(plain: str, shape: re.Match[str], diameter: Fraction) -> Refusal:
    screw, size = f"#{int(shape['over'])}", UNIFIED_BY_DIAMETER.get(diameter, "")
    readings = (
        (f"{screw}-{shape['under']}",) if Fraction(shape["under"]) in UNIFIED.get(screw, ())[1:] else ()
    )
    return _refuse(
        plain,
        "this may be a screw number or a fraction",
        readings + _in_series(size)[:1] if size else readings,
    )


def _sized(plain: str, size: str, shape: dict[str, str | None]) -> Thread | Refusal:
    if size not in UNIFIED:
        return _refuse(plain, "this is no size of the unified inch series", _near_sizes(plain))
    kind = _kind(shape["series"] or "")
    tpi = None if shape["tpi"] is None else Fraction(shape["tpi"])
    if tpi is None:
        return _by_series(plain, size, kind, shape)
    if shape["gap"] == "x" and tpi not in UNIFIED[size][1:]:
        return _pitch_or_length(plain, size, kind, shape, tpi)
    return _pitched(plain, size, kind, tpi, shape["length"])


def _kind(series: str) -> int:
    """1 coarse, 2 fine, 3 extra fine, 0 where the series word does not say."""
    words = {"coarse": 1, "fine": 2, "extra fine": 3}
    ending = re.sub(r"^(?:unj?r?|n)", "", series)
    return words.get(series, _KINDS.get(ending, 0))


def _by_series(plain: str, size: str, kind: int, shape: dict[str, str | None]) -> Thread | Refusal:
    wanted = kind or 1
    if not UNIFIED[size][wanted]:
        return _refuse(plain, f"{size} has no {_NAMES[wanted]} pitch", _in_series(size))
    thread = series_thread(size, wanted)
    notes = () if kind else (f"{size} alone is read as coarse, {thread.designation}.",)
    return series_thread(size, wanted, notes + _length_note(shape["length"]))


def _pitch_or_length(
    plain: str, size: str, kind: int, shape: dict[str, str | None], number: Fraction
) -> Thread | Refusal:
    """`3/8 x 2` names a length of two inches; `3/8 x 12` could be either and is refused."""
    shown = f"{float(number):g}"
    if shape["mark"] or 1 / number > UNIFIED[size][0] * _STEEPEST:
        return _by_series(plain, size, kind, {**shape, "length": shown})
    readings = (f"{size}-{shown}", *_in_series(size))
    return _refuse(plain, f"{shown} may be threads per inch or a length here", readings)


def _pitched(plain: str, size: str, kind: int, tpi: Fraction, length: str | None) -> Thread | Refusal:
    row = UNIFIED[size]
    shown = f"{float(tpi):g}"
    if not tpi or 1 / tpi > row[0] * _STEEPEST or tpi > _FINEST_TPI:
        return _refuse(plain, f"{shown} cannot be the threads per inch of {size}", _in_series(size))
    if kind and row[kind] and row[kind] != tpi:
        message = f"{_NAMES[kind]} of {size} has {float(row[kind]):g} threads per inch, not {shown}"
        return _refuse(plain, message, _in_series(size))
    notes = _length_note(length)
    if tpi not in row[1:] and tpi not in (*UNIFIED_CONSTANT, 14):
        known = ", ".join(f"{float(other):g}" for other in row[1:] if other)
        notes = (
            f"{shown} is no usual number of threads per inch for {size} ({known}); is it meant so?",
            *notes,
        )
    return _thread(size, tpi, notes)


def _thread(size: str, tpi: Fraction, notes: tuple[str, ...]) -> Thread:
    row = UNIFIED[size]
    constant = "UN" if tpi in UNIFIED_CONSTANT else "UNS"
    name = next((_NAMES[kind] for kind in (1, 2, 3) if row[kind] == tpi), constant)
    return Thread(
        designation=f"{size}-{float(tpi):g} {name}",
        system="unified",
        diameter_mm=row[0] * INCH,
        pitch_mm=INCH / tpi,
        coarse=row[1] == tpi,
        notes=notes,
    )


def _in_series(size: str) -> tuple[str, ...]:
    row = UNIFIED[size]
    return tuple(f"{size}-{float(row[kind]):g} {_NAMES[kind]}" for kind in (1, 2, 3) if row[kind])[:2]


def _near_sizes(plain: str) -> tuple[str, ...]:
    from torqref.document.nearest import nearest

    near = nearest(plain, designations())
    return (near,) if near else ()


def _length_note(length: str | None) -> tuple[str, ...]:
    return () if length is None else (f"{length.strip()} is read as the length of the bolt in inches.",)


def _refuse(plain: str, message: str, readings: tuple[str, ...] = ()) -> Refusal:
    return Refusal(text=plain, message=message, readings=tuple(dict.fromkeys(readings)))
