"""Finding groups by what a person remembers: words in any order, aliases, a thread, a value, the source.

Words may be cut short or typed with a slip. Everything typed has to be found; what was found where is told.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
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

# Fields with their place in an entry and how much they say about a group, 0 the most.
FIELDS = {
    "id": ("id", 0),
    "name": ("name", 1),
    "alias": ("aliases", 2),
    "thread": ("thread", 1),
    "value": ("values", 4),
    "class": ("grade", 3),
    "socket": ("socket", 3),
    "applies": ("applies", 3),
    "assembly": ("assembly", 3),
    "condition": ("condition", 4),
    "source": ("source", 4),
}
# How a word was found: the word itself, its beginning, its inside, a longer number, a slip. They are so far
# apart that no field makes up for it: the word itself comes before one that is only near.
_SAME, _BEGINNING, _INSIDE, _LONGER, _SLIP = 0, 1000, 2000, 3000, 4000
_ROUNDED = 500  # a value that is the same but for the rounding of a page
_NAMED = 100  # less for a group that is named by a word that need not be found
_SHORTEST_INSIDE = 3
_SHORTEST_JOINED = 6
# How far a search goes: words as they were typed; with near ones for those that are nowhere; slips for all.
_AS_TYPED, _NEAR, _SLIPS = range(3)

Hits = dict[int, tuple[int, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A group that fits.

    Args:
        entry: its texts.
        matched: what was found and where, such as `alias: header`, or `name: "head" for "hedd"`.
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
    joined: list[tuple[tuple[str, str], ...]] = field(default_factory=list)

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
        for name, text in texts_of(entry):
            hit = (FIELDS[name][1], f"{name}: {text}")
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
        return self._found(sought, _NEAR) or self._found(sought, _SLIPS)

    def as_typed(self, sought: Sought) -> tuple[Match, ...]:
        """The same as far as everything is found as it was typed, no number cut short and no slip."""
        return self._found(sought, _AS_TYPED)

    def _found(self, sought: Sought, reach: int) -> tuple[Match, ...]:
        found: dict[int, tuple[int, tuple[str, ...]]] = dict.fromkeys(range(len(self.entries)), (0, ()))
        for hits in self._hits(sought, reach):
            found = {
                number: (found[number][0] + rank, tuple(dict.fromkeys((*found[number][1], said))))
                for number, (rank, said) in hits.items()
                if number in found
            }
        named = [self._named_so(word) for word in sought.spare]
        ranked = sorted(
            found.items(),
            key=lambda item: (item[1][0] - _NAMED * sum(item[0] in each for each in named), item[0]),
        )
        return tuple(Match(entry=self.entries[number], matched=said) for number, (_, said) in ranked)

    def _hits(self, sought: Sought, reach: int) -> Iterable[Hits]:
        yield from (self._word_hits(word, reach) for word in sought.words)
        yield from (self._value_hits(value) for value in sought.values)

    def _word_hits(self, word: str, reach: int) -> Hits:
        """Where a word is found; a slip is thought of only where the word itself is nowhere, or in vain.

        A number is found as that number; a longer one is taken only where that number is nowhere.
        """
        best: Hits = {}
        longer: list[str] = []
        for known, hits in self.places.items():
            rank = _rank(word, known)
            if rank == _LONGER:
                longer.append(known)
            elif rank is not None:
                _take(best, hits, rank)
        if reach == _AS_TYPED:
            return best
        for known in () if best else longer:
            _take(best, _named(self.places[known], known, word), _LONGER)
        if not best or reach == _SLIPS:
            self._take_slips(best, word)
        return best

    def _named_so(self, word: str) -> set[int]:
        """The groups that have a word in their name, as a torque rod has."""
        last = FIELDS["alias"][1]
        return {number for number, (rank, _) in self._word_hits(word, _AS_TYPED).items() if rank <= last}

    def _take_slips(self, best: Hits, word: str) -> None:
        for known, hits in self.places.items():
            if is_slip(word, known):
                _take(best, _named(hits, known, word), _SLIP)
        for number, names in enumerate(self._joined() if len(word) >= _SHORTEST_JOINED else ()):
            for said, joined in names:
                if word in joined:
                    _take(best, {number: (0, said)}, _INSIDE)

    def _joined(self) -> list[tuple[tuple[str, str], ...]]:
        """Names and aliases without their blanks, for "waterpump"; worked out when first wanted."""
        for entry in self.entries[len(self.joined) :]:
            called = (("name", entry.name), *(("alias", alias) for alias in entry.aliases))
            self.joined.append(tuple((f"{name}: {text}", "".join(_words(text))) for name, text in called))
        return self.joined

    def _value_hits(self, value: Value) -> Hits:
        best: Hits = {}
        ranks: dict[tuple[str, str], int | None] = {}
        for number, entry in enumerate(self.entries):
            for text in entry.values:
                printed = (text, entry.lowered)
                if printed not in ranks:
                    ranks[printed] = _value_rank(*printed, value)
                rank = ranks[printed]
                if rank is not None:
                    less = f" less {entry.lowered}" if entry.lowered else ""
                    _take(best, {number: (0, f"value: {text}{less}")}, rank)
        return best


@lru_cache(maxsize=4096)
def _words(text: str) -> tuple[str, ...]:
    """The words of a text; assemblies, classes and sockets are the same in many groups."""
    return tuple(words_of(folded_text(text)))


def texts_of(entry: Entry) -> Iterator[tuple[str, str]]:
    """Every text of an entry with the name of its field; a lowered value stands nowhere as it is."""
    for name, (place, _) in FIELDS.items():
        held = getattr(entry, place)
        if isinstance(held, str):
            yield name, held
        elif name != "value" or not entry.lowered:
            yield from ((name, text) for text in held)


def _rank(word: str, known: str) -> int | None:
    """How a typed word is found in a known one, or None."""
    if known.startswith(word):
        if len(known) == len(word) or is_size(word, known):
            return _SAME
        return _LONGER if is_cut_number(word, known) else _BEGINNING
    return _INSIDE if _is_inside_word(word) and word in known else None


def stands_in(word: str, words: str) -> bool:
    """Whether a word is found as it was typed among others, each with a blank before and behind it.

    >>> stands_in("8", " capscrew 8.8 "), stands_in("8", " 8.8 8 "), stands_in("crew", " capscrew ")
    (False, True, True)
    """
    if _is_inside_word(word):
        return word in words
    at = words.find(f" {word}")
    while at >= 0 and _rank(word, words[at + 1 : words.index(" ", at + 1)]) == _LONGER:
        at = words.find(f" {word}", at + 1)
    return at >= 0


def _is_inside_word(word: str) -> bool:
    return len(word) >= _SHORTEST_INSIDE and word.isalpha()


def _value_rank(text: str, lowered: str, value: Value) -> int | None:
    """How a value is found in a printed one, or None."""
    known = value_in(text, lowered)
    if known is None or not known.meets(value):
        return None
    if known.low + known.high == value.low + value.high:
        return _SAME
    return _ROUNDED if known.aims_at(value) else _BEGINNING


def _named(hits: Hits, known: str, word: str) -> Hits:
    """The same, saying which word was taken for the one that was typed."""
    return {
        number: (weight, f'{said.partition(":")[0]}: "{known}" for "{word}"')
        for number, (weight, said) in hits.items()
    }


def _take(best: Hits, hits: Hits, rank: int) -> None:
    for number, (weight, said) in hits.items():
        if number not in best or rank + weight < best[number][0]:
            best[number] = (rank + weight, said)


def search(words: Iterable[str], groups: Iterable[Group]) -> tuple[Match, ...]:
    """Groups in which everything typed is found, best first; whoever asks often keeps an `Index`."""
    return Index.of(entry_of(group) for group in groups).search(" ".join(words))
