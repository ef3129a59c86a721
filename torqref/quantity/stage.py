"""One stage of a chain: a torque, a turn, or by hand."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from torqref.quantity import doubt
from torqref.quantity.bounds import Bounds
from torqref.quantity.doubt import Before
from torqref.quantity.half import other_kind
from torqref.quantity.letters import notes_on
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.showing import plain
from torqref.quantity.spelling import spelled
from torqref.quantity.spoken import is_share
from torqref.quantity.term import Angle, Hand, Stage, Torque
from torqref.quantity.units import BY_SYMBOL
from torqref.quantity.value import read_value
from torqref.quantity.words import SMALL

LARGEST = 100_000_000
_MOST_DEGREES = 360 * 100
# A dash between two values that both have their unit.
_DASH = re.compile(r"(?<=[^\W\d]) ?- ?(?=\d)")
_DEGREES = {"°": 1, "turn": 360, "flat": 60, "point": 30}
_HAND = dict.fromkeys(
    (
        "snug", "snug tight", "snugged", "hand", "hand tight", "handtight", "finger tight", "fingertight",
        "by hand", "hand start", "run down", "run down by hand", "run down until seated", "until seated",
        "seat", "seated", "until it seats", "until it is seated", "run in by hand", "screw in by hand",
        "finger tighten", "hand tighten", "fingers", "tighten by hand", "turn by hand", "run down hand tight",
        "by hand until seated",
    ),
    True,
)  # fmt: skip
_LOOSE = dict.fromkeys(
    (
        "loosen fully", "loosen completely", "fully loosen", "completely loosen", "loosen", "slacken",
        "slacken fully", "back off", "back off fully", "back off completely", "release", "undo",
        "loosen again", "slacken off", "back off again",
    ),
    True,
)  # fmt: skip
_BACK = dict.fromkeys(
    (
        "back off", "back off by", "backoff", "backed off", "back", "back it off", "loosen", "loosen by",
        "slacken", "slacken by", "slacken off", "turn back", "turn back by", "unscrew", "undo", "release",
        "rotate back", "loosen it", "back off another", "back out",
    ),
    True,
)  # fmt: skip
_BEHIND = dict.fromkeys(
    ("back", "loose", "back off", "loosen", "looser", "backwards", "backward", "off"), True
)
_ABOUT = dict.fromkeys(
    (
        "about", "approx", "approximately", "ca", "circa", "roughly", "~", "≈", "around", "env", "environ",
        "etwa",
    ),
    True,
)  # fmt: skip
_ANTICLOCKWISE = dict.fromkeys(
    ("anticlockwise", "anti clockwise", "counterclockwise", "counter clockwise", "ccw"), True
)
_LEAD = frozenset((
    "torque", "tighten", "turn", "rotate", "spec", "value", "set", "angle", "to", "of", "further",
    "additional", "another", "more", "extra", "first", "second", "third", "fourth", "fifth", "final",
    "finally", "initial", "initially", "last", "lastly", "now", "again", "all", "bolts", "nuts", ":", "an",
    "the", "a", "by", "pull", "retorque", "retighten", "it", "them", "=", "tightening", "nominal",
    "nominally", "anzugsdrehmoment", "anziehdrehmoment", "drehmoment", "couple", "de", "serrage", "coppia",
    "di", "serraggio", "par", "apriete", "moment", "stage", "step", "pass", "round", "phase",
))  # fmt: skip
_TRAIL = frozenset((
    "turn", "turns", "rotation", "angle", "further", "more", "additional", "extra", "torque", "clockwise",
    "again", "tighter", "of", "cw", "nominal",
))  # fmt: skip
_LABELS = ("stage", "step", "pass", "round", "phase")
_LABEL_ENDS = frozenset((":", ")", ".", "=", "-"))
_ORDINALS = ("st", "nd", "rd", "th")
_NUMBERS = {word: number for number, word in enumerate(SMALL[:11]) if number}
_ORDERS = {
    word: number
    for number, word in enumerate(
        ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"), 1
    )
}
_LARGEST_BARE = 9
# No window of the handbooks seen is wider than three to one: our own limit.
_WIDE = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One stage with what the checks need.

    Args:
        stages: the stage; two where a turn is counted from finger tight.
        bounds: the numbers of a torque or turn, or None for a hand stage.
        label: the number of the stage as the text counts it, or None.
    """

    stages: tuple[Stage, ...]
    bounds: Bounds | None = None
    label: int | None = None


