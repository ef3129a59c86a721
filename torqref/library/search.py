"""Finding a group by what a person remembers of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from torqref.library.group import Group


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A group that fits, and the words of it that did."""

    group: Group
    matched: tuple[str, ...]


def search(words: Iterable[str], groups: Iterable[Group]) -> tuple[Match, ...]:
    """Groups in which every word is found, in any order; all groups where no word is given."""
    wanted = [_fold(word) for word in words if _fold(word)]
    found = (_match(wanted, group) for group in groups)
    return tuple(match for match in found if match is not None)


def _match(wanted: list[str], group: Group) -> Match | None:
    matched = []
    fields = _fields(group)
    for word in wanted:
        hit = next((field for field in fields if word in _fold(field)), None)
        if hit is None:
            return None
        matched.append(hit)
    return Match(group=group, matched=tuple(dict.fromkeys(matched)))


def _fields(group: Group) -> tuple[str, ...]:
    values = tuple(stage.text for stage in group.stages if stage.turns)
    return (group.id, group.name, *group.aliases, group.thread, *values, group.assembly, group.source.title)


def _fold(text: str) -> str:
    """Small letters without the signs that people write differently."""
    return "".join(char for char in text.casefold().replace("×", "x") if char.isalnum())


_BETWEEN = "\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Index:
    """Groups made ready for many searches, such as one with every key that is typed.

    Args:
        groups: all groups in their order.
        folded: what can be found of each, folded once.
    """

    groups: tuple[Group, ...] = ()
    folded: tuple[str, ...] = ()

    @classmethod
    def of(cls, groups: Iterable[Group]) -> Index:
        """The index of these groups."""
        listed = tuple(groups)
        return cls(groups=listed, folded=tuple(_all_of(group) for group in listed))

    def search(self, words: Iterable[str]) -> tuple[Group, ...]:
        """The groups that `search` finds, in the same order."""
        wanted = [_fold(word) for word in words if _fold(word)]
        if not wanted:
            return self.groups
        pairs = zip(self.groups, self.folded, strict=True)
        return tuple(group for group, text in pairs if all(word in text for word in wanted))


def _all_of(group: Group) -> str:
    # No word holds a line end once it is folded, so that none is found across two fields.
    return _BETWEEN.join(_fold(field) for field in _fields(group))
