"""The drawings kept as golden text; `python -m tests.pattern.golden_drawings` writes them anew."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from tests.pattern.published import HEAD, MANIFOLD, PUMP, drawn, layout
from torqref.pattern.drawing import draw
from torqref.pattern.layout import Layout
from torqref.pattern.orientation import mark_arrow
from torqref.pattern.shape import circle, rows

GOLDEN = Path(__file__).parent / "golden"
ROOMS = {100: 30, 80: 24, 44: 14, 30: 10}


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What is drawn in every room."""

    layout: Layout
    marks: dict[int, str] = field(default_factory=dict)
    turn: int = 0
    mirrored: bool = False
    pointer: tuple[int, int] | None = None
    focus: int | None = None

    def text(self, width: int, height: int) -> str:
        """The drawing as the file keeps it."""
        drawing = draw(
            self.layout,
            self.marks,
            width=width,
            height=height,
            turn=self.turn,
            mirrored=self.mirrored,
            pointer=self.pointer,
            focus=self.focus,
        )
        return "\n".join(drawing.lines) + "\n"


_LENGTHS = {
    3: "25 mm",
    4: "25 mm",
    7: "25 mm",
    8: "25 mm",
    9: "80 mm",
    **dict.fromkeys((1, 2, 5, 6), "45 mm"),
}
KEPT = {
    "circle-5": Kept(layout=layout(circle(5))),
    "circle-8-walk": Kept(
        layout=layout(circle(8)), marks={1: "1x", 5: "5x", 3: "[3]"}, pointer=(5, 3), focus=3
    ),
    "circle-12": Kept(layout=layout(circle(12))),
    "circle-24": Kept(layout=layout(circle(24)), focus=14, marks={14: "[14]"}),
    "flange-48": Kept(layout=layout(circle(48)), focus=30, marks={30: "[30]", 6: "6x"}),
    "flange-200": Kept(layout=layout(circle(200)), focus=101, marks={101: "[101]", 1: "1x"}),
    "head": Kept(layout=drawn(HEAD), marks={1: "1x", 2: "2x", 3: "[3]"}, pointer=(2, 3), focus=3),
    "head-marks": Kept(layout=drawn(HEAD), marks={n: mark_arrow(90, start=270) for n in range(1, 11)}),
    "head-turned": Kept(layout=drawn(HEAD), turn=1),
    "head-mirrored": Kept(layout=drawn(HEAD), mirrored=True),
    "manifold": Kept(layout=drawn(MANIFOLD)),
    "pump": Kept(layout=drawn(PUMP)),
    "pump-lengths": Kept(layout=drawn(PUMP), marks=_LENGTHS),
    "line-9": Kept(layout=layout(rows((9,)))),
    "rows-6-6": Kept(layout=layout(rows((6, 6)))),
    "rows-20-20": Kept(layout=layout(rows((20, 20))), focus=33, marks={33: "[33]"}),
}
# The whole of a large flange, for a page that scrolls.
TALL = {"flange-200": (100, 110), "flange-48": (44, 40)}


def kept_files() -> Iterator[tuple[Path, str, int, int]]:
    """File, name, width and height of every golden drawing."""
    for name in KEPT:
        for width, height in ROOMS.items():
            yield GOLDEN / f"{name}-{width}.txt", name, width, height
    for name, (width, height) in TALL.items():
        yield GOLDEN / f"{name}-whole.txt", name, width, height


if __name__ == "__main__":
    for file, name, width, height in kept_files():
        file.write_text(KEPT[name].text(width, height), encoding="utf-8")
