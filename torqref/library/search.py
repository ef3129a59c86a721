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
    wanted = folded(words)
    found = (_match(wanted, group) for group in groups)
    return tuple(match for match in found if match is not None)


def folded(words: Iterable[str]) -> list[str]:
    """The words as they are compared, without those of signs alone."""
    return [plain for plain in map(_fold, words) if plain]


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