def read_part(scan: Scan, before: Before | None = None) -> Part | None:
    """The stage at the cursor, which goes past it; None if none begins here.

    Args:
        scan: the text.
        before: what stands before it, for a refusal that names readings.

    Raises:
        Unread: a value without a unit, of another kind, or of no one meaning.
    """
    in_bracket = before is not None and "(" in before.marks
    label = None if in_bracket else _label(scan)
    _skip_lead(scan)
    first = scan.at
    if scan.phrase(_HAND):
        return Part(stages=(Hand(text=_written(scan, first)),), label=label)
    back = bool(scan.phrase(_BACK))
    _skip_lead(scan)
    is_about = not back and bool(scan.phrase(_ABOUT))
    bounds = _value(scan)
    if bounds is not None:
        if is_about:
            scan.notes.append("The text gives the value as about; it gives no limits.")
        return replace(_judged(scan, bounds, first, before, back=back), label=label)
    scan.at = first
    if scan.phrase(_LOOSE):
        return Part(stages=(Hand(text=_written(scan, first), loosen=True),), label=label)
    return None


def _skip_lead(scan: Scan) -> None:
    """Past words that say nothing about the value; `a third of a turn` keeps its third."""
    while scan.token.text in _LEAD and not is_share(scan):
        scan.at += 1


def _value(scan: Scan) -> Bounds | None:
    """The numbers of the stage; a plus sign before an angle says no more than that it is added."""
    if scan.token.text in ("+", "-") and scan.ahead().kind in ("number", "fraction"):
        unit = spelled(scan.found, scan.at + 2, scan.folded.text, scan.known)
        is_turn = unit is not None and unit.symbol in _DEGREES
        if is_turn and scan.token.text == "+":
            scan.at += 1
        elif is_turn:
            raise _backwards(scan)
    return read_value(scan)


def _backwards(scan: Scan) -> Unread:
    start, number = scan.token.start, scan.ahead()
    written, lead = scan.written(number), scan.folded.text[: scan.token.start].rstrip()
    options: tuple[str, ...] = (f"back off {written}", written)
    if lead:
        # `30 Nm-60 Nm-90°`: the dashes may stand between stages.
        stages = _DASH.sub(" then ", lead)
        options = tuple(f"{text} then {turn}" for text in (stages, lead) for turn in reversed(options))
        options = options if stages == lead else (options[0], *options[2:])
    return Unread(
        "a turn with a minus sign", at=start, options=options, span=(0 if lead else start, number.end)
    )


def _label(scan: Scan) -> int | None:
    """`Stage 1:`, `2nd pass:`, `first pass`, `3)`: the number is a label and never a value."""
    here = scan.at
    label = _named_label(scan) if scan.accept(*_LABELS) else _ordinal_label(scan) or _bare_label(scan)
    if label is None:
        scan.at = here
    return label


def _named_label(scan: Scan) -> int | None:
    """What follows `stage`: its number, and perhaps a colon."""
    number = _label_number(scan) or _NUMBERS.get(scan.accept(*_NUMBERS))
    follows = scan.token.kind in ("number", "fraction") or (
        scan.token.kind == "word" and spelled(scan.found, scan.at, scan.folded.text, scan.known) is None
    )
    return number if number and (scan.accept(*_LABEL_ENDS) or follows) else None


def _ordinal_label(scan: Scan) -> int | None:
    """`1st:`, `2nd pass`, `third stage:`."""
    here, is_word = scan.at, scan.token.kind == "word"
    number = _ORDERS.get(scan.accept(*_ORDERS)) if is_word else _label_number(scan)
    if number and (is_word or scan.accept(*_ORDINALS)):
        is_named = bool(scan.accept(*_LABELS))
        if scan.accept(*_LABEL_ENDS) or is_named:
            return number
    scan.at = here
    return None


def _bare_label(scan: Scan) -> int | None:
    """`1) 20 N·m`, `1: 20 N·m`; but `20:25 N·m` is no label."""
    number = _label_number(scan)
    if number is None or (scan.token.text == ":" and (number > _LARGEST_BARE or not scan.ahead().gap)):
        return None
    return number if scan.accept(":", ")") else None


def _label_number(scan: Scan) -> int | None:
    """One or two digits at the cursor, which goes past them."""
    number = scan.token
    if number.kind != "number" or not number.text.isdigit() or len(number.text) > 2:
        return None
    scan.at += 1
    return int(number.text) or None


def _written(scan: Scan, first: int) -> str:
    return scan.folded.written(*scan.span(first)).rstrip(". ")


def _judged(scan: Scan, bounds: Bounds, first: int, before: Before | None, *, back: bool) -> Part:
    if bounds.unit is None:
        raise doubt.bare(scan, bounds, before)
    kind = BY_SYMBOL[bounds.unit.symbol].kind
    if kind == "angle":
        return _turn(scan, bounds, first, back=back)
    if kind != "torque":
        raise other_kind(scan, bounds, bounds.unit)
    if back:
        raise Unread("a back-off is a turn, not a torque", at=bounds.numbers[0].start)
    scan.skip(_TRAIL)
    return Part(stages=(_torque(scan, bounds),), bounds=bounds)


