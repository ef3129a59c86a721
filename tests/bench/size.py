"""How much is measured."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How often, and how large.

    Args:
        runs: runs of each command.
        part: everything is divided by it.
    """

    runs: int
    part: int = 1

    def of(self, number: int) -> int:
        """So many of something, or a part of it."""
        return max(number // self.part, 10)
