"""An estimate in words: what it is, what it is for, and what it is not."""

from __future__ import annotations

from fractions import Fraction

from torqref.fastener.estimate import Band, Estimate, k_figure
from torqref.quantity.conversion import convert
from torqref.quantity.showing import second_unit


def statement(found: Estimate) -> tuple[str, ...]:
    """The lines that a person reads before using an estimate, the loudest first."""
    return (
        f"ESTIMATE, not a specification: {found.thread.designation} {found.grade.name}",
        "The manufacturer's service information comes first. Use its value if there is one.",
        *found.thread.notes,
        "",
        f"  torque       {_torque(found)}",
        f"  clamp load   {_clamp(found.clamp_load_kN)}",
        f"  proof load   {_figure(found.proof_load_kN)} kN on {_figure(found.stress_area_mm2)} mm²",
        f"  condition    {found.condition}, K = {k_figure(found.k)}",
        *_friction_lines(found),
        *_parent_lines(found),
        "",
        *_other_lines(found),
        "",
        f"Basis: {found.basis}.",
        "For a hexagon head or nut of full strength, without locking drag, tightened once, below yield.",
        *_cautions(found),
        "ESTIMATE: have it approved, or find the value.",
    )


def _torque(found: Estimate) -> str:
    """In N·m and in the other unit; an inch thread has its own unit first."""
    target = found.torque_Nm.target
    unit = second_unit("N·m", Fraction(target))
    newton_metres = f"{_figure(target)} N·m"
    other = f"{_figure(float(convert(Fraction(target), 'N·m', unit)))} {unit}"
    inch = found.thread.system == "unified"
    return f"{other} ({newton_metres})" if inch else f"{newton_metres} ({other})"


def _clamp(clamp: Band) -> str:
    band = "" if clamp.low == clamp.high else f"; {_range(clamp)} kN as friction varies from bolt to bolt"
    return f"{_figure(clamp.target)} kN at that torque{band}"


def _friction_lines(found: Estimate) -> tuple[str, ...]:
    if found.torque_Nm.low == found.torque_Nm.high:
        return (
            "  friction     one value as given; a torque wrench still scatters the clamp load by about 25 %",
        )
    needed = (
        f"a smooth bolt needs {_figure(found.torque_Nm.low)}, a rough one {_figure(found.torque_Nm.high)} N·m"
    )
    return (f"  friction     for that clamp load {needed}; which one it is cannot be seen",)


def _parent_lines(found: Estimate) -> tuple[str, ...]:
    if found.stripping_load_kN is None:
        return ("  parent       taken as a nut or hole at least as strong as the bolt",)
    held = "; the parent sets the torque, not the bolt" if found.limited else ""
    return (f"  parent       strips near {_figure(found.stripping_load_kN)} kN{held}",)


def _other_lines(found: Estimate) -> tuple[str, ...]:
    """What the same torque would do in another condition: facts about clamp load, no other torque."""
    target = found.clamp_load_kN.target
    lines = (
        f"  {condition.name:<12} {_figure(load)} kN, {_share(load / found.proof_load_kN)}"
        for condition, load in found.other_conditions
        if abs(load / target - 1) > 0.01
    )
    return (f"The same {_figure(found.torque_Nm.target)} N·m on other threads clamps with:", *lines)


def _cautions(found: Estimate) -> tuple[str, ...]:
    stainless = "Stainless threads gall: lubricate as the source says, turn slowly."
    critical = "Never for brakes, steering, wheels, lifting or pressure parts."
    return (critical, stainless) if found.grade.family == "stainless" else (critical,)


def _share(share: float) -> str:
    return f"{share * 100:.0f} % of proof load{': TOO MUCH' if share > 1.005 else ''}"


def _range(band: Band) -> str:
    return f"{_figure(band.low)}–{_figure(band.high)}"


def _figure(value: float) -> str:
    """Three figures: an estimate is not known better."""
    return f"{value:.0f}" if value >= 100 else f"{value:.3g}"
