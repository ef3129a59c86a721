"""The keys of the library screen, and what its help says."""

from __future__ import annotations

from torqref.screens.fields_screen import HELP_KEY
from torqref.screens.key import ARROWS, Key, Move

KEYS = (
    Key(letter="+", word="quick", meaning="quick walk: a value that is in no library", act="quick"),
    Key(
        letter=":", word="records", meaning="walks and jobs so far: read, go on, write a page", act="records"
    ),
    Key(letter="!", word="loosen", meaning="loosen this group: in reverse and in rounds", act="loosen"),
    Key(letter="=", word="convert", meaning="a value in other units", act="convert"),
    Key(letter="@", word="crowfoot", meaning="what to set with a crowfoot on the wrench", act="crowfoot"),
    HELP_KEY,
    Key(letter="<", word="leave", meaning="leave the program; ctrl+c does the same", act="leave"),
    Key(letter="*", word="colours", meaning="dark, light or one colour", act="theme"),
)
MOVES = Move(shown="arrows", names=ARROWS, meaning="up and down, by pages too: move the mark")
HELP = (
    "Type words of the name, the thread or the value to find a group; enter opens the one that is marked.",
    "What is open or due stands on top: its number and enter goes on with it; enter alone takes the first.",
    "REPAIR is a job file beside the library: enter begins the whole repair, step by step.",
    "A bolt that is in no list: type its value with the unit, such as M8 10.9 24 Nm, then enter.",
    "P = practice values, invented. U = unverified: nobody typed the values a second time. N = no source.",
)
# What somebody needs who has never seen this, and has not walked anything yet.
FIRST = "First time? Type a part of its name; enter walks it. In no list? Press + and type its value."
