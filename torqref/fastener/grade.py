"""Property classes and grades: proof stress, yield and tensile strength as tables with their source.

A new class or grade is a row in `GRADES`. Which of them a text names is read here too, together with the
thread, because "8" on an inch thread is an SAE grade and on a metric thread is nothing at all.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from torqref.document.escape import escape
from torqref.document.refusal import Refusal
from torqref.fastener.geometry import Thread
from torqref.quantity.folding import fold

KSI = 6.894757293168361  # 1000 lbf/in² in MPa: 4448.2216152605 N / 645.16 mm², from the exact pound and inch

ISO_898 = "ISO 898-1, minimum mechanical properties"
SAE_J429 = "SAE J429"
ISO_3506 = "ISO 3506-1; proof is its stress at 0.2 % permanent strain"
A193 = "ASTM A193, diameters in three steps; proof taken as 0.85 of yield (Shigley, 9th ed., p. 442)"
A325 = "ASTM A325 and A490, tensile as used by AISC 360 Table J3.1; proof and yield from memory"

A449 = "ASTM A449 (from memory)"

Family = Literal["class", "SAE", "stainless", "ASTM"]
_FROM_YIELD = 0.85


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Minimum strengths up to a diameter, in MPa.

    Args:
        up_to_mm: largest nominal diameter they hold for, in mm.
        proof_MPa: stress that leaves no set.
        yield_MPa: yield or 0.2 % proof stress.
        tensile_MPa: tensile strength.
    """

    up_to_mm: float
    proof_MPa: float
    yield_MPa: float
    tensile_MPa: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A property class or grade.

    Args:
        name: how it is written: `8.8`, `SAE grade 5`, `A2-70`, `B7`.
        family: `class` (ISO 898-1), `SAE`, `stainless` or `ASTM`.
        strengths: minimum strengths by diameter, smallest diameters first.
        source: the standard the numbers come from.
    """

    name: str
    family: Family
    strengths: tuple[Strength, ...]
    source: str

    def strength(self, thread: Thread) -> Strength:
        """The strengths for a thread's diameter; the last row beyond the largest one."""
        rows = (row for row in self.strengths if float(thread.diameter_mm) <= row.up_to_mm + 0.01)
        return next(rows, self.strengths[-1])

    def proof_MPa(self, thread: Thread) -> float:
        """Proof stress in MPa for a thread's diameter."""
        return self.strength(thread).proof_MPa

    def yield_MPa(self, thread: Thread) -> float:
        """Yield stress in MPa for a thread's diameter."""
        return self.strength(thread).yield_MPa

    def tensile_MPa(self, thread: Thread) -> float:
        """Tensile strength in MPa for a thread's diameter."""
        return self.strength(thread).tensile_MPa

    def proof_load_kN(self, thread: Thread) -> float:
        """Proof load in kN: Fp = As · Sp.

        >>> from torqref.fastener.thread import read_thread
        >>> thread = read_thread("M8")
        >>> round(read_grade("8.8", thread).proof_load_kN(thread), 1)
        21.2
        """
        return thread.stress_area_mm2 * self.proof_MPa(thread) / 1000

    def covers(self, thread: Thread) -> bool:
        """Whether the standard covers the thread's diameter."""
        return float(thread.diameter_mm) <= self.strengths[-1].up_to_mm + 0.01


def _metric(name: str, *rows: tuple[float, float, float, float]) -> Grade:
    return Grade(name=name, family="class", strengths=_strengths(rows), source=ISO_898)


def _inch(name: str, family: Family, source: str, *rows: tuple[float, float, float, float]) -> Grade:
    """A grade whose table is in inches and ksi."""
    in_mm = tuple((top * 25.4, proof * KSI, low * KSI, high * KSI) for top, proof, low, high in rows)
    return Grade(name=name, family=family, strengths=_strengths(in_mm), source=source)


def _strengths(rows: tuple[tuple[float, float, float, float], ...]) -> tuple[Strength, ...]:
    return tuple(
        Strength(up_to_mm=top, proof_MPa=proof, yield_MPa=low, tensile_MPa=high)
        for top, proof, low, high in rows
    )


