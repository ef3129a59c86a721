"""How many bolts and how they stand, in as few letters as a thumb types: `2x5`, `circle 8`, `3`."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from torqref.document.escape import escape
from torqref.document.quoting import quoted
from torqref.document.refusal import Refusal
from torqref.pattern.diagram import read_diagram
from torqref.pattern.fault import Faults
from torqref.pattern.layout import Layout
from torqref.pattern.shape import circle, count, rows

LONGEST = 2000
_CIRCLE = re.compile(r"(?:c|o|circle|ring|round)(?: of)? ?(\d{1,4})|(\d{1,4}) ?(?:c|o|circle|ring|round)")
_GRID = re.compile(r"(?:rows? )?(\d{1,4}) ?(?:[x*]|by|rows? of) ?(\d{1,4})")
_ROWS = re.compile(r"(?:rows? (?:of )?)?(\d{1,4}(?: ?[/,+] ?\d{1,4})+)|rows? (?:of )?(\d{1,4}(?: \d{1,4})*)")
_COUNT = re.compile(r"(?:count )?(\d{1,4})(?: (?:bolts?|nuts?|studs?|screws?|plugs?))?")
_READINGS = ("3", "2x5", "circle 8")


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Where the bolts are.

    Args:
        layout: the positions.
        words: the same in words, such as `2 rows of 5`.
        toml: the line of a library file that says it.
        slug: the same for an id, such as `2x5`.
    """

    layout: Layout
    words: str
    toml: str
    slug: str


def read_arrangement(text: str) -> Arrangement | Refusal:
    """How the bolts stand: a count, rows, a circle, or a drawn diagram of several lines.

    Args:
        text: `3` bolts without a picture, `2x5` rows, `5/4` uneven rows, `circle 8` or `c8`; text of several
            lines is a diagram as a library file has it. Nothing at all is one bolt.

    Returns:
        The arrangement, or a refusal with what can be written.

    >>> read_arrangement("2x5").words, read_arrangement("c8").toml
    ('2 rows of 5', 'layout = { circle = 8 }')
    """
    if len(text) > LONGEST:
        return _refuse(text[:LONGEST], f"{len(text)} characters are too many for a layout")
    if "\n" in text.strip():
        return _drawn(text)
    plain = " ".join(text.casefold().replace("×", "x").split())
    for pattern, reader in _READERS:
        if found := pattern.fullmatch(plain or "1"):
            return reader(text, [int(part) for part in re.findall(r"\d+", found[0])])
    shown = escape(text.strip()[:40])
    return _refuse(text, f'"{shown}" is no layout; how many bolts, or how they stand, is expected')


def _count(text: str, numbers: list[int]) -> Arrangement | Refusal:
    bolts = numbers[0]
    words = "1 bolt" if bolts == 1 else f"{bolts} bolts"
    return _arranged(text, count(bolts), words, f"count = {bolts}", str(bolts))


def _circle(text: str, numbers: list[int]) -> Arrangement | Refusal:
    bolts = numbers[0]
    toml = f"layout = {{ circle = {bolts} }}"
    return _arranged(text, circle(bolts), f"circle of {bolts}", toml, f"circle-{bolts}")


def _grid(text: str, numbers: list[int]) -> Arrangement | Refusal:
    how_many, bolts = numbers
    if how_many * bolts > LONGEST:
        return _refuse(text, f"{how_many} rows of {bolts} bolts are too many")
    return _rows(text, [bolts] * how_many)


def _rows(text: str, numbers: list[int]) -> Arrangement | Refusal:
    listed = ", ".join(str(bolts) for bolts in numbers)
    even = len(set(numbers)) == 1
    words = f"{len(numbers)} rows of {numbers[0]}" if even else f"rows of {listed}"
    slug = f"{len(numbers)}x{numbers[0]}" if even else "-".join(str(bolts) for bolts in numbers)
    words = f"1 row of {numbers[0]}" if len(numbers) == 1 else words
    return _arranged(text, rows(numbers), words, f"layout = {{ rows = [{listed}] }}", slug)


def _drawn(text: str) -> Arrangement | Refusal:
    found = read_diagram(text)
    bolts = len(found.positions) if isinstance(found, Layout) else 0
    return _arranged(text, found, f"{bolts} bolts as drawn", f"diagram = {quoted(text)}", f"drawn-{bolts}")


_READERS: tuple[tuple[re.Pattern[str], Callable[[str, list[int]], Arrangement | Refusal]], ...] = (
    (_CIRCLE, _circle),
    (_GRID, _grid),
    (_ROWS, _rows),
    (_COUNT, _count),
)


def _arranged(text: str, layout: Layout | Faults, words: str, toml: str, slug: str) -> Arrangement | Refusal:
    if isinstance(layout, Layout):
        return Arrangement(layout=layout, words=words, toml=toml, slug=slug)
    return _refuse(text, layout[0].message)


def _refuse(text: str, message: str) -> Refusal:
    return Refusal(text=text, message=message, readings=_READINGS)
