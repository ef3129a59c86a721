"""One stage of a chain: a torque, a turn, or by hand."""

from __future__ import annotations

from dataclasses import dataclass, replace

from torqref.quantity.bounds import Bounds, read_bounds
from torqref.quantity.letters import notes_on
from torqref.quantity.number import Amount
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.showing import plain
from torqref.quantity.spelling import Spelled
from torqref.quantity.term import Angle, Hand, Stage, Torque
from torqref.quantity.units import BY_SYMBOL

LARGEST = 100_000_000
_DEGREES = {"°": 1, "turn": 360, "flat": 60, "point": 30}
_HAND = dict.fromkeys(
    (
        "snug", "snug tight", "snugged", "hand", "hand tight", "handtight", "finger tight", "fingertight",
        "by hand", "hand start", "run down", "run down by hand", "run down until seated", "until seated",
        "seat", "seated", "until it seats", "until it is seated", "run in by hand", "screw in by hand",
        "finger tighten", "hand tighten", "fingers", "tighten by hand",
    ),
    False,
)  # fmt: skip
_LOOSE = dict.fromkeys(
    (
        "loosen fully", "loosen completely", "fully loosen", "completely loosen", "loosen", "slacken",
        "slacken fully", "back off", "back off fully", "back off completely", "release", "undo",
    ),
    True,
)  # fmt: skip
_BACK = dict.fromkeys(
    (
        "back off", "back off by", "backoff", "backed off", "back", "back it off", "loosen", "loosen by",
        "slacken", "slacken by", "slacken off", "turn back", "turn back by", "unscrew", "undo", "release",
        "rotate back", "minus",
    ),
    True,
)  # fmt: skip
_BEHIND = {"back": True, "loose": True, "back off": True, "loosen": True, "looser": True, "backwards": True}
_LEAD = frozenset((
    "torque", "tighten", "turn", "rotate", "spec", "value", "set", "angle", "to", "of", "further",
    "additional", "another", "more", "extra", "first", "second", "third", "fourth", "fifth", "final",
    "finally", "initial",
    "initially", "last", "lastly", "now", "again", "all", "bolts", "nuts", ":", "an", "the", "by", "pull",
))  # fmt: skip
_TRAIL = frozenset((
    "turn", "turns", "rotation", "angle", "further", "more", "additional", "extra", "torque", "clockwise",
    "again",
))  # fmt: skip
_LABELS = ("stage", "step", "pass", "round", "phase")
_LABEL_ENDS = frozenset((":", ")", ".", "=", "-"))
_ORDINALS = {"st", "nd", "rd", "th"}


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


def read_part(scan: Scan) -> Part | None:
    """The stage at the cursor, which goes past it; None if none begins here.

    Raises:
        Unread: a value without a unit, of another kind, or of no one meaning.
    """
    label = _label(scan)
    scan.skip(_LEAD)
    first = scan.at
    hand = _hand(scan, first)
    if hand is not None:
        return replace(hand, label=label)
    back = bool(scan.phrase(_BACK))
    scan.skip(_LEAD)
    bounds = read_bounds(scan)
    if bounds is None:
        scan.at = first
        loose = scan.phrase(_LOOSE)
        return (
            None
            if loose is None
            else Part(stages=(Hand(text=_written(scan, first), loosen=True),), label=label)
        )
    return replace(_judged(scan, bounds, first, back=back), label=label)


def _label(scan: Scan) -> int | None:
    """`Stage 1:`, `2nd pass:`, `3)`: the number is a label and never a value."""
    here = scan.at
    named = bool(scan.accept(*_LABELS))
    number = scan.token
    if number.kind != "number" or not number.text.isdigit() or len(number.text) > 2:
        scan.at = here if named else scan.at
        return None
    scan.at += 1
    if not named and scan.accept(*_ORDINALS):
        named = bool(scan.accept(*_LABELS))
    ends = _LABEL_ENDS if named else frozenset((")", ":"))
    if scan.token.text in ends and not (scan.token.text == "." and not scan.ahead().gap):
        scan.at += 1
        return int(number.text)
    scan.at = here
    return None


def _hand(scan: Scan, first: int) -> Part | None:
    if scan.phrase(_HAND) is None:
        return None
    return Part(stages=(Hand(text=_written(scan, first)),))


def _written(scan: Scan, first: int) -> str:
    return scan.folded.written(*scan.span(first)).rstrip(". ")


def _judged(scan: Scan, bounds: Bounds, first: int, *, back: bool) -> Part:
    if bounds.unit is None:
        raise without_unit(scan, bounds)
    kind = BY_SYMBOL[bounds.unit.symbol].kind
    if kind == "angle":
        return _turn(scan, bounds, first, back=back)
    if kind != "torque":
        raise _other_kind(scan, bounds, bounds.unit, kind)
    if back:
        raise Unread("a back-off is a turn, not a torque", at=bounds.numbers[0].start)
    scan.skip(_TRAIL)
    return Part(stages=(torque(scan, bounds),), bounds=bounds)


