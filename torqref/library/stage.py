"""A stage: one instruction on the page, with its value as printed and what goes with it.

The kinds are one key each. A chain ("30 N·m + 90° + 90°") is read into the stages it stands for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from torqref.document.escape import escape
from torqref.document.refusal import Refusal
from torqref.document.table import Table
from torqref.library.order import order_at
from torqref.library.value import (
    angle_at,
    labels_at,
    measure_at,
    minutes_at,
    tell_doubled,
    term_at,
    torque_at,
)
from torqref.pattern.layout import Order
from torqref.quantity.reading import read_angle, read_torque
from torqref.quantity.term import Angle, Measure, Torque
from torqref.quantity.term import Stage as TermStage

KINDS = ("place", "hand", "torque", "angle", "back_off", "align", "measure", "wait", "chain")
TURNING = ("torque", "angle", "back_off", "align")
# What may stand beside the one kind of a stage.
MODIFIERS = frozenset((
    "at", "order", "recheck", "until", "each_bolt", "revisit", "within", "while", "hold", "turn", "state",
    "due", "window", "band", "else", "up_to", "back_at_most",
))  # fmt: skip
_EXAMPLES = {
    "torque": "24 N·m", "angle": "90°", "back_off": "half a turn", "chain": "30 N·m + 90° + 90°",
    "align": "to the next slot", "measure": "end play", "wait": "cold again",
}  # fmt: skip
_EXAMPLE = 'Write one of hand, torque, angle, …: torque = "24 N·m".'


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """When a wait is over, or when something is to be looked at again.

    Args:
        minutes: time to wait, None where it is counted in distance or heat cycles only.
        text: the whole condition in words.
    """

    minutes: Fraction | None
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One instruction on the page.

    Args:
        kind: `place`, `hand`, `torque`, `angle`, `back_off`, `align`, `measure` or `wait`.
        number: its number on the page, from 1; the members of a chain share it.
        text: the value as printed, or the instruction in words.
        torque: what to pull to; for `align` the most that the way forward may take.
        angle: the turn; for `align` the most to turn back.
        band: what a measured reading must lie in.
        otherwise: number of the stage to go back to when it does not; 0 for none.
        due: when a wait is over.
        at: the positions it is for; empty for all.
        order: an order of its own; None for the order of the group.
        recheck: never loosened first; still or moved is told.
        until_still: the round is repeated while any bolt moved.
        each_bolt: one bolt through this and the other stages of its chain before the next bolt.
        revisit: a position may come twice in the round.
        within: minutes in which the stage must be finished, counted from the start of the group.
        meanwhile: what to do while pulling, such as turning the hub.
        hold: what to hold with a second tool.
        turn: what to turn, such as the nut and never the bolt.
        state: the state the vehicle must be in, such as weight on the wheels.
    """

    kind: str
    number: int
    text: str
    torque: Torque | None = None
    angle: Angle | None = None
    band: Measure | None = None
    otherwise: int = 0
    due: Due | None = None
    at: tuple[int, ...] = ()
    order: Order | None = None
    recheck: bool = False
    until_still: bool = False
    each_bolt: bool = False
    revisit: bool = False
    within: Fraction | None = None
    meanwhile: str = ""
    hold: str = ""
    turn: str = ""
    state: str = ""

    @property
    def turns(self) -> bool:
        """Whether a wrench turns the fastener here, bolt by bolt."""
        return self.kind in TURNING


def read_stages(table: Table, number: int) -> tuple[Stage, ...]:
    """The stages that one `[[group.stage]]` table stands for: one, or the members of a chain."""
    kinds = [kind for kind in KINDS if table.has(kind)]
    if len(kinds) != 1:
        found = " and ".join(kinds) if kinds else "no kind of stage"
        mend = _EXAMPLE if kinds else _misspelt(table) or _EXAMPLE
        table.tell("", f"a stage has {found}, expected exactly one kind", mend)
        return ()
    kind = kinds[0]
    shared = _modifiers(table, kind, number)
    _tell_empty(table, kind)
    _tell_doubled(table, shared)
    stages = _chain(table, shared) if kind == "chain" else _READERS[kind](table, shared)
    table.close()
    return stages


