"""A plan: what a walk will ask, settled before the first bolt and kept whole in the journal.

A stage is an instruction on the page; a round is one trip round the pattern at one stage; a step is one
visit in one round, of one bolt or of bolts pulled together. The plan holds no state: `progress` folds the
events of a walk over it. It stands alone, so that a walk goes on though its library file has changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from torqref.pattern.layout import Layout
from torqref.quantity.term import Measure, Torque


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial:
    """What to set for one printed value.

    Args:
        target: the value as printed.
        wrench: id of the wrench, empty where none of the rack was named.
        wrench_name: name and mark, as one takes it from the drawer.
        value, unit, shown: the number to set, exact and as dialled.
        with_adapter: the adapter in words, empty for none.
        low, high: what arrives at the fastener, in the unit of `unit`; None where the wrench is not known.
        notes: what to mind with this setting, in full; `short` what of it a stop has room for.
        pull: how this kind of wrench is pulled; said at the first pull of a walk.
        beyond: why no wrench at hand reaches the value, which is asked about before it is pulled; empty
            where one does, and where no rack was named.
        doubt: why a value that was typed from a page cannot be right, asked about as well; empty where it
            can.
    """

    target: Torque
    value: Fraction
    unit: str
    shown: str
    wrench: str = ""
    wrench_name: str = ""
    with_adapter: str = ""
    low: Fraction | None = None
    high: Fraction | None = None
    notes: tuple[str, ...] = ()
    short: tuple[str, ...] = ()
    pull: str = ""
    beyond: str = ""
    doubt: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One visit in one round.

    Args:
        labels: the bolt, or the bolts pulled together.
        kind: kind of its stage; in a round of one bolt after the other it may change from step to step.
        dial: place of its value in the plan's dials, -1 for none.
        degrees: the turn of an angle step, negative for back.
        low, high: the limits of that turn, or None.
        note: what differs at this position in words, such as thread, length or sealant.
        thread, grade: those of this position where they differ from the plan's; empty for the plan's own.
        length: how long the bolt is, in a round in which it goes into its hole; else empty.
        spec: place of the value that this fastener must have had, where it is only taken apart; -1 for none.
    """

    labels: tuple[int, ...]
    kind: str
    dial: int = -1
    degrees: Fraction | None = None
    low: Fraction | None = None
    high: Fraction | None = None
    note: str = ""
    thread: str = ""
    grade: str = ""
    length: str = ""
    spec: int = -1


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """One trip round the pattern at one stage.

    Args:
        stage: number of the stage on the page.
        kind: kind of the stage.
        text: its value or instruction as printed.
        steps: the visits in order; empty for a wait.
        place: the place, such as `left`; empty where the group has one only.
        recheck, until_still, each_bolt: as the stage says.
        due_minutes, due: when a wait is over, and in words.
        within: minutes from the opening in which the round must be finished.
        band: what a measured reading must lie in.
        otherwise: index of the round to go back to when it does not, -1 for none.
        words: what else the stage says: hold, turn, while, state.
    """

    stage: int
    kind: str
    text: str
    steps: tuple[Step, ...] = ()
    place: str = ""
    recheck: bool = False
    until_still: bool = False
    each_bolt: bool = False
    due_minutes: Fraction | None = None
    due: str = ""
    within: Fraction | None = None
    band: Measure | None = None
    otherwise: int = -1
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WrenchFacts:
    """What the record keeps of a wrench: name, serial, and when its calibration runs out.

    `instead` is the id of a wrench in date that would do, where this one was past its date.
    """

    id: str
    name: str
    serial: str = ""
    calibration_due: str = ""
    instead: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """A remark made while it was taken apart, for when it is put together; without bolts it is about all."""

    text: str
    bolts: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything a walk of one group asks, in order.

    Args:
        group, name, assembly: what is walked.
        place: the one place asked for; empty for all of `places`.
        action: `tighten` or `loosen`.
        source: the source as one line.
        invented: practice values, to be said on every screen, card and record.
        unverified: nobody has typed the values a second time.
        generic: the order is made up and not the manufacturer's; `order_basis` says how.
        provisos: what to know of the entry itself: which variant it is for, a hole that it may strip.
        conditions: condition, one-time parts and other words for the first stop, most important first.
        cautions: cautions in words; `alone` those that stand alone.
        layout, mirrored: the picture, and the places that are drawn the other way round.
        dials, rounds: the settings and the trips.
        wrenches: facts of the wrenches used.
        reasons: what may go wrong at a bolt, chosen by digit.
        fingerprint: of the library group it was made from.
        about: state of plausibility at the vehicle: empty, or why the value cannot be right.
        value_is, drag: what the printed value means, and the drag of a locking nut; for another wrench later.
        stood: where each wrench was left by earlier walks, as (wrench, setting, time).
        answered: names of stops and questions that need not come: they were answered in another walk.
        again: why walking this place may be a slip, such as that it is done and another is open.
        remarks: what was noted when it was taken apart.
        uses: how often a set of these may be tightened in all; 0 where the page does not say.
        practice: a walk for practice, of which no record is kept.
        typed: value and arrangement as typed for a quick walk; empty for a group of the library.
    """

    group: str
    name: str
    layout: Layout
    dials: tuple[Dial, ...]
    rounds: tuple[Round, ...]
    assembly: str = ""
    place: str = ""
    places: tuple[str, ...] = ()
    action: str = "tighten"
    thread: str = ""
    grade: str = ""
    purpose: str = "clamp"
    socket: str = ""
    source: str = ""
    invented: bool = False
    unverified: bool = False
    generic: bool = False
    order_basis: str = ""
    left_hand: bool = False
    seen_from: str = ""
    mirrored: tuple[str, ...] = ()
    one_time: str = ""
    uses: int = 0
    condition: str = ""
    provisos: tuple[str, ...] = ()
    conditions: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    alone: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    after_trouble: str = "restart"
    second_check: str = ""
    threadlocker: bool = False
    locking: bool = False
    wrenches: tuple[WrenchFacts, ...] = ()
    reasons: tuple[str, ...] = ()
    fingerprint: str = ""
    about: str = ""
    value_is: str = "at fastener"
    drag: Torque | None = None
    stood: tuple[tuple[str, str, str], ...] = ()
    answered: tuple[str, ...] = ()
    again: str = ""
    remarks: tuple[Remark, ...] = ()
    practice: bool = False
    typed: tuple[str, ...] = ()

    @property
    def direction(self) -> str:
        """Which way the wrench turns in this walk, in a word."""
        # A left-hand thread tightens anticlockwise, and loosening turns either thread the other way.
        clockwise = self.left_hand == (self.action == "loosen")
        return "clockwise" if clockwise else "anticlockwise"

    @property
    def bolts(self) -> int:
        """How many bolts the picture has."""
        return len(self.layout.positions)


NO_PLAN = Plan(group="", name="", layout=Layout(positions=()), dials=(), rounds=())
