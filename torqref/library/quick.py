"""A group from a few words: `M8 10.9 24 N·m`, for the nine jobs in ten that no library has.

The value is required; thread, class and condition may stand anywhere beside it. The words become a
library file and are read as one, so that a quick walk and its draft in the library cannot differ.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from torqref.document.refusal import Refusal
from torqref.fastener.friction import condition_in
from torqref.fastener.grade import Grade, read_grade
from torqref.fastener.hexagon import SPANNER
from torqref.fastener.thread import Thread, read_thread
from torqref.library.arrangement import Arrangement, read_arrangement
from torqref.library.draft import Draft, draft_text, stage_values
from torqref.library.file import parse_library
from torqref.library.group import Group
from torqref.pattern.order import generic_order
from torqref.quantity.folding import fold
from torqref.quantity.reading import read_term
from torqref.quantity.showing import show_angle, show_torque
from torqref.quantity.term import Angle, Stage, Term, Torque

QUICK = "quick"
TITLE = "typed at the vehicle"
_MOST_WORDS = 30
# What people write behind a word without meaning anything by it.
_POINTS = ",;:"
_FILLERS = frozenset(("with", "and", "lightly", "slightly", "clean", "freshly", "well"))
_NOUNS = frozenset((
    "bolt", "bolts", "nut", "nuts", "stud", "studs", "screw", "screws", "capscrew", "capscrews", "setscrew",
    "setscrews", "fastener", "fasteners",
))  # fmt: skip
# Stainless without its strength, or an SAE grade on a metric thread: refused with what they may be.
_HALF_A_CLASS = re.compile(r"a[1-5]|stainless(?: steel)?|(?:sae|grade|gr\.?|g)\s*\d(?:\.\d)?")
_LONGEST_THREAD, _LONGEST_CLASS = 4, 3
_LEAST = -1
_BARE_THREAD = re.compile(r"\d+/\d+|#?\d+")
_BARE_CLASS = re.compile(r"\d+(?:[.,]\d+)?")
_INCH = re.compile(r"\d")
# What may stand behind a bare number that is no value: the value itself, or a word that begins one.
_BEFORE_A_VALUE = re.compile(
    r"[\d#(±~≤≥<>]|(?:max|min|at|to|about|hand|snug|dry|oil|then|grade|class|m\d)", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What a quick text says.

    Args:
        text: as typed.
        term: the value or the chain of values.
        thread: the thread, or None.
        grade: property class or grade, empty where none was typed.
        condition: condition of the threads in the words typed, empty for none.
    """

    text: str
    term: Term
    thread: Thread | None = None
    grade: str = ""
    condition: str = ""

    @property
    def bolt(self) -> str:
        """Thread and class as one would say them, empty where neither was typed."""
        designation = self.thread.designation if self.thread else ""
        return " ".join(part for part in (designation, self.grade) if part)

    @property
    def name(self) -> str:
        """The whole of it on one line."""
        said = ", ".join(part for part in (self.bolt, self.condition) if part)
        value = " ".join(self.term.text.split())
        return f"{value} on {said}" if said else value


def quick_group(text: str, arrangement: str, *, by: str = "") -> Group | Refusal:
    """A group from words: a value, a thread and class where they are known, and how the bolts stand.

    Args:
        text: such as `M8 10.9 24 N·m`, `24 N·m` or `30 N·m + 90° + 90°`.
        arrangement: such as `2x5`, `circle 8` or `3`, see `read_arrangement`.
        by: who typed it.

    Returns:
        The group, whose id is the same for the same words; or the refusal of what could not be read.

    >>> group = quick_group("M8 10.9 24 N·m", "2x5")
    >>> group.thread, group.grade, group.order.generic, len(group.layout.positions)
    ('M8x1.25', '10.9', True, 10)
    """
    typed, arranged = read_typed(text), read_arrangement(arrangement)
    if isinstance(typed, Refusal):
        return typed
    if isinstance(arranged, Refusal):
        return arranged
    return group_of(typed, arranged, arrangement, by)


def group_of(typed: Typed, arranged: Arrangement, arrangement: str, by: str = "") -> Group | Refusal:
    """The group of words that are already read."""
    draft = draft_of(typed, arranged, by=by)
    file = parse_library(draft_text(draft).encode(), "quick walk")
    if not file.groups:
        told = file.problems[0].message if file.problems else "nothing was read"
        return Refusal(text=typed.text, message=told)
    group = file.groups[0]
    # Nobody's page gave an order: even bolts that are only counted are numbered by the technician.
    order = generic_order(group.layout)
    return replace(group, order=order, typed=(typed.text, arrangement), assembly="", file="", key="")