def _tell_empty(table: Table, kind: str) -> None:
    """A stage that says nothing: dropped without a word it would be missing from every walk."""
    said = table.values[kind]
    if not isinstance(said, bool) and not table.text(kind).strip() and not table.told(kind):
        example = _EXAMPLES.get(kind, "what to do")
        table.tell(kind, f"the {kind} is empty", f'Write {kind} = "{example}".')


def _tell_doubled(table: Table, stage: Stage) -> None:
    """Positions of a round that come twice: a slip, unless the stage says so."""
    if not stage.revisit:
        tell_doubled(table, "at", stage.at, "; a stage may say revisit = true")


def _misspelt(table: Table) -> str:
    """`torqe = "24 N·m"`: the kind that a key nobody knows is nearest to; empty if there is none."""
    from torqref.document.nearest import nearest

    unknown = [key for key in table.values if key not in MODIFIERS]
    slips = ((key, nearest(key, KINDS)) for key in unknown)
    return next((f'Did you mean "{near}" and not "{escape(key)}"?' for key, near in slips if near), "")


def _modifiers(table: Table, kind: str, number: int) -> Stage:
    """What may stand on any stage."""
    until = table.word("until", ("still",))
    return Stage(
        kind=kind,
        number=number,
        text=table.text(kind),
        at=labels_at(table, "at"),
        order=order_at(table, "order"),
        recheck=table.flag("recheck"),
        until_still=until == "still",
        each_bolt=table.flag("each_bolt"),
        revisit=table.flag("revisit"),
        within=minutes_at(table, "within"),
        meanwhile=table.text("while"),
        hold=table.text("hold"),
        turn=table.text("turn"),
        state=table.text("state"),
        due=read_due(table.table("due")),
    )


def _torque_stage(table: Table, shared: Stage) -> tuple[Stage, ...]:
    torque = _windowed_torque(table, torque_at(table, "torque"))
    return () if torque is None else (replace(shared, torque=torque),)


def _angle_stage(table: Table, shared: Stage) -> tuple[Stage, ...]:
    angle = _windowed_angle(table, angle_at(table, "angle"))
    return () if angle is None else (replace(shared, angle=angle),)


def _back_off_stage(table: Table, shared: Stage) -> tuple[Stage, ...]:
    angle = angle_at(table, "back_off")
    return () if angle is None else (replace(shared, angle=backwards(angle)),)


def _align_stage(table: Table, shared: Stage) -> tuple[Stage, ...]:
    """Forward up to the maximum, or back at most so far: one of the two must be said."""
    forward, back = torque_at(table, "up_to"), angle_at(table, "back_at_most")
    if (forward is None) == (back is None) and not (table.told("up_to") or table.told("back_at_most")):
        table.tell(
            "align",
            "an align stage needs either the most torque forward or the most angle back",
            'Write up_to = "150 N·m" or back_at_most = "45°".',
        )
    return (replace(shared, torque=forward, angle=None if back is None else backwards(back)),)


def _measure_stage(table: Table, shared: Stage) -> tuple[Stage, ...]:
    band = measure_at(table, "band")
    return (replace(shared, band=band, otherwise=_stage_number(table, "else")),)


def _word_stage(table: Table, shared: Stage) -> tuple[Stage, ...]:
    return (shared,)


_READERS: dict[str, Callable[[Table, Stage], tuple[Stage, ...]]] = {
    "place": _word_stage,
    "hand": _word_stage,
    "torque": _torque_stage,
    "angle": _angle_stage,
    "back_off": _back_off_stage,
    "align": _align_stage,
    "measure": _measure_stage,
    "wait": _word_stage,
}


def _chain(table: Table, shared: Stage) -> tuple[Stage, ...]:
    term = term_at(table, "chain")
    return () if term is None else tuple(chained(shared, member) for member in term.stages)


