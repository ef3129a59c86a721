"""Writes pictures of every screen in every state that matters, to look at them one by one.

    python -m tests.screens.gallery FOLDER [WORD...]      scenes whose name has one of these words

One sheet a scene and theme, all five sizes on it; SVG, which every browser shows. The screens are the real
ones, driven by keys; `scenes.py` is the table of them.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from demo.picture import CELL, ROW, svg
from tests.screens.bay import SIZES
from tests.screens.scenes import SCENES, Scene, pictures
from torqref.screens.line import Line
from torqref.screens.look import Look

LOOKS = {
    "dark": Look(bell=False),
    "light": Look(theme="light", bell=False),
    "sixteen": Look(theme="sixteen", colours=16, bell=False),
    "one-colour": Look(theme="one colour", colours=0, bell=False),
    "ascii": Look(theme="one colour", colours=0, ascii_only=True, bell=False),
}
_GAP = 24
# Which sizes stand in a row of the sheet.
_ROWS = ((0, 1), (2, 3, 4))


def sheet(taken: Sequence[tuple[Line, ...]], look: Look, name: str) -> str:
    """The pictures of one look at all sizes, beside and under each other."""
    top, parts, widest = 0, [], 0
    for row in _ROWS:
        left = 0
        for place in row:
            width, height = SIZES[place][0] * CELL + 16, SIZES[place][1] * ROW + 16
            picture = svg(taken[place], look.theme, f"{name} {SIZES[place][0]}x{SIZES[place][1]}")
            parts.append(
                picture.replace("<svg ", f'<svg x="{left}" y="{top}" width="{width}" height="{height}" ', 1)
            )
            left += width + _GAP
        widest = max(widest, left - _GAP)
        top += max(SIZES[place][1] for place in row) * ROW + 16 + _GAP
    ground = '<rect width="100%" height="100%" fill="#808080"/>'
    room = f'width="{widest}" height="{top - _GAP}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {room}>\n{ground}\n{"".join(parts)}</svg>\n'


def sheets(scene: Scene) -> dict[str, str]:
    """The sheets of a scene, by the name of the look."""
    rooms = [(size, look) for look in LOOKS.values() for size in SIZES]
    with TemporaryDirectory() as home:
        taken = pictures(scene, Path(home), rooms)
    many = len(SIZES)
    return {
        name: sheet(taken[place * many : (place + 1) * many], look, scene.name)
        for place, (name, look) in enumerate(LOOKS.items())
    }


def main(arguments: Sequence[str]) -> int:
    """Write the sheets into a folder."""
    if not arguments:
        print(__doc__)
        return 2
    folder, words = Path(arguments[0]), arguments[1:]
    folder.mkdir(parents=True, exist_ok=True)
    wanted = [scene for scene in SCENES if not words or any(word in scene.name for word in words)]
    for scene in wanted:
        for name, picture in sheets(scene).items():
            (folder / f"{scene.name}-{name}.svg").write_text(picture, encoding="utf-8")
    print(f"{len(wanted)} scenes in {len(LOOKS)} looks: {folder}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
