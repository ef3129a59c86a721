"""A refusal: text that has no one meaning here, with the readings it could have."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a text was not read, and how to write what was meant.

    Args:
        text: the text as it was given.
        message: what was found and what was expected, one sentence without a full stop.
        readings: how to write each meaning the text could have, ready to be typed.
        caret: index into `text` of the first thing that was not understood, or None.
    """

    text: str
    message: str
    readings: tuple[str, ...] = ()
    caret: int | None = None

    def sentence(self) -> str:
        """The refusal as one line, with the readings to choose from."""
        choice = f" Write one of: {'; '.join(self.readings)}." if self.readings else ""
        return f"{self.message}.{choice}"

    def pointed(self) -> str:
        """The text with a caret under the first thing not understood, or an empty string."""
        if self.caret is None:
            return ""
        return f"{self.text}\n{' ' * self.caret}^"