def torque(scan: Scan, bounds: Bounds) -> Torque:
    """The torque of a reading, once it is sure that it is one."""
    assert bounds.unit is not None
    for number in bounds.numbers:
        if number.is_slashed:
            raise _fraction_or_range(scan, bounds, bounds.unit, number)
    _check_size(bounds)
    if bounds.unit.symbol == "mN·m" and bounds.unit.written.startswith("M"):
        raise _mega(scan, bounds)
    scan.notes.extend(notes_on(bounds.unit))
    start, end = scan.span(bounds.first)
    return Torque(
        low=bounds.low,
        target=bounds.target,
        high=bounds.high,
        unit=bounds.unit.symbol,
        decimals=bounds.decimals,
        text=scan.folded.written(start, end).rstrip(". "),
        is_nominal=bounds.is_printed and bounds.low is not None,
    )


def _check_size(bounds: Bounds) -> None:
    symbol = bounds.unit.symbol if bounds.unit else ""
    start = bounds.numbers[0].start
    values = [value for value in (bounds.low, bounds.target, bounds.high) if value is not None]
    if bounds.low is not None and bounds.low <= 0 and len(values) > 1 and bounds.high and bounds.high > 0:
        high = bounds.numbers[-1]
        raise Unread(
            "the lower limit is not above zero; a torque is",
            at=start,
            options=(f"max {plain(high.value)} {symbol}",),
        )
    if min(values) <= 0:
        raise Unread("zero is no torque; a value above zero is expected", at=start)
    if max(values) > LARGEST:
        raise Unread("no fastener takes this much; the number is too large", at=start)


def _mega(scan: Scan, bounds: Bounds) -> Unread:
    """A capital M is a million, a small m a thousandth: nothing else in the table clashes so."""
    start, end = bounds.numbers[0].start, bounds.numbers[-1].end
    text = scan.folded.text[start:end]
    options = tuple(f"{text} {symbol}" for symbol in ("mN·m", "N·m"))
    span = (start, scan.found[scan.at - 1].end)
    return Unread("a capital M means a million newton metres", at=start, options=options, span=span)


def _turn(scan: Scan, bounds: Bounds, first: int, *, back: bool) -> Part:
    assert bounds.unit is not None
    scan.skip(_TRAIL)
    back = bool(scan.phrase(_BEHIND)) or back
    factor = _DEGREES[bounds.unit.symbol] * (-1 if back else 1)
    limits = [None if value is None else value * factor for value in (bounds.low, bounds.high)]
    low, high = reversed(limits) if back else limits
    target = bounds.target if bounds.is_printed or bounds.low is None else None
    _check_turn(bounds)
    start, end = scan.span(first)
    angle = Angle(
        degrees=None if target is None else target * factor,
        low=low,
        high=high,
        text=scan.folded.written(start, end).rstrip(". "),
    )
    return Part(stages=(*_past(scan), angle), bounds=bounds)


def _past(scan: Scan) -> tuple[Hand, ...]:
    """`1/8 turn past finger tight` is finger tight first and then the turn."""
    here = scan.at
    if not scan.accept("past", "after", "from", "beyond"):
        return ()
    first = scan.at
    if scan.phrase(_HAND) is None:
        scan.at = here
        return ()
    return (Hand(text=_written(scan, first)),)


def _check_turn(bounds: Bounds) -> None:
    values = [value for value in (bounds.low, bounds.target, bounds.high) if value is not None]
    if min(values) <= 0:
        raise Unread("a turn of zero or less is none", at=bounds.numbers[0].start)
    if max(values) * _DEGREES[bounds.unit.symbol if bounds.unit else "°"] > 360 * 100:
        raise Unread("more than a hundred turns is no stage", at=bounds.numbers[0].start)


def without_unit(scan: Scan, bounds: Bounds) -> Unread:
    """The refusal of a bare number: the number with each unit it could have."""
    start, end = bounds.numbers[0].start, bounds.numbers[-1].end
    text = scan.folded.text[start:end]
    options = tuple(f"{text} {symbol}" for symbol in ("N·m", "ft-lb", "in-lb"))
    return Unread(f'"{text}" has no unit', at=end, options=options, span=(start, end))


def _other_kind(scan: Scan, bounds: Bounds, unit: Spelled, kind: str) -> Unread:
    """A force or a length: the torque units it may be half of."""
    start, end = bounds.numbers[0].start, bounds.numbers[-1].end
    text = scan.folded.text[start:end]
    halves = [row.symbol for row in BY_SYMBOL.values() if unit.symbol in row.definition.split(" * ")]
    options = tuple(f"{text} {symbol}" for symbol in halves if BY_SYMBOL[symbol].kind == "torque")
    message = f'"{unit.written}" is a {kind}, not a torque; a torque is a force times a length'
    return Unread(message, at=start, options=options, span=scan.span(bounds.first))


def _fraction_or_range(scan: Scan, bounds: Bounds, unit: Spelled, number: Amount) -> Unread:
    text = scan.folded.text[number.start : number.end]
    one, _, other = text.partition("/")
    low, high = sorted((one, other), key=int)
    options = (f"{plain(number.value)} {unit.symbol}", f"{low}–{high} {unit.symbol}")
    span = scan.span(bounds.first)
    return Unread(f'"{text}" may be a fraction or a range', at=number.start, options=options, span=span)