def _stainless(steel: str, kind: str, tensile: float, proof: float, top: float) -> Grade:
    rows = _strengths(((top, proof, proof, tensile),))
    return Grade(name=f"{steel}-{kind}", family="stainless", strengths=rows, source=ISO_3506)


_STEELS = ("A1", "A2", "A3", "A4", "A5")
# Older editions stop at M24 for 70 and 80.
_STAINLESS = (("50", 500.0, 210.0, 39.0), ("70", 700.0, 450.0, 39.0), ("80", 800.0, 600.0, 39.0))
_B7 = ((2.5, 105.0, 125.0), (4.0, 95.0, 115.0), (7.0, 75.0, 100.0))

# ISO 898-1 itself ends at M39; larger bolts carry the same classes by agreement.
_ANY = 300.0

GRADES: tuple[Grade, ...] = (
    # largest diameter in mm, proof, yield, tensile in MPa
    _metric("4.6", (_ANY, 225, 240, 400)),
    _metric("4.8", (_ANY, 310, 340, 420)),
    _metric("5.6", (_ANY, 280, 300, 500)),
    _metric("5.8", (_ANY, 380, 420, 520)),
    _metric("6.8", (_ANY, 440, 480, 600)),
    _metric("8.8", (16, 580, 640, 800), (_ANY, 600, 660, 830)),
    _metric("9.8", (16, 650, 720, 900)),
    _metric("10.9", (_ANY, 830, 940, 1040)),
    _metric("12.9", (_ANY, 970, 1100, 1220)),
    # largest diameter in inches, proof, yield, tensile in ksi
    _inch("SAE grade 1", "SAE", SAE_J429, (1.5, 33, 36, 60)),
    _inch("SAE grade 2", "SAE", SAE_J429, (0.75, 55, 57, 74), (1.5, 33, 36, 60)),
    _inch("SAE grade 4", "SAE", SAE_J429, (1.5, 65, 100, 115)),
    _inch("SAE grade 5", "SAE", SAE_J429, (1.0, 85, 92, 120), (1.5, 74, 81, 105)),
    _inch("SAE grade 5.2", "SAE", SAE_J429, (1.0, 85, 92, 120)),
    _inch("SAE grade 7", "SAE", SAE_J429, (1.5, 105, 115, 133)),
    _inch("SAE grade 8", "SAE", SAE_J429, (1.5, 120, 130, 150)),
    _inch("SAE grade 8.2", "SAE", SAE_J429, (1.0, 120, 130, 150)),
    *(_stainless(steel, *row) for steel in _STEELS for row in _STAINLESS),
    _inch("B7", "ASTM", A193, *((top, _FROM_YIELD * low, low, high) for top, low, high in _B7)),
    _inch("A449", "ASTM", A449, (1.0, 85, 92, 120), (1.5, 74, 81, 105), (3.0, 55, 58, 90)),
    _inch("A325", "ASTM", A325, (1.0, 85, 92, 120), (1.5, 74, 81, 105)),
    _inch("A490", "ASTM", A325, (1.5, 120, 130, 150)),
)
BY_NAME: dict[str, Grade] = {grade.name: grade for grade in GRADES}

_NOISE = re.compile(
    r"\b(?:property|class|cl|strength|steel|astm|iso|din|gr|grade|sae|j429|stainless|a193)\b\.?"
)
_SAE_WORD = re.compile(r"\b(?:sae|j429|gr|grade|g)\b|\bg(?=\d)")
# Bare numbers that people write for a metric class, and the class they usually mean.
_SHORT_METRIC = {
    "4": ("4.6", "4.8"),
    "5": ("5.8", "5.6"),
    "6": ("6.8",),
    "8": ("8.8",),
    "9": ("9.8",),
    "10": ("10.9",),
    "12": ("12.9",),
}


