"""What stands between drive and fastener, as pieces and in words; the words alone lead back to the pieces."""

from __future__ import annotations

from dataclasses import dataclass

from torqref.document.refusal import Refusal
from torqref.wrench.adapter import Part
from torqref.wrench.fitting import read_pieces
from torqref.wrench.rack import Rack

_MADE = "crowfoot "


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """What is on the drive square.

    Args:
        parts: its pieces, from the wrench outwards.
        words: what it is called in plans and records; empty for nothing.
    """

    parts: tuple[Part, ...] = ()
    words: str = ""


def adapter_of(text: str, rack: Rack) -> Fitted | Refusal:
    """An adapter of the rack by its id, or pieces written as OFFSET[@ANGLE]; empty for nothing."""
    if not text:
        return Fitted()
    adapter = rack.adapter(text)
    pieces = read_pieces(text, rack)
    if isinstance(pieces, Refusal):
        return pieces
    return Fitted(parts=pieces, words=adapter.name if adapter else f"{_MADE}{text}")


def refitted(words: str, rack: Rack) -> Fitted | Refusal:
    """The same from the words that a plan kept."""
    adapter = next((adapter for adapter in rack.adapters if adapter.name == words), None)
    if adapter is not None:
        return Fitted(parts=adapter.pieces, words=words)
    return adapter_of(words.removeprefix(_MADE), rack)
