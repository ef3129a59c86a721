"""Reads the published values beside this file; each entry carries its source, provenance and use."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import tomli

from torqref.fastener.geometry import Thread
from torqref.fastener.grade import Grade, read_grade
from torqref.fastener.thread import read_thread

HERE = Path(__file__).parent
FILES = ("published_mechanics.toml", "published_preload.toml", "published_nuts.toml")
KSI_IN_MPA = 4448.2216152605 / 645.16  # 1000 lbf over 1 in², from the exact pound and inch
MM2_IN_IN2 = 645.16
POUND_FORCE_N = 4.4482216152605
FOOT_POUND_NM = 1.3558179483314004
INCH_POUND_NM = FOOT_POUND_NM / 12


@cache
def entries() -> dict[str, dict[str, Any]]:
    """All entries of the three files by their id."""
    found: dict[str, dict[str, Any]] = {}
    for name in FILES:
        document = tomli.loads((HERE / name).read_text(encoding="utf-8"))
        for section in (part for part in document.values() if isinstance(part, list)):
            found.update({entry["id"]: entry for entry in section})
    return found


def entry(name: str) -> dict[str, Any]:
    return entries()[name]


def rows(name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = entry(name)["rows"]
    return found


def thread(text: str) -> Thread:
    found = read_thread(text)
    assert isinstance(found, Thread), found
    return found


def grade(text: str, on: Thread) -> Grade:
    found = read_grade(text, on)
    assert isinstance(found, Grade), found
    return found


def half_digit(printed: float | int) -> float:
    """Half of the last printed digit; whole numbers of three digits or fewer count as printed to the unit."""
    text = repr(printed)
    if "." not in text:
        return 0.5
    return 0.5 * 10 ** -len(text.rstrip("0").split(".")[1] or "0") if not text.endswith(".0") else 0.05
