"""One stage of a chain: a torque, a turn, or by hand."""

from __future__ import annotations

from dataclasses import dataclass, replace

from torqref.quantity import doubt
from torqref.quantity.bounds import Bounds
from torqref.quantity.doubt import Before
from torqref.quantity.letters import notes_on
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.spelling import spelled
from torqref.quantity.spoken import is_share
from torqref.quantity.term import Angle, Hand, Stage, Torque
from torqref.quantity.units import BY_SYMBOL
from torqref.quantity.value import read_value

LARGEST = 100_000_000
_MOST_DEGREES = 360 * 100
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
    ("about", "approx", "approximately", "ca", "circa", "roughly", "~", "≈", "around"), True
)
_LEAD = frozenset((
    "torque", "tighten", "turn", "rotate", "spec", "value", "set", "angle", "to", "of", "further",
    "additional", "another", "more", "extra", "first", "second", "third", "fourth", "fifth", "final",
    "finally", "initial", "initially", "last", "lastly", "now", "again", "all", "bolts", "nuts", ":", "an",
    "the", "a", "by", "pull", "retorque", "retighten", "it", "them", "=", "tightening",
))  # fmt: skip
_TRAIL = frozenset((
    "turn", "turns", "rotation", "angle", "further", "more", "additional", "extra", "torque", "clockwise",
    "again", "tighter", "of",
))  # fmt: skip
_LABELS = ("stage", "step", "pass", "round", "phase")
_LABEL_ENDS = frozenset((":", ")", ".", "=", "-"))
_ORDINALS = ("st", "nd", "rd", "th")


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
    written = scan.written(number)
    options = (f"back off {written}", written)
    return Unread("a turn with a minus sign", at=start, options=options, span=(start, number.end))


def _label(scan: Scan) -> int | None:
    """`Stage 1:`, `2nd pass:`, `3)`: the number is a label and never a value."""
    here = scan.at
    is_named = bool(scan.accept(*_LABELS))
    number = scan.token
    if number.kind == "number" and number.text.isdigit() and len(number.text) <= 2:
        scan.at += 1
        if not is_named and scan.accept(*_ORDINALS):
            is_named = bool(scan.accept(*_LABELS))
        ends = _LABEL_ENDS if is_named else frozenset((":", ")"))
        if scan.token.text in ends:
            scan.at += 1
            return int(number.text)
    scan.at = here
    return None


def _written(scan: Scan, first: int) -> str:
    return scan.folded.written(*scan.span(first)).rstrip(". ")


def _judged(scan: Scan, bounds: Bounds, first: int, before: Before | None, *, back: bool) -> Part:
    if bounds.unit is None:
        raise doubt.bare(scan, bounds, before)
    kind = BY_SYMBOL[bounds.unit.symbol].kind
    if kind == "angle":
        return _turn(scan, bounds, first, back=back)
    if kind != "torque":
        raise doubt.other_kind(scan, bounds, bounds.unit)
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
    scan.notes.extend(notes_on(bounds.unit))
    return Torque(
        low=bounds.low,
        target=bounds.target,
        high=bounds.high,
        unit=bounds.unit.symbol,
        decimals=bounds.decimals,
        text=_written(scan, bounds.first),
        is_nominal=bounds.is_printed and bounds.low is not None,
    )


def _turn(scan: Scan, bounds: Bounds, first: int, *, back: bool) -> Part:
    assert bounds.unit is not None
    scan.skip(_TRAIL)
    back = bool(scan.phrase(_BEHIND)) or back
    size = _DEGREES[bounds.unit.symbol]
    _check_turn(bounds, size)
    angle = _angle(bounds, -size if back else size, _written(scan, first))
    return Part(stages=(*_past(scan), angle), bounds=bounds)


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
