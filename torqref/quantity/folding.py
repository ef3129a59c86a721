"""Folds what people paste into plain characters: dots, dashes, primes, blanks, digits of every script.

Fractions, degree look-alikes and superscripts are mapped before compatibility folding, which would turn
`12½` into 121/2, `90º` into 90o and `10²` into 102. A character that is a number but no digit, such as a
circled one, is left as it is and so refused further on. Nothing that a terminal hides gets through.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

from torqref.document.escape import escape, is_hidden
from torqref.document.refusal import Refusal

LONGEST = 200
THIN = "\N{THIN SPACE}"
FRACTION_SLASH = "\N{FRACTION SLASH}"

_ALIKE = {
    "-": "‐‑‒–—―−﹣－﹘⁃˗➖",
    "·": "·⋅•∙・･‧·ꞏ⸱●",
    "'": "′’‘´ʹ`ʼ＇‛",
    '"': "″”“„ʺ＂˝‟",
    "°": "º˚⁰ᵒ∘◦",
    "×": "✕✖⨯╳",
    "/": "∕⧸／",
    "~": "～〜∼˜∽⁓",
    "→": "⇒➔➜➙➡⟶↦➝",
    "≤": "≦⩽≲",
    "≥": "≧⩾≳",
    "±": "⨦∓",
    ".": "٫",
    "(": "{｛",
    ")": "}｝",
    THIN: "\u00a0\u2007\u2008\u200a\u202f",
}
_FOLDED = {char: plain for plain, chars in _ALIKE.items() for char in chars}
_LEFT_ALONE = frozenset(f"{THIN}{FRACTION_SLASH}…")
_BLANK = "Zs"
_QUOTES = ('""', "''", "“”", "„“", "””", "‘’", "’’", "«»", "»«", "``")
_EDGES = " \t\r\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Folded:
    """A text in plain characters, and where each of them stood.

    Args:
        text: the folded text.
        source: the text as given.
        origin: for each folded character its index in `source`; empty where both are the same.
    """

    text: str
    source: str
    origin: tuple[int, ...] = ()

    def place(self, index: int) -> int:
        """The index in the given text of a character of the folded one."""
        if not self.origin:
            return min(index, len(self.source))
        return self.origin[index] if index < len(self.origin) else len(self.source)

    def written(self, start: int, end: int) -> str:
        """What was written between two places of the folded text."""
        if not self.origin:
            return self.text[start:end]
        return self.source[self.place(start) : self.place(end - 1) + 1] if end > start else ""


def unquoted(text: str) -> str:
    """A text without the quotes around all of it: they are the typist's and none of the page."""
    bare = text.strip()
    is_quoted = len(bare) > len(_QUOTES[0]) and bare[0] + bare[-1] in _QUOTES
    return bare[1:-1] if is_quoted and not {bare[0], bare[-1]} & set(bare[1:-1]) else text


def fold(text: str) -> Folded | Refusal:
    """Fold a text, or refuse it for its length or for a character that cannot be seen.

    >>> fold("１２½ N⋅m").text, fold('"24 N·m"').text
    ('12 1⁄2 N·m', '24 N·m')
    """
    text = unquoted(text)
    if len(text) > LONGEST:
        return Refusal(text=text[:LONGEST], message=f"{len(text)} characters, at most {LONGEST} are read")
    if text.isascii() and text.isprintable() and "{" not in text and "}" not in text:
        return Folded(text=text, source=text)
    hidden = _hidden(text)
    if hidden is not None:
        shown = escape(text[hidden])
        return Refusal(
            text=text, message=f"a character that cannot be seen stands here: {shown}", caret=hidden
        )
    return _fold(text)


def _hidden(text: str) -> int | None:
    """Where the first hidden character stands; a tab is a blank, and a newline at either end is none."""
    first = len(text) - len(text.lstrip(_EDGES))
    last = len(text.rstrip(_EDGES))
    return next(
        (index for index in range(first, last) if text[index] != "\t" and is_hidden(text[index])), None
    )


def _fold(text: str) -> Folded:
    folded: list[str] = []
    origin: list[int] = []
    for index, char in enumerate(text):
        plain = _plain(char)
        if FRACTION_SLASH in plain and len(plain) > 1 and folded and folded[-1].isdecimal():
            plain = f" {plain}"
        folded.extend(plain)
        origin.extend([index] * len(plain))
    return Folded(text="".join(folded), source=text, origin=tuple(origin))


def _plain(char: str) -> str:
    """What stands for one character in the folded text."""
    if char in _FOLDED:
        return _FOLDED[char]
    if char.isascii():
        return " " if char in _EDGES else char
    if char.isdecimal():
        return str(unicodedata.decimal(char))
    if char in _LEFT_ALONE:
        return "..." if char == "…" else char
    if unicodedata.category(char) == _BLANK:
        return " "
    return _compatible(char)


def _compatible(char: str) -> str:
    """The compatibility form, except where it would make a digit out of something else."""
    plain = unicodedata.normalize("NFKC", char)
    if any(part.isdecimal() for part in plain):
        return plain if FRACTION_SLASH in plain and plain[-1].isdecimal() else char
    return plain
