"""Drives the real walk screen and writes what it shows as an SVG picture: demo/walk.svg, for the README.

    python demo/picture.py            write the picture
    python demo/picture.py --check    say whether it is stale (exit code 1)

Needs no terminal. The picture is drawn from the painted cells, block figures as rectangles, so that it looks
the same in every browser.
"""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.sax.saxutils import escape

ROOT = Path(__file__).resolve().parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from torqref.library.shelf import find_group, shipped_folder  # noqa: E402 - after the path is set
from torqref.screens.app import TorqrefApp  # noqa: E402
from torqref.screens.context import Context  # noqa: E402
from torqref.screens.line import Line, cells, width_of  # noqa: E402
from torqref.screens.look import Look  # noqa: E402
from torqref.screens.painted import PaintedScreen  # noqa: E402
from torqref.screens.theme import THEMES, Ink  # noqa: E402
from torqref.walk.opening import Request, open_group  # noqa: E402
from torqref.walk.planner import Bench  # noqa: E402

PICTURE = ROOT / "demo" / "walk.svg"
GROUP, SIZE, THEME = "exhaust-manifold", (84, 24), "dark"
# Opening stop, hand round, stop at 12 N·m, ten bolts, stop at 22-26 N·m, then six bolts.
KEYS = ("enter",) * 3 + ("enter",) * 10 + ("enter",) * 7
CELL, ROW = 10, 20


def walk_lines() -> tuple[Line, ...]:
    """The lines of the real screen after these keys."""
    with TemporaryDirectory() as folder:
        return asyncio.run(_drive(Path(folder)))


async def _drive(folder: Path) -> tuple[Line, ...]:
    seconds = iter(range(10**6))

    def clock() -> datetime:
        return datetime(2026, 3, 2, 8, tzinfo=UTC) + timedelta(seconds=next(seconds))

    group, _ = find_group(GROUP, (shipped_folder(),))
    if group is None:
        raise SystemExit(f"{GROUP} is not in the shipped library")
    opening = open_group(group, Bench(today=clock().date()), Request(folder=folder, bay="demo"), clock)
    if opening.session is None:
        raise SystemExit(opening.refusal.message if opening.refusal else "the walk did not open")
    look = Look(theme=THEME, bell=False)
    context = Context(clock=clock, bay="demo", records=folder, session=opening.session, look=look)
    app = TorqrefApp(context, "walk", session=opening.session)
    async with app.run_test(size=SIZE) as pilot:
        await pilot.press(*KEYS)
        await pilot.pause()
        screen = app.screen
        lines = screen.painter.lines if isinstance(screen, PaintedScreen) else ()
    opening.session.close()
    return lines


def svg(lines: Sequence[Line], theme: str, title: str) -> str:
    """Painted lines as an SVG picture.

    Args:
        lines: lines of pieces, all equally wide.
        theme: a row of `THEMES`; where it leaves the colours to the terminal, those of a plain one.
        title: what a screen reader says of the picture.
    """
    inks = {tone: _on_a_terminal(ink) for tone, ink in THEMES[theme].items()}
    width = max(width_of(line) for line in lines) * CELL
    height = len(lines) * ROW
    ground = inks["plain"].back
    body = "".join(_line(line, row, inks) for row, line in enumerate(lines))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" shape-rendering="crispEdges" role="img" '
        f'viewBox="-8 -8 {width + 16} {height + 16}">\n'
        f"<title>{escape(title)}</title>\n"
        f'<rect x="-8" y="-8" width="{width + 16}" height="{height + 16}" rx="8" fill="{ground}"/>\n'
        '<g font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="16">\n'
        f"{body}</g>\n</svg>\n"
    )


# How a terminal of sixteen colours or one may look: its own fore and ground, and the names of colours.
_FORE, _GROUND = "#d6d6d6", "#101010"
_NAMED = {
    "black": "#000000",
    "red": "#b01818",
    "yellow": "#c8a000",
    "magenta": "#c050c0",
    "cyan": "#30b8b8",
    "white": "#e8e8e8",
}


def _on_a_terminal(ink: Ink) -> Ink:
    """The same with colours in place of names, and turned round where it is written in reverse."""
    fore = _NAMED.get(ink.fore, ink.fore) or _FORE
    back = _NAMED.get(ink.back, ink.back) or _GROUND
    return ink._replace(fore=back, back=fore) if ink.reverse else ink._replace(fore=fore, back=back)


def _line(line: Line, row: int, inks: Mapping[str, Ink]) -> str:
    column, parts = 0, []
    for text, tone in line:
        ink, wide = inks[tone], cells(text)
        if ink.back != inks["plain"].back:
            parts.append(_rect(column, row, wide, 0, 1, ink.back))
        if ink.underline:
            parts.append(_rect(column, row, wide, 0.93, 0.05, ink.fore))
        parts.extend(_signs(text, column, row, ink))
        column += wide
    return "".join(f"{part}\n" for part in parts)


_BLOCKS = {"█": (0.0, 1.0), "▀": (0.0, 0.5), "▄": (0.5, 0.5)}


def _signs(text: str, column: int, row: int, ink: Ink) -> Iterator[str]:
    """Runs of equal blocks as one rectangle each, words as text at their own place."""
    place = 0
    while place < len(text):
        char = text[place]
        if char == " ":
            place += 1
            continue
        end = place
        same = {char} if char in _BLOCKS else None
        while (
            end < len(text) and text[end] != " " and (text[end] in same if same else text[end] not in _BLOCKS)
        ):
            end += 1
        if same:
            top, high = _BLOCKS[char]
            yield _rect(column + place, row, end - place, top, high, ink.fore)
        else:
            yield _word(text[place:end], column + place, row, ink)
        place = end


def _rect(column: int, row: int, cells: int, top: float, high: float, fill: str) -> str:
    y, height = row * ROW + top * ROW, high * ROW
    return f'<rect x="{column * CELL}" y="{y:g}" width="{cells * CELL}" height="{height:g}" fill="{fill}"/>'


def _word(word: str, column: int, row: int, ink: Ink) -> str:
    weight = ' font-weight="bold"' if ink.bold else ""
    length = f'textLength="{len(word) * CELL}" lengthAdjust="spacingAndGlyphs"'
    place = f'x="{column * CELL}" y="{row * ROW + 15}"'
    return f'<text {place} fill="{ink.fore}" {length}{weight}>{escape(word)}</text>'


def picture() -> str:
    """The picture as it should be now."""
    return svg(walk_lines(), THEME, "torqref: the walk screen at bolt 7 of an invented exhaust manifold")


def main(arguments: Sequence[str]) -> int:
    """Write the picture, or say whether it is stale."""
    now = picture()
    if "--check" in arguments:
        stale = not PICTURE.is_file() or PICTURE.read_text(encoding="utf-8") != now
        print("stale: run python demo/picture.py" if stale else "fresh")
        return int(stale)
    PICTURE.write_text(now, encoding="utf-8")
    print(f"wrote {PICTURE.relative_to(ROOT)}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
