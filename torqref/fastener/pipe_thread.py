"""Reads pipe threads and Whitworth-form threads, so that none of them is taken for another thread.

They are known by size and pitch only: no property class and no clamp load goes with them.
"""

from __future__ import annotations

import re
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.fastener.geometry import Thread
from torqref.fastener.series import INCH, PIPE_55, PIPE_60, WHITWORTH

_SIZE = r"(?P<size>(?:\d[\s-]+)?\d{1,2}/\d{1,2}|\d)\s*\"?"
_PIPE_WORDS = "g|bspp|bspt|bsp|rp|rc|r|npt|nptf|npsm|nps"
# A or B behind a parallel thread is the tolerance class of ISO 228-1.
_BEFORE = re.compile(rf"(?P<word>{_PIPE_WORDS})\s*{_SIZE}(?:\s*-\s*[\d.]+)?(?:\s*[ab])?")
_AFTER = re.compile(rf"{_SIZE}(?:\s*-\s*[\d.]+)?\s*-?\s*(?P<word>{_PIPE_WORDS}|bsw|bsf|whit(?:worth)?)")
_NAMES = {"bspp": "G", "bsp": "G", "bspt": "R", "g": "G", "whit": "BSW", "whitworth": "BSW"}
_CAPITALS = {"r": "R", "rp": "Rp", "rc": "Rc"}


def read(plain: str) -> Thread | Refusal | None:
    """A pipe or Whitworth-form designation in plain small letters; None if it is not of this kind."""
    shape = _BEFORE.fullmatch(plain) or _AFTER.fullmatch(plain)
    if shape is None:
        return None
    size = re.sub(r"[\s-]+", "-", shape["size"].strip())
    name = _NAMES.get(shape["word"]) or _CAPITALS.get(shape["word"]) or shape["word"].upper()
    if name in ("BSW", "BSF"):
        return _whitworth(size, name)
    table = PIPE_60 if name.startswith("NP") else PIPE_55
    if size not in table:
        return Refusal(text=plain, message=f"{name} has no size {size} here", readings=(f"{name} 1/4",))
    diameter, tpi = table[size]
    return _thread(f"{name} {size}", diameter, tpi)


def _whitworth(size: str, name: str) -> Thread | Refusal:
    if size not in WHITWORTH:
        return Refusal(text=size, message=f"{name} has no size {size} here", readings=(f"3/8 {name}",))
    tpi = WHITWORTH[size][name == "BSF"]
    return _thread(f"{size}-{tpi} {name}", Fraction(size) * INCH, tpi, coarse=name == "BSW")


def _thread(designation: str, diameter: Fraction, tpi: Fraction, *, coarse: bool = True) -> Thread:
    return Thread(
        designation=designation, system="other", diameter_mm=diameter, pitch_mm=INCH / tpi, coarse=coarse
    )
