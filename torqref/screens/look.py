"""What the terminal can show, and what its user wants: theme, ASCII, bell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from torqref.screens.theme import following, themes_for


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How the screens look.

    Args:
        theme: a name of `theme.THEMES`.
        colours: how many colours the terminal has.
        ascii_only: whether to keep to ASCII signs.
        bell: whether the bell may ring.
    """

    theme: str = "dark"
    colours: int = 256
    ascii_only: bool = False
    bell: bool = True

    def next_theme(self) -> Look:
        """The same with the next theme that the terminal can show."""
        return replace(self, theme=following(self.theme, colours=self.colours))

    def other_bell(self) -> Look:
        """The same with the bell on or off."""
        return replace(self, bell=not self.bell)


def look_of(environment: Mapping[str, str], encoding: str) -> Look:
    """The look by the variables of the process.

    NO_COLOR (no-color.org: set and not empty) means no colour. TORQREF_THEME names a theme,
    TORQREF_ASCII=1 keeps to ASCII, TORQREF_BELL=0 keeps quiet.

    >>> look_of({"TERM": "xterm-256color", "NO_COLOR": "1"}, "utf-8").theme
    'one colour'
    """
    colours = 0 if environment.get("NO_COLOR") else colours_of(environment)
    names = themes_for(colours)
    wanted = environment.get("TORQREF_THEME", "").replace("-", " ")
    return Look(
        theme=wanted if wanted in names else names[0],
        colours=colours,
        ascii_only=environment.get("TORQREF_ASCII", "0") not in ("", "0") or not _knows_signs(encoding),
        bell=environment.get("TORQREF_BELL", "1") != "0",
    )


def _knows_signs(encoding: str) -> bool:
    return encoding.lower().replace("-", "").replace("_", "") in ("utf8", "utf16", "gb18030")


def colours_of(environment: Mapping[str, str]) -> int:
    """How many colours a terminal has, by its name and by terminfo where there is one."""
    term = environment.get("TERM", "").lower()
    if environment.get("COLORTERM", "").lower() in ("truecolor", "24bit"):
        return 1 << 24
    if "256color" in term or "direct" in term or "kitty" in term:
        return 256
    if environment.get("WT_SESSION"):
        return 1 << 24
    return _terminfo_colours(term)


def _terminfo_colours(term: str) -> int:
    """By terminfo; a terminal that nobody knows is taken to have one colour."""
    try:
        import curses

        curses.setupterm(term or None, 1)
        return max(0, curses.tigetnum("colors"))
    except ImportError:
        return 16
    except curses.error:
        return 0
