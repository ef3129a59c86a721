"""What a person types for the parts on the drive square: an adapter of the rack, or offsets with angles.

One part is `OFFSET[@ANGLE]` (`38mm@45`, `1.5 in`), an adapter of the rack by its id (`flare-17@90`),
`extension`, `joint[@BEND]` or a multiplier `4:1 [EFFICIENCY]`; several in a row are joined with `+`.
"""

from __future__ import annotations

import re
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.quantity.length import read_length
from torqref.quantity.term import Length
from torqref.wrench.adapter import Extension, Joint, Multiplier, Part, Piece, turned
from torqref.wrench.rack import Adapter, Rack

_NUMBER = re.compile(r"^([+\-−–]?)\s*(\d{1,9}(?:[.,]\d{1,6})?)\s*(?:°|º|˚|deg|degrees?)?$", re.IGNORECASE)
_SHARE = re.compile(r"^±?\s*(\d{1,3}(?:[.,]\d{1,4})?)\s*%$")
_RATIO = re.compile(r"^(\d{1,4}(?:[.,]\d{1,4})?)\s*:\s*(\d{1,4}(?:[.,]\d{1,4})?)$")
# A ratio with what is said behind it: `4:1 90 %`, `4:1 at 90 %`, `4:1, 0.9`.
_RATIO_FIRST = re.compile(r"^(.*?:\s*[\d.,]*\d)\s*,?\s*(?:(?:at|efficiency)\b)?\s*(.*)$", re.IGNORECASE)
_BARE_SHARE = re.compile(r"^(?:0?[.,]\d{1,4}|1(?:[.,]0{1,4})?)$")
_NOUGHT = re.compile(r"^0+(?:[.,]0*)?$")
_SIGNS = ("-", "−", "–")
_DIRECTIONS = {"out": Fraction(0), "straight": Fraction(0), "across": Fraction(90), "back": Fraction(180)}
_EXTENSIONS = ("extension", "straight extension", "socket")
_JOINTS = ("joint", "universal joint", "u-joint")
_LONGEST_TEXT = 200
# Longer than any wrench or adapter, whatever the unit: the unit was mistaken. Our own limit.
_LONGEST = {"mm": 3000, "cm": 300, "m": 3, "in": 120, "ft": 10}


def read_pieces(text: str, rack: Rack | None = None) -> tuple[Part, ...] | Refusal:
    """The parts on the drive square as a person writes them, from the wrench outwards.

    Args:
        text: one part, or several joined with `+`.
        rack: where adapters are looked up by their id.

    >>> pieces = read_pieces("6 in + 1.5 in@90")
    >>> [(piece.offset.text, int(piece.angle)) for piece in pieces]
    [('6 in', 0), ('1.5 in', 90)]
    """
    if len(text) > _LONGEST_TEXT:
        return Refusal(text=text[:_LONGEST_TEXT], message=f"more than {_LONGEST_TEXT} characters")
    parts: list[Part] = []
    for word in text.split("+"):
        found = _read_part(word.strip(), rack or Rack())
        if isinstance(found, Refusal):
            return found
        parts.extend(found)
    return tuple(parts)


def read_angle(text: str) -> Fraction | Refusal:
    """The angle of an adapter in degrees, 0 to 180, with or without its sign, or `out`, `across`, `back`.

    >>> read_angle("45°"), read_angle("back")
    (Fraction(45, 1), Fraction(180, 1))
    """
    word = text.strip().casefold()
    if word in _DIRECTIONS:
        return _DIRECTIONS[word]
    found = _NUMBER.match(word)
    if found is None:
        return Refusal(
            text=text,
            message=f'"{text}" is not an angle; degrees from straight out are expected',
            readings=("0 (away from your hand)", "90 (across)", "180 (back towards it)"),
        )
    angle = _decimal(found[2]) * (-1 if found[1] in _SIGNS else 1)
    return angle if 0 <= angle <= 180 else _outside(text, angle)


def read_share(text: str) -> Fraction | Refusal:
    """A share written in percent.

    >>> read_share("4 %")
    Fraction(1, 25)
    """
    found = _SHARE.match(text.strip())
    if found is None:
        return Refusal(text=text, message=f'"{text}" is not a percentage', readings=("4 %",))
    return _decimal(found[1]) / 100


def read_ratio(text: str) -> Fraction | Refusal:
    """The ratio of a multiplier, turns in for one turn out.

    >>> read_ratio("4:1")
    Fraction(4, 1)
    """
    found = _RATIO.match(text.strip())
    ratio = _decimal(found[1]) / _decimal(found[2]) if found and _decimal(found[2]) else Fraction(0)
    if ratio < 1:
        message = f'"{text}" is not the ratio of a multiplier; turns in for one turn out are expected'
        return Refusal(text=text, message=message, readings=("4:1", "4:1 90 %"))
    return ratio


