"""Whether a word is another one with a slip of the fingers: a letter left out, doubled, wrong or swapped."""

from __future__ import annotations

# A slip in a short word makes another word; from these lengths on one and two slips are allowed.
_ONE_SLIP, _TWO_SLIPS = 4, 8


def is_slip(typed: str, word: str) -> bool:
    """Whether a typed word is a known one, or the beginning of it, with a slip or two.

    Words with digits are never likened: M8 is no slip of M6.

    >>> is_slip("exaust", "exhaust"), is_slip("manifodl", "manifold"), is_slip("heat", "head")
    (True, True, True)
    >>> is_slip("nut", "hut"), is_slip("m10x1.25", "m12x1.25")
    (False, False)
    """
    allowed = 2 if len(typed) >= _TWO_SLIPS else 1
    if len(typed) < _ONE_SLIP or len(word) + allowed < len(typed) or not typed.isalpha():
        return False
    # Each letter that the word does not have is one slip: most words are out before they are compared.
    if len(set(typed).difference(word)) > allowed:
        return False
    return any(
        distance(typed, word[:length]) <= allowed
        for length in {min(len(word), len(typed) + more) for more in (-1, 0, 1)} | {len(word)}
        if abs(length - len(typed)) <= allowed
    )


def distance(one: str, other: str) -> int:
    """How many letters are left out, added, wrong or swapped with their neighbour.

    >>> distance("manifodl", "manifold"), distance("cover", "cover"), distance("cver", "cover")
    (1, 0, 1)
    """
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, start=1):
        last, row, swapped = row, [i], before
        for j, wanted in enumerate(other, start=1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == wanted:
                cost = min(cost, swapped[j - 2] + 1)
            row.append(cost)
        before = last
    return row[-1]
