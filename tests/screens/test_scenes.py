"""The gallery: every scene is reached, and each picture of it fills its room and holds its main facts."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.screens import gallery
from tests.screens.bay import SIZES
from tests.screens.gallery import LOOKS
from tests.screens.scenes import SCENES, Scene, pictures
from torqref.screens.line import text_of, width_of

# scene: what must be read in it, whatever the size
TOLD = {
    "caution": "CAUTION",
    "stop-was": "STOP",
    "bolt": "CLOCKWISE >>>",
    "angle": "TURN",
    "marks": "MARKS",
    "angle-question": "already turned",
    "trouble-digits": "overshot",
    "wait": "WAIT",
    "recheck": "still or moved",
    "card-1": "CARD: bolt 1",
    "finished": "FINISHED",
    "turned": "MIRRORED",
    "big": "CLOCKWISE >>>",
}


@pytest.mark.slow
@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.name)
def test_every_scene_fills_every_room_and_says_its_main_thing(scene: Scene, tmp_path: Path) -> None:
    rooms = [(size, look) for look in (LOOKS["dark"], LOOKS["ascii"]) for size in SIZES]
    taken = pictures(scene, tmp_path, rooms)
    assert len(taken) == len(rooms)
    for (size, look), lines in zip(rooms, taken, strict=True):
        said = "\n".join(text_of(line) for line in lines)
        assert len(lines) == size[1], (size, said)
        assert {width_of(line) for line in lines} == {size[0]}
        assert TOLD.get(scene.name, "") in said, (size, said)
        assert said.isascii() or not look.ascii_only


def test_the_gallery_writes_sheets_that_a_browser_can_show(tmp_path: Path) -> None:
    assert gallery.main([str(tmp_path), "card-1"]) == 0
    assert {path.stem for path in tmp_path.iterdir()} == {f"card-1-{look}" for look in LOOKS}
    space = "{http://www.w3.org/2000/svg}"
    for path in tmp_path.iterdir():
        assert len(list(ElementTree.parse(path).getroot().iter(f"{space}title"))) == len(SIZES)