def read_efficiency(text: str) -> Fraction | Refusal:
    """The share of the torque that a multiplier passes on, in percent or as a number up to 1.

    >>> read_efficiency("90 %"), read_efficiency("0.9")
    (Fraction(9, 10), Fraction(9, 10))
    """
    bare = text.strip()
    share = _decimal(bare) if _BARE_SHARE.match(bare) else read_share(bare)
    if isinstance(share, Refusal):
        message = f'"{text}" is not an efficiency; a percentage or a share of 1 is expected'
        return Refusal(text=text, message=message, readings=("90 %",))
    if not 0 < share <= 1:
        message = "an efficiency is more than 0 % and at most 100 %"
        return Refusal(text=text, message=message, readings=("90 %",))
    return share


def read_offset(text: str) -> Length | Refusal:
    """The offset of a piece; none at all may be written as 0, and 0 of any unit is the same."""
    if _NOUGHT.match(text.strip()):
        return Length(value=Fraction(0), unit="mm", decimals=0, text=text.strip())
    if text.strip().startswith(_SIGNS):
        bare = text.strip().lstrip("-−– ")
        return Refusal(
            text=text,
            message=f'"{text}" is a negative offset; a crowfoot that points back has an angle of 180°',
            readings=(f"{bare}@180",),
        )
    length = read_length(text)
    if isinstance(length, Refusal):
        return length
    if length.value > _LONGEST[length.unit]:
        return Refusal(
            text=text, message=f"{length.text} is longer than any wrench or adapter: look at the unit"
        )
    return length


def read_handle(text: str) -> Length | Refusal:
    """The effective length of a wrench, from the centre of the drive square to the mark on the grip.

    >>> handle = read_handle("290 mm")
    >>> isinstance(handle, Length) and handle.value
    Fraction(290, 1)
    """
    length = None if text.strip().startswith(_SIGNS) else read_offset(text)
    if isinstance(length, Refusal) or (length is not None and length.value):
        return length
    return Refusal(text=text, message=f'"{text}" is no length of a wrench', readings=("290 mm",))


def _read_part(word: str, rack: Rack) -> tuple[Part, ...] | Refusal:
    body, mark, angle_text = (piece.strip() for piece in word.partition("@"))
    if not body:
        return Refusal(
            text=word,
            message="a part is missing; an offset with its unit is expected",
            readings=("38mm", "1.5 in@90"),
        )
    if mark and not angle_text:
        return Refusal(text=word, message="an angle is missing after @", readings=(f"{body}@90",))
    if adapter := rack.adapter(body):
        return _of_rack(adapter, angle_text)
    if body.casefold() in _EXTENSIONS:
        return (Extension(text=body),)
    if body.casefold() in _JOINTS:
        return _joint(angle_text)
    if ":" in body:
        return _multiplier(body, angle_text)
    return _piece(body, angle_text, rack)


def _of_rack(adapter: Adapter, angle_text: str) -> tuple[Part, ...] | Refusal:
    if not angle_text:
        return adapter.pieces
    angle = read_angle(angle_text)
    return angle if isinstance(angle, Refusal) else turned(adapter.pieces, angle)


def _piece(body: str, angle_text: str, rack: Rack) -> tuple[Part, ...] | Refusal:
    offset = read_offset(body)
    if isinstance(offset, Refusal):
        return _or_adapter(body, offset, rack)
    angle = read_angle(angle_text) if angle_text else Fraction(0)
    return angle if isinstance(angle, Refusal) else (Piece(offset=offset, angle=angle),)


def _or_adapter(body: str, refusal: Refusal, rack: Rack) -> Refusal:
    """Text without any digit is meant as a name: the adapters there are, not the units of a length."""
    if body.lstrip("-−–.+ ")[:1].isdigit():
        return refusal
    known = tuple(adapter.id for adapter in rack.adapters)
    where = "in the rack" if known else "and no rack with adapters was given"
    return Refusal(
        text=body, message=f'"{body}" is no adapter {where} and no length', readings=known or ("38mm",)
    )


def _joint(angle_text: str) -> tuple[Part, ...] | Refusal:
    if not angle_text:
        return (Joint(),)
    bend = read_angle(angle_text)
    return bend if isinstance(bend, Refusal) else (Joint(bend=bend),)


def _multiplier(body: str, share_text: str) -> tuple[Part, ...] | Refusal:
    """A ratio and, behind it or behind an @, how much of the torque arrives."""
    found = _RATIO_FIRST.match(body)
    ratio_text, behind = (found[1], found[2]) if found else (body, "")
    ratio = read_ratio(ratio_text)
    if isinstance(ratio, Refusal):
        return ratio
    said = " ".join(words for words in (behind, share_text) if words)
    efficiency = read_efficiency(said) if said else None
    if isinstance(efficiency, Refusal):
        offered = tuple(f"{ratio_text} {reading}" for reading in efficiency.readings)
        return Refusal(text=efficiency.text, message=efficiency.message, readings=offered)
    return (Multiplier(ratio=ratio, efficiency=efficiency),)


def _outside(text: str, angle: Fraction) -> Refusal:
    """An angle past 180° or below 0° is the same place seen from the other side: told, not guessed."""
    turned_back = abs(angle) % 360
    folded = min(turned_back, 360 - turned_back)
    same = f"{float(folded):g}"
    return Refusal(
        text=text,
        message=f"{text.strip()} is outside 0 to 180; from straight out, left or right, it is {same}°",
        readings=(same,),
    )


def _decimal(text: str) -> Fraction:
    return Fraction(text.replace(",", "."))
