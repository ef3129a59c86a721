"""A place in a text that is being read: what stands there, and how to go on or to give up."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol, TypeVar

from torqref.quantity.folding import Folded
from torqref.quantity.spelling import FOREIGN, Spelled, spelled
from torqref.quantity.token import Token, tokens

V = TypeVar("V")
OPEN, CLOSE = ("(", "["), (")", "]")
_LONGEST_PHRASE = 5
_EXPONENTS = frozenset(("2", "3", "²", "³", "^"))
_USUAL = ("N·m", "ft-lb", "in-lb")


class Placed(Protocol):
    """Anything with a place in the folded text."""

    @property
    def start(self) -> int:
        """Index of its first character."""

    @property
    def end(self) -> int:
        """Index after its last character."""


class Unread(Exception):
    """Raised inside the grammar only; `reading` turns it into a refusal.

    Args:
        message: what was found and what was expected, without a full stop.
        at: index in the folded text of the first thing not understood, or None.
        options: what could be written instead of the part `span`.
        span: first index of that part and the index after it; the whole text if empty.
        topic: what is asked; where the rest of the text asks the same, the same option is taken.
    """

    def __init__(
        self,
        message: str,
        *,
        at: int | None = None,
        options: tuple[str, ...] = (),
        span: tuple[int, int] | None = None,
        topic: str = "",
    ) -> None:
        """Keep what the refusal needs."""
        super().__init__(message)
        self.message, self.at, self.options, self.span = message, at, options, span
        self.topic = topic


class Scan:
    """A cursor over the tokens of one folded text, with the units it may meet and the notes it makes."""

    __slots__ = ("at", "folded", "found", "known", "notes")

    def __init__(self, folded: Folded, known: Mapping[str, str]) -> None:
        """Begin before the first token."""
        self.folded, self.known = folded, known
        self.found, self.at = tokens(folded.text), 0
        self.notes: list[str] = []

    @property
    def token(self) -> Token:
        """The token at the cursor."""
        return self.found[self.at]

    def ahead(self, count: int = 1) -> Token:
        """The token so many places further on."""
        return self.found[min(self.at + count, len(self.found) - 1)]

    def is_done(self) -> bool:
        """Whether everything was read."""
        return self.token.kind == "end"

    def accept(self, *texts: str) -> str:
        """Go past the token if it is one of these; returns it or an empty string."""
        text = self.token.text
        if text in texts and self.token.kind in ("word", "sign"):
            self.at += 1
            return text
        return ""

    def skip(self, texts: frozenset[str]) -> None:
        """Go past every token that is one of these."""
        while self.token.text in texts:
            self.at += 1

    def phrase(self, meanings: Mapping[str, V]) -> V | None:
        """The meaning of the longest known phrase that begins here; the cursor goes past it."""
        best: tuple[V, int] | None = None
        key, position = "", self.at
        for _ in range(_LONGEST_PHRASE):
            token = self.found[position]
            if token.kind not in ("word", "sign"):
                break
            key = f"{key} {token.text}" if key else token.text
            position += 1
            if key in meanings:
                best = meanings[key], position
            if self.found[position].text in ("-", ".") and self.found[position + 1].kind == "word":
                position += 1
        if best is None:
            return None
        meaning, self.at = best
        self.skip_stop()
        return meaning

    def skip_stop(self) -> None:
        """Go past the full stop of an abbreviation or of the end."""
        if self.token.text == "." and not self.token.gap:
            self.at += 1

    def unit(self) -> Spelled | None:
        """The unit that stands here; the cursor goes past it and its full stop.

        Raises:
            Unread: the letters name a unit of something else, such as an energy or a pressure.
        """
        hyphen = self.token.text == "-" and not self.token.gap and self.ahead().kind == "word"
        at = self.at + hyphen
        match = spelled(self.found, at, self.folded.text, self.known)
        other = spelled(self.found, at, self.folded.text, FOREIGN)
        if other and (match is None or other.after > match.after):
            raise self._foreign(other, at)
        if match is None:
            return None
        self._check_power(match, at)
        self.at = match.after
        self.skip_stop()
        return match

    def _check_power(self, match: Spelled, at: int) -> None:
        """`kg/cm2`, `N/m²`, `Nm²`: a unit with an exponent is none of ours."""
        behind = self.found[match.after]
        if behind.gap or behind.text not in _EXPONENTS:
            return
        if behind.text == "^" and self.found[match.after + 1].kind == "number":
            behind = self.found[match.after + 1]
        start, end = self.found[at].start, behind.end
        message = f'"{self.folded.text[start:end]}" is no unit that is known here'
        raise Unread(message, at=start, options=_USUAL, span=(start, end))

    def _foreign(self, other: Spelled, at: int) -> Unread:
        start = self.found[at].start
        message = f'"{other.written}" is the unit of {FOREIGN[other.key]}'
        # What surveyors call a grad is a degree to others.
        options = _USUAL if FOREIGN[other.key] != FOREIGN["grad"] else ("°",) if "grad" in other.key else ()
        return Unread(message, at=start, options=options, span=(start, self.found[other.after - 1].end))

    def left_over(self, message: str) -> Unread:
        """What stands behind a text that could end here; it may go where no number goes with it."""
        start, end = self.token.start, len(self.folded.text)
        numbered = any(token.kind == "number" for token in self.found[self.at :])
        return Unread(message, at=start, options=() if numbered else ("",), span=(start, end))

    def written(self, part: Placed) -> str:
        """The folded text of a part of it."""
        return self.folded.text[part.start : part.end]

    def span(self, first: int) -> tuple[int, int]:
        """The part of the folded text from a token up to the cursor."""
        return self.found[first].start, self.found[self.at - 1].end
