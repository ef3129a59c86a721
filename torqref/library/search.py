"""Finding groups by what a person remembers: words in any order, aliases, a thread, a value, the source.

Words may be cut short or typed with a slip. Everything typed has to be found; what was found where is told.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from torqref.library.entry import Entry, entry_of
from torqref.library.likeness import is_slip
from torqref.library.sought import (
    Sought,
    Value,
    folded_text,
    is_cut_number,
    is_size,
    read_sought,
    value_in,
    words_of,
)

if TYPE_CHECKING:
    from torqref.library.group import Group

# Fields in the order of how much they say about a group; what is found in an earlier one comes first.
FIELDS = (
    "id",
    "name",
    "alias",
    "thread",
    "value",
    "class",
    "socket",
    "applies",
    "assembly",
    "condition",
    "source",
)
_WEIGHTS = dict(zip(FIELDS, (0, 1, 2, 1, 4, 3, 3, 3, 3, 4, 4), strict=True))
# How a word was found: the word itself, its beginning, its inside, a longer number, a slip. They are so far
# apart that no field makes up for it: the word itself comes before one that is only near.
_SAME, _BEGINNING, _INSIDE, _LONGER, _SLIP = 0, 1000, 2000, 3000, 4000
_ROUNDED = 500  # a value that is the same but for the rounding of a page
_SHORTEST_INSIDE = 3
_SHORTEST_JOINED = 6

Hits = dict[int, tuple[int, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A group that fits.

    Args:
        entry: its texts.
        matched: what was found and where, such as `alias: header`.
    """

    entry: Entry
    matched: tuple[str, ...]

    @property
    def group(self) -> Group:
        """The group itself, where the search was among groups."""
        assert self.entry.group is not None
        return self.entry.group


@dataclass(slots=True)
class Index:
    """The words of many groups, each with where it stands; made once, asked with every key."""

    entries: list[Entry] = field(default_factory=list)
    places: dict[str, Hits] = field(default_factory=dict)
    joined: list[str] = field(default_factory=list)

    @classmethod
    def of(cls, entries: Iterable[Entry]) -> Index:
        """The index of these entries."""
        index = cls()
        for entry in entries:
            index.add(entry)
        return index

    def add(self, entry: Entry) -> None:
        """Take in one more entry."""
        number = len(self.entries)
        self.entries.append(entry)
        # "waterpump" is looked for in the names without their blanks.
        self.joined.append(" ".join("".join(_words(text)) for text in (entry.name, *entry.aliases)))
        for name, text in texts_of(entry):
            hit = (_WEIGHTS[name], f"{name}: {text}")
            for word in _words(text):
                hits = self.places.setdefault(word, {})
                if number not in hits or hit < hits[number]:
                    hits[number] = hit

    def grown(self, groups: Iterable[Group]) -> Index:
        """The index of these groups: this one with what is new, where its groups are the first of them."""
        all_ = list(groups)
        known = len(self.entries)
        if known > len(all_) or any(
            one.group is not two for one, two in zip(self.entries, all_, strict=False)
        ):
            return Index.of(entry_of(group) for group in all_)
        for group in all_[known:]:
            self.add(entry_of(group))
        return self

    def search(self, text: str) -> tuple[Match, ...]:
        """The groups in which everything typed is found, best first; all of them where nothing is typed."""
        sought = read_sought(text)
        found = self._found(sought, slips=False) or self._found(sought, slips=True)
        ranked = sorted(found.items(), key=lambda item: (item[1][0], item[0]))
        return tuple(Match(entry=self.entries[number], matched=said) for number, (_, said) in ranked)

    def _found(self, sought: Sought, *, slips: bool) -> dict[int, tuple[int, tuple[str, ...]]]:
        found: dict[int, tuple[int, tuple[str, ...]]] = dict.fromkeys(range(len(self.entries)), (0, ()))
        for hits in self._hits(sought, slips):
            found = {
                number: (found[number][0] + rank, tuple(dict.fromkeys((*found[number][1], said))))
                for number, (rank, said) in hits.items()
                if number in found
            }
        return found

    def _hits(self, sought: Sought, slips: bool) -> Iterable[Hits]:
        yield from (self._word_hits(word, slips) for word in sought.words)
        yield from (self._value_hits(value) for value in sought.values)

    def _word_hits(self, word: str, slips: bool) -> Hits:
        """Where a word is found; a slip is thought of only where the word itself is nowhere, or in vain.

        A number is found as that number; a longer one is taken only where that number is nowhere.
        """
        best: Hits = {}
        longer: list[Hits] = []
        for known, hits in self.places.items():
            rank = _rank(word, known)
            if rank == _LONGER:
                longer.append(hits)
            elif rank is not None:
                _take(best, hits, rank)
        for hits in () if best else longer:
            _take(best, hits, _LONGER)
        if not best or slips:
            for known, hits in self.places.items():
                if is_slip(word, known):
                    _take(best, hits, _SLIP)
            for number, joined in enumerate(self.joined):
                if len(word) >= _SHORTEST_JOINED and word in joined:
                    _take(best, {number: (0, f"name: {self.entries[number].name}")}, _INSIDE)
        return best

    def _value_hits(self, value: Value) -> Hits:
        best: Hits = {}
        for number, entry in enumerate(self.entries):
            for text in entry.values:
                known = value_in(text, entry.lowered)
                if known is not None and known.meets(value):
                    rank = _value_rank(known, value)
                    less = f" less {entry.lowered}" if entry.lowered else ""
                    _take(best, {number: (0, f"value: {text}{less}")}, rank)
        return best


@lru_cache(maxsize=4096)
def _words(text: str) -> tuple[str, ...]:
    """The words of a text; assemblies, classes and sockets are the same in many groups."""
    return tuple(words_of(folded_text(text)))


def texts_of(entry: Entry) -> tuple[tuple[str, str], ...]:
    """Every text of an entry with the name of its field."""
    return (
        ("id", entry.id),
        ("name", entry.name),
        *(("alias", alias) for alias in entry.aliases),
        ("thread", entry.thread),
        *(("value", value) for value in entry.values if not entry.lowered),
        ("class", entry.grade),
        ("socket", entry.socket),
        *(("applies", fact) for fact in entry.applies),
        ("assembly", entry.assembly),
        ("condition", entry.condition),
        ("source", entry.source),
    )


def _rank(word: str, known: str) -> int | None:
    """How a typed word is found in a known one, or None."""
    if known.startswith(word):
        if len(known) == len(word) or is_size(word, known):
            return _SAME
        return _LONGER if is_cut_number(word, known) else _BEGINNING
    is_inside = len(word) >= _SHORTEST_INSIDE and word.isalpha() and word in known
    return _INSIDE if is_inside else None


def _value_rank(known: Value, value: Value) -> int:
    if known.low + known.high == value.low + value.high:
        return _SAME
    return _ROUNDED if known.aims_at(value) else _BEGINNING


def _take(best: Hits, hits: Hits, rank: int) -> None:
    for number, (weight, said) in hits.items():
        if number not in best or rank + weight < best[number][0]:
            best[number] = (rank + weight, said)


def search(words: Iterable[str], groups: Iterable[Group]) -> tuple[Match, ...]:
    """Groups in which everything typed is found, best first; whoever asks often keeps an `Index`."""
    return Index.of(entry_of(group) for group in groups).search(" ".join(words))
