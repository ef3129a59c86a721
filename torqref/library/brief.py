"""A group in a line: its values, what vouches for them, and what it is for."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from torqref.library.group import Group

_NO_VALUE = ("hand", "place", "wait", "measure")


def values_text(group: Group) -> str:
    """The values of the stages as printed, one after the other.

    >>> from torqref.library.quick import quick_group
    >>> values_text(quick_group("30 N·m + 90° + back off 45°", "3"))
    '30 N·m, 90°, back off 45°'
    """
    texts = [
        f"back off {stage.text}" if stage.kind == "back_off" and "back" not in stage.text else stage.text
        for stage in group.stages
        if stage.kind not in _NO_VALUE and not stage.recheck
    ]
    return ", ".join(dict.fromkeys(texts))


def mark_words(group: Group) -> tuple[str, ...]:
    """What must be known before the values are trusted, in a word each."""
    said = (
        (group.source.invented, "practice"),
        (not group.source.kind, "no source"),
        (not group.source.verified_by, "unverified"),
    )
    return tuple(word for holds, word in said if holds)


def applies_text(group: Group) -> str:
    """What it is for only, such as `engine Q or R only`; empty for all.

    >>> from dataclasses import replace
    >>> from torqref.library.quick import quick_group
    >>> applies_text(replace(quick_group("24 N·m", "3"), applies=(("engine", ("Q", "R")),)))
    'engine Q or R only'
    """
    return ", ".join(f"{name} {' or '.join(words)} only" for name, words in group.applies)
