"""The few things an SVG picture is made of: rings, texts, and the document round them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from torqref.pattern.cells import cells

_FONT = "font-family='DejaVu Sans, Arial, Helvetica, sans-serif'"
_ESCAPES = {"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"}
_EDGE = 14.0
# Mean width of a letter and height of a figure, as shares of the letter size, for common sans-serif fonts.
_LETTER = 0.66
_FIGURE = 0.36
_SMALLEST_TITLE = 11.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A text at a place, its middle at that height."""

    text: str
    x: float
    y: float
    size: float
    bold: bool = False
    italic: bool = False
    anchor: str = "middle"
    angle: float = 0.0

    def tag(self) -> str:
        """The text as an element."""
        style = " font-weight='bold'" if self.bold else ""
        style += " font-style='italic'" if self.italic else ""
        style += f" transform='rotate({self.angle:.1f} {self.x:.1f} {self.y:.1f})'" if self.angle else ""
        return (
            f"<text x='{self.x:.1f}' y='{self.y + self.size * _FIGURE:.1f}' font-size='{self.size:.1f}' "
            f"text-anchor='{self.anchor}'{style}>{escaped(self.text)}</text>"
        )

    def reach(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom, generously; a turned text as the square round its length."""
        wide = width(self.text, self.size)
        before = {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        high = self.size * 0.6
        if self.angle:
            return self.x - wide, self.y - wide, self.x + wide, self.y + wide
        return self.x - before, self.y - high, self.x - before + wide, self.y + high


def width(text: str, size: float) -> float:
    """About how wide a text is."""
    return cells(text) * size * _LETTER


def ring(x: float, y: float, radius: float, line: float, *, dashed: bool = False) -> str:
    """A circle line on white, or a dashed one on nothing."""
    look = "fill='none' stroke-dasharray='2 5'" if dashed else "fill='white'"
    place = f"cx='{x:.1f}' cy='{y:.1f}' r='{radius:.1f}'"
    return f"<circle {place} {look} stroke='black' stroke-width='{line:.2f}'/>"


def document(
    shapes: Sequence[str],
    writing: Sequence[Text],
    box: tuple[float, float, float, float],
    title: str,
    title_size: float,
) -> str:
    """The whole SVG document, just large enough for everything in it.

    Args:
        shapes: elements drawn first.
        writing: texts drawn over them.
        box: left, top, right and bottom of the shapes.
        title: a line above, made smaller or wrapped where it is long; may be empty.
        title_size: its letter size.
    """
    reaches = [box, *(text.reach() for text in writing)]
    left, top = min(reach[0] for reach in reaches) - _EDGE, min(reach[1] for reach in reaches) - _EDGE
    right, bottom = max(reach[2] for reach in reaches) + _EDGE, max(reach[3] for reach in reaches) + _EDGE
    right = max(right, left + _least_width(title))
    heading = tuple(_heading(title, left + _EDGE, top, right - left - 2 * _EDGE, title_size))
    top -= len(heading) * title_size * 1.4 + (_EDGE if heading else 0)
    size = f"{right - left:.0f}", f"{bottom - top:.0f}"
    return "\n".join(
        [
            "<?xml version='1.0' encoding='UTF-8'?>",
            f"<svg xmlns='http://www.w3.org/2000/svg' viewBox='{left:.0f} {top:.0f} {size[0]} {size[1]}' "
            f"width='{size[0]}' height='{size[1]}' role='img' {_FONT}>",
            f"<title>{escaped(title or 'Bolt pattern')}</title>",
            f"<rect x='{left:.0f}' y='{top:.0f}' width='{size[0]}' height='{size[1]}' fill='white'/>",
            *shapes,
            *(text.tag() for text in (*writing, *heading)),
            "</svg>",
            "",
        ]
    )


def _least_width(title: str) -> float:
    """Room for some words of a title, however small the picture is."""
    return min(300.0, width(title, _SMALLEST_TITLE) + 3 * _EDGE) if title else 0.0


def _heading(title: str, x: float, top: float, room: float, size: float) -> Iterator[Text]:
    """The title in lines that fit, the last one just above the picture."""
    lines: list[str] = []
    for word in title.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    for number, line in enumerate(lines):
        y = top - (len(lines) - number - 0.3) * size * 1.4
        fitting = min(size, size * room / max(1.0, width(line, size)))
        yield Text(text=line, x=x, y=y, size=fitting, bold=True, anchor="start")


def escaped(text: str) -> str:
    """Text fit for an XML document: markup signs as entities, characters XML does not know as `?`.

    >>> escaped("A < B")
    'A &lt; B'
    """
    return "".join(_ESCAPES.get(char, char if _is_xml(char) else "?") for char in text)


def _is_xml(char: str) -> bool:
    """Whether XML 1.0, section 2.2, allows the character."""
    code = ord(char)
    return char in "\t\n\r" or 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or code >= 0x10000
