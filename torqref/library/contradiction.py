"""Groups that say the same thing twice, and groups of one assembly that contradict each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import combinations

from torqref.document.nearest import folded
from torqref.library.group import Group
from torqref.library.pull import Pull, pulls
from torqref.library.remark import Remark
from torqref.quantity.conversion import convert, factor
from torqref.quantity.showing import show_torque

_UNITS = ("in-lb", "ft-lb", "N·m", "kgf·m", "kgf·cm")
_SAME = _NEAR = Fraction(2, 100)
_TEN = Fraction(10)


def contradictions(groups: Iterable[Group]) -> Iterator[tuple[Group, Remark]]:
    """Pairs of groups of one assembly and name, with what is to be said about the later one.

    Args:
        groups: all groups, those that stand behind another of the same id too.
    """
    for earlier, later in _pairs(groups):
        remark = _compared(earlier, later)
        if remark is not None:
            yield later, remark


def _pairs(groups: Iterable[Group]) -> Iterator[tuple[Group, Group]]:
    """Each pair that may be about one joint, once; the file that is read later comes second."""
    known: dict[tuple[str, str], list[Group]] = {}
    for group in groups:
        for word in {group.name, *group.aliases}:
            known.setdefault((folded(group.assembly), folded(word)), []).append(group)
    told: set[tuple[int, int]] = set()
    for (_, word), sharing in known.items():
        for earlier, later in combinations(sharing, 2):
            named = word in (folded(earlier.name), folded(later.name))
            if named and (id(earlier), id(later)) not in told and _may_be_one(earlier, later):
                told.add((id(earlier), id(later)))
                yield earlier, later


def _may_be_one(earlier: Group, later: Group) -> bool:
    """Whether no fact of the vehicle and no thread tells the two apart."""
    facts = dict(earlier.applies)
    for name, words in later.applies:
        if name in facts and not set(words) & set(facts[name]):
            return False
    threads = {folded(group.thread).replace(" ", "") for group in (earlier, later) if group.thread}
    return len(threads) < 2


def _compared(earlier: Group, later: Group) -> Remark | None:
    one, two = _last(earlier), _last(later)
    if one is None or two is None:
        return None
    first, second = (convert(pull.torque.aim, pull.torque.unit, "N·m") for pull in (one, two))
    where = f'"{earlier.id}" in {earlier.file}'
    if abs(first / second - 1) <= _SAME:
        if earlier.id == later.id:
            return None
        return Remark(
            key="name",
            message=f'"{later.name}" says the same as {where}',
            mend="Keep one of them: two entries drift apart.",
            severity="hint",
        )
    slip = _slip(max(first, second) / min(first, second))
    if earlier.id == later.id and not slip:
        return None  # one stands in front of the other on purpose, as the shelf says
    return Remark(
        key=two.key,
        message=f"{show_torque(two.torque)} here and {show_torque(one.torque)} for {where}{slip}",
        mend='Compare both with their pages; if both are right, write applies = { engine = ["Q"] }.',
    )


def _last(group: Group) -> Pull | None:
    found = [pull for pull in pulls(group) if pull.last]
    return found[-1] if found else None


def _slip(ratio: Fraction) -> str:
    """Which units, or which point, would explain a ratio; empty if none does."""
    for one, two in combinations(_UNITS, 2):
        known = factor(two, one)
        if abs(ratio / max(known, 1 / known) - 1) <= _NEAR:
            return f": they differ by the factor of {one} and {two}, so one unit is wrong"
    return ": they differ by ten, so a point is lost" if abs(ratio / _TEN - 1) <= _NEAR else ""
