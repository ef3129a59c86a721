"""How slippery the threads are: torque factor K by condition, friction classes, scatter by method.

Every row says what it is for and where it comes from. The condition of a value belongs to the value:
nothing here turns a specification into another one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.document.refusal import Refusal
from torqref.fastener.locking import THREADLOCKER, is_threadlocked

SHIGLEY_K = "Shigley's Mechanical Engineering Design, 9th ed., Table 8-15"
NASA_SCATTER = "preload uncertainty by method, NASA preloaded-bolt criteria as quoted in course notes"
HANDBOOK_SCATTER = "Machinery's Handbook, preload accuracy by method, as quoted in course notes"
HABIT = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """The state of threads and bearing faces, and the torque factor that goes with it.

    Args:
        name: how torqref writes it.
        words: the state in words, for a sentence: "with … threads".
        k: torque factor K in T = K · F · d.
        scatter: share by which the clamp load of one bolt may lie above or below at the same torque.
        source: where K comes from.
        scatter_source: where the scatter comes from.
    """

    name: str
    words: str
    k: float
    scatter: float
    source: str
    scatter_source: str = NASA_SCATTER

    @property
    def k_low(self) -> float:
        """K of the bolt that gets the most clamp load: K / (1 + scatter)."""
        return self.k / (1 + self.scatter)

    @property
    def k_high(self) -> float:
        """K of the bolt that gets the least clamp load: K / (1 − scatter)."""
        return self.k / (1 - self.scatter)


DRY = Condition(
    name="dry", words="dry, plated or as-received threads", k=0.20, scatter=0.35, source=SHIGLEY_K
)
OILED = Condition(
    name="oiled",
    words="oiled threads and bearing faces",
    k=0.15,
    scatter=0.25,
    source=f"a quarter below dry: {HABIT}; {SHIGLEY_K} has 0.18 for lubricated threads",
)
ANTI_SEIZE = Condition(
    name="anti-seize", words="anti-seize on the threads", k=0.12, scatter=0.25, source=SHIGLEY_K
)
CONDITIONS: tuple[Condition, ...] = (
    DRY,
    OILED,
    ANTI_SEIZE,
    Condition(name="zinc", words="dry zinc-plated threads", k=0.20, scatter=0.35, source=SHIGLEY_K),
    Condition(name="black", words="dry threads without plating", k=0.30, scatter=0.35, source=SHIGLEY_K),
    Condition(name="lubricated", words="lubricated threads", k=0.18, scatter=0.25, source=SHIGLEY_K),
    Condition(name="cadmium", words="cadmium-plated threads", k=0.16, scatter=0.30, source=SHIGLEY_K),
    Condition(name="low-friction", words="low-friction coated nuts", k=0.09, scatter=0.25, source=SHIGLEY_K),
    Condition(
        name="moly",
        words="molybdenum paste on the threads",
        k=0.11,
        scatter=0.25,
        source="worked from a published pair of torques for one clamp load",
    ),
    Condition(
        name="threadlocker",
        words="liquid threadlocker on the threads",
        k=0.16,
        scatter=0.25,
        source=f"a fifth below dry: {HABIT}",
    ),
)
BY_NAME: dict[str, Condition] = {condition.name: condition for condition in CONDITIONS}

# First match wins: a word that denies a lubricant is looked for before the lubricant itself.
_WORDS: tuple[tuple[str, str], ...] = (
    (r"without plating|un-?plated|non-?plated|black (finish|oxide|bolt)", "black"),
    (r"oil[- ]?free|free (of|from) (oil|grease)|un-?(oiled|lubricated|greased)|degreased|\bdry\b", "dry"),
    (r"\b(no|not|never|without|don'?t|do not|avoid)\b[^,.;]*\b(oil|lubri|grease|anti|paste)\w*", "dry"),
    (THREADLOCKER, "threadlocker"),
    (r"moly|mos2", "moly"),
    (r"anti-?\s?seize|copper (paste|grease)|nickel paste|assembly paste", "anti-seize"),
    (r"low[- ]friction|wax", "low-friction"),
    (r"\boil(ed)?\b|\bwet\b", "oiled"),
    (r"lubri|greas", "lubricated"),
    (r"cadmium|\bcad\b", "cadmium"),
    (r"zinc|galvani[sz]ed|plated", "zinc"),
    (r"black|plain|bare|phosphat", "black"),
    (r"clean|as[- ]received", "dry"),
)


def condition_in(text: str) -> Condition | None:
    """The condition that a text speaks of, or None where it speaks of none.

    >>> condition_in("threads oil-free").name
    'dry'
    >>> condition_in("anti-seize on the studs").name
    'anti-seize'
    """
    plain = text.lower()
    denied = "" if is_threadlocked(plain) else "threadlocker"
    spoken = (name for pattern, name in _WORDS if name != denied and re.search(pattern, plain))
    return next((BY_NAME[name] for name in spoken), None)


def read_condition(text: str) -> Condition | Refusal:
    """The condition a person names, or a refusal with the known ones."""
    found = condition_in(text) or BY_NAME.get(text.strip().lower())
    if found is not None:
        return found
    near = nearest(text, BY_NAME)
    return Refusal(
        text=text,
        message=f'"{escape(text[:40])}" is no thread condition known here',
        readings=(near,) if near else tuple(BY_NAME),
    )


def effect_of_others(condition: Condition) -> str:
    """What dry, oiled or anti-seize threads would do to the clamp load of a value for one condition.

    F' / F = K / K' at the same torque. A fact about the joint; the value itself stays as printed.

    >>> effect_of_others(OILED).partition(": ")[2]
    'dry would lose about 25 %, anti-seize would add about 25 % of clamp load.'
    """
    changes = ((other.name, condition.k / other.k - 1) for other in (DRY, OILED, ANTI_SEIZE))
    effects = ", ".join(
        f"{name} would {'add' if change > 0 else 'lose'} about {abs(change) * 100:.0f} %"
        for name, change in changes
        if abs(change) > 0.01
    )
    return f"Value for {condition.words}: {effects} of clamp load."


@dataclass(frozen=True, slots=True, kw_only=True)
class FrictionClass:
    """A range of friction coefficients and what is usually found in it.

    Args:
        name: letter of the class.
        low: smallest coefficient.
        high: largest coefficient.
        words: what usually has it.
    """

    name: str
    low: float
    high: float
    words: str


# VDI 2230 Part 1, Table A5, friction coefficient classes (from memory).
FRICTION_CLASSES: tuple[FrictionClass, ...] = (
    FrictionClass(name="A", low=0.04, high=0.10, words="paste, wax or low-friction coating"),
    FrictionClass(name="B", low=0.08, high=0.16, words="oiled, or plated and oiled"),
    FrictionClass(name="C", low=0.14, high=0.24, words="dry plated, or bright with a little oil"),
    FrictionClass(name="D", low=0.20, high=0.35, words="dry stainless or rough"),
    FrictionClass(name="E", low=0.30, high=0.50, words="dry, galling stainless or aluminium"),
)


def friction_classes(mu: float) -> tuple[FrictionClass, ...]:
    """The classes that a friction coefficient may belong to; they overlap.

    >>> [found.name for found in friction_classes(0.12)]
    ['B']
    """
    return tuple(found for found in FRICTION_CLASSES if found.low <= mu <= found.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """How far the clamp load may lie from the wanted one with a method of tightening.

    Args:
        method: the method.
        low: smallest share, plus or minus.
        high: largest share, plus or minus.
        source: where it comes from.
    """

    method: str
    low: float
    high: float
    source: str

    @property
    def tightening_factor(self) -> tuple[float, float]:
        """Largest over smallest clamp load, αA = (1 + t) / (1 − t), at both ends of the range."""
        return tightening_factor(self.low), tightening_factor(self.high)


def tightening_factor(scatter: float) -> float:
    """Largest over smallest clamp load of one method: αA = (1 + t) / (1 − t), VDI 2230.

    Args:
        scatter: share above and below the mean, 0 to below 1.

    Returns:
        The tightening factor, 1 for no scatter.

    >>> tightening_factor(0.25)
    1.6666666666666667
    """
    return (1 + scatter) / (1 - scatter)


VDI_1986 = "VDI 2230 (1986), guide tolerances as restated by a distributor"
SCATTERS: tuple[Scatter, ...] = (
    Scatter(method="by feel", low=0.35, high=0.35, source=HANDBOOK_SCATTER),
    Scatter(method="torque wrench", low=0.25, high=0.25, source=HANDBOOK_SCATTER),
    Scatter(method="turn of nut", low=0.15, high=0.15, source=HANDBOOK_SCATTER),
    Scatter(method="preload indicating washer", low=0.10, high=0.10, source=HANDBOOK_SCATTER),
    Scatter(method="bolt elongation", low=0.03, high=0.05, source=HANDBOOK_SCATTER),
    Scatter(method="torque, unlubricated", low=0.35, high=0.35, source=NASA_SCATTER),
    Scatter(method="torque, cadmium-plated", low=0.30, high=0.30, source=NASA_SCATTER),
    Scatter(method="torque, lubricated", low=0.25, high=0.25, source=NASA_SCATTER),
    Scatter(method="hydraulic tensioner", low=0.15, high=0.15, source=NASA_SCATTER),
    Scatter(method="yield controlled", low=0.05, high=0.12, source=VDI_1986),
    Scatter(method="angle controlled", low=0.05, high=0.12, source=VDI_1986),
    Scatter(method="hydraulic", low=0.09, high=0.23, source=VDI_1986),
    Scatter(method="torque wrench, torque found by test", low=0.17, high=0.23, source=VDI_1986),
    Scatter(method="torque wrench, friction estimated", low=0.23, high=0.28, source=VDI_1986),
    Scatter(method="precision power driver", low=0.26, high=0.43, source=VDI_1986),
)
