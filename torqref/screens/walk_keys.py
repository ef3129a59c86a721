"""The keys of the walk screen: one table of word and letter."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType

from torqref.screens.key import Key

# Words of the walk, as the core offers them from moment to moment: word, letter, act.
WORDS = (
    ("moved", "m", "moved"),
    ("later", "l", "later"),
    ("trouble", "t", "choose"),
    ("undo", "u", "undo"),
    ("skip", "s", "skip"),
    ("actual", "a", "ask"),
    ("found", "f", "ask"),
    ("page", "p", "ask"),
    ("round", "r", "round"),
    ("old", "o", "choose"),
    ("wrench", "w", "wrench"),
    ("unit", "k", "say"),
    ("drag", "g", "ask"),
    ("measure", "v", "ask"),
    ("verify", "v", "verify"),
    ("sign", "i", "ask"),
    ("note", "n", "ask"),
    ("keep", "k", "keep"),
    ("afterwards", "e", "say"),
    ("abandon", "z", "choose"),
)
LETTERS = MappingProxyType({word: (letter, act) for word, letter, act in WORDS})

# What the screen itself can do at any moment.
VIEWS = (
    Key(letter="d", word="turn", meaning="turn the picture a quarter", act="turn"),
    Key(letter="x", word="mirror", meaning="mirror the picture, as seen from the other side", act="mirror"),
    Key(letter="b", word="big", meaning="only bolt, SET, unit and direction, as large as they go", act="big"),
    Key(letter="c", word="colours", meaning="dark, light or one colour", act="theme"),
    Key(
        letter="y",
        word="bell",
        meaning="bell on or off: one = ticked, two = look, three = refused",
        act="bell",
    ),
    Key(letter="j", word="why", meaning="why this round, this number and this order", act="why"),
    Key(letter="q", word="leave", meaning="put the walk down; it goes on at the same bolt", act="leave"),
    Key(letter="h", word="help", meaning="all keys", act="help"),
    Key(letter="?", word="help", meaning="the same", act="help"),
)

# Keys that the line of keys leaves to the help; its own key is always on the line.
ONLY_IN_HELP = "".join(key.letter for key in VIEWS if key.word not in ("leave", "help"))
# The words that are wanted most, where there is no room for all.
FIRST = ("moved", "undo", "trouble", "later")


def keys_of(words: Iterable[tuple[str, str]]) -> tuple[Key, ...]:
    """The keys for what can be said now.

    Args:
        words: word with its argument, and meaning, as `View.words` has them.
    """
    told = ((word.split()[0], meaning) for word, meaning in words)
    said = tuple(
        Key(letter=LETTERS[word][0], word=word, meaning=meaning, act=LETTERS[word][1])
        for word, meaning in told
        if word in LETTERS
    )
    return tuple({key.letter: key for key in reversed((*said, *VIEWS))}.values())[::-1]


# What is asked where a word needs a line.
ASKED = {
    "actual": "reached, with its unit:",
    "found": "found before, with its unit:",
    "page": "the page says, with its unit:",
    "drag": "drag of the nut, with its unit:",
    "measure": "reading, with its unit:",
    "verify": "second check, the value, by NAME:",
    "verify marks": "every mark right? your name:",
    "undo": "take back which bolt? enter = the last press:",
    "note": "note:",
    "wrench": "wrench ID, crowfoot OFFSET@ANGLE, unit U:",
    "sign": "your name for the record:",
}
# Questions that an empty line answers too.
MAY_BE_EMPTY = ("verify marks", "undo")
HELP = (
    "The main key always means done: it opens a stop, ticks a bolt, ends a hand round.",
    "A tick on the screen is on disk. Switch off, break off, come back: the walk goes on at the same bolt.",
    "At a bolt, a digit begins the reading of an electronic wrench, such as 23.8 Nm; enter keeps it.",
    "Marks: [7] now, 7x done, 7~ put off, 7- left out, 7! trouble, 7m moved, 7 still open.",
    "After a crash the terminal may stay odd: type reset and press enter.",
)
