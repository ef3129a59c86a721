"""The same pattern as an SVG for print: black on white, no colour, nothing to load."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from torqref.pattern.cells import cells
from torqref.pattern.geometry import straightened
from torqref.pattern.layout import Layout, Order
from torqref.pattern.orientation import turned
from torqref.pattern.shape import CELLS_A_LINE
from torqref.pattern.stroke import Text, document, ring

# All in units of the drawing; 720 wide fills a page of paper.
_WIDTH, _HEIGHT = 720.0, 520.0
_SMALLEST_BOLT, _LARGEST_BOLT = 5.0, 26.0
_WORD_SIZE, _TITLE_SIZE = 15.0, 18.0
_WORD_LINE = 22.0
# From here on the marks of a circle stand outside the rings, along the spokes: inside they would be tiny.
_CROWDED = 48


def svg(
    layout: Layout,
    *,
    order: Order | None = None,
    marks: Mapping[int, str] | None = None,
    title: str = "",
    turn: int = 0,
    mirrored: bool = False,
) -> str:
    """The layout as a standalone SVG document, readable in black and white.

    Each bolt is a ring with its mark: the mark given, else its number in the order, else its label. Where
    marks or numbers differ from the labels, every label stands small beside its ring. The first bolt of the
    order has a double ring.

    Args:
        layout: the bolts and landmarks.
        order: the order of visiting, numbered from 1; bolts pulled together share a number.
        marks: what stands in the rings, instead of the numbers.
        title: a line above the picture.
        turn: quarter turns clockwise.
        mirrored: whether left and right are exchanged, before the turn.

    Returns:
        The text of the document.

    >>> from torqref.pattern.shape import circle
    >>> "<circle" in svg(circle(4))
    True
    """
    picture = turned(straightened(layout), turn % 4, mirrored)
    numbers = _numbers(order)
    shown = {label: (marks or {}).get(label, str(numbers.get(label, label))) for label in layout.labels}
    first = order.visits[0] if order and order.visits else ()
    drawing = _Drawing.of(picture)
    writing = [*drawing.writing(shown), *drawing.words()]
    shapes = [*drawing.outline(), *drawing.rings(frozenset(first))]
    return document(shapes, writing, drawing.box(), title, _TITLE_SIZE)


def _numbers(order: Order | None) -> dict[int, int]:
    """The number of the visit of each label; of a bolt visited twice the first."""
    numbers: dict[int, int] = {}
    for number, visit in enumerate(order.visits if order else (), start=1):
        for label in visit:
            numbers.setdefault(label, number)
    return numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawing:
    """The picture in units of the drawing: where the rings stand and how large they are."""

    layout: Layout
    scale: float
    bolt: float
    places: Mapping[int, tuple[float, float]]

    @classmethod
    def of(cls, layout: Layout) -> _Drawing:
        spots = {p.label: (p.x / CELLS_A_LINE, p.y) for p in layout.positions}
        closest = _closest(tuple(spots.values()))
        spans = [max(axis) - min(axis) for axis in zip(*spots.values(), strict=True)]
        fits = [room / span for room, span in zip((_WIDTH, _HEIGHT), spans, strict=True) if span]
        scale = min([*fits, 4 * _LARGEST_BOLT / closest])
        bolt = max(_SMALLEST_BOLT, min(_LARGEST_BOLT, scale * closest * 0.38))
        scale = max(scale, 2.3 * bolt / closest)
        places = {label: (x * scale, y * scale) for label, (x, y) in spots.items()}
        return cls(layout=layout, scale=scale, bolt=bolt, places=places)

    @property
    def is_crowded(self) -> bool:
        return self.layout.basis == "circle" and len(self.places) > _CROWDED

    @property
    def middle(self) -> tuple[float, float]:
        count = len(self.places)
        return (
            sum(x for x, _ in self.places.values()) / count,
            sum(y for _, y in self.places.values()) / count,
        )

    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of the rings."""
        xs, ys = ([place[axis] for place in self.places.values()] for axis in (0, 1))
        edge = self.bolt * 1.2
        return min(xs) - edge, min(ys) - edge, max(xs) + edge, max(ys) + edge

    def outline(self) -> Iterator[str]:
        """The bolt circle as a thin dashed line, where the layout is one."""
        if self.layout.basis == "circle":
            x, y = self.middle
            other_x, other_y = next(iter(self.places.values()))
            yield ring(x, y, math.hypot(other_x - x, other_y - y), 0.8, dashed=True)

    def rings(self, first: frozenset[int]) -> Iterator[str]:
        """A ring for each bolt, a double one for the first of the order."""
        line = self.bolt / 16
        for label, (x, y) in self.places.items():
            yield ring(x, y, self.bolt, line)
            if label in first:
                yield ring(x, y, self.bolt * 0.86, line * 0.7)

    def writing(self, shown: Mapping[int, str]) -> Iterator[Text]:
        """The marks in the rings, and the labels beside them where they say something else."""
        labelled = any(str(label) not in text for label, text in shown.items())
        for label, place in self.places.items():
            if self.is_crowded:
                yield self._spoke(shown[label], place, outward=True)
                if labelled:
                    yield self._spoke(str(label), place, outward=False)
                continue
            size = min(self.bolt, 2.25 * self.bolt / max(1, cells(shown[label])))
            yield Text(text=shown[label], x=place[0], y=place[1], size=size, bold=True)
            if labelled:
                x, y = self._beside(place)
                yield Text(text=str(label), x=x, y=y, size=max(6.0, self.bolt * 0.45))

    def _beside(self, place: tuple[float, float]) -> tuple[float, float]:
        """Outside the ring: away from the middle of a circle, elsewhere at the upper right."""
        x, y = place[0] - self.middle[0], place[1] - self.middle[1]
        if self.layout.basis != "circle":
            x, y = 1.0, -1.0
        far = 1.42 * self.bolt / (math.hypot(x, y) or 1.0)
        return place[0] + far * x, place[1] + far * y

    def _spoke(self, text: str, place: tuple[float, float], *, outward: bool) -> Text:
        """A text along the spoke of a crowded circle, outside its ring or inside; never upside down."""
        x, y = place[0] - self.middle[0], place[1] - self.middle[1]
        radius = math.hypot(x, y)
        away = (radius + self.bolt * (1.5 if outward else -1.5)) / radius
        angle = math.degrees(math.atan2(y, x))
        upside_down = abs(angle) > 90
        return Text(
            text=text,
            x=self.middle[0] + away * x,
            y=self.middle[1] + away * y,
            size=self.bolt * (1.9 if outward else 1.4),
            bold=outward,
            anchor="end" if upside_down == outward else "start",
            angle=angle + 180 if upside_down else angle,
        )

    def words(self) -> Iterator[Text]:
        """The landmarks: close beside, above or below the rings, or at their place among them."""
        left, top, right, bottom = self.box()
        taken: dict[tuple[str, float], float] = {}
        middle_x = self.middle[0]
        for landmark in sorted(
            self.layout.landmarks, key=lambda word: abs(word.x * self.scale / 2 - middle_x)
        ):
            x, y = landmark.x / CELLS_A_LINE * self.scale, landmark.y * self.scale
            side = "left" if x < left else "right" if x > right else "among"
            if not top <= y <= bottom:
                x, y = min(max(x, left), right), self._line_outside(landmark.y, top, bottom)
                side = "among"
            wide = (cells(landmark.text) + 2) * _WORD_SIZE * 0.62
            start = taken.get((side, y), 0.0) + 8.0
            taken[side, y] = start + wide
            place = {"left": left - start, "right": right + start, "among": x}[side]
            anchor = {"left": "end", "right": "start", "among": "middle"}[side]
            yield Text(text=landmark.text, x=place, y=y, size=_WORD_SIZE, italic=True, anchor=anchor)

    def _line_outside(self, place: float, top: float, bottom: float) -> float:
        """A line of words above or below the rings: the first one close to them, each further one beyond."""
        heights = {word.y for word in self.layout.landmarks}
        if place * self.scale < top:
            rank = sum(1 for other in heights if place <= other and other * self.scale < top)
            return top - rank * _WORD_LINE
        rank = sum(1 for other in heights if other <= place and other * self.scale > bottom)
        return bottom + rank * _WORD_LINE


def _closest(spots: Sequence[tuple[float, float]]) -> float:
    """Distance of the two bolts that stand nearest to each other."""
    return min(
        (
            math.hypot(x - other_x, y - other_y)
            for number, (x, y) in enumerate(spots)
            for other_x, other_y in spots[:number]
        ),
        default=1.0,
    )
