"""The cross round a ring, as places counted from 0; it knows nothing of labels and drawings."""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import pairwise


@lru_cache(maxsize=256)
def cross(places: int) -> tuple[int, ...]:
    """The order of a cross round a ring of evenly spaced places.

    An even ring is visited in opposite pairs, and so is the ring of these pairs, down to an odd ring: so
    each new pair halves what the earlier ones left. An odd ring takes next the place farthest from those
    visited, of equal ones one not beside the last, then the one that leaves the pull least one-sided.

    Args:
        places: how many, 1 or more.

    Returns:
        Each place from 0 once, clockwise numbers.

    >>> cross(8)
    (0, 4, 2, 6, 1, 5, 3, 7)
    >>> cross(5)
    (0, 2, 4, 1, 3)
    """
    if places % 2:
        return _odd_cross(places)
    half = places // 2
    return tuple(place for first in cross(half) for place in (first, first + half))


def _odd_cross(places: int) -> tuple[int, ...]:
    visited, pull = [0], complex(1, 0)
    near = {place: apart(place, 0, places) for place in range(1, places)}
    while near:
        last = visited[-1]
        farthest = max(near.values())
        equals = [place for place, distance in near.items() if distance == farthest]
        best = min(equals, key=lambda place: _claim(place, last, pull, places))
        visited.append(best)
        pull += _direction(best, places)
        del near[best]
        near = {place: min(distance, apart(place, best, places)) for place, distance in near.items()}
    return tuple(visited)


def _claim(place: int, last: int, pull: complex, places: int) -> tuple[bool, float, int]:
    """The smaller, the sooner this place is next; rounded, so that mirror places compare as equal."""
    beside_last = apart(place, last, places) == 1
    return beside_last, round(abs(pull + _direction(place, places)), 6), place


def _direction(place: int, places: int) -> complex:
    angle = 2 * math.pi * place / places
    return complex(math.cos(angle), math.sin(angle))


def apart(one: int, other: int, places: int) -> int:
    """Steps between two places, the short way round."""
    step = (one - other) % places
    return min(step, places - step)


def groups(places: int, size: int) -> tuple[tuple[int, ...], ...]:
    """Runs of neighbouring places, an even number of runs that differ by one place at most.

    >>> len(groups(48, 4)), groups(10, 4)
    (12, ((0, 1, 2, 3, 4), (5, 6, 7, 8, 9)))
    """
    runs = max(2, 2 * round(places / size / 2))
    edges = [places * run // runs for run in range(runs + 1)]
    return tuple(tuple(range(low, high)) for low, high in pairwise(edges))