def read_grade(text: str, thread: Thread) -> Grade | Refusal:
    """A property class or grade as a person writes it for a thread.

    Args:
        text: such as `8.8`, `10,9`, `grade 8`, `8`, `SAE 5`, `A2-70`, `B7`.
        thread: the thread it stands with: `8` is SAE grade 8 on an inch thread only.

    Returns:
        The grade, or a refusal with the readings the text could have.

    >>> from torqref.fastener.thread import read_thread
    >>> read_grade("8", read_thread("3/8-16")).name
    'SAE grade 8'
    >>> read_grade("8", read_thread("M8")).readings
    ('8.8',)
    """
    folded = fold(text[:40])
    if isinstance(folded, Refusal):
        return folded
    plain = " ".join(folded.text.lower().replace(",", ".").split())
    said_sae = _SAE_WORD.search(plain) is not None
    word = re.sub(r"^g(?=\d)", "", " ".join(_NOISE.sub(" ", plain).split()))
    found = _found(word, thread, said_sae) if plain else None
    if isinstance(found, Refusal):
        return Refusal(text=text, message=found.message, readings=found.readings)
    if found is None:
        return _unknown(text, word, thread)
    if not found.covers(thread):
        message = f"{found.name} is not made as large as {thread.designation}"
        return Refusal(text=text, message=message, readings=_larger(thread))
    return found


def _found(word: str, thread: Thread, said_sae: bool) -> Grade | Refusal | None:
    if steel := re.fullmatch(r"(a[1-5])[\s/-]*(50|70|80)", word):
        return BY_NAME.get(f"{steel[1].upper()}-{steel[2]}")
    if re.fullmatch(r"a[1-5]|", word):
        return _which_stainless(word.upper() or "A2")
    if word.upper() in BY_NAME:
        return BY_NAME[word.upper()]
    sae = BY_NAME.get(f"SAE grade {word}")
    if sae is not None and thread.system != "metric":
        return sae
    if sae is not None and said_sae:
        return _sae_on_metric(sae)
    if word in _SHORT_METRIC:
        return Refusal(
            text=word,
            message=f"{word} alone is no property class of a metric thread; the head carries two numbers",
            readings=_SHORT_METRIC[word],
        )
    return None


def _which_stainless(steel: str) -> Refusal:
    return Refusal(
        text=steel,
        message=f"stainless {steel} comes in several strengths; the head carries the number, such as 70",
        readings=tuple(f"{steel}-{row[0]}" for row in _STAINLESS),
    )


def _sae_on_metric(sae: Grade) -> Refusal:
    """The metric classes nearest in tensile strength; the technician has to look at the head."""
    tensile = sae.strengths[0].tensile_MPa
    classes = [grade for grade in GRADES if grade.family == "class"]
    near = sorted(classes, key=lambda grade: abs(grade.strengths[0].tensile_MPa - tensile))[:2]
    return Refusal(
        text=sae.name,
        message=f"{sae.name} belongs to inch threads; a metric head carries two numbers such as 8.8",
        readings=tuple(grade.name for grade in near),
    )


def _larger(thread: Thread) -> tuple[str, ...]:
    usual = ("SAE grade 5", "SAE grade 8") if thread.system == "unified" else ("8.8", "10.9")
    return tuple(name for name in usual if BY_NAME[name].covers(thread))


def _unknown(text: str, word: str, thread: Thread) -> Refusal:
    from torqref.document.nearest import nearest

    # Another number is another strength and no slip of a letter: A307 is not A3-80.
    near = nearest(word, [name for name in BY_NAME if _is_slip(word, name.lower())]) if word else None
    usual = "5, 8 or B7" if thread.system == "unified" else "8.8, 10.9 or A2-70"
    return Refusal(
        text=text,
        message=f'"{escape(text[:40])}" is no property class or grade known here; {usual} would be one',
        readings=(near,) if near else (),
    )


def _is_slip(word: str, name: str) -> bool:
    """`88` and `10.8`: the digits are those of the grade, or those before its point."""
    digits, others = (re.findall(r"\d", text) for text in (word, name))
    head, other = (re.match(r"[a-z ]*\d+", text) for text in (word, name))
    return digits == others or bool(head and other and head[0] == other[0])
