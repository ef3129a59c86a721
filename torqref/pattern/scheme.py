"""Ready-made tightening schemes as data, each with its source; the library turns them into stages.

They are general practice for their kind of joint and never replace what the manufacturer's page says.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

StepKind = Literal[
    "hand",
    "snug",
    "share",
    "circular-until-still",
    "wait",
    "recheck",
    "wheels-in-the-air",
    "weight-on-wheels",
]
StepOrder = Literal["pattern", "circular"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One stage of a scheme.

    Args:
        kind: what is done: `hand` on by hand; `snug` lightly, at most the share; `share` to the share of the
            final value; `circular-until-still` round and round at the share until no bolt moves; `wait` the
            hours; `recheck` at the share, without loosening; `wheels-in-the-air` and `weight-on-wheels`
            to the share in that state.
        share: part of the final value, 1 for all of it; None where nothing is pulled to a value.
        order: the prescribed or generic pattern, or once round.
        hours: how long a `wait` takes at least; None for none or where distance counts.
        words: the step as a sentence for the technician.
    """

    kind: StepKind
    words: str
    share: Fraction | None = None
    order: StepOrder = "pattern"
    hours: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheme:
    """A ready-made row of steps with its source.

    Args:
        name: what `passes = NAME` says.
        title: what it is for.
        steps: the steps in their order.
        source: where the practice is printed, and how far it was seen.
    """

    name: str
    title: str
    steps: tuple[Step, ...]
    source: str


_HAND = Step(kind="hand", words="Run all down by hand until they seat.")
_SNUG_LIMIT = Fraction(1, 5)
_SNUG = Step(
    kind="snug",
    share=_SNUG_LIMIT,
    words="Snug: 15–30 N·m (10–20 ft-lb), but never above 20 % of the final value. Look at the gap.",
)
_FULL = Fraction(1)


def _pass(percent: int) -> Step:
    """One trip round the pattern at a share of the final value."""
    words = f"All in the pattern to {percent} % of the final value."
    return Step(kind="share", share=Fraction(percent, 100), words=words)


def _round(percent: int = 100) -> Step:
    """Round and round until nothing moves."""
    words = "Round the circle at the final value, again and again, until no nut moves."
    return Step(kind="circular-until-still", share=Fraction(percent, 100), order="circular", words=words)


def _wait(hours: int) -> Step:
    return Step(kind="wait", hours=Fraction(hours), words=f"Wait at least {hours} h.")


_FLANGE_SOURCE = (
    "ASME PCC-1-2010 single-tool steps as restated in a gasket maker's installation instructions "
    "(30, 70, 100 %: the upper ends of its ranges); dwell of 4 h: abstract of ASME PVP2021-85321; snug limit "
    "of 20 %: Plastics Pipe Institute TN-38 as restated. The standard itself was not seen."
)
_GASKET_SOURCE = (
    "Gasket maker's questions and answers on bolting flanges, citing the Fluid Sealing Association."
)
_ARMY_SOURCE = (
    'US Army "Torque Limits" work package, e.g. TM 5-3805-298-23-2 WP 0176, paragraph GENERAL: fasteners '
    "above 30 ft-lb (41 N·m) first round the pattern at 70 % of the final value."
)
_WHEEL_SOURCE = (
    "US Army TM 5-3820-256-24-3, p. 3-17 (criss-cross, not fully tight at first, recheck after about 50 "
    "miles) and TM 9-2330-238-14, p. 4-103 (checked again with the wheel on the ground). "
    "A first round at half the value: common practice, no source."
)
_DUAL_SOURCE = (
    "US Army TM 9-2330-238-14, para. 4-49, p. 4-103 (opposite sides in turn, again with the wheel on the "
    "ground); PS Magazine 256, March 1974 (an inner nut is never tightened while its outer nut is tight); "
    "TM 5-2330-378-14&P, p. 3-23 (recheck after the first 50 to 100 miles)."
)
_LINED_SOURCE = (
    "One maker of lined pipe, as printed in its instructions: criss-cross in rises of 20 % up to 80 %, the "
    "final value clockwise once, again after 24 h or the first thermal cycle."
)
_AIR = Step(
    kind="wheels-in-the-air",
    share=Fraction(1, 2),
    words="Wheel off the ground: all in the pattern to half of the final value; the wheel sits straight.",
)
_GROUND = Step(
    kind="weight-on-wheels",
    share=_FULL,
    words="Weight on the wheel: all in the pattern to the final value.",
)
_AFTER_80_KM = Step(
    kind="recheck",
    share=_FULL,
    words="Due after about 80 km (50 miles): all again at the final value, never loosened first.",
)
_ALL = (
    Scheme(
        name="flange",
        title="gasketed flange, one tool",
        steps=(_HAND, _SNUG, _pass(30), _pass(70), _pass(100), _round(), _wait(4), _round()),
        source=_FLANGE_SOURCE,
    ),
    Scheme(
        name="flange-30-60-100",
        title="gasketed flange in three passes and once round",
        steps=(
            _HAND,
            _pass(30),
            _pass(60),
            _pass(100),
            Step(
                kind="share",
                share=_FULL,
                order="circular",
                words="Once round the circle at the final value.",
            ),
        ),
        source=_GASKET_SOURCE,
    ),
    Scheme(
        name="flange-lined",
        title="lined flange in five rises",
        steps=(
            _HAND,
            *(_pass(percent) for percent in (20, 40, 60, 80)),
            Step(
                kind="share",
                share=_FULL,
                order="circular",
                words="Once round the circle, clockwise, at the final value.",
            ),
            Step(
                kind="wait",
                hours=Fraction(24),
                words="Wait 24 h, or until the first thermal cycle is over.",
            ),
            Step(
                kind="recheck",
                share=_FULL,
                order="circular",
                words="All again at the final value, never loosened first.",
            ),
        ),
        source=_LINED_SOURCE,
    ),
    Scheme(
        name="army-70",
        title="any pattern above 30 ft-lb (41 N·m)",
        steps=(_HAND, _pass(70), _pass(100)),
        source=_ARMY_SOURCE,
    ),
    Scheme(
        name="wheel",
        title="disc wheel",
        steps=(_HAND, _AIR, _GROUND, _AFTER_80_KM),
        source=_WHEEL_SOURCE,
    ),
    Scheme(
        name="wheel-dual",
        title="one wheel of a dual pair; the inner wheel is walked while the outer nuts are loose",
        steps=(_HAND, _AIR, _GROUND, _AFTER_80_KM),
        source=_DUAL_SOURCE + " A first round at half the value: common practice, no source.",
    ),
)
SCHEMES: Mapping[str, Scheme] = MappingProxyType({scheme.name: scheme for scheme in _ALL})
