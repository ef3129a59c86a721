"""The keys of the job screen: one table of word and letter."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from torqref.screens.key import Key

# Words of a job as the core offers them from moment to moment: word, letter, act; in the order of the line
# of keys. A reading has no letter: a digit or the main key begins it.
WORDS = (
    ("later", "l", "later"),
    ("recheck", "r", "choose"),
    ("sign", "g", "sign"),
    ("undo", "u", "undo"),
    ("skip", "s", "choose"),
    ("due", "d", "due"),
    ("steps", "p", "steps"),
    ("go", "j", "go"),
    ("order", "o", "ask"),
    ("adapter", "w", "ask"),
    ("note", "n", "ask"),
    ("again", "a", "again"),
    ("abandon", "z", "choose"),
)
# Those that stand before the key to leave, which must be seen in a narrow room, too.
BEFORE_LEAVING = frozenset("lrgus")
LEAVE = Key(letter="q", word="leave", meaning="put the job down; it goes on at the same step", act="leave")
BACK = Key(letter="q", word="back", meaning="back to the step", act="leave")
# Inside a walk every letter means something of the walk; a sign is free.
JOB = Key(
    letter=":",
    word="job",
    meaning="the whole repair: deadlines, what is due, every step; from there to other steps",
    act="job",
)
LEAVE_WALK = Key(
    letter="q", word="leave", meaning="put the walk down and go back to its job; it goes on here", act="leave"
)
# What the whole repair, seen from inside a walk, lets do with it.
_FROM_A_WALK = ("later", "go")
HELP_KEY = Key(letter="h", word="help", meaning="all keys", act="help")

# What the screen itself can do at any moment.
VIEWS = (
    Key(letter="f", word="parts", meaning="parts to have ready, and fluids", act="parts"),
    Key(letter="c", word="colours", meaning="dark, light or one colour", act="theme"),
    Key(
        letter="y",
        word="bell",
        meaning="bell on or off: one = ticked, two = look, three = refused",
        act="bell",
    ),
    HELP_KEY,
    Key(letter="?", word="help", meaning="the same", act="help"),
)
# Keys that are told in the help alone.
IN_HELP = frozenset("cy")
HELP = (
    "The main key turns a page or ticks a look; at a group it opens the walk, bolt by bolt.",
    "What must be safe is answered by a digit alone, each with a press of its own.",
    "Where a reading is asked for, a digit begins it, such as 0.03 mm; enter keeps it.",
    "Inside a walk : shows all this and q comes back here; the main key goes on with the walk.",
    "Everything that was shown is on disk: switch off, come back days later, it goes on at the same step.",
    "Marks: > now, x done, . open, ~ put off, = waiting, - left out.",
)


def keys_from_a_walk(words: Iterable[tuple[str, str]]) -> tuple[Key, ...]:
    """The keys with which a walk is left for other steps.

    Args:
        words: word with its argument, and meaning, as `JobView.words` has them.
    """
    return tuple(replace(key, act=key.word) for key in keys_of(words) if key.word in _FROM_A_WALK)


def keys_of(words: Iterable[tuple[str, str]]) -> tuple[Key, ...]:
    """The keys for what can be said now.

    Args:
        words: word with its argument, and meaning, as `JobView.words` has them.
    """
    told = {word.split()[0]: meaning for word, meaning in words}
    said = tuple(
        Key(letter=letter, word=word, meaning=told[word], act=act)
        for word, letter, act in WORDS
        if word in told
    )
    place = sum(key.letter in BEFORE_LEAVING for key in said)
    return (*said[:place], LEAVE, *said[place:], *VIEWS)