def draft_of(typed: Typed, arranged: Arrangement, *, by: str = "", identity: str = "") -> Draft:
    """The library file that the words stand for."""
    return Draft(
        id=identity or _identity(typed, arranged),
        name=f"{typed.name}, {arranged.words}",
        arrangement=arranged.toml,
        stages=stage_values(typed.term),
        thread=typed.thread.designation if typed.thread else "",
        grade=typed.grade,
        condition=typed.condition,
        left_hand=typed.thread is not None and typed.thread.left_hand,
        title=TITLE,
        entered_by=by,
    )


def _identity(typed: Typed, arranged: Arrangement) -> str:
    """An id a person can read, and that the same job has again however it was typed."""
    values = tuple(_said(stage) for stage in typed.term.stages)
    told = repr((typed.bolt, typed.condition, values, arranged.toml))
    mark = hashlib.sha256(told.encode()).hexdigest()[:6]
    return f"{QUICK}-{slug(typed, arranged, values[0])}-{mark}"


def _said(stage: Stage) -> str:
    """A stage in one spelling."""
    if isinstance(stage, Torque):
        return show_torque(stage)
    if isinstance(stage, Angle):
        return show_angle(stage)
    return "loosen" if stage.loosen else "hand"


def slug(typed: Typed, arranged: Arrangement, value: str) -> str:
    """The words of a job as part of an id: thread, first value, layout.

    >>> slug(read_typed("m8 24nm"), read_arrangement("2x5"), "24 N·m")
    'm8x1-25-24-nm-2x5'
    """
    said = f"{typed.thread.designation if typed.thread else ''} {value} {arranged.slug}".casefold()
    plain = re.sub(r"[^a-z0-9]+", "-", said.replace("·", "").replace(".", "-"))
    return plain.strip("-")[:40].strip("-")


# --- reading --------------------------------------------------------------------------------------


