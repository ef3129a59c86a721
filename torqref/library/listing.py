"""What finding needs of each library file: the words of its groups, so that few are looked at closely.

A word that was typed is looked for in the words of a file, then in those of its groups. Only groups that hold
all of it are ranked. Where nothing holds it as it was typed, all groups are searched for slips.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.document.toml import parse_document, read_file
from torqref.library.entry import Entry, Facts, entry_with, facts_in
from torqref.library.search import FIELDS, Index, Match, stands_in
from torqref.library.sought import Sought, folded_text, read_sought, value_in, words_of

# A group with its words, each with a blank before and behind it.
Item = tuple[str, Facts]
# A value as printed, and the share by which a rule of its page lowers it.
Printed = tuple[str, str]

_PLACES = tuple(place for place, _ in FIELDS.values())
# A smaller library is read anew in the time of a look into an index; a larger one has none.
WORTH, MOST = 256 * 1024, 64 * 1024 * 1024
_TEXT_END = "\x00"  # no text of a library holds it: it is escaped


class Looked:
    """What is looked for, with what was learnt of printed values meanwhile: many groups print the same."""

    __slots__ = ("_meeting", "sought")

    def __init__(self, sought: Sought) -> None:
        """Nothing is learnt yet."""
        self.sought = sought
        self._meeting: dict[Printed, tuple[bool, ...]] = {}

    def is_in(self, words: str, values: Iterable[Printed]) -> bool:
        """Whether words and values hold all of it as it was typed."""
        for word in self.sought.words:
            if not stands_in(word, words):
                return False
        if not self.sought.values:
            return True
        meeting = [self._meets(printed) for printed in values]
        return bool(meeting) and all(map(any, zip(*meeting, strict=True)))

    def _meets(self, printed: Printed) -> tuple[bool, ...]:
        """Which of the values looked for a printed one means."""
        if printed not in self._meeting:
            known = value_in(*printed)
            self._meeting[printed] = tuple(
                known is not None and known.meets(value) for value in self.sought.values
            )
        return self._meeting[printed]


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """One library file as finding sees it.

    Args:
        file: its name as the user knows it.
        ids: of its groups, in their order.
        words: of all its groups, each with a blank before and behind it.
        values: what its groups print.
        items: reads its groups; called only where the rest says that one may be wanted.
    """

    file: str
    ids: tuple[str, ...]
    words: str
    values: tuple[Printed, ...]
    items: Callable[[], Sequence[Item]]

    def entries(self, looked: Looked) -> Iterator[Entry]:
        """The groups that hold what is looked for as it was typed, and no others."""
        if looked.is_in(self.words, self.values):
            for words, facts in self.items():
                if looked.is_in(words, _printed(facts)):
                    yield entry_with(facts, self.file)


def read_listing(data: bytes, file: str) -> Listing | Problem:
    """The listing of a library file; a file that is no TOML comes back as its problem."""
    document = parse_document(data, file)
    return document if isinstance(document, Problem) else listing_of(facts_in(document), file)


def listing_of(facts: Iterable[Facts], file: str) -> Listing:
    """The listing of groups whose fields are at hand; of one id the last one counts."""
    by_id = {group["id"]: group for group in facts}
    groups = tuple(by_id.values())
    texts = [tuple(_texts(group)) for group in groups]
    words = _words_by_text({text: None for each in texts for text in each})
    items = tuple(
        (f" {' '.join([words[text] for text in each])} ", group)
        for each, group in zip(texts, groups, strict=True)
    )
    return Listing(
        file=file,
        ids=tuple(by_id),
        words=f" {' '.join(words.values())} ",
        values=tuple({printed: None for group in groups for printed in _printed(group)}),
        items=lambda: items,
    )


def find_in(listings: Sequence[Listing], text: str) -> tuple[Match, ...]:
    """The groups of these files that fit, best first, as an `Index` of all of them finds them.

    Args:
        listings: files in the order they are looked through, later ones shadowing earlier ones.
        text: what was typed; all groups where that is nothing.
    """
    sought = read_sought(text)
    holding = standing(listings, Looked(sought))
    if not sought.words and not sought.values:
        return tuple(Match(entry=entry, matched=()) for entry in holding)
    found = Index.of(holding).as_typed(sought)
    return found or Index.of(standing(listings)).search(text)


def standing(listings: Sequence[Listing], looked: Looked | None = None) -> tuple[Entry, ...]:
    """The groups of these files, or those that hold what is looked for, but none that a later one shadows."""
    wanted = looked or Looked(read_sought(""))
    owners: dict[str, Listing] = {}
    for listing in listings:
        owners.update(dict.fromkeys(listing.ids, listing))
    entries = {
        entry.id: entry
        for listing in listings
        for entry in listing.entries(wanted)
        if owners.get(entry.id) is listing
    }
    return tuple(entries[identity] for identity in owners if identity in entries)


def _printed(facts: Facts) -> Iterator[Printed]:
    lowered = facts.get("lowered", "")
    return ((text, lowered) for text in facts.get("values", ()))


def _words_by_text(texts: Iterable[str]) -> dict[str, str]:
    """The words of each text with blanks between them; folded in one go, which takes a fifth of the time."""
    each = tuple(texts)
    folded = folded_text(_TEXT_END.join(each)).split(_TEXT_END) if each else ()
    return {text: " ".join(words_of(plain)) for text, plain in zip(each, folded, strict=True)}


def _texts(facts: Facts) -> Iterator[str]:
    for place in _PLACES:
        held = facts.get(place, "")
        if isinstance(held, str):
            yield held
        elif place != "values" or not facts.get("lowered"):
            yield from held


def read_listings(
    paths: Sequence[Path], index: Path | None = None
) -> tuple[tuple[Listing, ...], tuple[Problem, ...]]:
    """The listings of files in their order; and what cannot be read or is no TOML.

    Args:
        paths: the files; each of them is read.
        index: where a large library keeps what was read of the same bytes before; None to work it out anew.
    """
    files = [(escape(str(path)), read_file(path)) for path in paths]
    size = sum(len(data) for _, data in files if isinstance(data, bytes))
    if index is not None and WORTH <= size <= MOST:
        # Most libraries are small and do not pay for it.
        from torqref.library.memory import listings_by

        read = tuple(listings_by(index, files))
    else:
        read = tuple(data if isinstance(data, Problem) else read_listing(data, file) for file, data in files)
    return (
        tuple(each for each in read if isinstance(each, Listing)),
        tuple(each for each in read if isinstance(each, Problem)),
    )
