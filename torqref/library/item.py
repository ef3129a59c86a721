"""What a job lays out and warns of: parts, fluids, tools and cautions, each with its source."""

from __future__ import annotations

from dataclasses import dataclass

# Names with the words each may have, such as (("engine", ("Q", "R")),).
Facts = tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A part, a fluid or a tool to lay out.

    Args:
        name: what it is.
        count: how many; 0 where it is counted by amount.
        amount: how much, as written, such as `8.5 L`.
        one_time: used once only.
        note: what to mind.
        source: where that stands.
    """

    name: str
    count: int = 0
    amount: str = ""
    one_time: bool = False
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """A caution of the whole job, with its source where it has one."""

    text: str
    source: str = ""
