"""Checks of the values of a group: plausible for the fastener, for the hole, and for a real wrench."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from torqref.document.problem import Severity
from torqref.document.refusal import Refusal
from torqref.fastener.grade import Grade, read_grade
from torqref.fastener.plausibility import Plausibility, State, judge
from torqref.fastener.stripping import is_without_estimate, read_material
from torqref.fastener.thread import Thread, read_thread
from torqref.library.group import Group
from torqref.library.hole import strippings
from torqref.library.pull import Pull, fasteners, pulls, stage_key
from torqref.library.remark import Remark, of_refusal
from torqref.quantity.length import read_length
from torqref.quantity.reading import read_term
from torqref.quantity.showing import show_torque
from torqref.quantity.term import Torque
from torqref.wrench.figure import percent
from torqref.wrench.rack import ORDINARY_TOLERANCE

_SEVERITIES: dict[State, Severity] = {
    "low": "warning",
    "high": "warning",
    "beyond-yield": "warning",
    "cannot-be-right": "error",
}
# Purposes whose fastener carries a clamp load that can be counted.
_PURPOSES = '"seal", "adjust", "drive" or "sensor"'


def check_fasteners(group: Group) -> Iterator[Remark]:
    """Threads and classes that cannot be read, or that were read in an unusual way."""
    pulled = any(True for _ in pulls(group))
    for named, fastener in fasteners(group):
        if not fastener.thread:
            if pulled and group.purpose == "clamp":
                yield Remark(
                    key=named.rstrip("."),
                    message="no thread is given, so nobody can see whether the value is plausible",
                    mend='Write thread = "M8x1.25", and class = "8.8" where the page says it.',
                    severity="hint",
                )
            continue
        thread = read_thread(fastener.thread)
        if isinstance(thread, Refusal):
            yield of_refusal(f"{named}thread", thread)
            continue
        for note in thread.notes:
            mend = f'Write thread = "{thread.designation}".'
            yield Remark(key=f"{named}thread", message=note.rstrip("."), mend=mend, severity="hint")
        grade = read_grade(fastener.grade, thread) if fastener.grade else None
        if isinstance(grade, Refusal):
            yield of_refusal(f"{named}class", grade)


def check_plausible(group: Group) -> Iterator[Remark]:
    """Values that are far too little or too much for their fastener, each told once."""
    told: set[tuple[str, str, str]] = set()
    for pull in pulls(group):
        thread = read_thread(pull.fastener.thread) if pull.fastener.thread else None
        if not isinstance(thread, Thread) or group.value_is != "at fastener":
            continue
        found = _judged(group, pull, thread, pull.torque)
        what = (pull.named, show_torque(pull.torque), found.state)
        if what in told or not _is_told(found.state, pull):
            continue
        told.add(what)
        if found.state != "usual":
            yield _implausible(group, pull, found)
        elif _is_bare(pull):
            yield from _with_error(group, pull, thread)


def _is_told(state: State, pull: Pull) -> bool:
    # A first pass of several is little by its nature; only the last one has to clamp.
    return state != "low" or pull.last


def _is_bare(pull: Pull) -> bool:
    torque = pull.torque
    return torque.target is not None and torque.low is None and torque.high is None


def _judged(group: Group, pull: Pull, thread: Thread, torque: Torque) -> Plausibility:
    return _verdict(torque, thread, pull.fastener.grade, group.purpose, group.condition, pull.then_angle)


@lru_cache(maxsize=4096)
def _verdict(
    torque: Torque, thread: Thread, grade: str, purpose: str, condition: str, then_angle: bool
) -> Plausibility:
    """Judged once: a whole library pulls the same fasteners to the same values again and again."""
    found = read_grade(grade, thread) if grade else None
    return judge(
        torque,
        thread,
        found if isinstance(found, Grade) else None,
        purpose=purpose,
        condition=condition,
        then_angle=then_angle,
    )


def _implausible(group: Group, pull: Pull, found: Plausibility) -> Remark:
    severity = _SEVERITIES[found.state]
    # A second person has read the same on the page: what is left is that the page itself may be wrong.
    settled = severity == "warning" and bool(group.source.verified_by)
    page = f"Does the page say {found.likely_slip}?" if found.likely_slip else "Look at the page again."
    at = ", ".join(str(label) for label in pull.fastener.at)
    other = f" If it is right and does not clamp, write purpose = {_PURPOSES}."
    return Remark(
        key=pull.key,
        message=(f"at {at}: " if at else "") + found.sentence.rstrip("."),
        mend=page + (other if group.purpose == "clamp" and found.state in ("low", "high") else ""),
        severity="hint" if settled else severity,
    )


def _with_error(group: Group, pull: Pull, thread: Thread) -> Iterator[Remark]:
    """A value without limits that is usual itself and would not be with the error of a wrench on top."""
    most = pull.torque.aim * (1 + ORDINARY_TOLERANCE)
    found = _judged(group, pull, thread, replace(pull.torque, target=most))
    if found.state != "usual":
        yield Remark(
            key=pull.key,
            message=(
                f"{show_torque(pull.torque)} has no limits, and with {_TOLERANCE} of an ordinary wrench "
                f"on top it is more than is usual for {thread.designation}"
            ),
            mend='Write what the page allows: window = "…".',
            severity="hint",
        )


_TOLERANCE = f"±{percent(ORDINARY_TOLERANCE)}"


def check_windows(group: Group) -> Iterator[Remark]:
    """Windows so narrow that an ordinary wrench cannot be sure to stay inside.

    What a standard prints is left alone: its range cannot be mended by whoever reads this.
    """
    if group.source.kind == "published":
        return
    for pull in pulls(group):
        low, high = pull.torque.low, pull.torque.high
        if low is None or high is None or low / (1 - ORDINARY_TOLERANCE) <= high / (1 + ORDINARY_TOLERANCE):
            continue
        half = percent((high - low) / (high + low))
        yield Remark(
            key=pull.key,
            message=f"the limits leave ±{half}, and an ordinary wrench is good for {_TOLERANCE}",
            mend="Look at the page; if the limits are right, a wrench with a closer certificate is needed.",
            severity="hint",
        )


def check_holes(group: Group) -> Iterator[Remark]:
    """A parent that cannot be read, and a value that would strip it: a steel chart used for a soft hole."""
    material = read_material(group.parent.material) if group.parent.material else None
    depth = read_length(group.parent.engagement) if group.parent.engagement else None
    if isinstance(material, Refusal) and not is_without_estimate(material.text):
        yield of_refusal("parent.material", material)
    if isinstance(depth, Refusal):
        yield of_refusal("parent.engagement", depth)
    for key, sentence in strippings(group):
        message, _, mend = sentence.partition(": ")
        yield Remark(key=key, message=message, mend=f"{mend[:1].upper()}{mend[1:]}")


def check_texts(group: Group) -> Iterator[Remark]:
    """Values read in an unusual way, and equivalents that are a little off."""
    for stage in group.stages:
        found = read_term(stage.text) if stage.kind in ("torque", "angle", "back_off") else None
        for note in () if found is None or isinstance(found, Refusal) else found.notes:
            yield Remark(
                key=stage_key(group, stage),
                message=note.rstrip("."),
                mend="Compare it with the page.",
                severity="hint",
            )
