"""The tones of the screens: what each is for, and how it looks in each theme.

A tone never stands alone: every state has a mark and a word beside it. The colours are our own.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Ink(NamedTuple):
    """How a tone looks: colours as `#rrggbb` or the name of one of sixteen, and the ways of writing."""

    fore: str = ""
    back: str = ""
    bold: bool = False
    reverse: bool = False
    underline: bool = False


# tone: what it is for
TONES = {
    "plain": "running text",
    "quiet": "what one reads second: keys, counts, stages that are done",
    "strong": "what one reads first in a line",
    "set": "the number to set and its unit, in blocks",
    "bolt": "the number of the bolt, in blocks",
    "plate": "the word above the number of the bolt, where it closes its blocks",
    "label": "the same word, where the blocks are closed without it",
    "now": "the bolt to pull, in the picture",
    "done": "a bolt that is done, in the picture",
    "open": "a bolt that is open, in the picture",
    "later": "a bolt that was put off or left out",
    "trouble": "a bolt with trouble, a refusal, damage",
    "way": "the bar with the direction",
    "stop": "the bar of a stop: another setting, tool or turn",
    "warn": "the bar of a caution or question",
    "rule": "lines that part the screen, pointers, landmarks",
    "key": "a key that may be pressed",
    "title": "the name of the group",
    "practice": "these are practice values",
    "typed": "what is being typed",
}

DARK: Mapping[str, Ink] = MappingProxyType(
    {
        "plain": Ink("#dfe6e4", "#10191d"),
        "quiet": Ink("#93a5a8", "#10191d"),
        "strong": Ink("#ffffff", "#10191d", bold=True),
        "set": Ink("#ffdf6b", "#10191d", bold=True),
        "bolt": Ink("#8fe0ff", "#10191d", bold=True),
        "plate": Ink("#10191d", "#8fe0ff", bold=True),
        "label": Ink("#10191d", "#8fe0ff", bold=True),
        "now": Ink("#06222e", "#8fe0ff", bold=True),
        "done": Ink("#7f9296", "#10191d"),
        "open": Ink("#ffffff", "#10191d", bold=True),
        "later": Ink("#f2b3ff", "#10191d"),
        "trouble": Ink("#1d0509", "#ff7f87", bold=True),
        "way": Ink("#10191d", "#c4d6d4", bold=True),
        "stop": Ink("#221700", "#ffc53d", bold=True),
        "warn": Ink("#1d0509", "#ff7f87", bold=True),
        "rule": Ink("#5d7277", "#10191d"),
        "key": Ink("#10191d", "#93a5a8", bold=True),
        "title": Ink("#ffffff", "#22333a", bold=True),
        "practice": Ink("#ffdf6b", "#22333a", bold=True),
        "typed": Ink("#10191d", "#ffffff", bold=True),
    }
)

LIGHT: Mapping[str, Ink] = MappingProxyType(
    {
        "plain": Ink("#1c1a15", "#fbf7ea"),
        "quiet": Ink("#57534a", "#fbf7ea"),
        "strong": Ink("#000000", "#fbf7ea", bold=True),
        "set": Ink("#000000", "#fbf7ea", bold=True),
        "bolt": Ink("#003f8a", "#fbf7ea", bold=True),
        "plate": Ink("#fbf7ea", "#003f8a", bold=True),
        "label": Ink("#fbf7ea", "#003f8a", bold=True),
        "now": Ink("#ffffff", "#003f8a", bold=True),
        "done": Ink("#6b675d", "#fbf7ea"),
        "open": Ink("#000000", "#fbf7ea", bold=True),
        "later": Ink("#6a1b8a", "#fbf7ea"),
        "trouble": Ink("#ffffff", "#a3001b", bold=True),
        "way": Ink("#fbf7ea", "#1c1a15", bold=True),
        "stop": Ink("#000000", "#f5a800", bold=True),
        "warn": Ink("#ffffff", "#a3001b", bold=True),
        "rule": Ink("#8a8475", "#fbf7ea"),
        "key": Ink("#fbf7ea", "#57534a", bold=True),
        "title": Ink("#000000", "#e4dcc4", bold=True),
        "practice": Ink("#8a0017", "#e4dcc4", bold=True),
        "typed": Ink("#ffffff", "#003f8a", bold=True),
    }
)

# Sixteen colours: names only, on whatever ground the terminal has.
SIXTEEN: Mapping[str, Ink] = MappingProxyType(
    {
        "plain": Ink(),
        "quiet": Ink(),
        "strong": Ink(bold=True),
        "set": Ink(bold=True),
        "bolt": Ink(bold=True),
        "plate": Ink(bold=True, reverse=True),
        "label": Ink(bold=True),
        "now": Ink("black", "cyan", bold=True),
        "done": Ink(),
        "open": Ink(bold=True),
        "later": Ink("magenta"),
        "trouble": Ink("white", "red", bold=True),
        "way": Ink(bold=True, reverse=True),
        "stop": Ink("black", "yellow", bold=True),
        "warn": Ink("white", "red", bold=True),
        "rule": Ink(),
        "key": Ink(bold=True, reverse=True),
        "title": Ink(bold=True, underline=True),
        "practice": Ink(bold=True, underline=True),
        "typed": Ink(bold=True, reverse=True),
    }
)

# No colour at all: bold, underlined and reversed writing only.
ONE_COLOUR: Mapping[str, Ink] = MappingProxyType(
    {
        "plain": Ink(),
        "quiet": Ink(),
        "strong": Ink(bold=True),
        "set": Ink(bold=True),
        "bolt": Ink(bold=True),
        "plate": Ink(bold=True, reverse=True),
        "label": Ink(bold=True),
        "now": Ink(bold=True, reverse=True),
        "done": Ink(),
        "open": Ink(bold=True),
        "later": Ink(underline=True),
        "trouble": Ink(bold=True, reverse=True),
        "way": Ink(bold=True, reverse=True),
        "stop": Ink(bold=True, reverse=True),
        "warn": Ink(bold=True, reverse=True),
        "rule": Ink(),
        "key": Ink(bold=True, reverse=True),
        "title": Ink(bold=True, underline=True),
        "practice": Ink(bold=True, underline=True),
        "typed": Ink(bold=True, reverse=True),
    }
)

THEMES: Mapping[str, Mapping[str, Ink]] = MappingProxyType(
    {"dark": DARK, "light": LIGHT, "sixteen": SIXTEEN, "one colour": ONE_COLOUR}
)


def following(name: str, *, colours: int) -> str:
    """The theme after this one, among those that the terminal can show."""
    names = themes_for(colours)
    return names[(names.index(name) + 1) % len(names)] if name in names else names[0]


def themes_for(colours: int) -> tuple[str, ...]:
    """Themes that a terminal with so many colours can show, the usual one first."""
    if colours < 8:
        return ("one colour",)
    return ("dark", "light", "one colour") if colours >= 256 else ("sixteen", "one colour")


def contrast(ink: Ink) -> float:
    """Contrast of two `#rrggbb` colours by WCAG 2.2, "contrast ratio": (L1 + 0.05) / (L2 + 0.05).

    >>> round(contrast(Ink("#000000", "#ffffff")))
    21
    """
    light, dark = sorted((_luminance(ink.fore), _luminance(ink.back)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    """Relative luminance of sRGB, by the same source."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
