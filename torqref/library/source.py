"""Where a value comes from: document, page, who entered it and who verified it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from torqref.document.table import Table

SourceKind = Literal["published", "shop", "invented"]
PRACTICE = "PRACTICE VALUES: invented, not for any real vehicle"
UNVERIFIED = "UNVERIFIED: no second person has typed these values from the page"
DEFER = "The manufacturer's service information and licensed practice come first."
REFERENCE = "reference value: the manufacturer's own figure comes first"


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """The document a group was copied from.

    Args:
        kind: `published` (a standard or handbook), `shop` (own or manufacturer's papers), `invented`.
        title: title of the document.
        reference: page, sheet or table.
        edition: edition or date.
        seen: how the values were seen, for published ones.
        entered_by: who typed the values.
        verified_by: a second person who typed them blind, empty while nobody has.
        verified_on: date of that.
    """

    kind: str
    title: str
    reference: str = ""
    edition: str = ""
    seen: str = ""
    entered_by: str = ""
    verified_by: str = ""
    verified_on: str = ""

    @property
    def invented(self) -> bool:
        """Whether the values are practice values only."""
        return self.kind == "invented"

    def sentence(self) -> str:
        """The source as one line for a card or a record."""
        parts = [self.title, self.edition, self.reference]
        line = ", ".join(part for part in parts if part)
        marks = {"invented": PRACTICE, "published": REFERENCE}
        return f"{line} ({marks[self.kind]})" if self.kind in marks else line


NO_SOURCE = Source(kind="", title="")


def read_source(table: Table | None, inherited: Source = NO_SOURCE) -> Source:
    """A `[source]` table; what a group's own table leaves out comes from the file's."""
    if table is None:
        return inherited
    source = Source(
        kind=table.word("kind", get_args(SourceKind), inherited.kind),
        **{name: table.text(name, getattr(inherited, name)) for name in _TEXTS},
        verified_on=_date(table, inherited.verified_on),
    )
    table.close()
    return source


_TEXTS = ("title", "reference", "edition", "seen", "entered_by", "verified_by")


def _date(table: Table, inherited: str) -> str:
    """A date may be written bare, as TOML allows, or in quotes."""
    value = table.values.get("verified_on", inherited)
    table.known.add("verified_on")
    return str(value)
