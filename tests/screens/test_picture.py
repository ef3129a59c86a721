"""The picture of the README shows the screen as it is."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

ROOT = Path(__file__).parents[2]
SCRIPT, PICTURE = ROOT / "demo" / "picture.py", ROOT / "demo" / "walk.svg"


def test_the_picture_of_the_walk_is_not_stale() -> None:
    said = subprocess.run(
        [sys.executable, str(SCRIPT), "--check"], capture_output=True, text=True, check=False
    )
    assert said.returncode == 0, f"{said.stdout}{said.stderr}"


def test_the_picture_is_well_formed_and_says_what_it_shows() -> None:
    root = ElementTree.parse(PICTURE).getroot()
    space = "{http://www.w3.org/2000/svg}"
    title = root.find(f"{space}title")
    assert title is not None
    assert "walk screen" in (title.text or "")
    words = " ".join(text.text or "" for text in root.iter(f"{space}text"))
    for word in ("PRACTICE", "CLOCKWISE", "SPEC", "N·m"):
        assert word in words
