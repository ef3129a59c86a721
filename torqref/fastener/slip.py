"""The slip that would explain an unusual torque: another unit, a moved point, the next row, the hexagon."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from torqref.fastener.geometry import Thread
from torqref.fastener.hexagon import threads_on
from torqref.fastener.inch_thread import series_thread
from torqref.fastener.loading import Loading
from torqref.fastener.metric_thread import coarse_thread
from torqref.fastener.series import INCH, METRIC_ROWS, UNIFIED, UNIFIED_BY_DIAMETER, UNIFIED_ROWS
from torqref.quantity.conversion import convert
from torqref.quantity.precision import decimals_of
from torqref.quantity.showing import show_number
from torqref.quantity.term import Torque

# How unlikely a slip is by its kind, added to the distance from a typical value. Foot-pounds and
# inch-pounds stand on one wrench and are taken for each other first.
_UNITS = {"N·m": 0.35, "ft-lb": 0.35, "in-lb": 0.35, "kgf·m": 0.35, "kgf·cm": 0.6}
_ONE_WRENCH = {"ft-lb", "in-lb"}
_POINT, _NEXT_ROW, _HEXAGON = 0.1, 0.15, 0.15
# Of two explanations the one that is typical counts; values at the edge of usual are named only alone.
_FAR = 1.05
_NAMED = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Candidate:
    kind: str
    words: str
    newton_metres: float
    frame: Loading
    unlikely: float

    @property
    def distance(self) -> float:
        return self.frame.closeness(self.newton_metres) + self.unlikely


def likely_slip(torque: Torque, frame: Loading) -> str:
    """What would be usual instead of a torque that is not, in words; empty if nothing is near.

    Args:
        torque: the torque as printed.
        frame: what it was held against.

    Returns:
        At most two explanations of different kinds, the likelier one first.
    """
    usual = [one for one in _candidates(torque, frame) if one.frame.state(one.newton_metres) == "usual"]
    near = [one for one in usual if one.frame.closeness(one.newton_metres) <= _FAR] or usual
    best: dict[str, _Candidate] = {}
    for one in sorted(near, key=lambda one: one.distance):
        best.setdefault(one.kind, one)
    return " or ".join(one.words for one in list(best.values())[:_NAMED])


def _candidates(torque: Torque, frame: Loading) -> Iterator[_Candidate]:
    newton_metres = float(convert(torque.aim, torque.unit, "N·m"))
    yield from _other_units(torque, frame)
    yield from _moved_points(torque, frame)
    if frame.clamps:
        for kind, thread, unlikely in _other_threads(frame.thread):
            words = f"{figure(torque.aim, torque.decimals)} {torque.unit} on {thread.designation}"
            yield _Candidate(
                kind=kind, words=words, newton_metres=newton_metres, frame=frame.on(thread), unlikely=unlikely
            )


def _other_units(torque: Torque, frame: Loading) -> Iterator[_Candidate]:
    for unit, unlikely in _UNITS.items():
        if unit != torque.unit:
            yield _Candidate(
                kind="unit",
                words=f"{figure(torque.aim, torque.decimals)} {unit}",
                newton_metres=float(convert(torque.aim, unit, "N·m")),
                frame=frame,
                unlikely=0.0 if {unit, torque.unit} == _ONE_WRENCH else unlikely,
            )


def _moved_points(torque: Torque, frame: Loading) -> Iterator[_Candidate]:
    for value in (torque.aim / 10, torque.aim * 10):
        yield _Candidate(
            kind="point",
            words=f"{figure(value, 0)} {torque.unit}",
            newton_metres=float(convert(value, torque.unit, "N·m")),
            frame=frame,
            unlikely=_POINT,
        )


def _other_threads(thread: Thread) -> Iterator[tuple[str, Thread, float]]:
    """The threads in the rows above and below, and those whose hexagon has this thread's number."""
    if thread.system == "metric":
        for diameter in _beside(thread.diameter_mm, METRIC_ROWS):
            yield "row", coarse_thread(diameter), _NEXT_ROW
        for name in threads_on(thread.diameter_mm):
            yield "hexagon", coarse_thread(Fraction(name[1:])), _HEXAGON
    elif thread.system == "unified":
        diameters = tuple(UNIFIED[size][0] for size in UNIFIED_ROWS)
        for diameter in _beside(thread.diameter_mm / INCH, diameters):
            yield "row", series_thread(UNIFIED_BY_DIAMETER[diameter], 1 if thread.coarse else 2), _NEXT_ROW


def _beside(diameter: Fraction, rows: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
    smaller = [row for row in rows if row < diameter]
    larger = [row for row in rows if row > diameter]
    return (*smaller[-1:], *larger[:1])


def figure(value: Fraction, decimals: int) -> str:
    """A number with at least as many decimals as asked for, and no more than it has.

    >>> figure(Fraction(21, 2), 0)
    '10.5'
    """
    return show_number(value, max(decimals, decimals_of(value)))
