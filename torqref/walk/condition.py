"""What must be so before the first pull, in few words, most important first; and fitting it to a stop."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from torqref.library.group import Group
from torqref.quantity.term import Torque

MOST_IN_ANY_ORDER = 2
MOST_LINES, WIDTH = 3, 100


def conditions_of(group: Group, drag: Torque | None = None) -> tuple[str, ...]:
    """Everything that must be so before the first pull of tightening, most important first."""
    return (
        *(words for holds, words in _said(group, drag) if holds),
        *group.before,
        *_order(group),
    )


def _said(group: Group, drag: Torque | None) -> tuple[tuple[bool, str], ...]:
    return (
        (group.left_hand, "LEFT-HAND THREAD: tightens anticlockwise, facing it"),
        (bool(group.one_time), f"NEW {group.one_time}: used once only"),
        (bool(group.uses), f"{group.uses} uses of a set at most: mark it each time"),
        (bool(group.condition), _condition(group)),
        (group.blind_holes, "blow the holes dry: trapped fluid cracks castings and fakes the click"),
        (group.threadlocker, "threadlocker: once cured, check the mark only and do not pull"),
        (group.locking, _locking(drag)),
        (group.value_is == "setting with tool", "the printed value already includes the tool"),
        (bool(group.passes), f"ready-made passes, {group.passes}: generic, not the manufacturer's"),
        (bool(group.thread), "five turns by fingers or stop: wrong or crossed thread; no gun at the end"),
    )


def _order(group: Group) -> tuple[str, ...]:
    made_up = group.order.generic and len(group.layout.positions) > MOST_IN_ANY_ORDER
    return (f"order {group.order.basis}",) if made_up else ()


# Clamp load goes with 1/K at a given torque, K 0.20 dry and 0.13 to 0.15 oiled: estimate of T = K·F·d.
# On plugs and sensors makers of plated ones speak of a fifth of the torque: as published, no new value.
_TURNED = frozenset(("thread", "threads", "stud", "studs"))
_SCREWED_IN = frozenset((*_TURNED, "plug", "plugs", "sensor", "plated"))
_NO_GREASE = "no grease or anti-seize here: it shifts the torque by up to a fifth"
_FRICTION = {
    "clamp": (
        _TURNED,
        (
            ("dry", "oil here adds half again to the clamp load"),
            ("oiled", "dry loses a quarter of the clamp load"),
        ),
    ),
    "seal": (_SCREWED_IN, (("dry", _NO_GREASE), ("plated", _NO_GREASE))),
    "sensor": (_SCREWED_IN, (("dry", _NO_GREASE), ("plated", _NO_GREASE))),
}


def _condition(group: Group) -> str:
    """The condition as printed; where friction decides the clamp load, what the slip would do to it."""
    words = set(group.condition.casefold().replace(",", " ").split())
    named, effects = _FRICTION.get(group.purpose, (frozenset[str](), ()))
    if not words & named:
        return group.condition
    effect = next((effect for word, effect in effects if word in words), "")
    if effect == _NO_GREASE and _is_greased(group.condition):
        return group.condition
    return f"{group.condition}; {effect}" if effect else group.condition


def _is_greased(condition: str) -> bool:
    """Whether the page itself wants something on the threads."""
    from torqref.fastener.friction import condition_in

    known = condition_in(condition)
    return known is not None and known.name not in ("dry", "zinc", "cadmium", "black")


def _locking(drag: Torque | None) -> str:
    if drag is None:
        return "LOCKING NUT: measure its drag while it runs down, and add it: drag VALUE"
    return f"locking nut: its measured drag of {drag.text} is added"


def loosening_of(group: Group) -> tuple[str, ...]:
    """What must be known before it is taken apart. Seized bolts spring back: common practice, no source."""
    said = (
        (group.left_hand, "LEFT-HAND THREAD: loosens clockwise, facing it"),
        (True, "a head that moves and springs back is seized: stop there"),
        (group.threadlocker, "threadlocker: expect a hard start, warm it where the page says so"),
        (True, "tell what was found: found VALUE; what is to be minded at assembly: note TEXT"),
    )
    return (*(words for holds, words in said if holds), *_order(group))


def fitted(said: Sequence[str], most: int = MOST_LINES, width: int = WIDTH) -> tuple[str, ...]:
    """Words on so many lines of this width, joined where they fit; what has no room is said to be there.

    >>> fitted(("dry", "new nuts", "blow out"), most=1, width=40)
    ('dry; new nuts; blow out',)
    >>> fitted(("dry", "new nuts", "blow the holes out, all ten"), most=1, width=40)
    ('dry; new nuts; 1 more on the card: show',)
    """
    if most < 1:
        return ()
    lines = list(joined(said, width))
    if len(lines) <= most:
        return tuple(lines)
    kept = len(said)
    while kept > 1:
        kept -= 1
        lines = list(joined((*said[:kept], f"{len(said) - kept} more on the card: show"), width))
        if len(lines) <= most:
            return tuple(lines)
    return tuple(lines[:most])


def joined(said: Iterable[str], width: int = WIDTH) -> Iterator[str]:
    """One saying after the other, with a semicolon, and a new line where the next does not fit."""
    here = ""
    for words in said:
        together = f"{here}; {words}" if here else words
        if len(together) <= width:
            here = together
            continue
        if here:
            yield here
        *whole, here = broken(words, width)
        yield from whole
    if here:
        yield here


def broken(words: str, width: int) -> list[str]:
    """A long saying on several lines, cut between words; an empty one on none."""
    lines, here = [], ""
    for word in words.split():
        if here and len(here) + 1 + len(word) > width:
            lines.append(here)
            here = word
        else:
            here = f"{here} {word}" if here else word
    return [*lines, here] if here else lines