def chained(shared: Stage, member: TermStage) -> Stage:
    """One member of a chain as a stage of its own."""
    if isinstance(member, Torque):
        return replace(shared, kind="torque", text=member.text, torque=member)
    if isinstance(member, Angle):
        kind = "back_off" if member.aim < 0 else "angle"
        return replace(shared, kind=kind, text=member.text, angle=member)
    return replace(shared, kind="hand", text=member.text)


def backwards(angle: Angle) -> Angle:
    """A back-off written without a minus sign as the negative turn it is."""
    if angle.aim < 0:
        return angle
    degrees = None if angle.degrees is None else -angle.degrees
    low = None if angle.high is None else -angle.high
    high = None if angle.low is None else -angle.low
    return replace(angle, degrees=degrees, low=low, high=high)


def _windowed_torque(table: Table, torque: Torque | None) -> Torque | None:
    window = table.text("window")
    if torque is None or not window:
        return torque
    together = f"{torque.text} {window}" if _is_tolerance(window) else window
    found = read_torque(together)
    if isinstance(found, Refusal):
        table.refuse("window", found, "22–26 N·m")
        return torque
    if torque.has_window and (torque.low, torque.high) != (found.low, found.high):
        table.tell(
            "window", f"{torque.text} has limits of its own, other than {window}", "Keep those of the page."
        )
        return torque
    if found.unit != torque.unit:
        table.tell("window", f"the window is in {found.unit}, the value in {torque.unit}", "Use one unit.")
        return torque
    if not _is_inside(torque.aim, found.low, found.high):
        table.tell("window", f"{torque.text} lies outside its window {window}", "Look at the page again.")
    # The value is printed, and with a window beside it is more than the middle of one.
    is_nominal = torque.is_nominal or (
        torque.target is not None and not torque.has_window and found.has_window
    )
    decimals = max(torque.decimals, found.decimals)
    return replace(torque, low=found.low, high=found.high, decimals=decimals, is_nominal=is_nominal)


def _windowed_angle(table: Table, angle: Angle | None) -> Angle | None:
    window = table.text("window")
    if angle is None or not window:
        return angle
    found = read_angle(f"{angle.text} {window}" if _is_tolerance(window) else window)
    if isinstance(found, Refusal):
        table.refuse("window", found, "±5°")
        return angle
    if not _is_inside(angle.aim, found.low, found.high):
        table.tell("window", f"{angle.text} lies outside its window {window}", "Look at the page again.")
    return replace(angle, low=found.low, high=found.high)


def _is_inside(value: Fraction, low: Fraction | None, high: Fraction | None) -> bool:
    return (low is None or low <= value) and (high is None or value <= high)


def _is_tolerance(window: str) -> bool:
    return window.lstrip().startswith(("±", "+"))


def _stage_number(table: Table, name: str) -> int:
    text = table.text(name)
    word, _, number = text.partition(" ")
    if not text or (word == "stage" and number.isascii() and number.isdigit()):
        return int(number or 0)
    table.tell(name, f'"{text}" names no stage', f'Write {name} = "stage 1".')
    return 0


_DUE_MINUTES = {"minutes": 1, "hours": 60, "days": 60 * 24}
_DUE_OTHER = {"km": "km", "miles": "miles", "heat_cycles": "heat cycles"}


def read_due(table: Table | None) -> Due | None:
    """A `due` table: hours, minutes or days, and distance or heat cycles."""
    if table is None:
        return None
    amounts = {name: table.whole(name) for name in (*_DUE_MINUTES, *_DUE_OTHER)}
    table.close()
    given = {name: amount for name, amount in amounts.items() if amount is not None}
    if any(table.told(name) for name in amounts):
        return None
    if not given or min(given.values()) <= 0:
        table.tell("", "due gives no time or distance above zero", "Write due = { hours = 4 }.")
        return None
    minutes = sum(given.get(name, 0) * size for name, size in _DUE_MINUTES.items())
    words = [f"{amount} {_DUE_OTHER.get(name, name)}" for name, amount in given.items()]
    return Due(minutes=Fraction(minutes) if minutes else None, text=" or ".join(words))
