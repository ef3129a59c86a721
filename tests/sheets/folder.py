"""Records for the tests of sheets: walks made by the core, read back from their journals."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from html.parser import HTMLParser
from pathlib import Path

from tests.walk.workshop import MORNING, TWO_ROUNDS, Clock, Walk, group
from torqref.quantity.term import Torque
from torqref.walk.archive import Record, read_record
from torqref.walk.planner import Bench
from torqref.wrench.rack import Rack, Wrench
from torqref.wrench.scale import Scale

# Text that tries to be something else: markup, style, script, control, direction, formula, quotes.
HOSTILE = (
    "</td></table><script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "&lt;b&gt; \"double\" 'single' `tick`",
    "\x1b[2J\x07 bell and clear",
    "turn \u202e21\u202c and back",
    "zero\u200bwidth",
    '=HYPERLINK("http://x","y")',
    "+1+cmd|' /C calc'!A0",
    "@SUM(A1:A9)",
    "-2+3",
    "}</style><style>*{display:none}",
    "comma, semicolon; \"quote\" and 'other'",
    "x" * 2000,
    "ÄÖÜ ß 漢字 😀 N·m ½",
)
CSV_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def rack(due: date | None = date(2027, 1, 1)) -> Rack:
    """One wrench, its calibration running out on a day."""
    scale = Scale(low=Fraction(5), high=Fraction(60), unit="N·m", graduation=Fraction(1, 2))
    wrench = Wrench(id="W2", name="middle", kind="click", scales=(scale,), serial="S-17", calibration_due=due)
    return Rack(wrenches=(wrench,))


def walked(
    folder: Path, *lines: str, text: str = TWO_ROUNDS, bench: Bench | None = None, by: str = ""
) -> Record:
    """A walk with these lines said, as its journal tells it."""
    walk = Walk(group(text), folder, Clock(), bench or Bench(today=MORNING.date()), by=by)
    for line in lines:
        walk.say(line)
    path = walk.session.journal.path
    walk.session.close()
    return read(path)


def read(path: Path) -> Record:
    """A journal as a record that must be whole."""
    record, problems = read_record(path)
    assert record is not None
    assert not problems
    return record


def torque(text: str, low: int | None, target: int | None, high: int | None) -> Torque:
    """A torque in N·m."""
    limits = [None if value is None else Fraction(value) for value in (low, target, high)]
    return Torque(low=limits[0], target=limits[1], high=limits[2], unit="N·m", decimals=0, text=text)


class Page(HTMLParser):
    """An HTML page as a browser takes it apart: its tags, attributes and plain text."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.open: list[str] = []
        self.texts: list[str] = []
        self.cells: list[list[str]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes.extend((name, value or "") for name, value in attrs)
        if tag == "tr":
            self.cells.append([])
        if tag in ("td", "th"):
            self.cells[-1].append("")
        if tag not in ("meta", "br", "img"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag, f"<{tag}> is closed out of turn"

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] not in ("style", "script"):
            self.texts.append(data)
        if self.open and self.open[-1] in ("td", "th"):
            self.cells[-1][-1] += data

    @property
    def text(self) -> str:
        """Everything a reader sees."""
        return "\n".join(text for text in self.texts if text.strip())

    def row(self, first: str) -> list[str]:
        """The row of a table that begins with this cell."""
        return next(cells for cells in self.cells if cells and cells[0] == first)