def _torque(scan: Scan, bounds: Bounds) -> Torque:
    """The torque of a reading, once it is sure that it is one."""
    assert bounds.unit is not None
    for number in bounds.numbers:
        if number.is_slashed:
            raise doubt.fraction_or_range(scan, bounds, bounds.unit, number)
    if min(bounds.values) <= 0:
        raise doubt.not_above_zero(scan, bounds)
    if max(bounds.values) > LARGEST:
        raise Unread("no fastener takes this much; the number is too large", at=bounds.numbers[0].start)
    if bounds.unit.symbol == "mN·m" and bounds.unit.written.startswith("M"):
        raise doubt.million(scan, bounds)
    scan.notes.extend((*notes_on(bounds.unit), *_wide(bounds)))
    return Torque(
        low=bounds.low,
        target=bounds.target,
        high=bounds.high,
        unit=bounds.unit.symbol,
        decimals=bounds.decimals,
        text=_written(scan, bounds.first),
        is_nominal=bounds.is_printed and bounds.low is not None,
    )


def _wide(bounds: Bounds) -> tuple[str, ...]:
    """`2-24 N·m`: a digit or a point may be lost where one end is many times the other."""
    low, high = bounds.low, bounds.high
    if low is None or high is None or bounds.is_printed or high < low * _WIDE:
        return ()
    times = plain(Fraction(round(high / low)))
    ends = f"from {plain(low)} to {plain(high)}"
    return (f"The range is wide, {ends}, {times} times as much; a digit or a point may be lost.",)


def _turn(scan: Scan, bounds: Bounds, first: int, *, back: bool) -> Part:
    assert bounds.unit is not None
    scan.skip(_TRAIL)
    if scan.phrase(_ANTICLOCKWISE) and not back:
        raise _anticlockwise(scan, bounds, first)
    back = bool(scan.phrase(_BEHIND)) or back
    size = _DEGREES[bounds.unit.symbol]
    _check_turn(bounds, size)
    angle = _angle(bounds, -size if back else size, _written(scan, first))
    return Part(stages=(*_past(scan), angle), bounds=bounds)


def _anticlockwise(scan: Scan, bounds: Bounds, first: int) -> Unread:
    """`90° anticlockwise`: a back-off, or a left-hand thread that tightens that way."""
    start, end = scan.span(first)
    at = scan.found[scan.at - 1].start
    value = scan.folded.text[start : bounds.numbers[-1].end]
    symbol = bounds.unit.symbol if bounds.unit else ""
    turn = f"{value}{'' if symbol == '°' else ' '}{symbol}"
    message = "anticlockwise may be a back-off, or a left-hand thread, which is said by left_hand"
    return Unread(message, at=at, options=(f"back off {turn}", turn), span=(start, end))


def _angle(bounds: Bounds, factor: int, text: str) -> Angle:
    """The turn in degrees; a back-off has its larger turn below."""
    limits = [None if value is None else value * factor for value in (bounds.low, bounds.high)]
    low, high = reversed(limits) if factor < 0 else limits
    degrees = bounds.target * factor if bounds.is_printed and bounds.target is not None else None
    return Angle(degrees=degrees, low=low, high=high, text=text)


def rebuilt(stage: Stage, bounds: Bounds, text: str) -> Stage:
    """A stage with the limits that a further part of the text gives it."""
    if isinstance(stage, Torque):
        return replace(
            stage,
            low=bounds.low,
            target=bounds.target,
            high=bounds.high,
            decimals=bounds.decimals,
            text=text,
            is_nominal=bounds.is_printed and None not in (bounds.low, bounds.high),
        )
    if isinstance(stage, Angle) and bounds.unit is not None:
        size = _DEGREES[bounds.unit.symbol]
        return _angle(bounds, -size if stage.aim < 0 else size, text)
    return stage


def _past(scan: Scan) -> tuple[Hand, ...]:
    """`1/8 turn past finger tight` is finger tight first and then the turn."""
    here = scan.at
    if not scan.accept("past", "after", "from", "beyond"):
        return ()
    first = scan.at
    if scan.phrase(_HAND):
        return (Hand(text=_written(scan, first)),)
    scan.at = here
    return ()


def _check_turn(bounds: Bounds, size: int) -> None:
    start = bounds.numbers[0].start
    if min(bounds.values) <= 0:
        raise Unread("a turn of zero or less is none", at=start)
    if max(bounds.values) * size > _MOST_DEGREES:
        raise Unread("more than a hundred turns is no stage", at=start)