def read_typed(text: str) -> Typed | Refusal:
    """The value, and thread, class and condition where they stand beside it.

    >>> typed = read_typed("24 N·m M8 10.9 oiled")
    >>> typed.bolt, typed.condition, typed.term.stages[0].text
    ('M8x1.25 10.9', 'oiled', '24 N·m')
    """
    folded = fold(text)
    if isinstance(folded, Refusal):
        return folded
    words = tuple(text.split())
    if len(words) > _MOST_WORDS:
        return Refusal(text=text, message=f"{len(words)} words, at most {_MOST_WORDS} are read")
    whole = read_term(text)
    if isinstance(whole, Term):
        return Typed(text=text, term=whole)
    refusals: list[tuple[int, Refusal]] = [(_LEAST, whole)]
    for attempt in _attempts(words):
        found = _read(attempt, text)
        if isinstance(found, Typed):
            return found
        refusals.append((attempt.told(found), found))
    return max(refusals, key=lambda refused: refused[0])[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Attempt:
    """One way to take the words apart.

    Args:
        rest: what must be a value.
        said: the words of thread and class as typed.
        thread, grade, condition: what was found beside the value.
        refusal: why the class does not fit the thread, or None.
    """

    rest: tuple[str, ...]
    said: tuple[str, ...] = ()
    thread: Thread | None = None
    grade: str = ""
    condition: tuple[str, ...] = ()
    refusal: Refusal | None = None

    def told(self, found: Refusal) -> int:
        """How much a refusal of this attempt helps: a wrong class, then a value beside a thread."""
        if found.text and self.refusal is not None and found.message == self.refusal.message:
            return 3
        return (1 if self.thread is not None else 0) + (1 if found.readings else 0)


def _attempts(words: tuple[str, ...]) -> Iterator[_Attempt]:
    """Every way worth trying, those that explain most words with the fewest cuts first."""
    places = _of_condition(words)
    spoken = tuple(word for place, word in enumerate(words) if place in places)
    plain = _without_nouns(tuple(word for place, word in enumerate(words) if place not in places))
    for thread, rest in _threads(plain):
        for grade, left in _grades(rest, thread):
            yield _Attempt(
                rest=left,
                said=_without(plain, left if not isinstance(grade, Refusal) else rest),
                thread=thread,
                grade=grade.name if isinstance(grade, Grade) else "",
                condition=spoken,
                refusal=grade if isinstance(grade, Refusal) else None,
            )


def _without(words: tuple[str, ...], left: tuple[str, ...]) -> tuple[str, ...]:
    """The words that were cut out, in the order they were typed."""
    remaining = list(left)
    cut = []
    for word in words:
        if remaining and word == remaining[0]:
            remaining.pop(0)
        else:
            cut.append(word.strip(_POINTS))
    return tuple(cut)


def _of_condition(words: tuple[str, ...]) -> frozenset[int]:
    """The places of the words that say how the threads are, with the small words before them."""
    found: set[int] = set()
    for place in reversed(range(len(words))):
        is_filler = words[place].casefold() in _FILLERS and place + 1 in found
        if is_filler or _is_condition(words[place]):
            found.add(place)
    return frozenset(found)


def _without_nouns(words: tuple[str, ...]) -> tuple[str, ...]:
    """`M8 8.8 bolts 25 N·m` without its bolts; but `10 bolts` is a number of them and stays."""
    return tuple(
        word
        for place, word in enumerate(words)
        if place == 0 or words[place - 1].isdigit() or word.casefold().strip(_POINTS) not in _NOUNS
    )


def _is_condition(word: str) -> bool:
    return not _INCH.search(word) and condition_in(word) is not None


def _threads(words: tuple[str, ...]) -> Iterator[tuple[Thread | None, tuple[str, ...]]]:
    """Each run of words that is a thread, longest first, with the words that are left; then no thread."""
    for first, last in _windows(words, _LONGEST_THREAD):
        text = " ".join(words[first:last]).strip(_POINTS)
        if _BARE_THREAD.fullmatch(text) and not _leads(words, last):
            continue
        found = read_thread(text)
        if isinstance(found, Thread):
            yield found, words[:first] + words[last:]
    yield None, words


def _grades(
    words: tuple[str, ...], thread: Thread | None
) -> Iterator[tuple[Grade | Refusal | None, tuple[str, ...]]]:
    """No class first, then each run of words that is one; a class that does not fit is a refusal."""
    yield None, words
    # A class typed without its thread is read as for a metric one unless it names its family.
    judged = thread or _any_thread()
    for first, last in _windows(words, _LONGEST_CLASS):
        text = " ".join(words[first:last]).strip(_POINTS)
        bare = _BARE_CLASS.fullmatch(text) is not None
        if bare and last < len(words) and not _BEFORE_A_VALUE.match(words[last]):
            continue
        found = read_grade(text, judged)
        half = bare or _HALF_A_CLASS.fullmatch(text.casefold()) is not None
        if isinstance(found, Grade) or (found.readings and half and thread is not None):
            yield found, words[:first] + words[last:]


def _any_thread() -> Thread:
    thread = read_thread("M8")
    assert isinstance(thread, Thread)
    return thread


def _windows(words: tuple[str, ...], longest: int) -> Iterator[tuple[int, int]]:
    for length in range(min(longest, len(words)), 0, -1):
        yield from ((first, first + length) for first in range(len(words) - length + 1))


def _leads(words: tuple[str, ...], last: int) -> bool:
    """Whether a value follows, so that a bare fraction such as 3/8 is no part of a turn."""
    return last < len(words) and words[last][:1].isdigit()


def _read(attempt: _Attempt, text: str) -> Typed | Refusal:
    rest = " ".join(attempt.rest).strip(" ,;")
    term = read_term(rest)
    if isinstance(term, Refusal):
        return _of_the_whole(term, attempt, text)
    if attempt.refusal is not None:
        bolt = " ".join(attempt.said)
        readings = tuple(f"{bolt} {reading} {rest}" for reading in attempt.refusal.readings)
        return replace(attempt.refusal, text=text, readings=readings, caret=None)
    return Typed(
        text=text,
        term=term,
        thread=attempt.thread,
        grade=attempt.grade,
        condition=" ".join(word.strip(_POINTS) for word in attempt.condition),
    )


def _of_the_whole(refusal: Refusal, attempt: _Attempt, text: str) -> Refusal:
    """A refusal of the value with its readings put back beside thread and class; spanners are noticed."""
    rest = " ".join(attempt.rest)
    if attempt.thread is None and (size := SPANNER.search(rest)):
        thread = read_thread(size[0])
        if isinstance(thread, Refusal):
            return replace(thread, text=text, readings=(), caret=None)
    before = " ".join((*attempt.said, *attempt.condition))
    readings = tuple(f"{before} {reading}".strip() for reading in refusal.readings)
    caret = refusal.caret if refusal.text == text else None
    return replace(refusal, text=text, readings=readings, caret=caret)
